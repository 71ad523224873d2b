import * as portable from '../../base/portable';
import type { HalfGrid } from './along-hull';
import { at } from './interpolant';

/**
 * The closed half skin: the refined half grid, with a row on the centre plane where the keel has breadth, and a column on the
 * centre plane where an end has area (a transom). Every quad is cut along the same diagonal, from (i, j) to (i + 1, j + 1).
 */
export type HalfSkin = HalfGrid;

/** Twice the area of a triangle that is none. */
const LEAST_AREA_M2 = 1e-12;
/** Rows nearer in height than this are level. */
const FLAT_M = 1e-9;
/** Longest stretch of a corner's mitre, and of the skew of a surface that closes to its end, when a skin is moved outward. */
const LONGEST_MITRE = 3;

/** Closes a half grid at the keel and at ends that have area. Points keep the grid's order; x, y, z in metres. */
export function closedHalf(grid: HalfGrid): HalfSkin {
  const centreRow = grid.y.some((y, k) => k % grid.rows === 0 && y > 0);
  const aftCap = endArea(grid, 0) > 0;
  const forwardCap = endArea(grid, grid.columns - 1) > 0;
  const sources = Array.from({ length: grid.columns }, (_, i) => ({ i, onCentre: false }));
  if (aftCap) sources.unshift({ i: 0, onCentre: true });
  if (forwardCap) sources.push({ i: grid.columns - 1, onCentre: true });
  const rows = grid.rows + (centreRow ? 1 : 0);
  const x = new Float64Array(sources.length);
  const y = new Float64Array(sources.length * rows);
  const z = new Float64Array(sources.length * rows);
  sources.forEach(({ i, onCentre }, c) => {
    x[c] = at(grid.x, i);
    for (let r = 0; r < rows; r += 1) {
      const j = centreRow ? Math.max(0, r - 1) : r;
      y[c * rows + r] = onCentre || (centreRow && r === 0) ? 0 : at(grid.y, i * grid.rows + j);
      z[c * rows + r] = at(grid.z, i * grid.rows + j);
    }
  });
  if (aftCap) spreadFlats(y, z, 0, 1, rows);
  if (forwardCap) spreadFlats(y, z, sources.length - 1, sources.length - 2, rows);
  return { columns: sources.length, rows, x, y, z };
}

/** The half skin with one more row far above the sheer: the interior is open upward, its sides go on upright. */
export function withSkirt(half: HalfSkin, topM: number): HalfSkin {
  const rows = half.rows + 1;
  const y = new Float64Array(half.columns * rows);
  const z = new Float64Array(half.columns * rows);
  for (let i = 0; i < half.columns; i += 1) {
    for (let j = 0; j < half.rows; j += 1) {
      y[i * rows + j] = at(half.y, i * half.rows + j);
      z[i * rows + j] = at(half.z, i * half.rows + j);
    }
    y[i * rows + half.rows] = at(half.y, i * half.rows + half.rows - 1);
    z[i * rows + half.rows] = topM;
  }
  return { columns: half.columns, rows, x: half.x, y, z };
}

/**
 * A transom with a flat in its outline has several nodes at one height. Its nodes on the centre plane are spread a little, into
 * the transom, so that every chord of the outline is the side of a triangle and the skin has no open seam there.
 */
function spreadFlats(y: Float64Array, z: Float64Array, centre: number, end: number, rows: number): void {
  const height = (r: number): number => at(z, end * rows + r);
  for (let first = 0; first < rows - 1; first += 1) {
    let last = first;
    while (last < rows - 1 && height(last + 1) - height(first) < FLAT_M) last += 1;
    if (last === first) continue;
    const outward = at(y, end * rows + last) >= at(y, end * rows + first);
    const above = last < rows - 1 ? height(last + 1) - height(first) : 0;
    const below = first > 0 ? height(first) - height(first - 1) : 0;
    const touches = at(y, end * rows + first) === 0;
    const count = last - first + 2;
    for (let r = first; r <= last; r += 1)
      z[centre * rows + r] = outward
        ? height(first) + (above * (r - first + (touches ? 0 : 1))) / count
        : height(first) - (below * (last - r + 1)) / count;
    first = last;
  }
}

