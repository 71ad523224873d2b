import type { Vec3 } from '../../base/vec';
import { inTriangle, nearer, nearerEdge } from './closest';
import { gapOf } from './interpolant';
import { eachFace, type HalfSkin, withSkirt } from './skin';

/**
 * Free distance of a segment from the skin, exact on its triangles.
 *
 * The boat is folded to its port half. For a segment inside, the nearest point of the skin is nearest to one of its ends, or to
 * an edge that is reflex seen from inside, or the segment cuts a face: an edge that is convex seen from inside can never hold
 * the nearest point of the middle of a segment, so only ends and reflex edges are measured. Faces are found by slab of x and
 * then by z, which never falls from keel to sheer.
 *
 * In front of that stands a grid of distances from the skin, filled as it is asked. A distance changes by no more than the way
 * moved, so a node's distance less the way to the node is a lower bound; it trims both ends of a segment, and what is left is
 * measured exactly. The grid cannot change an answer below the cut-off.
 */
interface HalfBreadths {
  readonly aftM: number;
  readonly forwardM: number;
  halfBreadth(xM: number, zM: number): number;
  sheer(xM: number): number;
  sheerHalfBreadth(xM: number): number;
}

/** The sides go on upright to this height above the highest sheer. */
const SKIRT_M = 60;
/** Pitch of the grid of distances, and the greatest distance that it holds. */
const PITCH_M = 0.1;
const GREATEST_M = 0.3;
/** Steps through the grid shorter than this are dearer than measuring. */
const LEAST_STEP_M = 0.004;
/** What is returned for a segment that lies inside at both ends and cuts the skin between. */
const CUT = -1e-6;
/** Rounding of single-precision distances held in the grid. */
const SINGLE_ROUNDING_M = 1e-6;

export function clearanceField(
  half: HalfSkin,
  sections: HalfBreadths,
  { insetM, offsetM }: { insetM: number; offsetM: number },
): (a: Vec3, b: Vec3, cutoffM: number) => number {
  let folded: FoldedSkin | undefined;
  const off = Math.abs(offsetM);

  /** One side of the centre plane of the boat (y >= 0), then of the hull. */
  const within = (skin: FoldedSkin, a: Vec3, b: Vec3, cutoff: number): number => {
    const ya = a[1] - off;
    const yb = b[1] - off;
    if (ya * yb >= 0) return skin.signed(a[0], Math.abs(ya), a[2], b[0], Math.abs(yb), b[2], cutoff);
    const t = ya / (ya - yb);
    const x = a[0] + (b[0] - a[0]) * t;
    const z = a[2] + (b[2] - a[2]) * t;
    const first = skin.signed(a[0], Math.abs(ya), a[2], x, 0, z, cutoff);
    if (first < 0) return Math.min(first, skin.signed(x, 0, z, b[0], Math.abs(yb), b[2], cutoff));
    return Math.min(first, skin.signed(x, 0, z, b[0], Math.abs(yb), b[2], Math.min(cutoff, first)));
  };

  return (a, b, cutoffM) => {
    folded ??= new FoldedSkin(half, sections);
    const cutoff = cutoffM + insetM;
    if (off === 0) return within(folded, a, b, cutoff) - insetM;
    const up = (p: Vec3): Vec3 => [p[0], Math.abs(p[1]), p[2]];
    if (a[1] * b[1] >= 0) return within(folded, up(a), up(b), cutoff) - insetM;
    const t = a[1] / (a[1] - b[1]);
    const middle: Vec3 = [a[0] + (b[0] - a[0]) * t, 0, a[2] + (b[2] - a[2]) * t];
    return Math.min(within(folded, up(a), middle, cutoff), within(folded, middle, up(b), cutoff)) - insetM;
  };
}

