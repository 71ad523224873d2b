import { above, distanceToRegion, distanceToTriangle, inRegion, onto, type P3 } from '../geometry-oracle';
import type { HullMesh } from '../hull-oracle';
import type { OraclePanel } from '../interior-oracle';
import type { Interior } from '../run-oracle';

/** Points 40 mm apart over the whole interior, each with its distance to the nearest thing that is there whatever the line. */
export const SPACING = 0.04;
/** Distances beyond this are not told apart. */
export const FAR = 0.07;

export interface Lattice {
  readonly origin: P3;
  readonly count: readonly [number, number, number];
  /** To things, walls and the inside of the hull; never above FAR. */
  readonly clear: Float32Array;
  /** To the skin itself; never above FAR. */
  readonly skin: Float32Array;
  /** Index of the compartment, -1 outside of all or outside of the hull. */
  readonly room: Int16Array;
  /** `a * rooms + b` for compartments that an open panel joins. */
  readonly joined: ReadonlySet<number>;
  readonly rooms: number;
}

export const pointOf = ({ origin, count }: Lattice, node: number): P3 => {
  const [nx, ny] = count;
  return [
    origin[0] + SPACING * (node % nx),
    origin[1] + SPACING * (Math.floor(node / nx) % ny),
    origin[2] + SPACING * Math.floor(node / (nx * ny)),
  ];
};

/** Nearest node, or -1 beside the lattice. */
export function nodeAt({ origin, count }: Lattice, p: P3): number {
  const [i, j, k] = [0, 1, 2].map((axis) => Math.round(((p[axis] as number) - (origin[axis] as number)) / SPACING)) as [
    number,
    number,
    number,
  ];
  const [nx, ny, nz] = count;
  return i < 0 || j < 0 || k < 0 || i >= nx || j >= ny || k >= nz ? -1 : i + nx * (j + ny * k);
}

type Visit = (node: number, p: P3) => void;

/** Nodes within a margin of a box. */
export function visit(
  { origin, count }: Pick<Lattice, 'origin' | 'count'>,
  low: P3,
  high: P3,
  margin: number,
  see: Visit,
): void {
  const [nx, ny] = count;
  const range = [0, 1, 2].map((axis) => [
    Math.max(0, Math.ceil(((low[axis] as number) - margin - (origin[axis] as number)) / SPACING)),
    Math.min(
      (count[axis] as number) - 1,
      Math.floor(((high[axis] as number) + margin - (origin[axis] as number)) / SPACING),
    ),
  ]) as [[number, number], [number, number], [number, number]];
  for (let k = range[2][0]; k <= range[2][1]; k++)
    for (let j = range[1][0]; j <= range[1][1]; j++)
      for (let i = range[0][0]; i <= range[0][1]; i++)
        see(i + nx * (j + ny * k), [origin[0] + SPACING * i, origin[1] + SPACING * j, origin[2] + SPACING * k]);
}

export function latticeOf(interior: Interior, hull: HullMesh): Lattice {
  const low = [0, 1, 2].map((k) => Math.min(...interior.prisms.map((one) => one.low[k] as number)));
  const high = [0, 1, 2].map((k) => Math.max(...interior.prisms.map((one) => one.high[k] as number)));
  const origin: P3 = [(low[0] as number) + 0.013, (low[1] as number) + 0.011, (low[2] as number) + 0.017];
  const count = [0, 1, 2].map((k) =>
    Math.max(1, Math.floor(((high[k] as number) - (origin[k] as number)) / SPACING) + 1),
  ) as [number, number, number];
  const size = count[0] * count[1] * count[2];
  const grid = { origin, count };
  const clear = new Float32Array(size).fill(FAR);
  const skin = new Float32Array(size).fill(FAR + hull.insetM);
  const room = roomsOf(grid, interior, insideOf(grid, hull));
  skinField(grid, hull, skin, room);
  for (let node = 0; node < size; node++)
    clear[node] = Math.min(clear[node] as number, (skin[node] as number) - hull.insetM);
  const lower = (node: number, d: number): void => {
    if (d < (clear[node] as number)) clear[node] = d;
  };
  for (const solid of interior.solids)
    visit(grid, solid.low, solid.high, FAR, (node, p) => {
      if ((room[node] as number) >= 0 && (clear[node] as number) > 0) lower(node, solid.distance(p));
    });
  for (const wall of interior.walls)
    visit(grid, wall.low, wall.high, FAR, (node, p) => {
      if ((room[node] as number) < 0 || Math.abs(above(wall.region.frame, p)) >= (clear[node] as number)) return;
      lower(node, distanceToRegion(wall.region, p));
    });
  const rooms = interior.prisms.length;
  const index = new Map(interior.prisms.map((one, k) => [one.id, k]));
  const joined = new Set<number>();
  for (const panel of interior.panels) {
    if (panel.rule !== 'open') continue;
    const [a, b] = panel.between.map((id) => index.get(id) ?? -1) as [number, number];
    joined.add(a * rooms + b);
    joined.add(b * rooms + a);
  }
  return { ...grid, clear, skin, room, joined, rooms };
}

