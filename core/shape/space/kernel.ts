/**
 * Distances from a segment to solids, in closed form. Everything that must stay clear of something asks here.
 * A positive answer is the distance, exact to rounding, and `cutoff` when it is at least that. A negative answer means that the
 * segment enters the solid: its size is the least shift along one face normal that takes the entering piece out again.
 * Coordinates go in as numbers, not as tuples: these run tens of thousands of times for one hose.
 */
import * as portable from '../../base/portable';
import { cross, dot, squareTo, subtract, unit, type Vec3 } from '../../base/vec';
import { clipLinear, clipQuadratic, cylinderDepth, rimLeast, segmentBox, squaredToStored } from './segment-distance';
import type { Solid } from './solids';

/** A convex plate: a polygon in its middle plane, with a thickness. */
export interface PlateSolid {
  readonly type: 'plate';
  readonly id: string;
  readonly label: string;
  readonly polygon: readonly Vec3[];
  readonly normal: Vec3;
  readonly thicknessM: number;
}
export type AnySolid = Solid | PlateSolid;

const BOX = 0;
const CYLINDER = 1;
const CAPSULE = 2;
const PLATE = 3;

/** Solids packed for many queries, each with its bounds. */
export class SolidPack {
  readonly size: number;
  private readonly kinds: Uint8Array;
  private readonly starts: Int32Array;
  private readonly data: Float64Array;
  /** Bounds: low xyz then high xyz, six numbers a solid. */
  readonly bounds: Float64Array;

  constructor(readonly solids: readonly AnySolid[]) {
    this.size = solids.length;
    this.kinds = new Uint8Array(this.size);
    this.starts = new Int32Array(this.size);
    this.bounds = new Float64Array(this.size * 6);
    const data: number[] = [];
    solids.forEach((solid, index) => {
      this.starts[index] = data.length;
      this.kinds[index] = pushSolid(solid, data);
      this.bounds.set(boundsOf(solid), index * 6);
    });
    this.data = Float64Array.from(data);
  }

  /** Distance from the segment to one solid, or cutoffM when it is at least that far; negative when the segment enters it. */
  distance(
    index: number,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cutoffM: number,
  ): number {
    const bounds = this.bounds;
    const at = index * 6;
    if (
      (ax < bx ? bx : ax) < (bounds[at] as number) - cutoffM ||
      (ay < by ? by : ay) < (bounds[at + 1] as number) - cutoffM ||
      (az < bz ? bz : az) < (bounds[at + 2] as number) - cutoffM ||
      (ax < bx ? ax : bx) > (bounds[at + 3] as number) + cutoffM ||
      (ay < by ? ay : by) > (bounds[at + 4] as number) + cutoffM ||
      (az < bz ? az : bz) > (bounds[at + 5] as number) + cutoffM
    )
      return cutoffM;
    const kind = this.kinds[index];
    const start = this.starts[index] as number;
    const exact =
      kind === BOX
        ? this.toBox(start, ax, ay, az, bx, by, bz)
        : kind === PLATE
          ? this.toPlate(start, ax, ay, az, bx, by, bz, cutoffM)
          : kind === CAPSULE
            ? this.toCapsule(start, ax, ay, az, bx, by, bz)
            : this.toCylinder(start, ax, ay, az, bx, by, bz);
    return exact < cutoffM ? exact : cutoffM;
  }

  private toBox(s: number, ax: number, ay: number, az: number, bx: number, by: number, bz: number): number {
    const d = this.data;
    const px = ax - (d[s] as number);
    const py = ay - (d[s + 1] as number);
    const pz = az - (d[s + 2] as number);
    const vx = bx - ax;
    const vy = by - ay;
    const vz = bz - az;
    const xx = d[s + 6] as number;
    const xy = d[s + 7] as number;
    const xz = d[s + 8] as number;
    const yx = d[s + 9] as number;
    const yy = d[s + 10] as number;
    const yz = d[s + 11] as number;
    const zx = d[s + 12] as number;
    const zy = d[s + 13] as number;
    const zz = d[s + 14] as number;
    return segmentBox(
      px * xx + py * xy + pz * xz,
      px * yx + py * yy + pz * yz,
      px * zx + py * zy + pz * zz,
      vx * xx + vy * xy + vz * xz,
      vx * yx + vy * yy + vz * yz,
      vx * zx + vy * zy + vz * zz,
      d[s + 3] as number,
      d[s + 4] as number,
      d[s + 5] as number,
    );
  }

