import { along, distance, dot, ORIGIN, scale, subtract, type Vec3 } from '../../base/vec';
import type { Convex } from './convex';

/** Relative gap at which the search stops, and its counted limit; it ends in a handful of steps. */
const CLOSE_ENOUGH = 1e-9;
const STEPS = 96;

export interface Nearest {
  /** 0 when the bodies overlap or touch. */
  readonly distanceM: number;
  readonly onFirst: Vec3;
  readonly onSecond: Vec3;
}

interface Corner {
  readonly first: Vec3;
  readonly second: Vec3;
  readonly difference: Vec3;
}

/**
 * Distance of two convex bodies with the nearest points (Gilbert, Johnson, Keerthi 1988): walks over their difference,
 * keeping the simplex of at most four of its points that is nearest to the origin.
 */
export function nearestPoints(a: Convex, b: Convex): Nearest {
  const { simplex, weights, v } = towardsOrigin(a, b, false);
  const mix = (pick: (c: Corner) => Vec3): Vec3 =>
    simplex.reduce<Vec3>((s, c, i) => along(s, pick(c), weights[i] as number), ORIGIN);
  const length = Math.sqrt(dot(v, v));
  return { distanceM: length < 1e-9 ? 0 : length, onFirst: mix((c) => c.first), onSecond: mix((c) => c.second) };
}

/** Whether two convex bodies share no point: done as soon as a plane is found that parts them. */
export function areApart(a: Convex, b: Convex): boolean {
  const { v, isParted } = towardsOrigin(a, b, true);
  return isParted || dot(v, v) >= 1e-18;
}

interface Walk {
  readonly simplex: readonly Corner[];
  readonly weights: readonly number[];
  readonly v: Vec3;
  readonly isParted: boolean;
}

function towardsOrigin(a: Convex, b: Convex, untilParted: boolean): Walk {
  const corner = (d: Vec3): Corner => {
    const [first, second] = [a.support(scale(d, -1)), b.support(d)];
    return { first, second, difference: subtract(first, second) };
  };
  let simplex: Corner[] = [corner(subtract(a.centre, b.centre))];
  let weights = [1];
  let v = (simplex[0] as Corner).difference;
  for (let step = 0; step < STEPS; step++) {
    const squared = dot(v, v);
    if (squared < 1e-20) break;
    const next = corner(v);
    if (untilParted && dot(v, next.difference) > 0) return { simplex, weights, v, isParted: true };
    if (squared - dot(v, next.difference) <= CLOSE_ENOUGH * squared) break;
    if (simplex.some((c) => distance(c.difference, next.difference) < 1e-12)) break;
    const nearest = nearestToOrigin([...simplex, next]);
    if (dot(nearest.v, nearest.v) >= squared) break;
    ({ simplex, weights, v } = nearest);
  }
  return { simplex, weights, v, isParted: false };
}

/** The face, edge or corner of a simplex that is nearest to the origin, with the weights of its corners. */
function nearestToOrigin(all: readonly Corner[]): { simplex: Corner[]; weights: number[]; v: Vec3 } {
  let best: { simplex: Corner[]; weights: number[]; v: Vec3 } | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let mask = 1; mask < 1 << all.length; mask++) {
    const subset = all.filter((_, i) => mask & (1 << i));
    const weights = balance(subset.map((c) => c.difference));
    if (!weights?.every((w) => w > 0)) continue;
    const v = subset.reduce<Vec3>((s, c, i) => along(s, c.difference, weights[i] as number), ORIGIN);
    const squared = dot(v, v);
    if (squared < least) {
      least = squared;
      best = { simplex: subset, weights, v };
    }
  }
  if (best) return best;
  // Only rounding leaves no subset: the newest corner alone is always one.
  const last = all[all.length - 1] as Corner;
  return { simplex: [last], weights: [1], v: last.difference };
}

/** Weights, summing to 1, of the point of the flat through the points that is nearest to the origin; null when it is degenerate. */
function balance(points: readonly Vec3[]): number[] | null {
  const base = points[0] as Vec3;
  const edges = points.slice(1).map((p) => subtract(p, base));
  const n = edges.length;
  const rows = edges.map((e) => [...edges.map((f) => dot(e, f)), -dot(e, base)]);
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++)
      if (Math.abs((rows[i] as number[])[k] as number) > Math.abs((rows[pivot] as number[])[k] as number)) pivot = i;
    const row = rows[pivot] as number[];
    if (Math.abs(row[k] as number) < 1e-18) return null;
    rows[pivot] = rows[k] as number[];
    rows[k] = row;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const other = rows[i] as number[];
      const factor = (other[k] as number) / (row[k] as number);
      for (let j = k; j <= n; j++) other[j] = (other[j] as number) - factor * (row[j] as number);
    }
  }
  const tail = rows.map((row, k) => (row[n] as number) / (row[k] as number));
  return [1 - tail.reduce((s, w) => s + w, 0), ...tail];
}
