/** Plain, slow geometry to judge the quick kind by. Shares nothing with the core. */
type Point = readonly [number, number, number];

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const inner = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const outer = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const shift = (a: Point, d: Point, k: number): Point => [a[0] + d[0] * k, a[1] + d[1] * k, a[2] + d[2] * k];

function pointSegment(p: Point, a: Point, b: Point): number {
  const d = minus(b, a);
  const size = inner(d, d);
  const t = size > 0 ? Math.min(1, Math.max(0, inner(minus(p, a), d) / size)) : 0;
  const e = minus(p, shift(a, d, t));
  return Math.sqrt(inner(e, e));
}

/** By cases: the unclamped minimum where it lies within both, else the four ends against the other segment. */
function segmentSegmentDistance(a: Point, b: Point, c: Point, d: Point): number {
  let least = Math.min(pointSegment(a, c, d), pointSegment(b, c, d), pointSegment(c, a, b), pointSegment(d, a, b));
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
export function segmentTriangleDistance(a: Point, b: Point, face: readonly number[]): number {
  const corner = (k: number): Point => [face[3 * k] ?? 0, face[3 * k + 1] ?? 0, face[3 * k + 2] ?? 0];
  const [p, q, r] = [corner(0), corner(1), corner(2)];
  let least = Math.min(
    segmentSegmentDistance(a, b, p, q),
    segmentSegmentDistance(a, b, q, r),
    segmentSegmentDistance(a, b, r, p),
  );
  const n = outer(minus(q, p), minus(r, p));
  const size = Math.sqrt(inner(n, n));
  if (!(size > 0)) return least;
  const within = (at: Point): boolean =>
    inner(outer(minus(q, p), minus(at, p)), n) >= 0 &&
    inner(outer(minus(r, q), minus(at, q)), n) >= 0 &&
    inner(outer(minus(p, r), minus(at, r)), n) >= 0;
  const heightA = inner(minus(a, p), n) / size;
  const heightB = inner(minus(b, p), n) / size;
  if (within(a)) least = Math.min(least, Math.abs(heightA));
  if (within(b)) least = Math.min(least, Math.abs(heightB));
  if (heightA * heightB <= 0 && heightA !== heightB && within(shift(a, minus(b, a), heightA / (heightA - heightB))))
    least = 0;
  return least;
}