class FoldedSkin {
  private readonly slabs: number;
  private readonly cells: number;
  private readonly slabX: Float64Array;
  private readonly cellLowY: Float64Array;
  private readonly cellHighY: Float64Array;
  /** Per slab and row: least and greatest z of the row within the slab; both rise with the row. */
  private readonly rowLowZ: Float64Array;
  private readonly rowHighZ: Float64Array;
  /** 13 numbers a triangle: corners, outward normal, its offset. Two triangles a cell. */
  private readonly faces: Float64Array;
  /** 0 no such triangle, else 1 + bits of its edges that are to be measured. */
  private readonly marks: Uint8Array;

  private readonly nodes: Float32Array;
  private readonly gridX: number;
  private readonly gridZ: number;
  private readonly countX: number;
  private readonly countY: number;
  private readonly countZ: number;

  constructor(
    half: HalfSkin,
    private readonly sections: HalfBreadths,
  ) {
    let highest = Number.NEGATIVE_INFINITY;
    let lowest = Number.POSITIVE_INFINITY;
    let widest = 0;
    for (let k = 0; k < half.y.length; k += 1) {
      highest = Math.max(highest, half.z[k] as number);
      lowest = Math.min(lowest, half.z[k] as number);
      widest = Math.max(widest, half.y[k] as number);
    }
    const skin = withSkirt(half, highest + SKIRT_M);
    const { rows } = skin;
    this.slabs = skin.columns - 1;
    this.cells = rows - 1;
    this.slabX = skin.x;
    this.cellLowY = new Float64Array(this.slabs * this.cells);
    this.cellHighY = new Float64Array(this.slabs * this.cells);
    this.rowLowZ = new Float64Array(this.slabs * rows);
    this.rowHighZ = new Float64Array(this.slabs * rows);
    for (let i = 0; i < this.slabs; i += 1)
      for (let j = 0; j < rows; j += 1) {
        const a = i * rows + j;
        this.rowLowZ[a] = Math.min(skin.z[a] as number, skin.z[a + rows] as number);
        this.rowHighZ[a] = Math.max(skin.z[a] as number, skin.z[a + rows] as number);
        if (j === this.cells) continue;
        const corners = [a, a + 1, a + rows, a + rows + 1].map((k) => skin.y[k] as number);
        this.cellLowY[i * this.cells + j] = Math.min(...corners);
        this.cellHighY[i * this.cells + j] = Math.max(...corners);
      }
    this.faces = new Float64Array(this.slabs * this.cells * 26);
    this.marks = new Uint8Array(this.slabs * this.cells * 2);
    this.fillFaces(skin);

    this.gridX = (half.x[0] as number) - PITCH_M;
    this.gridZ = lowest - PITCH_M;
    this.countX = Math.ceil(((half.x[half.columns - 1] as number) - this.gridX) / PITCH_M) + 2;
    this.countY = Math.ceil(widest / PITCH_M) + 2;
    this.countZ = Math.ceil((highest + 0.6 - this.gridZ) / PITCH_M) + 2;
    this.nodes = new Float32Array(this.countX * this.countY * this.countZ).fill(Number.NaN);
  }

  /** Distance from the skin, exact below the cut-off; negative outside: the depth of the end that lies deeper. */
  signed(ax: number, ay: number, az: number, bx: number, by: number, bz: number, cutoff: number): number {
    const dx = bx - ax;
    const dy = by - ay;
    const dz = bz - az;
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    let from = 0;
    let to = length;
    if (cutoff < GREATEST_M - PITCH_M) {
      const per = length > 0 ? 1 / length : 0;
      for (;;) {
        const t = from * per;
        const free = this.bound(ax + dx * t, ay + dy * t, az + dz * t) - cutoff;
        if (free >= 0 && from + free >= to) return cutoff;
        if (free < LEAST_STEP_M) break;
        from += free;
      }
      for (;;) {
        const t = to * per;
        const free = this.bound(ax + dx * t, ay + dy * t, az + dz * t) - cutoff;
        if (free >= 0 && to - free <= from) return cutoff;
        if (free < LEAST_STEP_M) break;
        to -= free;
      }
      if (from > 0 || to < length) {
        const s = from * per;
        const e = to * per;
        return this.exact(ax + dx * s, ay + dy * s, az + dz * s, ax + dx * e, ay + dy * e, az + dz * e, cutoff);
      }
    }
    return this.exact(ax, ay, az, bx, by, bz, cutoff);
  }

