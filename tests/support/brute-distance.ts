import { distanceToSegment, inner, minus, outer, type P3, plus, times } from './geometry-oracle';

/** Plain, slow distances to judge the quick kind by. */

/** By cases: the unclamped minimum where it lies within both, else the four ends against the other segment. */
function segmentSegmentDistance(a: P3, b: P3, c: P3, d: P3): number {
  let least = Math.min(
    distanceToSegment(a, c, d),
    distanceToSegment(b, c, d),
    distanceToSegment(c, a, b),
    distanceToSegment(d, a, b),
  );
  const u = minus(b, a);
  const v = minus(d, c);
  const n = outer(u, v);
  const size = inner(n, n);
  if (size > 0) {
    const w = minus(c, a);
    const s = inner(outer(w, v), n) / size;
    const t = inner(outer(w, u), n) / size;
    if (s >= 0 && s <= 1 && t >= 0 && t <= 1) least = Math.min(least, Math.abs(inner(w, n)) / Math.sqrt(size));
  }
  return least;
}

/** Least distance between a segment and a triangle given as nine numbers; 0 where they meet. */
export function segmentTriangleDistance(a: P3, b: P3, face: readonly number[]): number {
  const corner = (k: number): P3 => [face[3 * k] ?? 0, face[3 * k + 1] ?? 0, face[3 * k + 2] ?? 0];
  const [p, q, r] = [corner(0), corner(1), corner(2)];
  let least = Math.min(
    segmentSegmentDistance(a, b, p, q),
    segmentSegmentDistance(a, b, q, r),
    segmentSegmentDistance(a, b, r, p),
  );
  const n = outer(minus(q, p), minus(r, p));
  const size = Math.sqrt(inner(n, n));
  if (!(size > 0)) return least;
  const within = (at: P3): boolean =>
    inner(outer(minus(q, p), minus(at, p)), n) >= 0 &&
    inner(outer(minus(r, q), minus(at, q)), n) >= 0 &&
    inner(outer(minus(p, r), minus(at, r)), n) >= 0;
  const heightA = inner(minus(a, p), n) / size;
  const heightB = inner(minus(b, p), n) / size;
  if (within(a)) least = Math.min(least, Math.abs(heightA));
  if (within(b)) least = Math.min(least, Math.abs(heightB));
  if (
    heightA * heightB <= 0 &&
    heightA !== heightB &&
    within(plus(a, times(minus(b, a), heightA / (heightA - heightB))))
  )
    least = 0;
  return least;
}