  private toCapsule(s: number, ax: number, ay: number, az: number, bx: number, by: number, bz: number): number {
    return Math.sqrt(squaredToStored(ax, ay, az, bx, by, bz, this.data, s)) - (this.data[s + 6] as number);
  }

  private toCylinder(s: number, ax: number, ay: number, az: number, bx: number, by: number, bz: number): number {
    const data = this.data;
    const nx = data[s + 3] as number;
    const ny = data[s + 4] as number;
    const nz = data[s + 5] as number;
    const half = data[s + 6] as number;
    const radius = data[s + 7] as number;
    const px = ax - (data[s] as number);
    const py = ay - (data[s + 1] as number);
    const pz = az - (data[s + 2] as number);
    const vx = bx - ax;
    const vy = by - ay;
    const vz = bz - az;
    const h0 = px * nx + py * ny + pz * nz;
    const dh = vx * nx + vy * ny + vz * nz;
    const wx = px - nx * h0;
    const wy = py - ny * h0;
    const wz = pz - nz * h0;
    const ux = vx - nx * dh;
    const uy = vy - ny * dh;
    const uz = vz - nz * dh;
    // Radial distance squared along the segment: a t^2 + 2 b t + c.
    const a = ux * ux + uy * uy + uz * uz;
    const b = ux * wx + uy * wy + uz * wz;
    const c = wx * wx + wy * wy + wz * wz;
    const between = clipLinear(h0, dh, -half, half);
    let least = Number.POSITIVE_INFINITY;
    if (between) {
      const [from, to] = between;
      const t = a > 1e-30 ? Math.min(to, Math.max(from, -b / a)) : from;
      const rho = Math.sqrt(Math.max(0, a * t * t + 2 * b * t + c));
      if (rho < radius) return -cylinderDepth(h0, dh, half, a, b, c, radius, from, to, rho);
      least = rho - radius;
    }
    for (let side = -1; side <= 1; side += 2) {
      // Beyond one end, heights measured from that end's disc.
      const height0 = side * h0 - half;
      const rise = side * dh;
      const beyond = clipLinear(height0, rise, 0, Number.POSITIVE_INFINITY);
      if (!beyond) continue;
      const [from, to] = beyond;
      const inside = clipQuadratic(a, b, c - radius * radius, from, to);
      if (!inside) {
        least = Math.min(least, rimLeast(height0, rise, a, b, c, radius, from, to));
        continue;
      }
      const [enter, leave] = inside;
      least = Math.min(least, Math.max(0, height0 + rise * enter), Math.max(0, height0 + rise * leave));
      if (enter > from) least = Math.min(least, rimLeast(height0, rise, a, b, c, radius, from, enter));
      if (leave < to) least = Math.min(least, rimLeast(height0, rise, a, b, c, radius, leave, to));
    }
    return least;
  }