function endArea(grid: HalfGrid, column: number): number {
  let area = 0;
  for (let j = 1; j < grid.rows; j += 1) {
    const k = column * grid.rows + j;
    area += ((at(grid.y, k) + at(grid.y, k - 1)) / 2) * (at(grid.z, k) - at(grid.z, k - 1));
  }
  return area;
}

/**
 * Moves the surface outward by `distanceM`, measured square to the surface, each node within its own section: what was taken
 * inside becomes the outer skin. Corners are mitred.
 */
export function movedOutward(grid: HalfGrid, distanceM: number): HalfGrid {
  const { columns, rows } = grid;
  const x = Float64Array.from(grid.x);
  if (endArea(grid, 0) > 0) x[0] = at(grid.x, 0) - distanceM;
  if (endArea(grid, columns - 1) > 0) x[columns - 1] = at(grid.x, columns - 1) + distanceM;
  const y = new Float64Array(grid.y.length);
  const z = new Float64Array(grid.z.length);
  for (let i = 0; i < columns; i += 1) {
    const back = Math.max(0, i - 1);
    const ahead = Math.min(columns - 1, i + 1);
    const run = at(grid.x, ahead) - at(grid.x, back);
    for (let j = 0; j < rows; j += 1) {
      const k = i * rows + j;
      const [dy, dz] = mitre(grid, i, j);
      const size = portable.hypot(dy, dz) || 1;
      const slopeY = (at(grid.y, ahead * rows + j) - at(grid.y, back * rows + j)) / run;
      const slopeZ = (at(grid.z, ahead * rows + j) - at(grid.z, back * rows + j)) / run;
      const skew = Math.min(LONGEST_MITRE, portable.hypot(1, (slopeY * dy + slopeZ * dz) / size));
      y[k] = Math.max(0, at(grid.y, k) + dy * skew * distanceM);
      z[k] = at(grid.z, k) + dz * skew * distanceM;
      if (j > 0) z[k] = Math.max(at(z, k), at(z, k - 1));
    }
  }
  return { columns, rows, x, y, z };
}

/** Outward direction in the section at a node, long enough that both neighbouring chords move by 1. */
function mitre(grid: HalfGrid, i: number, j: number): readonly [number, number] {
  const after = chordNormal(grid, i, j, 1);
  const breadth = at(grid.y, i * grid.rows);
  const mirrored = after && ([-after[0], after[1]] as const);
  const before = chordNormal(grid, i, j, -1) ?? (breadth > 0 ? ([0, -1] as const) : mirrored);
  const first = before ?? after ?? [0, -1];
  const second = after ?? before ?? [0, -1];
  const cosine = 1 + first[0] * second[0] + first[1] * second[1];
  if (cosine < 1e-6) return second;
  const stretch = Math.min(
    1 / cosine,
    LONGEST_MITRE / Math.max(1e-9, portable.hypot(first[0] + second[0], first[1] + second[1])),
  );
  return [(first[0] + second[0]) * stretch, (first[1] + second[1]) * stretch];
}

/** Outward normal of the next chord of a section with length, up (`step` 1) or down (-1) from node j; null at the end. */
function chordNormal(grid: HalfGrid, i: number, j: number, step: 1 | -1): readonly [number, number] | null {
  const base = i * grid.rows;
  for (let k = j + step; k >= 0 && k < grid.rows; k += step) {
    const dy = (at(grid.y, base + k) - at(grid.y, base + j)) * step;
    const dz = (at(grid.z, base + k) - at(grid.z, base + j)) * step;
    const size = portable.hypot(dy, dz);
    if (size > 1e-9) return [dz / size, -dy / size];
  }
  return null;
}

/**
 * Whole skin as an indexed mesh, outward counter-clockwise: the half, its mirror image, and both again mirrored when off centre.
 * `deck` closes it by flat strips from sheer to sheer, in the same sense.
 */
