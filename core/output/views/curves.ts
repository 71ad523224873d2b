import * as portable from '../../base/portable';
import { along, cross, dot, scale, subtract, unit, type Vec2, type Vec3 } from '../../base/vec';
import type { Prim } from '../../runs/routing/types';

/** Greatest distance between a drawn chord and the true arc, metres. */
export const DRAWING_TOLERANCE = 1e-4;

/** Chords that a circle of this radius needs over `sweep` radians to stay within the tolerance. */
export function chordsFor(radius: number, sweep: number, toleranceM = DRAWING_TOLERANCE): number {
  if (radius <= toleranceM) return 1;
  return Math.max(1, Math.ceil(sweep / (2 * portable.acos(1 - toleranceM / radius))));
}

/** Angle of an arc from `from` to `to`, right-handed about its normal, in (0, 2 pi]. */
export function sweepOf(arc: Extract<Prim, { kind: 'arc' }>): number {
  const a = subtract(arc.from, arc.centre);
  const b = subtract(arc.to, arc.centre);
  const angle = portable.atan2(dot(arc.normal, cross(a, b)), dot(a, b));
  return angle > 0 ? angle : angle + 2 * Math.PI;
}

/** Centre line of a run as points of the true curve; ends of primitives are kept as they are. */
export function pathOf(prims: readonly Prim[], toleranceM = DRAWING_TOLERANCE): Vec3[] {
  const points: Vec3[] = [];
  const first = prims[0];
  if (first) points.push(first.from);
  for (const prim of prims) {
    if (prim.kind === 'arc') {
      const sweep = sweepOf(prim);
      const n = chordsFor(prim.radius, sweep, toleranceM);
      const e = unit(subtract(prim.from, prim.centre));
      const f = cross(unit(prim.normal), e);
      for (let i = 1; i < n; i++) {
        const t = (sweep * i) / n;
        points.push(along(along(prim.centre, e, prim.radius * portable.cos(t)), f, prim.radius * portable.sin(t)));
      }
    }
    points.push(prim.to);
  }
  return points;
}

/** Pieces of a path between two parallel planes square to a boat axis. */
export function piecesBetween(path: readonly Vec3[], axis: 0 | 1 | 2, low: number, high: number): Vec3[][] {
  const pieces: Vec3[][] = [];
  let open: Vec3[] = [];
  const flush = () => {
    if (open.length > 1) pieces.push(open);
    open = [];
  };
  for (let i = 0; i + 1 < path.length; i++) {
    const a = path[i] as Vec3;
    const b = path[i + 1] as Vec3;
    const da = a[axis];
    const db = b[axis];
    let t0 = 0;
    let t1 = 1;
    if (da === db) {
      if (da < low || da > high) {
        flush();
        continue;
      }
    } else {
      const ta = (low - da) / (db - da);
      const tb = (high - da) / (db - da);
      t0 = Math.max(0, Math.min(ta, tb));
      t1 = Math.min(1, Math.max(ta, tb));
      if (t0 >= t1) {
        flush();
        continue;
      }
    }
    const step = subtract(b, a);
    if (open.length === 0) open.push(along(a, step, t0));
    open.push(along(a, step, t1));
    if (t1 < 1) flush();
  }
  flush();
  return pieces;
}

/** Points where a path passes the plane `p[axis] = level`. */
export function passagesOf(path: readonly Vec3[], axis: 0 | 1 | 2, level: number): Vec3[] {
  const found: Vec3[] = [];
  for (let i = 0; i + 1 < path.length; i++) {
    const a = path[i] as Vec3;
    const b = path[i + 1] as Vec3;
    const da = a[axis] - level;
    const db = b[axis] - level;
    if (da < 0 !== db < 0) found.push(along(a, subtract(b, a), da / (da - db)));
  }
  return found;
}

/** A line beside another at distance `by`, to the left when positive; corners are mitred, sharp ones cut. Any unit. */
export function beside(points: readonly Vec2[], by: number): Vec2[] {
  const kept: Vec2[] = [];
  for (const p of points) {
    const last = kept[kept.length - 1];
    if (!last || portable.hypot(p[0] - last[0], p[1] - last[1]) > 1e-9) kept.push(p);
  }
  if (kept.length < 2) return kept;
  return kept.map((p, i) => {
    const before = kept[i - 1];
    const after = kept[i + 1];
    const into = before ? direction(before, p) : direction(p, after as Vec2);
    const out = after ? direction(p, after) : into;
    const nx = -(into[1] + out[1]);
    const ny = into[0] + out[0];
    const length = portable.hypot(nx, ny);
    if (length < 1e-6) return [p[0] - into[1] * by, p[1] + into[0] * by];
    // The mitre grows as the corner sharpens; beyond twice the distance it would spike.
    const mitre = Math.min(2, 2 / length);
    return [p[0] + (nx / length) * by * mitre, p[1] + (ny / length) * by * mitre];
  });
}

const direction = (a: Vec2, b: Vec2): Vec2 => {
  const length = portable.hypot(b[0] - a[0], b[1] - a[1]);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
};

/** A circle in space as a closed ring of points. */
export function circlePoints(centre: Vec3, normal: Vec3, radius: number): Vec3[] {
  const n = Math.max(12, chordsFor(radius, 2 * Math.PI));
  const u = squareUnit(normal);
  const v = cross(unit(normal), u);
  return Array.from({ length: n }, (_, i) => {
    const t = (2 * Math.PI * i) / n;
    return along(along(centre, u, radius * portable.cos(t)), v, radius * portable.sin(t));
  });
}

function squareUnit(a: Vec3): Vec3 {
  const n = unit(a);
  const other: Vec3 = Math.abs(n[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  return unit(subtract(other, scale(n, dot(n, other))));
}
