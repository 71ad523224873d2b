import { dot, type Vec3 } from '@core/base/vec';
import { boxCorners } from '@core/output/views/envelope';
import type { HullSurface } from '@core/shape/hull/types';
import type { Layout, Wall } from '@core/shape/layout/types';

export type Axis = 0 | 1 | 2;

/** Axis-parallel bounds in the boat, metres. */
export interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** A flat face square to a boat axis, free on the side that it faces. */
export interface Face {
  readonly axis: Axis;
  readonly at: number;
  /** +1 when the free side lies towards +axis. */
  readonly facing: 1 | -1;
  /** What it covers; on its own axis low equals high. */
  readonly extent: Box;
  /** Thing, panel or wall that it belongs to. */
  readonly subject: string;
}

/** Both faces of every wall that stands square to an axis. */
export function wallFaces(layout: Pick<Layout, 'walls'>): Face[] {
  return layout.walls.flatMap((wall) => facesOfWall(wall));
}

function facesOfWall(wall: Wall): Face[] {
  const axis = ([0, 1, 2] as const).find((k) => Math.abs(wall.normal[k]) > 1 - 1e-6);
  if (axis === undefined) return [];
  const middle = (wall.polygon[0] as Vec3)[axis];
  const { low, high } = boundsOfPoints(wall.polygon);
  return ([1, -1] as const).map((facing) => {
    const at = middle + (facing * wall.thicknessM) / 2;
    return {
      axis,
      at,
      facing,
      extent: { low: withAxis(low, axis, at), high: withAxis(high, axis, at) },
      subject: wall.panelId ?? wall.id,
    };
  });
}

/** The six faces of a box. */
export function boxFaces(box: Box, subject: string): Face[] {
  return ([0, 1, 2] as const).flatMap((axis) =>
    ([1, -1] as const).map((facing) => {
      const at = facing > 0 ? box.high[axis] : box.low[axis];
      return {
        axis,
        at,
        facing,
        extent: { low: withAxis(box.low, axis, at), high: withAxis(box.high, axis, at) },
        subject,
      };
    }),
  );
}

const withAxis = (p: Vec3, axis: Axis, value: number): Vec3 =>
  axis === 0 ? [value, p[1], p[2]] : axis === 1 ? [p[0], value, p[2]] : [p[0], p[1], value];

function boundsOfPoints(points: readonly Vec3[]): Box {
  const low: [number, number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: [number, number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const p of points)
    for (const k of [0, 1, 2] as const) {
      low[k] = Math.min(low[k], p[k]);
      high[k] = Math.max(high[k], p[k]);
    }
  return { low, high };
}

/** Whether a face stands before the box when it moves along the face's axis: their shadows overlap by more than a graze. */
const GRAZE = 1e-4;
export const stands = (face: Face, box: Box): boolean =>
  ([0, 1, 2] as const).every(
    (k) => k === face.axis || (face.extent.low[k] < box.high[k] - GRAZE && face.extent.high[k] > box.low[k] + GRAZE),
  );

/**
 * Way that a box can move along a direction before it touches the inner face of the hull; negative when it is through it.
 * The corners are what touches first, since the free space of a hull section is convex but for tight deadwoods; the middles
 * of the edges and of the leading face are taken too.
 */
export function wayToHull(hull: HullSurface, box: Box, axis: Axis, sign: 1 | -1, furthest = 3): number {
  const half: Vec3 = [(box.high[0] - box.low[0]) / 2, (box.high[1] - box.low[1]) / 2, (box.high[2] - box.low[2]) / 2];
  const centre: Vec3 = [box.low[0] + half[0], box.low[1] + half[1], box.low[2] + half[2]];
  const direction: Vec3 = [axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0];
  const leading = boxCorners(centre, half).filter((p) => dot(p, direction) > dot(centre, direction));
  const samples: Vec3[] = [...leading];
  for (let i = 0; i < leading.length; i++)
    for (let j = i + 1; j < leading.length; j++) samples.push(middle(leading[i] as Vec3, leading[j] as Vec3));
  let least = furthest;
  for (const p of samples) least = Math.min(least, wayOfPoint(hull, p, direction, least));
  return least;
}

const middle = (a: Vec3, b: Vec3): Vec3 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];

/** Steps of the free distance never jump over the face; a point outside steps back until it is free. */
function wayOfPoint(hull: HullSurface, from: Vec3, direction: Vec3, furthest: number): number {
  let t = 0;
  for (let step = 0; step < 60; step++) {
    const p: Vec3 = [from[0] + direction[0] * t, from[1] + direction[1] * t, from[2] + direction[2] * t];
    const free = hull.clearance(p, p, 0.5);
    if (Math.abs(free) < 2e-4) return t;
    t += free;
    if (t >= furthest) return furthest;
    if (t < -1) return t;
  }
  return t;
}
