import { along, distance, type Vec3 } from '../base/vec';
import { sameValue } from '../boat/schema-walk';
import type { Blocked, RoutingLine, RunOutcome } from '../runs/routing/types';
import { isSuction } from './circuit-stages';
import { routingLine, type Wish } from './routing-line';
import { layout } from './shape-stages';
import { clipPoints, compartmentData, forbidden, line, lineKind, pose, thing } from './source';
import { type ComputedStage, sameItems } from './store';

/** What the router is asked for a line, or why it cannot be asked. */
export const wish: ComputedStage<Wish> = {
  id: 'wish',
  compute: (lineId, read) => {
    const what = read(line, lineId);
    const kind = what && read(lineKind, what.kind);
    const from = what && read(thing, what.from.thing);
    const to = what && read(thing, what.to.thing);
    if (!what || !kind || !from || !to)
      throw new Error(`wish: expected a line whose ends and kind exist, got ${lineId}`);
    const points = Object.entries(read(clipPoints, lineId)).sort(
      ([a, p], [b, q]) => p.order - q.order || (a < b ? -1 : 1),
    );
    return routingLine({
      id: lineId,
      line: what,
      kind,
      from: { thing: from, pose: read(pose, what.from.thing) },
      to: { thing: to, pose: read(pose, what.to.thing) },
      suction: read(isSuction, lineId),
      clipPoints: points.map(([, point]) => point.at),
      forbiddenCompartments: [...read(forbidden, lineId)].sort(),
    });
  },
  same: sameValue,
};

/** Rooms that people live in: a hose through one of them is the last resort. */
const LIVING: ReadonlySet<string> = new Set(['cabin', 'cockpitWell', 'heads']);
/** Just outside a port, on the way of its hose. */
const BEFORE_PORT_M = 0.02;

/**
 * Living spaces that a line should not hang in: those that hold neither an end of it nor a clip point.
 */
export const avoided: ComputedStage<readonly string[]> = {
  id: 'avoided',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return [];
    const cells = read(layout);
    const entered = new Set(pointsOf(asked.line).map((point) => cells.compartmentAt(point)));
    return Object.entries(read(compartmentData))
      .filter(([id, { kind }]) => LIVING.has(kind) && !entered.has(id))
      .map(([id]) => id)
      .sort();
  },
  same: sameItems,
};

const pointsOf = ({ from, to, clipPoints: points }: RoutingLine): readonly Vec3[] => [
  ...[from, to].flatMap(({ at, direction }) => [at, along(at, direction, BEFORE_PORT_M)]),
  ...points,
];

/** The answer for a line that is not routed because one of its ends is not there. */
export function blockedByWish(asked: Exclude<Wish, { outcome: 'line' }>): Blocked {
  return { status: 'blocked', proved: true, reason: asked.reason, lowerBoundM: 0 };
}

/** The run of a line. */
export const run: ComputedStage<RunOutcome> = {
  id: 'run',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return blockedByWish(asked);
    const { from, to } = asked.line;
    return {
      status: 'blocked',
      proved: false,
      reason: { kind: 'notFound', at: null, blocker: null, shortByM: null, tries: 0 },
      lowerBoundM: distance(from.at, to.at),
    };
  },
  same: sameRun,
};

/** The seed follows from the rest. */
export function sameRun(a: RunOutcome, b: RunOutcome): boolean {
  if (a === b) return true;
  if (a.status !== 'routed' || b.status !== 'routed') return sameValue(a, b);
  const { seed: _, ...restA } = a;
  const { seed: __, ...restB } = b;
  return sameValue(restA, restB);
}
