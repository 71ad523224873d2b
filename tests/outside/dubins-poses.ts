import type { Vec3 } from '@core/base/vec';
import { boatSchema } from '@core/boat/schema/boat';
import { lengthBound, plainBound } from '@core/runs/routing/bound/bound';
import { routeLine } from '@core/runs/routing/route';
import type { Effort, Prim, RoutingLine, RoutingView } from '@core/runs/routing/types';
import { deriveLayout } from '@core/shape/layout/derive';
import { dice } from '../support/dice';
import { DUBINS_WORDS, type DubinsWord, dubins } from '../support/dubins-oracle';
import { gap } from '../support/geometry-oracle';
import { plainLead, plainLine } from '../support/plain-hose';
import { shapeFaults, tangentAt, traceOf } from '../support/trace-oracle';

/** One compartment, 60 m a side: nothing is in the way. */
const boat = boatSchema.parse({
  format: 'underberth-boat',
  schemaVersion: 1,
  name: 'hall',
  compartments: {
    hall: {
      name: 'hall',
      view: 'plan',
      outline: [
        [-30, -30],
        [30, -30],
        [30, 30],
        [-30, 30],
      ],
      rangeM: [-30, 30],
    },
  },
});
const layout = deriveLayout({ compartments: boat.compartments, panels: {}, newHoles: {}, newHoleCostM: 0.5 });
export const hall: RoutingView = { layout, hull: null, up: [0, 0, 1], thingsIn: () => [], runsIn: () => [] };

const RADIUS = 0.1;
const HOSE = 0.004;
/** Straight at both ends, as for every line of that size. */
const LEAD = 0.01;

export interface PoseResult {
  readonly word: DubinsWord;
  /** Headings at the two ends and how far apart they are, in radii; tilt of the plane. */
  readonly pose: string;
  readonly plane: number;
  readonly routed: number | null;
  /** Kinks, tight arcs, gaps, ends off their ports, lengths that are not those of the curve. */
  readonly faults: readonly string[];
  readonly bound: number;
  readonly plain: number;
}

/** Pairs of headings whose shortest plane word is each of the six in turn, 1 to 8 radii apart, in a plane of any tilt. */
export function poses(seed: number, perWord: number, effort: Effort = 'fast'): PoseResult[] {
  const d = dice(seed);
  const left = new Map(DUBINS_WORDS.map((word) => [word, perWord]));
  const results: PoseResult[] = [];
  while ([...left.values()].some((n) => n > 0)) {
    const [a, b, apart] = [d.from(0, 2 * Math.PI), d.from(0, 2 * Math.PI), d.from(1, 8)];
    const { word, length } = dubins(a, b, apart);
    const open = left.get(word) as number;
    if (open === 0) continue;
    left.set(word, open - 1);
    const tilt = d.from(0, Math.PI);
    const line = lineBetween(a, b, apart, tilt);
    const outcome = routeLine(hall, line, effort);
    results.push({
      word,
      pose: `a ${a} b ${b} apart ${apart} tilt ${tilt}`,
      plane: length * RADIUS + 2 * LEAD,
      routed: outcome.status === 'routed' ? outcome.lengthM : null,
      faults: outcome.status === 'routed' ? faultsOf(line, outcome.prims, outcome.lengthM) : [],
      bound: lengthBound(line, hall, 20).lengthM,
      plain: plainBound(line, hall).lengthM,
    });
  }
  return results;
}

/** From heading a at the origin to heading b at [apart radii, 0], in a plane turned about the first axis. */
function lineBetween(a: number, b: number, apart: number, tilt: number): RoutingLine {
  const inSpace = (x: number, y: number): Vec3 => [x, y * Math.cos(tilt), y * Math.sin(tilt)];
  const heading = (h: number): Vec3 => inSpace(Math.cos(h), Math.sin(h));
  const lead = (at: Vec3, direction: Vec3, thing: string) => plainLead(at, direction, HOSE, { thing, rigidM: LEAD });
  return plainLine(
    lead(inSpace(-LEAD * Math.cos(a), -LEAD * Math.sin(a)), heading(a), 'a'),
    lead(inSpace(apart * RADIUS + LEAD * Math.cos(b), LEAD * Math.sin(b)), heading(b + Math.PI), 'b'),
    { radiusM: HOSE, bendRadiusM: RADIUS },
  );
}

/** What makes a run something else than a smooth curve of that radius from one pose to the other, by the judge of runs. */
function faultsOf({ from, to }: RoutingLine, prims: readonly Prim[], lengthM: number): string[] {
  const faults = shapeFaults(prims, RADIUS).map(({ kind, amount, detail }) => `${kind} ${amount} ${detail}`);
  const trace = traceOf(prims);
  if (Math.abs(trace.lengthM - lengthM) > 1e-6) faults.push(`length ${lengthM} of a curve of ${trace.lengthM}`);
  const first = prims[0] as Prim;
  const last = prims.at(-1) as Prim;
  const reached = gap(first.from, from.at) + gap(last.to, to.at);
  if (!(reached < 1e-6)) faults.push(`ends ${reached} off`);
  const turned = gap(tangentAt(first, 0), from.direction) + gap(trace.tangent(trace.lengthM), minus(to.direction));
  if (!(turned < 1e-5)) faults.push(`ends turned by ${turned}`);
  for (const prim of [first, last])
    if (prim.kind !== 'line' || gap(prim.from, prim.to) < LEAD - 1e-6) faults.push('no straight lead');
  return faults;
}
const minus = ([x, y, z]: Vec3): Vec3 => [-x, -y, -z];

/** Share of results that are at most that much longer than the plane word; a missing one is not. */
export const quantile = (results: readonly PoseResult[], share: number): number => {
  const over = results.map((one) => (one.routed === null ? Number.POSITIVE_INFINITY : one.routed / one.plane - 1));
  over.sort((x, y) => x - y);
  return over[Math.min(over.length - 1, Math.floor(share * over.length))] as number;
};