  private exact(ax: number, ay: number, az: number, bx: number, by: number, bz: number, cutoff: number): number {
    const insideA = this.inside(ax, ay, az);
    const insideB = this.inside(bx, by, bz);
    if (insideA && insideB) return this.unsigned(ax, ay, az, bx, by, bz, cutoff);
    const depthA = insideA ? 0 : this.pointDistance(ax, ay, az);
    const depthB = insideB ? 0 : this.pointDistance(bx, by, bz);
    return Math.min(CUT, -Math.max(depthA, depthB));
  }

  private inside(x: number, y: number, z: number): boolean {
    if (!(x >= this.sections.aftM && x <= this.sections.forwardM)) return false;
    if (z >= this.sections.sheer(x)) return y <= this.sections.sheerHalfBreadth(x);
    return y <= this.sections.halfBreadth(x, z);
  }

  private pointDistance(x: number, y: number, z: number): number {
    for (let reach = this.reach(x, y, z); ; reach *= 4) {
      const found = this.unsigned(x, y, z, x, y, z, reach);
      if (found < reach || reach > 1e5) return found;
    }
  }

  /** A little more than the distance of a point from the skin can be, from the nearest node; a first guess off the grid. */
  private reach(x: number, y: number, z: number): number {
    const i = Math.round((x - this.gridX) / PITCH_M);
    const j = Math.round(y / PITCH_M);
    const k = Math.round((z - this.gridZ) / PITCH_M);
    const node = this.node(i, j, k);
    if (Math.abs(node) > GREATEST_M - SINGLE_ROUNDING_M) return GREATEST_M;
    const ex = x - this.gridX - i * PITCH_M;
    const ey = y - j * PITCH_M;
    const ez = z - this.gridZ - k * PITCH_M;
    return Math.abs(node) + 2 * SINGLE_ROUNDING_M + Math.sqrt(ex * ex + ey * ey + ez * ez);
  }

  /** Lower bound of the signed distance at a point, from the nearest node; -1 off the grid. */
  private bound(x: number, y: number, z: number): number {
    const i = Math.round((x - this.gridX) / PITCH_M);
    const j = Math.round(y / PITCH_M);
    const k = Math.round((z - this.gridZ) / PITCH_M);
    const node = this.node(i, j, k);
    const ex = x - this.gridX - i * PITCH_M;
    const ey = y - j * PITCH_M;
    const ez = z - this.gridZ - k * PITCH_M;
    return node - SINGLE_ROUNDING_M - Math.sqrt(ex * ex + ey * ey + ez * ez);
  }

  /** Signed distance of a node from the skin, no farther than the grid holds; -1 off the grid. */
  private node(i: number, j: number, k: number): number {
    if (i < 0 || i >= this.countX || j >= this.countY || k < 0 || k >= this.countZ) return -1;
    const index = (i * this.countY + j) * this.countZ + k;
    const known = this.nodes[index] as number;
    if (!Number.isNaN(known)) return known;
    const x = this.gridX + i * PITCH_M;
    const y = j * PITCH_M;
    const z = this.gridZ + k * PITCH_M;
    const away = this.unsigned(x, y, z, x, y, z, GREATEST_M);
    this.nodes[index] = this.inside(x, y, z) ? away : -away;
    return this.nodes[index] as number;
  }

