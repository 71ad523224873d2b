import { cross, dot, type Rotation, scale, subtract, type Vec3 } from '../../../base/vec';
import type { Opening } from '../../../boat/schema/boat';
import type { AnySolid } from '../kernel';
import { openingFrame } from '../ways-in';

/** Axes at an opening: across it, up along its height, out of its compartment; the first may point either way. Its middle is the origin. */
export interface WayFrame {
  readonly origin: Vec3;
  readonly axes: Rotation;
}

/** Coordinates in a frame are rounded to this, so that a boat that is shifted or mirrored is the same boat in them (metres). */
const ROUNDED_M = 1e-8;
const EVEN_M = 1e-6;

const rounded = (v: number): number => Math.round(v / ROUNDED_M) * ROUNDED_M + 0;

/**
 * The frame of an opening, its first axis towards the side on which most lies of what counts: the goal first, then what stands about. So a
 * boat and its mirror image have the same coordinates.
 */
export function wayFrame(opening: Opening, goal: Vec3, marks: Iterable<Vec3>): WayFrame {
  const { out, up, across } = openingFrame(opening);
  const asideOf = (p: Vec3): number => dot(subtract(p, opening.at), across);
  let aside = asideOf(goal);
  if (Math.abs(aside) < EVEN_M) {
    aside = 0;
    for (const mark of marks) aside += asideOf(mark);
  }
  return { origin: opening.at, axes: [aside < -EVEN_M ? scale(across, -1) : across, up, out] };
}

export function toFrame({ origin, axes }: WayFrame, p: Vec3): Vec3 {
  const d = subtract(p, origin);
  return [rounded(dot(d, axes[0])), rounded(dot(d, axes[1])), rounded(dot(d, axes[2]))];
}

const turnToFrame = ({ axes }: WayFrame, d: Vec3): Vec3 => [
  rounded(dot(d, axes[0])),
  rounded(dot(d, axes[1])),
  rounded(dot(d, axes[2])),
];

export const fromFrame = ({ origin, axes }: WayFrame, [u, v, w]: Vec3): Vec3 => [
  origin[0] + axes[0][0] * u + axes[1][0] * v + axes[2][0] * w,
  origin[1] + axes[0][1] * u + axes[1][1] * v + axes[2][1] * w,
  origin[2] + axes[0][2] * u + axes[1][2] * v + axes[2][2] * w,
];

export const turnFromFrame = ({ axes }: WayFrame, [u, v, w]: Vec3): Vec3 => [
  axes[0][0] * u + axes[1][0] * v + axes[2][0] * w,
  axes[0][1] * u + axes[1][1] * v + axes[2][1] * w,
  axes[0][2] * u + axes[1][2] * v + axes[2][2] * w,
];

/** A solid in the coordinates of a frame; the axes of a box may come out left-handed, which changes nothing of it. */
export function solidInFrame(frame: WayFrame, solid: AnySolid): AnySolid {
  const point = (p: Vec3): Vec3 => toFrame(frame, p);
  const way = (d: Vec3): Vec3 => turnToFrame(frame, d);
  switch (solid.type) {
    case 'box':
      return {
        ...solid,
        centre: point(solid.centre),
        axes: [way(solid.axes[0]), way(solid.axes[1]), way(solid.axes[2])],
      };
    case 'plate':
      return { ...solid, polygon: solid.polygon.map(point), normal: way(solid.normal) };
    default:
      return { ...solid, from: point(solid.from), to: point(solid.to) };
  }
}

/**
 * Own axes of a thing in the frame: each turned so that its greatest coordinate is positive and the three right-handed, since a box or a
 * cylinder that is turned half round is the same; and the signs that lead back.
 */
export function axesInFrame(frame: WayFrame, own: Rotation): { readonly axes: Rotation; readonly signs: Vec3 } {
  const signs = [1, 1, 1];
  const axes = own.map((axis, k) => {
    const local = turnToFrame(frame, axis);
    const greatest = local.reduce((best, v) => (Math.abs(v) > Math.abs(best) + 1e-6 ? v : best), 0);
    if (greatest < 0) signs[k] = -1;
    return scale(local, signs[k] as number);
  }) as unknown as [Vec3, Vec3, Vec3];
  if (dot(cross(axes[0], axes[1]), axes[2]) < 0) {
    axes[2] = scale(axes[2], -1);
    signs[2] = -(signs[2] as number);
  }
  return { axes, signs: signs as unknown as Vec3 };
}
