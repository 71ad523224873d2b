import type { Axis, Vec3 } from '@core/base/vec';
import type { HullSurface } from '@core/shape/hull/types';
import type { Layout, Wall } from '@core/shape/layout/types';

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

/** Finest way that is told apart, metres. */
const RESOLUTION = 1e-4;
/** How deep through the skin a point is followed back, metres. */
const DEEPEST = 0.6;

/**
 * Way that a box can move along an axis before it touches the inner face of the hull, `furthest` when it does not before;
 * negative when it is through it. The corners are what touches first, since the free space of a hull section is convex but
 * for tight deadwoods; the middles of the leading face and of its edges are taken too.
 */
export function wayToHull(hull: HullSurface, box: Box, axis: Axis, sign: 1 | -1, furthest: number): number {
  const direction: Vec3 = [axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0];
  let least = furthest;
  for (const p of leadingPoints(box, axis, sign)) least = Math.min(least, wayOfPoint(hull, p, direction, least));
  return least;
}

/** Corners, edge middles and middle of the face that goes ahead. */
function leadingPoints(box: Box, axis: Axis, sign: 1 | -1): Vec3[] {
  const ahead = sign > 0 ? box.high[axis] : box.low[axis];
  const [j, k] = ([0, 1, 2] as const).filter((other) => other !== axis) as [Axis, Axis];
  const stops = (other: Axis) => [box.low[other], (box.low[other] + box.high[other]) / 2, box.high[other]];
  return stops(j).flatMap((a) =>
    stops(k).map((b): Vec3 => {
      const p: [number, number, number] = [0, 0, 0];
      p[axis] = ahead;
      p[j] = a;
      p[k] = b;
      return p;
    }),
  );
}

/** One question for the whole way says that nothing is met; only a way that meets the skin is halved down to it. */
function wayOfPoint(hull: HullSurface, from: Vec3, direction: Vec3, furthest: number): number {
  const at = (t: number): Vec3 => [from[0] + direction[0] * t, from[1] + direction[1] * t, from[2] + direction[2] * t];
  const here = hull.clearance(from, from, RESOLUTION);
  if (here < 0) return wayBack(hull, at, furthest);
  if (furthest <= 0 || hull.clearance(from, at(furthest), RESOLUTION) > 0) return furthest;
  let free = 0;
  let met = furthest;
  while (met - free > RESOLUTION) {
    const middle = (free + met) / 2;
    if (hull.clearance(from, at(middle), RESOLUTION) > 0) free = middle;
    else met = middle;
  }
  return free;
}

/** A point outside goes back until it is free: each step is what it lacks, which never oversteps. */
function wayBack(hull: HullSurface, at: (t: number) => Vec3, furthest: number): number {
  let t = 0;
  for (let step = 0; step < 40 && t > -DEEPEST; step++) {
    const free = hull.clearance(at(t), at(t), RESOLUTION);
    if (free >= -RESOLUTION) return Math.min(t, furthest);
    t += free;
  }
  return Math.min(-DEEPEST, furthest);
}
