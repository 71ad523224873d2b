import { metOnWay } from '../../assess/access/getting-in/met-on-way';
import type { Obstruction } from '../../assess/access/reach/types';
import type { Solid } from '../../shape/space/solids';
import { thingSolids } from '../../shape/space/things';
import { carryFacts, DEEP_LOOKS } from '../carry-stages';
import { pose, thing } from '../source';
import type { Read } from '../store';
import type { PlacedTask } from './task-stages';
import type { WayToTask } from './ways-to-task';

/** How a whole thing gets out of its compartment that does not come straight out: the way in, the other way round. */
export interface CarriedOut {
  /** met: it would come out, but for lines in its way. */
  readonly outcome: 'out' | 'met' | 'notFound' | 'cannot';
  /** Every side of it could be longer by this and come out the same way, metres; 0 where it does not come out. */
  readonly spareM: number;
  /** Lines in its way. */
  readonly lines: readonly string[];
  readonly swept: readonly Solid[];
}

const NOWHERE = { spareM: 0, lines: [], swept: [] } as const;
/** So many places of a thing are drawn on its way out. */
const DRAWN = 8;

/** Null where it is no question: nothing is opened on the way, or the openings do not lead there. */
export function carriedOut(
  { thing: id }: PlacedTask,
  { openings }: WayToTask,
  without: readonly string[],
  runs: readonly Obstruction[],
  read: Read,
): CarriedOut | null {
  const [what, placed] = [read(thing, id), read(pose, id)];
  if (!what || !placed || openings.length === 0) return null;
  const { carriedIn } = carryFacts(read);
  const ask = { past: 'parts', ...(without.length > 0 ? { without } : {}) } as const;
  const quick = carriedIn(id, openings, { ...ask, looks: 0 });
  const found = quick?.outcome === 'notFound' ? carriedIn(id, openings, { ...ask, looks: DEEP_LOOKS }) : quick;
  if (!found || (found.outcome === 'cannot' && found.proof === 'placeTaken')) return null;
  if (found.outcome !== 'goesIn') return { ...NOWHERE, outcome: found.outcome };
  const { moves, gate, beside } = found;
  const lines = metOnWay(what.shape, moves, runs);
  const every = Math.max(1, Math.ceil(moves.length / DRAWN));
  const swept = moves
    .filter((_, k) => k % every === 0)
    .flatMap((at) => thingSolids(id, what, at).filter(({ layer }) => layer === 'furnishing'));
  const spareM = Math.min(gate.spareM, beside?.spareM ?? gate.spareM);
  return { outcome: lines.length > 0 ? 'met' : 'out', spareM, lines, swept };
}