  private toPlate(
    s: number,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
    cutoff: number,
  ): number {
    const d = this.data;
    const half = d[s + 12] as number;
    const count = d[s + 13] as number;
    const px = ax - (d[s] as number);
    const py = ay - (d[s + 1] as number);
    const pz = az - (d[s + 2] as number);
    const qx = bx - (d[s] as number);
    const qy = by - (d[s + 1] as number);
    const qz = bz - (d[s + 2] as number);
    const nx = d[s + 9] as number;
    const ny = d[s + 10] as number;
    const nz = d[s + 11] as number;
    const h0 = px * nx + py * ny + pz * nz;
    const h1 = qx * nx + qy * ny + qz * nz;
    const reach = half + cutoff;
    if ((h0 >= reach && h1 >= reach) || (h0 <= -reach && h1 <= -reach)) return cutoff;
    const ux = d[s + 3] as number;
    const uy = d[s + 4] as number;
    const uz = d[s + 5] as number;
    const vx = d[s + 6] as number;
    const vy = d[s + 7] as number;
    const vz = d[s + 8] as number;
    const x0 = px * ux + py * uy + pz * uz;
    const y0 = px * vx + py * vy + pz * vz;
    const dx = qx * ux + qy * uy + qz * uz - x0;
    const dy = qx * vx + qy * vy + qz * vz - y0;
    const dh = h1 - h0;
    const first = s + 14;
    let least = cutoff * cutoff;
    let from = 0;
    let to = 1;
    // Between the faces: the distance is that in the plane.
    let open = true;
    if (dh === 0) open = Math.abs(h0) <= half;
    else {
      const one = (-half - h0) / dh;
      const other = (half - h0) / dh;
      from = Math.max(0, Math.min(one, other));
      to = Math.min(1, Math.max(one, other));
      open = from <= to;
    }
    if (open) {
      let enter = from;
      let leave = to;
      for (let k = 0; k < count && enter <= leave; k += 1) {
        const e = first + 5 * k;
        const out = (d[e + 2] as number) * x0 + (d[e + 3] as number) * y0 - (d[e + 4] as number);
        const slope = (d[e + 2] as number) * dx + (d[e + 3] as number) * dy;
        if (slope === 0) {
          if (out > 0) leave = -1;
        } else if (slope > 0) leave = Math.min(leave, -out / slope);
        else enter = Math.max(enter, -out / slope);
      }
      if (enter <= leave) return -this.plateDepth(first, count, half, x0, y0, h0, dx, dy, dh, enter, leave);
      least = Math.min(
        least,
        this.toEdges(first, count, x0 + dx * from, y0 + dy * from, 0, x0 + dx * to, y0 + dy * to, 0),
      );
    }
    for (let side = -1; side <= 1; side += 2) {
      const height0 = side * h0 - half;
      const height1 = side * h1 - half;
      if (height0 <= 0 && height1 <= 0) continue;
      const rise = height1 - height0;
      const a = height0 >= 0 ? 0 : -height0 / rise;
      const b = height1 >= 0 ? 1 : -height0 / rise;
      const ha = Math.max(0, height0 + rise * a);
      const hb = Math.max(0, height0 + rise * b);
      if (Math.min(ha, hb) ** 2 >= least) continue;
      const sx = x0 + dx * a;
      const sy = y0 + dy * a;
      const tx = x0 + dx * b;
      const ty = y0 + dy * b;
      if (this.covers(first, count, sx, sy)) least = Math.min(least, ha * ha);
      if (this.covers(first, count, tx, ty)) least = Math.min(least, hb * hb);
      least = Math.min(least, this.toEdges(first, count, sx, sy, ha, tx, ty, hb));
    }
    return Math.sqrt(least);
  }

  private covers(first: number, count: number, x: number, y: number): boolean {
    const d = this.data;
    for (let k = 0; k < count; k += 1) {
      const e = first + 5 * k;
      if ((d[e + 2] as number) * x + (d[e + 3] as number) * y > (d[e + 4] as number)) return false;
    }
    return true;
  }

  /** Ends of a side of a plate, in its middle plane. */
  private readonly edge = new Float64Array(6);

  private toEdges(
    first: number,
    count: number,
    ax: number,
    ay: number,
    az: number,
    bx: number,
    by: number,
    bz: number,
  ): number {
    const d = this.data;
    const { edge } = this;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < count; k += 1) {
      const e = first + 5 * k;
      const f = first + 5 * (k + 1 === count ? 0 : k + 1);
      edge[0] = d[e] as number;
      edge[1] = d[e + 1] as number;
      edge[3] = d[f] as number;
      edge[4] = d[f + 1] as number;
      const squared = squaredToStored(ax, ay, az, bx, by, bz, edge, 0);
      if (squared < least) least = squared;
    }
    return least;
  }

  private plateDepth(
    first: number,
    count: number,
    half: number,
    x0: number,
    y0: number,
    h0: number,
    dx: number,
    dy: number,
    dh: number,
    enter: number,
    leave: number,
  ): number {
    const d = this.data;
    const ha = h0 + dh * enter;
    const hb = h0 + dh * leave;
    let depth = Math.min(half - Math.min(ha, hb), half + Math.max(ha, hb));
    for (let k = 0; k < count; k += 1) {
      const e = first + 5 * k;
      const a =
        (d[e + 2] as number) * (x0 + dx * enter) + (d[e + 3] as number) * (y0 + dy * enter) - (d[e + 4] as number);
      const b =
        (d[e + 2] as number) * (x0 + dx * leave) + (d[e + 3] as number) * (y0 + dy * leave) - (d[e + 4] as number);
      depth = Math.min(depth, -Math.min(a, b));
    }
    return Math.max(0, depth);
  }
}

