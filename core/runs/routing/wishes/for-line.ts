import type { Line, LineKind, Thing } from '../../../boat/schema/boat';
import {
  BESIDE_OTHER,
  type Carries,
  HANGING,
  IN_SERVICE_SPACE,
  IN_STOWAGE,
  LACKING_FALL,
  LACKING_RISE,
  NEAR_COMPASS,
  NEAR_HEAT,
  OVER_ELECTRICS,
  type RunWishes,
  UNDER_FEET,
} from './wishes';

const WET: ReadonlySet<string> = new Set(['seaWater', 'brine', 'freshWater', 'product', 'gauge', 'waste']);
/** Things that empty by themselves: no pump stands behind their waste. */
const DRAINED: ReadonlySet<string> = new Set(['sink', 'fridge', 'gasLocker']);
/** Of a hose, tube or cable that nobody says more of. Common practice, no source. */
const USUAL_C = 60;

const carriesOf = (medium: Line['medium']): Carries =>
  WET.has(medium) ? 'water' : medium === 'dcPower' ? 'power' : medium === 'signal' ? 'signal' : 'other';

/** Whether a line must fall all the way: what it says, else what it carries and where from. */
export const drains = (line: Pick<Line, 'drains' | 'medium'>, from: Pick<Thing, 'kind'>): boolean =>
  line.drains ?? (line.medium === 'waste' && DRAINED.has(from.kind));

/** What a line should keep where it can. */
export function wishesFor({ line, kind, from }: { line: Line; kind: LineKind; from: Thing }): RunWishes {
  const carries = carriesOf(line.medium);
  return {
    carries,
    zones: {
      ...(carries === 'water' ? { electrics: OVER_ELECTRICS } : {}),
      ...(carries === 'power' ? { compass: NEAR_COMPASS } : {}),
      heat: NEAR_HEAT,
      feet: UNDER_FEET,
      stowage: IN_STOWAGE,
    },
    standsC: kind.temperatureC ?? USUAL_C,
    ownThings: [...new Set([line.from.thing, line.to.thing])].sort(),
    surface: HANGING,
    apart: carries === 'power' || carries === 'signal' ? BESIDE_OTHER : 0,
    service: IN_SERVICE_SPACE,
    fall: drains(line, from) ? LACKING_FALL : 0,
    rise: line.riseToM === undefined ? null : { toM: line.riseToM, price: LACKING_RISE },
  };
}