type Grid = Pick<Lattice, 'origin' | 'count'>;

function roomsOf(grid: Grid, interior: Interior, inside: Uint8Array): Int16Array {
  const room = new Int16Array(inside.length).fill(-1);
  interior.prisms.forEach((prism, k) => {
    visit(grid, prism.low, prism.high, 0, (node, p) => {
      if (inside[node] === 1 && prism.contains(p)) room[node] = k;
    });
  });
  const index = new Map(interior.prisms.map((one, k) => [one.id, k]));
  for (const panel of interior.panels)
    if (panel.rule === 'open') fillGap(grid, panel, room, inside, index.get(panel.between[0]) ?? -1);
  return room;
}

/** Between the two faces of an open panel there is room too. */
function fillGap(grid: Grid, panel: OraclePanel, room: Int16Array, inside: Uint8Array, as: number): void {
  for (const region of panel.regions) {
    const corners = region.boundary.flat().map(([u, v]): P3 => {
      const { origin, u: a, v: b } = region.frame;
      return [0, 1, 2].map((k) => (origin[k] as number) + u * (a[k] as number) + v * (b[k] as number)) as unknown as P3;
    });
    const bound = (pick: (...v: number[]) => number): P3 =>
      [0, 1, 2].map((k) => pick(...corners.map((p) => p[k] as number))) as unknown as P3;
    visit(grid, bound(Math.min), bound(Math.max), panel.gapM, (node, p) => {
      if (room[node] !== -1 || inside[node] !== 1) return;
      if (Math.abs(above(region.frame, p)) <= panel.gapM / 2 + 1e-6 && inRegion(region, onto(region.frame, p)))
        room[node] = as;
    });
  }
}

const cornerOf = ({ vertices, triangles }: HullMesh, k: number): P3 => {
  const i = 3 * (triangles[k] as number);
  return [vertices[i] as number, vertices[i + 1] as number, vertices[i + 2] as number];
};

/** Nodes within the skin: rows athwartships, in and out at each meeting with a triangle. */
function insideOf({ origin, count }: Grid, hull: HullMesh): Uint8Array {
  const [nx, ny, nz] = count;
  const meetings: number[][] = Array.from({ length: nx * nz }, () => []);
  for (let t = 0; t < hull.triangles.length; t += 3) {
    const [a, b, c] = [cornerOf(hull, t), cornerOf(hull, t + 1), cornerOf(hull, t + 2)];
    const area = (b[0] - a[0]) * (c[2] - a[2]) - (b[2] - a[2]) * (c[0] - a[0]);
    if (Math.abs(area) < 1e-14) continue;
    const from = (k: 0 | 2): number => Math.max(0, Math.ceil((Math.min(a[k], b[k], c[k]) - origin[k]) / SPACING));
    const to = (k: 0 | 2): number =>
      Math.min((count[k] as number) - 1, Math.floor((Math.max(a[k], b[k], c[k]) - origin[k]) / SPACING));
    for (let i = from(0); i <= to(0); i++)
      for (let k = from(2); k <= to(2); k++) {
        // A hair off the node, so that no row runs along an edge of the net.
        const [x, z] = [origin[0] + SPACING * i + 1.7e-6, origin[2] + SPACING * k + 0.9e-6];
        const wb = ((x - a[0]) * (c[2] - a[2]) - (z - a[2]) * (c[0] - a[0])) / area;
        const wc = ((b[0] - a[0]) * (z - a[2]) - (b[2] - a[2]) * (x - a[0])) / area;
        if (wb < 0 || wc < 0 || wb + wc > 1) continue;
        meetings[i + nx * k]?.push(a[1] * (1 - wb - wc) + b[1] * wb + c[1] * wc);
      }
  }
  const inside = new Uint8Array(nx * ny * nz);
  for (let k = 0; k < nz; k++)
    for (let i = 0; i < nx; i++) {
      const cuts = (meetings[i + nx * k] as number[]).sort((p, q) => p - q);
      for (let m = 0; m + 1 < cuts.length; m += 2)
        for (let j = 0; j < ny; j++) {
          const y = origin[1] + SPACING * j;
          if (y > (cuts[m] as number) && y < (cuts[m + 1] as number)) inside[i + nx * (j + ny * k)] = 1;
        }
    }
  return inside;
}

function skinField(grid: Grid, hull: HullMesh, skin: Float32Array, room: Int16Array): void {
  const reach = FAR + hull.insetM;
  for (let t = 0; t < hull.triangles.length; t += 3) {
    const [a, b, c] = [cornerOf(hull, t), cornerOf(hull, t + 1), cornerOf(hull, t + 2)];
    const bound = (pick: (...v: number[]) => number): P3 =>
      [0, 1, 2].map((k) => pick(a[k] as number, b[k] as number, c[k] as number)) as unknown as P3;
    visit(grid, bound(Math.min), bound(Math.max), reach, (node, p) => {
      if ((room[node] as number) < 0) return;
      const d = distanceToTriangle(p, a, b, c);
      if (d < (skin[node] as number)) skin[node] = d;
    });
  }
}
