import type { Axis, Vec3 } from '@core/base/vec';
import type { HullSurface } from '@core/shape/hull/types';
import { type Box, type Face, stands, wayToHull } from './faces';

/** Pull of a face on screen, pixels. */
export const PULL_PX = 6;

export interface Snapped {
  readonly box: Box;
  /** Faces that the box now lies on, at most one an axis. */
  readonly on: readonly Contact[];
}
export interface Contact {
  readonly axis: Axis;
  /** Side of the box that touches. */
  readonly side: 1 | -1;
  readonly at: number;
  /** Null where it is the hull. */
  readonly face: Face | null;
}

export const shifted = (box: Box, by: Vec3): Box => ({
  low: [box.low[0] + by[0], box.low[1] + by[1], box.low[2] + by[2]],
  high: [box.high[0] + by[0], box.high[1] + by[1], box.high[2] + by[2]],
});

/** Puts a moving box on the nearest face within the pull, in each of the axes that it moves along. */
export function snap(
  box: Box,
  axes: readonly Axis[],
  faces: readonly Face[],
  pullM: number,
  hull: HullSurface | null,
): Snapped {
  let current = box;
  const on: Contact[] = [];
  for (const axis of axes) {
    let best: { by: number; contact: Contact } | null = null;
    const consider = (by: number, contact: Contact) => {
      // Equally near faces: the first in order wins, so the answer does not depend on rounding.
      if (Math.abs(by) <= pullM && (best === null || Math.abs(by) < Math.abs(best.by) - 1e-9)) best = { by, contact };
    };
    for (const face of faces) {
      if (face.axis !== axis || !stands(face, current)) continue;
      const side = face.facing > 0 ? -1 : 1;
      const edge = side > 0 ? current.high[axis] : current.low[axis];
      consider(face.at - edge, { axis, side, at: face.at, face });
    }
    if (hull)
      for (const side of [1, -1] as const) {
        const way = wayToHull(hull, current, axis, side, pullM * 2 + 0.01);
        const edge = side > 0 ? current.high[axis] : current.low[axis];
        if (Math.abs(way) <= pullM) consider(side * way, { axis, side, at: edge + side * way, face: null });
      }
    const chosen = best as { by: number; contact: Contact } | null;
    if (!chosen) continue;
    const by: [number, number, number] = [0, 0, 0];
    by[axis] = chosen.by;
    current = shifted(current, by);
    on.push(chosen.contact);
  }
  return { box: current, on };
}

export interface Gap {
  readonly axis: Axis;
  readonly side: 1 | -1;
  /** Free way from the box to the face; negative when the box is through it. */
  readonly gapM: number;
  /** Edge of the box from which the gap is counted. */
  readonly from: number;
  readonly face: Face | null;
}

/** How far an overlap may reach before the face behind counts as passed. */
const THROUGH = 0.5;

/** Nothing further away than this is measured to, metres. */
const FURTHEST = 3;

/**
 * Nearest face on either side along each axis: the four distances of a view. Null where nothing stands within 3 m.
 * A corner outside the hull is outside along every axis; only the shortest way back in, of those asked for, says how
 * far it is through.
 */
export function gapsAround(box: Box, axes: readonly Axis[], faces: readonly Face[], hull: HullSurface | null): Gap[] {
  const sides = axes.flatMap((axis) => ([-1, 1] as const).map((side) => ({ axis, side })));
  const toFaces = sides.map(({ axis, side }) => nearestFace(box, axis, side, faces));
  if (!hull) return toFaces.flatMap((gap) => gap ?? []);
  const ways = sides.map(({ axis, side }, i) => wayToHull(hull, box, axis, side, toFaces[i]?.gapM ?? FURTHEST));
  const shallowest = Math.max(Number.NEGATIVE_INFINITY, ...ways.filter((way) => way < -THROUGH_FROM));
  return sides.flatMap(({ axis, side }, i) => {
    const toFace = toFaces[i] ?? null;
    const gapM = ways[i] ?? FURTHEST;
    const counts = gapM < -THROUGH_FROM ? gapM >= shallowest - 1e-6 : gapM < (toFace?.gapM ?? FURTHEST);
    if (!counts) return toFace ?? [];
    return { axis, side, gapM, from: side > 0 ? box.high[axis] : box.low[axis], face: null };
  });
}

/** Less than this through a face is touching it, metres. */
export const THROUGH_FROM = 5e-4;

function nearestFace(box: Box, axis: Axis, side: 1 | -1, faces: readonly Face[]): Gap | null {
  const edge = side > 0 ? box.high[axis] : box.low[axis];
  const deepest = -(box.high[axis] - box.low[axis]) * THROUGH;
  let best: Gap | null = null;
  for (const face of faces) {
    if (face.axis !== axis || face.facing === side || !stands(face, box)) continue;
    const gapM = (face.at - edge) * side;
    if (gapM > deepest && gapM < (best ? best.gapM : FURTHEST)) best = { axis, side, gapM, from: edge, face };
  }
  return best;
}

/** Bodies that a box runs into, deepest first, with the depth along the shallowest axis. */
export function overlapsOf(
  box: Box,
  others: readonly { readonly id: string; readonly box: Box }[],
): { id: string; depthM: number; box: Box }[] {
  const found: { id: string; depthM: number; box: Box }[] = [];
  for (const other of others) {
    const low: Vec3 = [
      Math.max(box.low[0], other.box.low[0]),
      Math.max(box.low[1], other.box.low[1]),
      Math.max(box.low[2], other.box.low[2]),
    ];
    const high: Vec3 = [
      Math.min(box.high[0], other.box.high[0]),
      Math.min(box.high[1], other.box.high[1]),
      Math.min(box.high[2], other.box.high[2]),
    ];
    const depthM = Math.min(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
    if (depthM > 5e-4) found.push({ id: other.id, depthM, box: { low, high } });
  }
  return found.sort((a, b) => b.depthM - a.depthM);
}
