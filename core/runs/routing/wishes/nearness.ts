/**
 * How far places are from what a clip can be screwed to: walls, panels and the hull with its lining. Kept on a grid that is filled where
 * somebody looks, and read between its nodes: exact beside a plane, a few centimetres off in corners, and fifty times cheaper than asking.
 */
import * as portable from '../../../base/portable';
import type { HullSurface } from '../../../shape/hull/types';
import type { Structure } from '../structure';
import { HANGING_FULL_M } from './wishes';

const PITCH_M = 0.08;
/** Distances beyond this are kept as this: more than a hose of any radius needs to hang free. */
const FAR_M = HANGING_FULL_M + 0.15;
const MOST_NODES = 6e6;
const BLOCK = 8;
const UNASKED = -1;

export class Nearness {
  private readonly pitch: number;
  private readonly low: readonly [number, number, number];
  private readonly count: readonly [number, number, number];
  private readonly nodes: Float32Array;
  private readonly blocks = new Map<number, Int32Array>();

  constructor(
    private readonly structure: Structure,
    private readonly hull: HullSurface | null,
  ) {
    const middle: [number, number, number] = [0, 0, 0];
    const size: [number, number, number] = [0, 0, 0];
    const { cellBounds } = structure;
    for (let axis = 0; axis < 3; axis += 1) {
      let least = Number.POSITIVE_INFINITY;
      let most = Number.NEGATIVE_INFINITY;
      for (let k = axis; k < cellBounds.length; k += 6) {
        least = Math.min(least, cellBounds[k] as number);
        most = Math.max(most, cellBounds[k + 3] as number);
      }
      middle[axis] = Number.isFinite(least) ? (least + most) / 2 : 0;
      size[axis] = Number.isFinite(least) ? most - least + 2 * PITCH_M : 0;
    }
    this.pitch = Math.max(PITCH_M, portable.cbrt((size[0] * size[1] * size[2]) / MOST_NODES));
    const along = (axis: 0 | 1 | 2): number => Math.ceil(size[axis] / this.pitch) + 2;
    this.count = [along(0), along(1), along(2)];
    // Centred, so that a mirrored boat has a mirrored grid.
    const lowest = (axis: 0 | 1 | 2): number => middle[axis] - (this.pitch * (this.count[axis] - 1)) / 2;
    this.low = [lowest(0), lowest(1), lowest(2)];
    this.nodes = new Float32Array(this.count[0] * this.count[1] * this.count[2]).fill(UNASKED);
  }

  /** Distance from the nearest surface, metres, no more than `FAR_M`. */
  at(x: number, y: number, z: number): number {
    const { one } = this;
    one[0] = x;
    one[1] = y;
    one[2] = z;
    this.read(one, 1, one);
    return one[0] as number;
  }
  private readonly one = new Float64Array(3);

  /** The same at the first `count` points, given as xyz, into `found`. */
  read(points: Float64Array, count: number, found: Float64Array): void {
    for (let n = 0; n < count; n += 1)
      found[n] = this.between(points[3 * n] as number, points[3 * n + 1] as number, points[3 * n + 2] as number);
  }

  private between(x: number, y: number, z: number): number {
    const { pitch, low, count, nodes } = this;
    const fx = (x - low[0]) / pitch;
    const fy = (y - low[1]) / pitch;
    const fz = (z - low[2]) / pitch;
    const i = Math.floor(fx);
    const j = Math.floor(fy);
    const k = Math.floor(fz);
    if (!(i >= 0 && j >= 0 && k >= 0 && i + 1 < count[0] && j + 1 < count[1] && k + 1 < count[2])) return 0;
    const sy = count[2];
    const sx = count[1] * sy;
    const base = i * sx + j * sy + k;
    let d0 = nodes[base] as number;
    let d1 = nodes[base + 1] as number;
    let d2 = nodes[base + sy] as number;
    let d3 = nodes[base + sy + 1] as number;
    let d4 = nodes[base + sx] as number;
    let d5 = nodes[base + sx + 1] as number;
    let d6 = nodes[base + sx + sy] as number;
    let d7 = nodes[base + sx + sy + 1] as number;
    // Below nothing: not asked for yet.
    if (d0 < 0) d0 = this.fill(i, j, k);
    if (d1 < 0) d1 = this.fill(i, j, k + 1);
    if (d2 < 0) d2 = this.fill(i, j + 1, k);
    if (d3 < 0) d3 = this.fill(i, j + 1, k + 1);
    if (d4 < 0) d4 = this.fill(i + 1, j, k);
    if (d5 < 0) d5 = this.fill(i + 1, j, k + 1);
    if (d6 < 0) d6 = this.fill(i + 1, j + 1, k);
    if (d7 < 0) d7 = this.fill(i + 1, j + 1, k + 1);
    const u = fx - i;
    const v = fy - j;
    const w = fz - k;
    const near = (d0 + (d1 - d0) * w) * (1 - v) + (d2 + (d3 - d2) * w) * v;
    const far = (d4 + (d5 - d4) * w) * (1 - v) + (d6 + (d7 - d6) * w) * v;
    return near + (far - near) * u;
  }

  private fill(i: number, j: number, k: number): number {
    const x = this.low[0] + i * this.pitch;
    const y = this.low[1] + j * this.pitch;
    const z = this.low[2] + k * this.pitch;
    const { walls } = this.structure;
    let least = FAR_M;
    const near = this.wallsOf(i >> 3, j >> 3, k >> 3);
    for (let n = 0; n < near.length; n += 1) least = walls.distance(near[n] as number, x, y, z, x, y, z, least);
    if (this.hull) {
      this.spot[0] = x;
      this.spot[1] = y;
      this.spot[2] = z;
      least = Math.min(least, this.hull.clearance(this.spot, this.spot, least));
    }
    const found = Math.max(0, least);
    this.nodes[(i * this.count[1] + j) * this.count[2] + k] = found;
    return this.nodes[(i * this.count[1] + j) * this.count[2] + k] as number;
  }
  private readonly spot: [number, number, number] = [0, 0, 0];

  /** Walls that come near a block of nodes. */
  private wallsOf(i: number, j: number, k: number): Int32Array {
    const key = (i * 65536 + j) * 65536 + k;
    const known = this.blocks.get(key);
    if (known) return known;
    const side = BLOCK * this.pitch;
    const from = [this.low[0] + i * side, this.low[1] + j * side, this.low[2] + k * side];
    const { size, bounds } = this.structure.walls;
    const found: number[] = [];
    for (let n = 0; n < size; n += 1) {
      let apart = false;
      for (let axis = 0; axis < 3 && !apart; axis += 1)
        apart =
          (bounds[6 * n + axis] as number) > (from[axis] as number) + side + FAR_M ||
          (bounds[6 * n + 3 + axis] as number) < (from[axis] as number) - FAR_M;
      if (!apart) found.push(n);
    }
    const list = Int32Array.from(found);
    this.blocks.set(key, list);
    return list;
  }
}

const known = new WeakMap<Structure, { readonly hull: HullSurface | null; readonly nearness: Nearness }[]>();
/** The hull within its ribs, and the bare one: no more are asked for at a time. */
const MOST_HULLS = 2;

/** One grid for a layout in its hull; all lines share it. */
export function nearnessOf(structure: Structure, hull: HullSurface | null): Nearness {
  const entries = known.get(structure) ?? [];
  const found = entries.find((one) => one.hull === hull);
  if (found) return found.nearness;
  const nearness = new Nearness(structure, hull);
  known.set(structure, [...entries, { hull, nearness }].slice(-MOST_HULLS));
  return nearness;
}
