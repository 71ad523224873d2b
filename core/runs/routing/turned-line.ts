/**
 * A line called by its ends the other way round is the same line. The deep search leads every line the same way, whatever it is called, and
 * the run is turned back afterwards: so the answer cannot depend on which end comes first.
 */
import { distance, type Vec3 } from '../../base/vec';
import type { Seed } from './seed';
import type { Crossing, Feed, Prim, Routed, RoutingLine, RunOutcome } from './types';

/** Coordinates this near are one. */
const SAME_M = 1e-6;

/**
 * Whether the line is to be led from its far end: lines are led forward, those athwart upward, those level and athwart outboard. What flows
 * down a drain has a direction of its own.
 */
export function isToBeTurned({ from, to, wishes }: RoutingLine): boolean {
  if (wishes && wishes.fall > 0) return false;
  const [dx, dy, dz] = [to.at[0] - from.at[0], Math.abs(to.at[1]) - Math.abs(from.at[1]), to.at[2] - from.at[2]];
  const ahead = [dx, dz, dy].find((one) => Math.abs(one) > SAME_M);
  return ahead !== undefined && ahead < 0;
}

export function turnedLine(line: RoutingLine): RoutingLine {
  return {
    ...line,
    from: line.to,
    to: line.from,
    clipPoints: [...line.clipPoints].reverse(),
    ...(line.clipAsideM ? { clipAsideM: [...line.clipAsideM].reverse() } : {}),
    ...(line.feed ? { feed: turnedFeed(line.feed) } : {}),
    ...(line.otherFeed ? { otherFeed: turnedFeed(line.otherFeed) } : {}),
  };
}

const OTHER_END = { from: 'to', to: 'from' } as const;
const turnedFeed = (feed: Feed): Feed => ({ ...feed, fedFrom: OTHER_END[feed.fedFrom] });

/** The answer for the turned line as the answer for the line itself. */
export function turnedBack(outcome: RunOutcome, line: RoutingLine): RunOutcome {
  if (outcome.status === 'blocked')
    return outcome.reason.kind === 'reach' ? { ...outcome, reason: { ...outcome.reason, at: line.to.at } } : outcome;
  const { turns } = outcome;
  return {
    ...outcome,
    prims: outcome.prims.map(turnedPrim).reverse(),
    crossings: outcome.crossings.map(turnedCrossing).reverse(),
    seed: turnedSeed(outcome.seed as Seed, line),
    ...(turns ? { turns: [turns[1], turns[0]] } : {}),
  } satisfies Routed;
}

const opposite = ([x, y, z]: Vec3): Vec3 => [-x, -y, -z];

const turnedPrim = (prim: Prim): Prim =>
  prim.kind === 'line'
    ? { ...prim, from: prim.to, to: prim.from }
    : { ...prim, from: prim.to, to: prim.from, normal: opposite(prim.normal) };

const turnedCrossing = (crossing: Crossing): Crossing => ({
  ...crossing,
  ...(crossing.fedFrom ? { fedFrom: OTHER_END[crossing.fedFrom] } : {}),
  ...(crossing.along ? { along: opposite(crossing.along) } : {}),
});

function turnedSeed({ elements }: Seed, line: RoutingLine): Seed {
  const clips = [...line.clipPoints];
  return {
    elements: [...elements].reverse().map((one) => {
      if (one.kind === 'hole') {
        const [u = 0, v = 0, before = 0, behind = 0] = one.params;
        return { ...one, forward: !one.forward, params: [u, v, behind, before] };
      }
      const at = one.kind === 'clip' ? clips.shift() : undefined;
      if (one.kind !== 'clip' || !at) return one;
      // The corner before the clip point stands on the straight through it, and so does the one behind.
      const [x = 0, y = 0, z = 0, behind = 0] = one.params;
      const before = distance(at, [x, y, z]);
      const share = before > 0 ? behind / before : 0;
      const corner = [x, y, z].map((value, axis) => (at[axis] as number) * (1 + share) - share * value);
      return { ...one, params: [...corner, before] };
    }),
  };
}
