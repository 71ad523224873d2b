import { signedArea, turn } from '../../base/ring';
import type { Vec2 } from '../../base/vec';

/** Corners nearer to each other, or to the line of their neighbours, than this are no corners (metres). */
const DUST = 1e-6;

export interface ConvexPieces {
  /** Each piece lists indices of the outline's corners, counter-clockwise. */
  readonly pieces: readonly (readonly number[])[];
  /** Cuts between two pieces: corner indices as the first piece walks them, then the two pieces. */
  readonly cuts: readonly {
    readonly from: number;
    readonly to: number;
    readonly pieces: readonly [number, number];
  }[];
}

const squaredLength = (a: Vec2, b: Vec2): number => (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2;

export interface CleanOutline {
  /** Counter-clockwise. */
  readonly corners: readonly Vec2[];
  /** Place of each corner in the record. */
  readonly rank: readonly number[];
  readonly isReversed: boolean;
}

/** The outline counter-clockwise, without repeated corners and without corners in a straight side. */
export function cleanOutline(outline: readonly Vec2[]): CleanOutline {
  const isReversed = signedArea(outline) < 0;
  const corners = [...outline];
  const rank = outline.map((_, i) => i);
  if (isReversed) {
    corners.reverse();
    rank.reverse();
  }
  for (let changed = true; changed && corners.length > 2; ) {
    changed = false;
    for (let i = 0; i < corners.length; i++) {
      const before = corners[(i + corners.length - 1) % corners.length] as Vec2;
      const at = corners[i] as Vec2;
      const after = corners[(i + 1) % corners.length] as Vec2;
      const base = Math.sqrt(squaredLength(before, after));
      if (squaredLength(before, at) < DUST * DUST || Math.abs(turn(before, at, after)) < DUST * Math.max(base, DUST)) {
        corners.splice(i, 1);
        rank.splice(i, 1);
        changed = true;
        break;
      }
    }
  }
  return { corners, rank, isReversed };
}

/** True when two sides that are no neighbours touch or cross. */
export function crossesItself(outline: readonly Vec2[]): boolean {
  const n = outline.length;
  for (let i = 0; i < n; i++) {
    const a = outline[i] as Vec2;
    const b = outline[(i + 1) % n] as Vec2;
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      if (segmentsMeet(a, b, outline[j] as Vec2, outline[(j + 1) % n] as Vec2)) return true;
    }
  }
  return false;
}