  /** Distance of a segment that lies inside (or of a point anywhere) from the triangles; CUT where it cuts one. */
  private unsigned(ax: number, ay: number, az: number, bx: number, by: number, bz: number, cutoff: number): number {
    const { slabX, rowLowZ, rowHighZ, cellLowY, cellHighY, faces, marks, cells } = this;
    const rows = cells + 1;
    const isPoint = ax === bx && ay === by && az === bz;
    let best = cutoff;
    const lowX = Math.min(ax, bx);
    const highX = Math.max(ax, bx);
    const dx = bx - ax;
    const lastSlab = this.slabs - 1;
    let slab = gapOf(slabX, lowX - best);
    // Slabs of no width (a closed end) share their x with a neighbour: step back over them.
    while (slab > 0 && (slabX[slab] as number) >= lowX - best) slab -= 1;
    for (; slab <= lastSlab; slab += 1) {
      const slabFrom = slabX[slab] as number;
      const slabTo = slabX[slab + 1] as number;
      if (slabFrom > highX + best) break;
      if (slabTo < lowX - best) continue;
      // The part of the segment that can come within `best` of this slab.
      let s = 0;
      let e = 1;
      if (dx > 1e-12 || dx < -1e-12) {
        const t1 = (slabFrom - best - ax) / dx;
        const t2 = (slabTo + best - ax) / dx;
        s = Math.max(0, Math.min(t1, t2));
        e = Math.min(1, Math.max(t1, t2));
        if (s > e) continue;
      }
      const z1 = az + (bz - az) * s;
      const z2 = az + (bz - az) * e;
      const y1 = ay + (by - ay) * s;
      const y2 = ay + (by - ay) * e;
      const lowZ = Math.min(z1, z2);
      const highZ = Math.max(z1, z2);
      const lowY = Math.min(y1, y2);
      const highY = Math.max(y1, y2);
      // First cell whose upper row reaches the segment.
      let cell = 0;
      let high = cells;
      const base = slab * rows;
      while (cell < high) {
        const middle = (cell + high) >> 1;
        if ((rowHighZ[base + middle + 1] as number) < lowZ - best) cell = middle + 1;
        else high = middle;
      }
      for (; cell < cells; cell += 1) {
        if ((rowLowZ[base + cell] as number) > highZ + best) break;
        const here = slab * cells + cell;
        if (lowY > (cellHighY[here] as number) + best || highY < (cellLowY[here] as number) - best) continue;
        for (let face = 2 * here; face <= 2 * here + 1; face += 1) {
          const mark = marks[face] as number;
          if (mark === 0) continue;
          const f = 13 * face;
          const nx = faces[f + 9] as number;
          const ny = faces[f + 10] as number;
          const nz = faces[f + 11] as number;
          const off = faces[f + 12] as number;
          const heightA = nx * ax + ny * ay + nz * az - off;
          const heightB = nx * bx + ny * by + nz * bz - off;
          const sameSide = heightA * heightB > 0;
          const absA = Math.abs(heightA);
          const absB = Math.abs(heightB);
          if (sameSide && absA >= best && absB >= best) continue;
          const p = f;
          const q = f + 3;
          const r = f + 6;
          if (absA < best) best = nearer(best, ax, ay, az, faces, p, q, r);
          if (isPoint) continue;
          if (absB < best) best = nearer(best, bx, by, bz, faces, p, q, r);
          if (!sameSide && heightA !== heightB) {
            const t = heightA / (heightA - heightB);
            if (inTriangle(ax + dx * t, ay + (by - ay) * t, az + (bz - az) * t, faces, f + 9, p, q, r)) return CUT;
          }
          const edges = mark - 1;
          if (edges & 1) best = nearerEdge(best, ax, ay, az, bx, by, bz, faces, p, q);
          if (edges & 2) best = nearerEdge(best, ax, ay, az, bx, by, bz, faces, q, r);
          if (edges & 4) best = nearerEdge(best, ax, ay, az, bx, by, bz, faces, r, p);
        }
      }
    }
    return best;
  }

