import type { Vec2 } from '@core/base/vec';
import { facesOf } from '@core/boat/interior/faces';
import type { Compartment } from '@core/boat/schema/boat';
import { depthAxis, FRAMES, lift, project, type ViewName } from '@core/output/views/drawing';
import type { HullSurface } from '@core/shape/hull/types';
import { type Range, useDrawing } from '../../store/drawing';
import type { Scene } from '../scene';
import { boundsAlong } from './field';

export interface ProposedRange {
  readonly rangeM: Range;
  /** Where it comes from, in words. */
  readonly from: string;
}

/** A new compartment is so deep where nothing says how deep, metres. */
const USUAL_M = 0.6;
/** Neighbours count that stand no further off on paper, metres: a bulkhead between. */
const BESIDE_M = 0.07;

/**
 * The range across a view that a compartment drawn about these points should have: what was entered, else that of the
 * neighbour that it stands against, else above the one that it lies in, else the last one drawn, else what the hull leaves.
 */
export function rangeFor(
  scene: Pick<Scene, 'boat' | 'hull' | 'sectionX'>,
  view: ViewName,
  points: readonly Vec2[],
): ProposedRange {
  const { typed, last } = useDrawing.getState();
  const own = typed[view];
  if (own) return { rangeM: own, from: 'entered' };
  const neighbour = neighbourOf(scene.boat.compartments, view, points);
  if (neighbour) return neighbour;
  const before = last[view];
  if (before) return { rangeM: before, from: 'as the last one' };
  return inHull(scene, view, points);
}

function neighbourOf(
  compartments: Readonly<Record<string, Compartment>>,
  view: ViewName,
  points: readonly Vec2[],
): ProposedRange | null {
  const frame = FRAMES[view];
  const axis = depthAxis(frame);
  const drawn = boxOf(points);
  let best: { apart: number; size: number; found: ProposedRange } | null = null;
  for (const compartment of Object.values(compartments)) {
    const theirs = boxOf(facesOf(compartment).flatMap((face) => face.polygon.map((p) => project(frame, p))));
    const gap = Math.max(
      theirs.low[0] - drawn.high[0],
      drawn.low[0] - theirs.high[0],
      theirs.low[1] - drawn.high[1],
      drawn.low[1] - theirs.high[1],
    );
    if (gap > BESIDE_M) continue;
    const size = (theirs.high[0] - theirs.low[0]) * (theirs.high[1] - theirs.low[1]);
    const [low, high] = boundsAlong(compartment, axis);
    const isOver = gap < -0.01;
    const apart = isOver ? 1 : 0;
    if (best && (best.apart < apart || (best.apart === apart && best.size <= size))) continue;
    const rangeM: Range = isOver && view === 'plan' ? [high, high + USUAL_M] : [low, high];
    const from = isOver && view === 'plan' ? `on top of ${compartment.name}` : `as ${compartment.name}`;
    best = { apart, size, found: { rangeM, from } };
  }
  return best?.found ?? null;
}

function boxOf(points: readonly Vec2[]): { readonly low: Vec2; readonly high: Vec2 } {
  const us = points.map((p) => p[0]);
  const vs = points.map((p) => p[1]);
  return { low: [Math.min(...us), Math.min(...vs)], high: [Math.max(...us), Math.max(...vs)] };
}

function inHull(
  { hull, sectionX }: Pick<Scene, 'hull' | 'sectionX'>,
  view: ViewName,
  points: readonly Vec2[],
): ProposedRange {
  const { low, high } = boxOf(points);
  const middle: Vec2 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const [x, y, z] = lift(FRAMES[view], middle, 0);
  const mm = (value: number): number => Math.round(value * 1000) / 1000;
  switch (view) {
    case 'section':
      return { rangeM: [mm(sectionX), mm(sectionX + USUAL_M)], from: 'forward of the section' };
    case 'plan': {
      const floor = hull ? floorAt(hull, x, y) : null;
      if (floor === null) return { rangeM: [-USUAL_M / 2, USUAL_M / 2], from: 'usual height' };
      return { rangeM: [mm(floor), mm(floor + USUAL_M)], from: 'from the bottom of the hull' };
    }
    case 'profile': {
      const half = hull ? halfBreadthAt(hull, x, z) : null;
      if (half === null) return { rangeM: [-USUAL_M / 2, USUAL_M / 2], from: 'usual breadth' };
      return { rangeM: [mm(-half), mm(half)], from: 'from side to side of the hull' };
    }
  }
}

/** Height of the inner face of the hull at a place in plan; null where the hull is not. */
function floorAt(hull: HullSurface, x: number, y: number): number | null {
  if (x <= hull.aftM || x >= hull.forwardM) return null;
  const section = hull.sectionAt(x);
  const heights = section.flatMap((p, i): number[] => {
    const q = section[i + 1];
    if (!q || (p[0] - y) * (q[0] - y) > 0 || p[0] === q[0]) return [];
    return [p[1] + ((q[1] - p[1]) * (y - p[0])) / (q[0] - p[0])];
  });
  return heights.length === 0 ? null : Math.min(...heights) + hull.insetM;
}

function halfBreadthAt(hull: HullSurface, x: number, z: number): number | null {
  if (x <= hull.aftM || x >= hull.forwardM) return null;
  const section = hull.sectionAt(x);
  const breadths = section.flatMap((p, i): number[] => {
    const q = section[i + 1];
    if (!q || (p[1] - z) * (q[1] - z) > 0 || p[1] === q[1]) return [];
    return [p[0] + ((q[0] - p[0]) * (z - p[1])) / (q[1] - p[1])];
  });
  const half = Math.max(0, ...breadths) - hull.insetM;
  return half > 0.05 ? half : null;
}