function segmentsMeet(a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean {
  const abc = turn(a, b, c);
  const abd = turn(a, b, d);
  const cda = turn(c, d, a);
  const cdb = turn(c, d, b);
  if (abc * abd < 0 && cda * cdb < 0) return true;
  const within = (p: Vec2, q: Vec2, r: Vec2): boolean =>
    Math.min(p[0], q[0]) <= r[0] &&
    r[0] <= Math.max(p[0], q[0]) &&
    Math.min(p[1], q[1]) <= r[1] &&
    r[1] <= Math.max(p[1], q[1]);
  return (
    (abc === 0 && within(a, b, c)) ||
    (abd === 0 && within(a, b, d)) ||
    (cda === 0 && within(c, d, a)) ||
    (cdb === 0 && within(c, d, b))
  );
}

/** Convex hull, counter-clockwise (monotone chain). */
export function convexHull(points: readonly Vec2[]): Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (list: readonly Vec2[]): Vec2[] => {
    const out: Vec2[] = [];
    for (const p of list) {
      while (out.length > 1 && turn(out[out.length - 2] as Vec2, out[out.length - 1] as Vec2, p) <= 0) out.pop();
      out.push(p);
    }
    out.pop();
    return out;
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

/**
 * Cuts a simple counter-clockwise outline into convex pieces: ears are clipped, then cuts that no reflex corner needs are
 * taken out again, longest first (Hertel and Mehlhorn 1983: at most four times the fewest pieces). Once with the shortest
 * ears first and once with the longest; the fewer pieces win. Lengths decide, and between equals the order of the record, so a mirrored outline is cut into the mirrored pieces.
 */
export function convexPieces(outline: readonly Vec2[], rank: readonly number[]): ConvexPieces {
  const at = (i: number): Vec2 => outline[i] as Vec2;
  const isConvex = (ring: readonly number[]): boolean =>
    ring.every((_, k) => {
      const a = at(ring[(k + ring.length - 1) % ring.length] as number);
      const b = at(ring[k] as number);
      const c = at(ring[(k + 1) % ring.length] as number);
      return turn(a, b, c) >= -1e-9 * Math.sqrt(squaredLength(a, b) * squaredLength(b, c));
    });
  const whole = outline.map((_, i) => i);
  if (isConvex(whole)) return { pieces: [whole], cuts: [] };

  const tries = ([1, -1] as const).map((sign) =>
    withoutNeedlessCuts(outline, rank, clipEars(outline, rank, sign), isConvex),
  );
  const [short, long] = tries as [ConvexPieces, ConvexPieces];
  return long.pieces.length < short.pieces.length ? long : short;
}

function withoutNeedlessCuts(
  outline: readonly Vec2[],
  rank: readonly number[],
  triangles: readonly (readonly number[])[],
  isConvex: (ring: readonly number[]) => boolean,
): ConvexPieces {
  const n = outline.length;
  const cutLength = (i: number, j: number): number => squaredLength(outline[i] as Vec2, outline[j] as Vec2);
  const all = new Map<string, readonly [number, number]>();
  for (const piece of triangles)
    piece.forEach((i, k) => {
      const j = piece[(k + 1) % piece.length] as number;
      const isSide = j === (i + 1) % n || i === (j + 1) % n;
      if (!isSide) all.set(i < j ? `${i}-${j}` : `${j}-${i}`, i < j ? [i, j] : [j, i]);
    });
  const ranks = (cut: readonly [number, number]): number[] =>
    [rank[cut[0]] as number, rank[cut[1]] as number].sort((p, q) => p - q);
  const byLength = [...all.values()].sort(
    (p, q) => cutLength(q[0], q[1]) - cutLength(p[0], p[1]) || compareLists(ranks(p), ranks(q)),
  );
  let merged: (readonly number[])[] = [...triangles];
  const kept: (readonly [number, number])[] = [];
  for (const [i, j] of byLength) {
    const one = merged.find((ring) => walks(ring, i, j)) as readonly number[];
    const other = merged.find((ring) => walks(ring, j, i)) as readonly number[];
    const joined = joinAt(one, other, i, j);
    if (isConvex(joined)) merged = [...merged.filter((ring) => ring !== one && ring !== other), joined];
    else kept.push([i, j]);
  }
  const fromLowest = (ring: readonly number[]): readonly number[] => {
    const low = ring.indexOf(Math.min(...ring));
    return [...ring.slice(low), ...ring.slice(0, low)];
  };
  const pieces = merged.map(fromLowest).sort(compareLists);
  const pieceOf = (i: number, j: number): number => pieces.findIndex((ring) => walks(ring, i, j));
  return { pieces, cuts: kept.map(([i, j]) => ({ from: i, to: j, pieces: [pieceOf(i, j), pieceOf(j, i)] })) };
}

function compareLists(p: readonly number[], q: readonly number[]): number {
  for (let k = 0; k < Math.min(p.length, q.length); k++) {
    const d = (p[k] as number) - (q[k] as number);
    if (d !== 0) return d;
  }
  return p.length - q.length;
}

const walks = (ring: readonly number[], i: number, j: number): boolean => {
  const k = ring.indexOf(i);
  return k >= 0 && ring[(k + 1) % ring.length] === j;
};

/** Joins two rings along their common side, which `one` walks from i to j and `other` from j to i. */
function joinAt(one: readonly number[], other: readonly number[], i: number, j: number): number[] {
  const k = one.indexOf(j);
  const l = other.indexOf(i);
  const fromJ = [...one.slice(k), ...one.slice(0, k)];
  const fromI = [...other.slice(l), ...other.slice(0, l)];
  return [...fromJ.slice(0, -1), ...fromI.slice(0, -1)];
}

/** `sign` 1 clips the ear with the shortest cut first, -1 the one with the longest. */
function clipEars(outline: readonly Vec2[], rank: readonly number[], sign: 1 | -1): number[][] {
  const left = outline.map((_, i) => i);
  const pieces: number[][] = [];
  while (left.length > 3) {
    const best = bestEar(outline, left, rank, sign, true) ?? bestEar(outline, left, rank, sign, false) ?? 0;
    const i = left[(best + left.length - 1) % left.length] as number;
    const l = left[(best + 1) % left.length] as number;
    pieces.push([i, left[best] as number, l]);
    left.splice(best, 1);
  }
  pieces.push(left);
  return pieces;
}

/**
 * Place in `left` of the ear to clip; null without one. An outline that all but touches itself may have no ear that is free
 * of the other corners: then any convex corner has to serve.
 */
function bestEar(
  outline: readonly Vec2[],
  left: readonly number[],
  rank: readonly number[],
  sign: 1 | -1,
  mustBeFree: boolean,
): number | null {
  const at = (i: number): Vec2 => outline[i] as Vec2;
  let best: number | null = null;
  let bestLength = Number.POSITIVE_INFINITY;
  let bestRank = Number.POSITIVE_INFINITY;
  for (let k = 0; k < left.length; k++) {
    const i = left[(k + left.length - 1) % left.length] as number;
    const j = left[k] as number;
    const l = left[(k + 1) % left.length] as number;
    const length = sign * squaredLength(at(i), at(l));
    if (length > bestLength || (length === bestLength && (rank[j] as number) > bestRank)) continue;
    if (turn(at(i), at(j), at(l)) <= 1e-12) continue;
    const isFree = left.every((m) => m === i || m === j || m === l || !inTriangle(at(i), at(j), at(l), at(m)));
    if (mustBeFree && !isFree) continue;
    best = k;
    bestLength = length;
    bestRank = rank[j] as number;
  }
  return best;
}

const inTriangle = (a: Vec2, b: Vec2, c: Vec2, p: Vec2): boolean =>
  turn(a, b, p) >= -1e-12 && turn(b, c, p) >= -1e-12 && turn(c, a, p) >= -1e-12;