  /** Writes the triangles and marks the edges that are reflex seen from inside, or whose second face is missing. */
  private fillFaces(skin: HalfSkin): void {
    const { faces, marks } = this;
    const welded = weldedNodes(skin);
    // Edges that have met one face so far, as 3 * face + edge, in a list for each of their nodes of lower number.
    const firstAt = new Int32Array(skin.y.length).fill(-1);
    const nextAt = new Int32Array(3 * marks.length);
    const farNode = new Int32Array(3 * marks.length);
    const above = (face: number, corner: number): number => {
      const f = 13 * face;
      return (
        (faces[f + 9] as number) * (faces[corner] as number) +
        (faces[f + 10] as number) * (faces[corner + 1] as number) +
        (faces[f + 11] as number) * (faces[corner + 2] as number) -
        (faces[f + 12] as number)
      );
    };
    const put = (place: number, node: number): void => {
      faces[place] = skin.x[Math.floor(node / skin.rows)] as number;
      faces[place + 1] = skin.y[node] as number;
      faces[place + 2] = skin.z[node] as number;
    };
    const meet = (face: number, edge: number, a: number, b: number): void => {
      const own = 3 * face + edge;
      const low = Math.min(a, b);
      const high = Math.max(a, b);
      let before = -1;
      let other = firstAt[low] as number;
      while (other >= 0 && farNode[other] !== high) {
        before = other;
        other = nextAt[other] as number;
      }
      if (other < 0) {
        farNode[own] = high;
        nextAt[own] = firstAt[low] as number;
        firstAt[low] = own;
        return;
      }
      if (before < 0) firstAt[low] = nextAt[other] as number;
      else nextAt[before] = nextAt[other] as number;
      // Outward normals: a neighbour's corner above this face's plane means that the skin folds inward here.
      const across = Math.floor(other / 3);
      if (Math.max(above(face, opposite(other)), above(across, opposite(own))) > 1e-10) this.mark(face, edge);
    };
    eachFace(skin, (a, b, c, slab, row, side) => {
      const face = 2 * (slab * this.cells + row) + side;
      const f = 13 * face;
      put(f, a);
      put(f + 3, b);
      put(f + 6, c);
      this.fillPlane(f);
      marks[face] = 1;
      meet(face, 0, welded[a] as number, welded[b] as number);
      meet(face, 1, welded[b] as number, welded[c] as number);
      meet(face, 2, welded[c] as number, welded[a] as number);
    });
    for (const first of firstAt)
      for (let open = first; open >= 0; open = nextAt[open] as number) {
        const face = Math.floor(open / 3);
        const edge = open % 3;
        const f = 13 * face;
        const isOnCentre = faces[f + 3 * edge + 1] === 0 && faces[f + 3 * ((edge + 1) % 3) + 1] === 0;
        // On the centre plane the second face is the mirror image of the first.
        if (!isOnCentre || (faces[f + 10] as number) < 0) this.mark(face, edge);
      }
  }

  /** Outward normal and offset of the triangle whose numbers begin at `f`, from its corners. */
  private fillPlane(f: number): void {
    const { faces } = this;
    const [px, py, pz] = [faces[f] as number, faces[f + 1] as number, faces[f + 2] as number];
    const ux = (faces[f + 3] as number) - px;
    const uy = (faces[f + 4] as number) - py;
    const uz = (faces[f + 5] as number) - pz;
    const vx = (faces[f + 6] as number) - px;
    const vy = (faces[f + 7] as number) - py;
    const vz = (faces[f + 8] as number) - pz;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
    faces[f + 9] = nx / size;
    faces[f + 10] = ny / size;
    faces[f + 11] = nz / size;
    faces[f + 12] = (nx * px + ny * py + nz * pz) / size;
  }

  private mark(face: number, edge: number): void {
    this.marks[face] = (((this.marks[face] as number) - 1) | (1 << edge)) + 1;
  }
}

/** Where the numbers of the corner begin that lies across from an edge, given as 3 * face + edge. */
const opposite = (edge: number): number => 13 * Math.floor(edge / 3) + 3 * (((edge % 3) + 2) % 3);

/** Nodes at the same place get the index of the first of them. Only columns at one x, where an end is closed, share any. */
function weldedNodes({ columns, rows, x, y, z }: HalfSkin): Uint32Array {
  const welded = new Uint32Array(columns * rows);
  let first = 0;
  for (let i = 0; i < columns; i += 1) {
    if (x[i] !== x[first / rows]) first = i * rows;
    for (let k = i * rows; k < (i + 1) * rows; k += 1) {
      let same = first;
      while (same < k && (y[same] !== y[k] || z[same] !== z[k])) same += 1;
      welded[k] = same;
    }
  }
  return welded;
}