export function wholeSkin(
  half: HalfSkin,
  offsetM: number,
): { vertices: Float64Array; triangles: Uint32Array; deck: Uint32Array } {
  const { columns, rows } = half;
  const count = columns * rows;
  // Of the half, once for every hull that there is: which nodes have a twin across its centre plane, and which triangles have area.
  const twins = new Int32Array(count);
  let sides = 0;
  for (let k = 0; k < count; k += 1) twins[k] = (half.y[k] as number) === 0 ? -1 : sides++;
  const faces = new Uint32Array(6 * (columns - 1) * (rows - 1));
  let used = 0;
  eachFace(half, (a, b, c) => {
    faces[used] = a;
    faces[used + 1] = b;
    faces[used + 2] = c;
    used += 3;
  });
  const hulls = offsetM === 0 ? [1] : [1, -1];
  const perHull = count + sides;
  const vertices = new Float64Array(3 * perHull * hulls.length);
  const triangles = new Uint32Array(2 * used * hulls.length);
  const deck = new Uint32Array(6 * (columns - 1) * hulls.length);
  let strip = 0;
  hulls.forEach((hull, h) => {
    const first = h * perHull;
    const starboard = (k: number): number => {
      const twin = twins[k] as number;
      return first + (twin < 0 ? k : count + twin);
    };
    for (let i = 0; i < columns; i += 1)
      for (let j = 0; j < rows; j += 1) {
        const k = i * rows + j;
        const p = 3 * (first + k);
        const s = 3 * starboard(k);
        vertices[p] = vertices[s] = half.x[i] as number;
        vertices[p + 2] = vertices[s + 2] = half.z[k] as number;
        // The twin first: a node on the centre plane has none and keeps its own.
        vertices[s + 1] = hull * (offsetM - (half.y[k] as number));
        vertices[p + 1] = hull * (offsetM + (half.y[k] as number));
      }
    // The second hull is the first with its sign changed, which turns its triangles over.
    const put = (list: Uint32Array, t: number, a: number, b: number, c: number): void => {
      list[t] = a;
      list[t + 1] = hull === 1 ? b : c;
      list[t + 2] = hull === 1 ? c : b;
    };
    for (let f = 0; f < used; f += 3) {
      const a = faces[f] as number;
      const b = faces[f + 1] as number;
      const c = faces[f + 2] as number;
      const t = 2 * (h * used + f);
      put(triangles, t, first + a, first + b, first + c);
      put(triangles, t + 3, starboard(a), starboard(c), starboard(b));
    }
    for (let i = 0; i < columns - 1; i += 1) {
      const from = i * rows + rows - 1;
      const to = from + rows;
      put(deck, strip, first + from, starboard(from), first + to);
      put(deck, strip + 3, first + to, starboard(from), starboard(to));
      strip += 6;
    }
  });
  return { vertices, triangles, deck };
}

/** Visits the triangles of the half that have area as node indices, outward counter-clockwise on the port side. */
export function eachFace(
  { columns, rows, x, y, z }: HalfSkin,
  visit: (a: number, b: number, c: number, slab: number, row: number, side: 0 | 1) => void,
): void {
  for (let i = 0; i < columns - 1; i += 1) {
    const dx = (x[i + 1] as number) - (x[i] as number);
    for (let j = 0; j < rows - 1; j += 1) {
      const a = i * rows + j;
      const b = a + rows;
      // Both triangles share the diagonal; with one of its ends apart in x, an edge within a column spans the area with it.
      const dy = (y[b + 1] as number) - (y[a] as number);
      const dz = (z[b + 1] as number) - (z[a] as number);
      if (hasArea(dx, dy, dz, (y[b + 1] as number) - (y[b] as number), (z[b + 1] as number) - (z[b] as number)))
        visit(a, b + 1, b, i, j, 0);
      if (hasArea(dx, dy, dz, (y[a + 1] as number) - (y[a] as number), (z[a + 1] as number) - (z[a] as number)))
        visit(a, a + 1, b + 1, i, j, 1);
    }
  }
}

/** Whether a diagonal and an edge within its column, which has no part along x, span more than nothing. */
function hasArea(dx: number, dy: number, dz: number, ey: number, ez: number): boolean {
  const across = dy * ez - dz * ey;
  return across * across + dx * dx * (ey * ey + ez * ez) > LEAST_AREA_M2 * LEAST_AREA_M2;
}
