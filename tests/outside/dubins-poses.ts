import type { Vec3 } from '@core/base/vec';
import { boatSchema } from '@core/boat/schema/boat';
import { lengthBound, plainBound } from '@core/runs/routing/bound/bound';
import { routeLine } from '@core/runs/routing/route';
import type { RoutingLine, RoutingView } from '@core/runs/routing/types';
import { deriveLayout } from '@core/shape/layout/derive';
import { dice } from '../support/dice';
import { DUBINS_WORDS, type DubinsWord, dubins } from '../support/dubins-oracle';

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
  readonly plane: number;
  readonly routed: number | null;
  readonly bound: number;
  readonly plain: number;
}

/** Pairs of headings whose shortest plane word is each of the six in turn, 1 to 8 radii apart, in a plane of any tilt. */
export function poses(seed: number, perWord: number): PoseResult[] {
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
    const inSpace = (x: number, y: number): Vec3 => [x, y * Math.cos(tilt), y * Math.sin(tilt)];
    const heading = (h: number): Vec3 => inSpace(Math.cos(h), Math.sin(h));
    const [t0, t1] = [heading(a), heading(b)];
    const from = inSpace(-LEAD * Math.cos(a), -LEAD * Math.sin(a));
    const to = inSpace(apart * RADIUS + LEAD * Math.cos(b), LEAD * Math.sin(b));
    const lead = (at: Vec3, direction: Vec3, thing: string): RoutingLine['from'] => ({
      thing,
      port: 'p',
      at,
      direction,
      rigidM: LEAD,
      fittingRadiusM: HOSE,
      swivel: false,
      crimped: false,
    });
    const line: RoutingLine = {
      id: 'l',
      label: 'l',
      radiusM: HOSE,
      bendRadiusM: RADIUS,
      from: lead(from, t0, 'a'),
      to: lead(to, [-t1[0], -t1[1], -t1[2]], 'b'),
      holeRadiusM: HOSE,
      suction: false,
      clipPoints: [],
      forbiddenCompartments: [],
    };
    const outcome = routeLine(hall, line, 'fast');
    results.push({
      word,
      plane: length * RADIUS + 2 * LEAD,
      routed: outcome.status === 'routed' ? outcome.lengthM : null,
      bound: lengthBound(line, hall, 20).lengthM,
      plain: plainBound(line, hall).lengthM,
    });
  }
  return results;
}

/** Share of results that are at most that much longer than the plane word; a missing one is not. */
export const quantile = (results: readonly PoseResult[], share: number): number => {
  const over = results.map((one) => (one.routed === null ? Number.POSITIVE_INFINITY : one.routed / one.plane - 1));
  over.sort((x, y) => x - y);
  return over[Math.min(over.length - 1, Math.floor(share * over.length))] as number;
};