function pushSolid(solid: AnySolid, data: number[]): number {
  switch (solid.type) {
    case 'box':
      data.push(...solid.centre, ...solid.half, ...solid.axes[0], ...solid.axes[1], ...solid.axes[2]);
      return BOX;
    case 'capsule':
      data.push(...solid.from, ...solid.to, solid.radius);
      return CAPSULE;
    case 'cylinder': {
      const axis = subtract(solid.to, solid.from);
      const length = portable.hypot(...axis);
      const direction = length > 1e-12 ? unit(axis) : ([0, 0, 1] as const);
      data.push(
        (solid.from[0] + solid.to[0]) / 2,
        (solid.from[1] + solid.to[1]) / 2,
        (solid.from[2] + solid.to[2]) / 2,
        ...direction,
        length / 2,
        solid.radius,
      );
      return CYLINDER;
    }
    case 'plate': {
      const normal = unit(solid.normal);
      const u = squareTo(normal);
      const v = cross(normal, u);
      const origin = solid.polygon[0] as Vec3;
      const flat = solid.polygon.map((p) => {
        const from = subtract(p, origin);
        return [dot(from, u), dot(from, v)] as const;
      });
      let area = 0;
      flat.forEach(([x, y], k) => {
        const [nextX, nextY] = flat[(k + 1) % flat.length] as readonly [number, number];
        area += x * nextY - y * nextX;
      });
      const ring = area < 0 ? [...flat].reverse() : flat;
      data.push(...origin, ...u, ...v, ...normal, solid.thicknessM / 2, ring.length);
      ring.forEach(([x, y], k) => {
        const [nextX, nextY] = ring[(k + 1) % ring.length] as readonly [number, number];
        const length = portable.hypot(nextX - x, nextY - y) || 1;
        const outX = (nextY - y) / length;
        const outY = (x - nextX) / length;
        data.push(x, y, outX, outY, outX * x + outY * y);
      });
      return PLATE;
    }
  }
}

/** Bounds of a solid: low xyz, high xyz. */
export function boundsOf(solid: AnySolid): readonly [number, number, number, number, number, number] {
  const low = [0, 0, 0];
  const high = [0, 0, 0];
  for (let axis = 0; axis < 3; axis += 1) {
    let from = 0;
    let to = 0;
    if (solid.type === 'box') {
      const reach =
        Math.abs(solid.axes[0][axis] as number) * solid.half[0] +
        Math.abs(solid.axes[1][axis] as number) * solid.half[1] +
        Math.abs(solid.axes[2][axis] as number) * solid.half[2];
      from = (solid.centre[axis] as number) - reach;
      to = (solid.centre[axis] as number) + reach;
    } else if (solid.type === 'plate') {
      const pad = (Math.abs(unit(solid.normal)[axis] as number) * solid.thicknessM) / 2;
      from = Math.min(...solid.polygon.map((p) => p[axis] as number)) - pad;
      to = Math.max(...solid.polygon.map((p) => p[axis] as number)) + pad;
    } else {
      const a = solid.from[axis] as number;
      const b = solid.to[axis] as number;
      let pad = solid.radius;
      if (solid.type === 'cylinder') {
        const length = portable.hypot(...subtract(solid.to, solid.from));
        const along = length > 1e-12 ? (b - a) / length : axis === 2 ? 1 : 0;
        pad = solid.radius * Math.sqrt(Math.max(0, 1 - along * along));
      }
      from = Math.min(a, b) - pad;
      to = Math.max(a, b) + pad;
    }
    low[axis] = from;
    high[axis] = to;
  }
  return [
    low[0] as number,
    low[1] as number,
    low[2] as number,
    high[0] as number,
    high[1] as number,
    high[2] as number,
  ];
}

/** One segment against one solid; for many queries make a SolidPack. */
export function segmentToSolid(a: Vec3, b: Vec3, solid: AnySolid, cutoffM = Number.MAX_VALUE): number {
  return new SolidPack([solid]).distance(0, a[0], a[1], a[2], b[0], b[1], b[2], cutoffM);
}
