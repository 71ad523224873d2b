import { gap, inner, minus, normalised, outer, type P3, plus, size, times } from './geometry-oracle';

/** Solids by their definition. Metres; axes are unit vectors square to one another. */
export type PlainSolid =
  | { readonly type: 'box'; readonly centre: P3; readonly half: P3; readonly axes: readonly [P3, P3, P3] }
  | { readonly type: 'cylinder' | 'capsule'; readonly from: P3; readonly to: P3; readonly radius: number }
  | { readonly type: 'plate'; readonly polygon: readonly P3[]; readonly normal: P3; readonly thicknessM: number };

const clamp = (v: number, low: number, high: number): number => Math.min(high, Math.max(low, v));

/** The point of a solid that is nearest to p: p itself within. */
export function nearestIn(solid: PlainSolid, p: P3): P3 {
  if (solid.type === 'box') {
    const q = minus(p, solid.centre);
    return solid.axes.reduce<P3>((at, axis, k) => {
      const h = solid.half[k] as number;
      return plus(at, times(axis, clamp(inner(q, axis), -h, h)));
    }, solid.centre);
  }
  if (solid.type === 'plate') return nearestInPlate(solid, p);
  const span = minus(solid.to, solid.from);
  const length = size(span);
  const axis: P3 = length > 0 ? times(span, 1 / length) : [0, 0, 1];
  const q = minus(p, solid.from);
  const on = plus(solid.from, times(axis, clamp(inner(q, axis), 0, length)));
  if (solid.type === 'capsule') {
    const off = minus(p, on);
    const away = size(off);
    return away <= solid.radius ? p : plus(on, times(off, solid.radius / away));
  }
  const off = minus(q, times(axis, inner(q, axis)));
  const away = size(off);
  return plus(on, away <= solid.radius ? off : times(off, solid.radius / away));
}

function nearestInPlate(plate: Extract<PlainSolid, { type: 'plate' }>, p: P3): P3 {
  const n = normalised(plate.normal);
  const origin = plate.polygon[0] as P3;
  const height = inner(minus(p, origin), n);
  const flat = minus(p, times(n, height));
  const lift = times(n, clamp(height, -plate.thicknessM / 2, plate.thicknessM / 2));
  const sides = plate.polygon.map((a, k) => [a, plate.polygon[(k + 1) % plate.polygon.length] as P3] as const);
  const turn = sides.map(([a, b]) => inner(outer(minus(b, a), minus(flat, a)), n));
  if (turn.every((t) => t >= 0) || turn.every((t) => t <= 0)) return plus(flat, lift);
  const feet = sides.map(([a, b]) => {
    const way = minus(b, a);
    const t = clamp(inner(minus(flat, a), way) / Math.max(1e-300, inner(way, way)), 0, 1);
    return plus(a, times(way, t));
  });
  return plus(
    feet.reduce((best, foot) => (gap(foot, flat) < gap(best, flat) ? foot : best)),
    lift,
  );
}

/** Distance of a point from a solid, 0 within. */
export const pointGap = (solid: PlainSolid, p: P3): number => gap(p, nearestIn(solid, p));

/** Greatest of inner(n, p) over a solid. */
function farthestAlong(solid: PlainSolid, n: P3): number {
  if (solid.type === 'box')
    return solid.axes.reduce(
      (sum, axis, k) => sum + Math.abs(inner(axis, n)) * (solid.half[k] as number),
      inner(solid.centre, n),
    );
  if (solid.type === 'plate')
    return (
      Math.max(...solid.polygon.map((p) => inner(p, n))) +
      (Math.abs(inner(normalised(solid.normal), n)) * solid.thicknessM) / 2
    );
  const ends = Math.max(inner(solid.from, n), inner(solid.to, n));
  if (solid.type === 'capsule') return ends + solid.radius * size(n);
  const cosine = inner(normalised(minus(solid.to, solid.from)), n);
  return ends + solid.radius * Math.sqrt(Math.max(0, inner(n, n) - cosine * cosine));
}

/** Nearer than this two solids share a point. */
const SHARED_M = 1e-7;

/**
 * Distance of two convex solids to a micrometre, 0 where they share a point: the nearest point of one and of the other in turn (Cheney
 * and Goldstein 1959), with the momentum of Nesterov 1983, until the plane between the two proves it from below. Knows of a solid only its
 * nearest point and how far it goes in a direction.
 */
export function convexGap(a: PlainSolid, b: PlainSolid, start: P3, turns = 5000): number {
  let p = nearestIn(a, start);
  let ahead = p;
  let pace = 1;
  let last = Number.POSITIVE_INFINITY;
  let proven = 0;
  for (let turn = 0; turn < turns; turn += 1) {
    const next = nearestIn(a, nearestIn(b, ahead));
    const q = nearestIn(b, next);
    const now = gap(next, q);
    if (now < SHARED_M) return 0;
    const n = times(minus(q, next), 1 / now);
    proven = Math.max(proven, -farthestAlong(b, times(n, -1)) - farthestAlong(a, n));
    if (now - proven < 1e-6 && proven > 0) return now;
    if (now > last && pace > 1) {
      // Overshot: once more from there without momentum.
      pace = 1;
      ahead = p;
      continue;
    }
    last = now;
    const faster = (1 + Math.sqrt(1 + 4 * pace * pace)) / 2;
    ahead = plus(next, times(minus(next, p), (pace - 1) / faster));
    pace = faster;
    p = next;
  }
  return proven > 0 ? proven : 0;
}

export const movedSolid = (solid: PlainSolid, by: P3): PlainSolid =>
  solid.type === 'box'
    ? { ...solid, centre: plus(solid.centre, by) }
    : solid.type === 'plate'
      ? { ...solid, polygon: solid.polygon.map((p) => plus(p, by)) }
      : { ...solid, from: plus(solid.from, by), to: plus(solid.to, by) };

/** A point within a solid. */
export const middleOf = (solid: PlainSolid): P3 =>
  solid.type === 'box'
    ? solid.centre
    : solid.type === 'plate'
      ? times(
          solid.polygon.reduce((s, p) => plus(s, p)),
          1 / solid.polygon.length,
        )
      : times(plus(solid.from, solid.to), 0.5);

/**
 * Travel of the first solid along a unit direction at which the gap, which is convex along it, first falls to nothing, to a micrometre;
 * null where it does not within reach, with the least gap that was seen.
 */
export function firstContact(
  a: PlainSolid,
  b: PlainSolid,
  direction: P3,
  withinM: number,
): { readonly t: number | null; readonly least: number } {
  const at = (t: number): number => convexGap(movedSolid(a, times(direction, t)), b, middleOf(b));
  if (at(0) === 0) return { t: 0, least: 0 };
  let [low, high] = [0, withinM];
  let met: number | null = at(withinM) === 0 ? withinM : null;
  while (met === null && high - low > 1e-6) {
    const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
    const [gp, gq] = [at(p), at(q)];
    if (gp === 0) met = p;
    else if (gq === 0) met = q;
    else if (gp <= gq) high = q;
    else low = p;
  }
  if (met === null) return { t: null, least: Math.min(at(0), at(low), at(withinM)) };
  let [free, blocked] = [0, met];
  while (blocked - free > 1e-6) {
    const middle = (free + blocked) / 2;
    if (at(middle) > 0) free = middle;
    else blocked = middle;
  }
  return { t: blocked, least: 0 };
}
