/** The two primitives of a centre line, straights and circular arcs: their lengths and the places on them. Metres, radians. */
import * as portable from '../../base/portable';
import { along, subtract, type Vec3 } from '../../base/vec';
import type { Prim } from './types';

export type Arc = Extract<Prim, { kind: 'arc' }>;

/** Angle that an arc sweeps, right-handed about its normal, in [0, 2 pi). */
export function arcSweep(arc: Arc): number {
  const a: Vec3 = [arc.from[0] - arc.centre[0], arc.from[1] - arc.centre[1], arc.from[2] - arc.centre[2]];
  const b: Vec3 = [arc.to[0] - arc.centre[0], arc.to[1] - arc.centre[1], arc.to[2] - arc.centre[2]];
  const n = arc.normal;
  const sin =
    (a[1] * b[2] - a[2] * b[1]) * n[0] + (a[2] * b[0] - a[0] * b[2]) * n[1] + (a[0] * b[1] - a[1] * b[0]) * n[2];
  const cos = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const sweep = portable.atan2(sin, cos);
  return sweep >= 0 ? sweep : sweep + 2 * Math.PI;
}

/** Place on an arc at an angle from its start. */
export function pointOnArc(arc: Arc, angle: number): Vec3 {
  const [x, y, z] = [arc.from[0] - arc.centre[0], arc.from[1] - arc.centre[1], arc.from[2] - arc.centre[2]];
  const n = arc.normal;
  const c = portable.cos(angle);
  const s = portable.sin(angle);
  return [
    arc.centre[0] + x * c + (n[1] * z - n[2] * y) * s,
    arc.centre[1] + y * c + (n[2] * x - n[0] * z) * s,
    arc.centre[2] + z * c + (n[0] * y - n[1] * x) * s,
  ];
}

/** The places on a primitive by their share of its length: 0 where it begins, 1 where it ends. */
export function placesOn(prim: Prim): (share: number) => Vec3 {
  if (prim.kind === 'line') {
    const way = subtract(prim.to, prim.from);
    return (share) => along(prim.from, way, share);
  }
  const sweep = arcSweep(prim);
  return (share) => pointOnArc(prim, sweep * share);
}

export const primLength = (prim: Prim): number =>
  prim.kind === 'line'
    ? portable.hypot(prim.to[0] - prim.from[0], prim.to[1] - prim.from[1], prim.to[2] - prim.from[2])
    : prim.radius * arcSweep(prim);

/** Length of a run along its centre line. */
export const lengthOf = (prims: readonly Prim[]): number => prims.reduce((sum, prim) => sum + primLength(prim), 0);

/** A box around a run, so far about its centre line; of an arc its whole circle counts. */
export function boxAround(prims: readonly Prim[], byM: number): { readonly low: Vec3; readonly high: Vec3 } {
  const low: [number, number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: [number, number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const put = (at: Vec3, radius: number): void => {
    for (const axis of [0, 1, 2] as const) {
      low[axis] = Math.min(low[axis], at[axis] - radius);
      high[axis] = Math.max(high[axis], at[axis] + radius);
    }
  };
  for (const prim of prims) {
    if (prim.kind === 'arc') put(prim.centre, prim.radius + byM);
    put(prim.from, byM);
    put(prim.to, byM);
  }
  return { low, high };
}

/** A turn of less is what relaxing leaves of a straight: nobody sees it as a bend. */
const LEAST_BEND_RAD = 0.01;

/** Bends of a run that are seen, and the least radius among them, metres; null without any. */
export function bendsOf(prims: readonly Prim[]): { readonly bends: number; readonly leastRadiusM: number | null } {
  const radii = prims.flatMap((prim) => (prim.kind === 'arc' && arcSweep(prim) > LEAST_BEND_RAD ? [prim.radius] : []));
  return { bends: radii.length, leastRadiusM: radii.length > 0 ? Math.min(...radii) : null };
}
