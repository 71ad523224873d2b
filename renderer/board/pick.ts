import { ringContains } from '@core/base/ring';
import { distanceToSegment } from '@core/base/segment';
import type { Vec2 } from '@core/base/vec';
import type { Ring } from '@core/output/views/polygons';
import { lineInHand } from '../store/select';
import type { Selection } from '../store/types';

/** What lies under a pointer. All in screen pixels. */
export interface PickThing {
  readonly id: string;
  readonly envelope: Ring;
}
export interface PickRun {
  readonly id: string;
  readonly pieces: readonly (readonly Vec2[])[];
}
export interface PickMark {
  readonly key: string;
  readonly at: Vec2;
}
export interface PickArea {
  readonly id: string;
  readonly rings: readonly Ring[];
}
export interface PickPoint {
  readonly id: string;
  readonly line: string;
  readonly at: Vec2;
}
export interface Pickable {
  readonly marks: readonly PickMark[];
  readonly points: readonly PickPoint[];
  /** Crossings of the line that one works on. */
  readonly crossings: readonly PickPoint[];
  readonly things: readonly PickThing[];
  readonly runs: readonly PickRun[];
  readonly compartments: readonly PickArea[];
}

/** Sides of the hit areas, whatever the drawn size. */
export const POINT_PX = 28;
export const RUN_PX = 14;
/** A run this near wins over the body of a large thing that it passes over. */
const NEAR_RUN_PX = 5;
const NEAR_POINT_PX = 7;

/** Hit in order of meaning: a handle of what one works on, mark, what is selected already, a run exactly under the pointer, thing, run near by. */
export function pick(at: Vec2, here: Pickable, selection: Selection | null): Selection | null {
  const handle = handleUnder(at, here, selection);
  if (handle) return handle;
  for (const mark of here.marks)
    if (
      Math.abs(mark.at[0] - at[0]) <= POINT_PX / 2 &&
      Math.abs(mark.at[1] - at[1]) <= POINT_PX / 2 &&
      Math.hypot(mark.at[0] - at[0], mark.at[1] - at[1]) <= POINT_PX / 2
    )
      return { kind: 'finding', id: mark.key };

  const point = nearestPoint(at, here.points, selection);
  if (point) return { kind: 'clipPoint', id: point.id, line: point.line };
  const crossing = nearestPoint(at, here.crossings, selection);
  if (crossing) return { kind: 'crossing', id: crossing.id, line: crossing.line };

  // The run that one works on can be pulled anywhere, also where it passes over a small thing.
  const inHand = lineInHand(selection);
  const own = nearestRun(
    at,
    here.runs.filter(({ id }) => id === inHand),
  );
  if (own && own.distance <= NEAR_RUN_PX) return { kind: 'line', id: own.id };

  const hits = here.things.flatMap((thing) => {
    const reach = hitReach(thing.envelope, at);
    return reach === null ? [] : [{ id: thing.id, ...reach }];
  });
  if (selection?.kind === 'thing' && hits.some((hit) => hit.id === selection.id)) return selection;

  const run = nearestRun(at, here.runs);
  const inside = hits.filter((hit) => hit.outsidePx === 0).sort((a, b) => a.area - b.area);
  const smallest = inside[0];
  if (run && run.distance <= NEAR_RUN_PX && (!smallest || smallest.area > POINT_PX * POINT_PX * 4))
    return { kind: 'line', id: run.id };
  if (smallest) return { kind: 'thing', id: smallest.id };
  const near = hits.sort((a, b) => a.outsidePx - b.outsidePx || a.area - b.area)[0];
  if (near && (!run || near.outsidePx <= run.distance)) return { kind: 'thing', id: near.id };
  return run ? { kind: 'line', id: run.id } : null;
}

/** A point or a crossing of the line in hand, exactly under the pointer: a mark that lies over it does not take it away. */
function handleUnder(at: Vec2, { points, crossings }: Pickable, selection: Selection | null): Selection | null {
  const line = lineInHand(selection);
  const isUnder = (point: PickPoint): boolean =>
    point.line === line && Math.hypot(point.at[0] - at[0], point.at[1] - at[1]) <= NEAR_POINT_PX;
  const point = points.find(isUnder);
  if (point) return { kind: 'clipPoint', id: point.id, line: point.line };
  const crossing = crossings.find(isUnder);
  return crossing ? { kind: 'crossing', id: crossing.id, line: crossing.line } : null;
}

/** Points of the line that one works on take the whole hit area, those of others only what is drawn of them. */
function nearestPoint(at: Vec2, points: readonly PickPoint[], selection: Selection | null): PickPoint | null {
  const line = lineInHand(selection);
  let best: { point: PickPoint; distance: number } | null = null;
  for (const point of points) {
    const distance = Math.hypot(point.at[0] - at[0], point.at[1] - at[1]);
    const reach = point.line === line ? POINT_PX / 2 : NEAR_POINT_PX;
    if (distance <= reach && (!best || distance < best.distance)) best = { point, distance };
  }
  return best?.point ?? null;
}

/** The compartment under the pointer, the smallest of several. */
export function pickCompartment(at: Vec2, compartments: readonly PickArea[]): Selection | null {
  let best: { id: string; area: number } | null = null;
  for (const { id, rings } of compartments)
    for (const ring of rings) {
      if (!ringContains(ring, at)) continue;
      const area = boxArea(ring);
      if (!best || area < best.area) best = { id, area };
    }
  return best ? { kind: 'compartment', id: best.id } : null;
}

/** Pixels from the envelope, 0 inside; null beyond a hit area that is at least 28 px wide. */
function hitReach(envelope: Ring, at: Vec2): { outsidePx: number; area: number } | null {
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = x0;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = x1;
  for (const [x, y] of envelope) {
    x0 = Math.min(x0, x);
    x1 = Math.max(x1, x);
    y0 = Math.min(y0, y);
    y1 = Math.max(y1, y);
  }
  const area = (x1 - x0) * (y1 - y0);
  if (ringContains(envelope, at)) return { outsidePx: 0, area };
  const padX = Math.max(0, (POINT_PX - (x1 - x0)) / 2);
  const padY = Math.max(0, (POINT_PX - (y1 - y0)) / 2);
  const dx = Math.max(x0 - at[0], at[0] - x1, 0);
  const dy = Math.max(y0 - at[1], at[1] - y1, 0);
  return dx <= padX && dy <= padY ? { outsidePx: Math.hypot(dx, dy), area } : null;
}

const boxArea = (ring: Ring): number => {
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  return (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys));
};

function nearestRun(at: Vec2, runs: readonly PickRun[]): { id: string; distance: number } | null {
  let best: { id: string; distance: number } | null = null;
  for (const { id, pieces } of runs)
    for (const piece of pieces)
      for (let i = 0; i + 1 < piece.length; i++) {
        const distance = distanceToSegment(at, piece[i] as Vec2, piece[i + 1] as Vec2);
        if (distance <= RUN_PX && (!best || distance < best.distance)) best = { id, distance };
      }
  return best;
}
