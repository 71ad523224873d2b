import * as portable from '../../base/portable';
import { degrees, type Vec2, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import { clipHalfPlane } from '../../shape/layout/polygon';
import type { Solid } from '../../shape/space/solids';
import { solidBounds } from '../../shape/space/things';
import { rimOf } from './waterways';

/** How water that comes in through an opening from above meets a thing. */
export interface GreenWater {
  /** Off the plumb line under the edge of the opening, degrees; 0 under the opening itself. */
  readonly offDeg: number;
  /** Level distance from the edge, and drop from the middle of the opening to the lowest point of the thing, metres. */
  readonly asideM: number;
  readonly dropM: number;
  /** Edge of the opening and near side of the thing. */
  readonly from: Vec3;
  readonly to: Vec3;
}

/** Sides of the polygon that stands for a round hatch: within 1 % of its radius. */
const ROUND_SIDES = 24;

/** The steepest way from an opening to any part of a solid, by its upright bounds; null where no part lies below the opening. */
export function greenWater(opening: Opening, solid: Solid): GreenWater | null {
  const { low, high } = solidBounds(solid);
  const dropM = opening.at[2] - low[2];
  if (!(dropM > 0)) return null;
  const [edge, near] = nearestFlat(outlineOf(opening), low, high);
  const asideM = portable.hypot(edge[0] - near[0], edge[1] - near[1]);
  return {
    offDeg: degrees(portable.atan2(asideM, dropM)),
    asideM,
    dropM,
    from: [edge[0], edge[1], opening.at[2]],
    to: [near[0], near[1], Math.min(high[2], opening.at[2] - 1e-3)],
  };
}

/** The opening seen from above. */
function outlineOf(opening: Opening): readonly Vec2[] {
  const rim = rimOf(opening);
  if (rim.type === 'corners') return rim.points.map(([x, y]): Vec2 => [x, y]);
  const [a, b] = rim.half;
  return Array.from({ length: ROUND_SIDES }, (_, k): Vec2 => {
    const angle = (2 * Math.PI * k) / ROUND_SIDES;
    return [
      rim.at[0] + a[0] * portable.cos(angle) + b[0] * portable.sin(angle),
      rim.at[1] + a[1] * portable.cos(angle) + b[1] * portable.sin(angle),
    ];
  });
}

/** Nearest points of an outline and a rectangle; the same point where they overlap. */
function nearestFlat(outline: readonly Vec2[], low: Vec3, high: Vec3): readonly [Vec2, Vec2] {
  const shared = [
    [1, 0, high[0]],
    [-1, 0, -low[0]],
    [0, 1, high[1]],
    [0, -1, -low[1]],
  ].reduce((rest, [a = 0, b = 0, c = 0]) => clipHalfPlane(rest, a, b, c), [...outline]);
  if (shared.length > 2) {
    const middle: Vec2 = [
      shared.reduce((sum, [x]) => sum + x, 0) / shared.length,
      shared.reduce((sum, [, y]) => sum + y, 0) / shared.length,
    ];
    return [middle, middle];
  }
  const corners: readonly Vec2[] = [
    [low[0], low[1]],
    [high[0], low[1]],
    [high[0], high[1]],
    [low[0], high[1]],
  ];
  const inBox = ([x, y]: Vec2): Vec2 => [
    Math.min(high[0], Math.max(low[0], x)),
    Math.min(high[1], Math.max(low[1], y)),
  ];
  const pairs: (readonly [Vec2, Vec2])[] = [];
  outline.forEach((point, k) => {
    pairs.push([point, inBox(point)]);
    const next = outline[(k + 1) % outline.length] as Vec2;
    for (const corner of corners) pairs.push([onSegment(point, next, corner), corner]);
  });
  return pairs.reduce((least, one) => (gap(one) < gap(least) ? one : least));
}

const gap = ([p, q]: readonly [Vec2, Vec2]): number => portable.hypot(p[0] - q[0], p[1] - q[1]);

function onSegment(a: Vec2, b: Vec2, p: Vec2): Vec2 {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared)) : 0;
  return [a[0] + dx * t, a[1] + dy * t];
}
