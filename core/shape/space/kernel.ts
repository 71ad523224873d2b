/**
 * Distances from a segment to solids, in closed form. Everything that must stay clear of something asks here.
 * A positive answer is the distance, exact to rounding, and `cutoff` when it is at least that. A negative answer means that the
 * segment enters the solid: its size is the least shift along one face normal that takes the entering piece out again.
 * Coordinates go in as numbers, not as tuples: these run tens of thousands of times for one hose.
 */
import { cross, dot, squareTo, subtract, unit, type Vec3 } from '../../base/vec';
import type { Plane } from '../layout/types';
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
/** Bracket at which the convex search on a cylinder's rim stops; its lower bound is what is returned. */
const RIM_BRACKET_M = 1e-10;

/** Distance between the segments a-b and c-d, squared. */
export function segmentSegmentSquared(
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  cx: number,
  cy: number,
  cz: number,
  dx: number,
  dy: number,
  dz: number,
): number {
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const vx = dx - cx;
  const vy = dy - cy;
  const vz = dz - cz;
  const wx = ax - cx;
  const wy = ay - cy;
  const wz = az - cz;
  const uu = ux * ux + uy * uy + uz * uz;
  const vv = vx * vx + vy * vy + vz * vz;
  const vw = vx * wx + vy * wy + vz * wz;
  let s = 0;
  let t = 0;
  if (uu <= 1e-30) {
    t = vv <= 1e-30 ? 0 : vw / vv;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
  } else {
    const uw = ux * wx + uy * wy + uz * wz;
    if (vv <= 1e-30) {
      s = -uw / uu;
      s = s < 0 ? 0 : s > 1 ? 1 : s;
    } else {
      const uv = ux * vx + uy * vy + uz * vz;
      const denominator = uu * vv - uv * uv;
      // Parallel: any s does, the clamping of t below then moves s to where the segments face each other.
      if (denominator > 1e-14 * uu * vv) {
        s = (uv * vw - uw * vv) / denominator;
        s = s < 0 ? 0 : s > 1 ? 1 : s;
      }
      t = (uv * s + vw) / vv;
      if (t < 0) {
        t = 0;
        s = -uw / uu;
        s = s < 0 ? 0 : s > 1 ? 1 : s;
      } else if (t > 1) {
        t = 1;
        s = (uv - uw) / uu;
        s = s < 0 ? 0 : s > 1 ? 1 : s;
      }
    }
  }
  const ex = wx + ux * s - vx * t;
  const ey = wy + uy * s - vy * t;
  const ez = wz + uz * s - vz * t;
  return ex * ex + ey * ey + ez * ez;
}

/** The least of offset - n.p over the segment and the half-spaces: how far it stays inside, negative when it leaves. */
export function segmentInsidePlanes(a: Vec3, b: Vec3, planes: readonly Plane[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { normal, offset } of planes) {
    least = Math.min(least, offset - dot(normal, a), offset - dot(normal, b));
  }
  return least;
}

/** Segment in the box's own axes (p to p + d), half sides h. The squared distance along it is convex and piecewise quadratic. */
function segmentBox(
  px: number,
  py: number,
  pz: number,
  dx: number,
  dy: number,
  dz: number,
  hx: number,
  hy: number,
  hz: number,
): number {
  // Slope of the squared distance (halved) at both ends: the minimum is at an end unless the slope changes sign between.
  const slope0 = boxSlope(px, py, pz, dx, dy, dz, hx, hy, hz, 0);
  let low = 0;
  let high = 1;
  if (slope0 >= 0) high = 0;
  else if (boxSlope(px, py, pz, dx, dy, dz, hx, hy, hz, 1) <= 0) low = 1;
  let t = low;
  if (low < high) {
    // Narrow [low, high] to one piece by the six places where a coordinate enters or leaves its slab; the slope is linear there.
    for (let axis = 0; axis < 3; axis += 1) {
      const p = axis === 0 ? px : axis === 1 ? py : pz;
      const d = axis === 0 ? dx : axis === 1 ? dy : dz;
      if (d === 0) continue;
      const h = axis === 0 ? hx : axis === 1 ? hy : hz;
      for (let side = -1; side <= 1; side += 2) {
        const at = (side * h - p) / d;
        if (at > low && at < high) {
          if (boxSlope(px, py, pz, dx, dy, dz, hx, hy, hz, at) < 0) low = at;
          else high = at;
        }
      }
    }
    const slopeLow = boxSlope(px, py, pz, dx, dy, dz, hx, hy, hz, low);
    const slopeHigh = boxSlope(px, py, pz, dx, dy, dz, hx, hy, hz, high);
    t = slopeHigh - slopeLow > 1e-300 ? low + ((high - low) * -slopeLow) / (slopeHigh - slopeLow) : low;
  }
  const qx = Math.abs(px + dx * t) - hx;
  const qy = Math.abs(py + dy * t) - hy;
  const qz = Math.abs(pz + dz * t) - hz;
  const ex = qx > 0 ? qx : 0;
  const ey = qy > 0 ? qy : 0;
  const ez = qz > 0 ? qz : 0;
  const squared = ex * ex + ey * ey + ez * ez;
  if (squared > 0) return Math.sqrt(squared);
  return -boxDepth(px, py, pz, dx, dy, dz, hx, hy, hz);
}

function boxSlope(
  px: number,
  py: number,
  pz: number,
  dx: number,
  dy: number,
  dz: number,
  hx: number,
  hy: number,
  hz: number,
  t: number,
): number {
  const x = px + dx * t;
  const y = py + dy * t;
  const z = pz + dz * t;
  let slope = 0;
  if (x > hx) slope += (x - hx) * dx;
  else if (x < -hx) slope += (x + hx) * dx;
  if (y > hy) slope += (y - hy) * dy;
  else if (y < -hy) slope += (y + hy) * dy;
  if (z > hz) slope += (z - hz) * dz;
  else if (z < -hz) slope += (z + hz) * dz;
  return slope;
}

function boxDepth(
  px: number,
  py: number,
  pz: number,
  dx: number,
  dy: number,
  dz: number,
  hx: number,
  hy: number,
  hz: number,
): number {
  let from = 0;
  let to = 1;
  for (let axis = 0; axis < 3; axis += 1) {
    const p = axis === 0 ? px : axis === 1 ? py : pz;
    const d = axis === 0 ? dx : axis === 1 ? dy : dz;
    const h = axis === 0 ? hx : axis === 1 ? hy : hz;
    if (d === 0) continue;
    const enter = ((d > 0 ? -h : h) - p) / d;
    const leave = ((d > 0 ? h : -h) - p) / d;
    if (enter > from) from = enter;
    if (leave < to) to = leave;
  }
  if (to < from) return 0;
  let depth = Number.POSITIVE_INFINITY;
  for (let axis = 0; axis < 3; axis += 1) {
    const p = axis === 0 ? px : axis === 1 ? py : pz;
    const d = axis === 0 ? dx : axis === 1 ? dy : dz;
    const h = axis === 0 ? hx : axis === 1 ? hy : hz;
    const one = p + d * from;
    const other = p + d * to;
    depth = Math.min(depth, h - Math.min(one, other), h + Math.max(one, other));
  }
  return Math.max(0, depth);
}

/**
 * Least of hypot(height, radial - radius) where radial > radius, on [low, high] of the segment: convex there. Tangents from both
 * ends bracket the minimum from below; the lower bound is returned, so the answer never exceeds the true distance.
 */
function rimLeast(
  h0: number,
  dh: number,
  a: number,
  b: number,
  c: number,
  radius: number,
  low: number,
  high: number,
): number {
  const value = (t: number): number => {
    const rho = Math.sqrt(Math.max(0, a * t * t + 2 * b * t + c));
    return Math.hypot(h0 + dh * t, Math.max(0, rho - radius));
  };
  const slope = (t: number): number => {
    const rho = Math.sqrt(Math.max(0, a * t * t + 2 * b * t + c));
    const out = Math.max(0, rho - radius);
    const g = Math.hypot(h0 + dh * t, out);
    if (!(g > 0)) return 0;
    return ((h0 + dh * t) * dh + (rho > 0 ? (out * (a * t + b)) / rho : 0)) / g;
  };
  let lowValue = value(low);
  let lowSlope = slope(low);
  if (lowSlope >= 0) return lowValue;
  let highValue = value(high);
  let highSlope = slope(high);
  if (highSlope <= 0) return highValue;
  let bound = 0;
  for (let turn = 0; turn < 80; turn += 1) {
    const meet = (highValue - lowValue + lowSlope * low - highSlope * high) / (lowSlope - highSlope);
    bound = Math.max(0, lowValue + lowSlope * (meet - low));
    const t = turn % 3 === 2 || !(meet > low && meet < high) ? (low + high) / 2 : meet;
    const here = value(t);
    if (Math.min(here, lowValue, highValue) - bound < RIM_BRACKET_M) return bound;
    const rise = slope(t);
    if (rise === 0) return here;
    if (rise < 0) {
      low = t;
      lowValue = here;
      lowSlope = rise;
    } else {
      high = t;
      highValue = here;
      highSlope = rise;
    }
  }
  return bound;
}

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
    const d = this.data;
    return (
      Math.sqrt(
        segmentSegmentSquared(
          ax,
          ay,
          az,
          bx,
          by,
          bz,
          d[s] as number,
          d[s + 1] as number,
          d[s + 2] as number,
          d[s + 3] as number,
          d[s + 4] as number,
          d[s + 5] as number,
        ),
      ) - (d[s + 6] as number)
    );
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
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < count; k += 1) {
      const e = first + 5 * k;
      const f = first + 5 * (k + 1 === count ? 0 : k + 1);
      const squared = segmentSegmentSquared(
        ax,
        ay,
        az,
        bx,
        by,
        bz,
        d[e] as number,
        d[e + 1] as number,
        0,
        d[f] as number,
        d[f + 1] as number,
        0,
      );
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

/** Where start + rise t lies in [low, high] for t in [0, 1], or null. */
function clipLinear(start: number, rise: number, low: number, high: number): readonly [number, number] | null {
  if (rise === 0) return start >= low && start <= high ? [0, 1] : null;
  const one = (low - start) / rise;
  const other = (high - start) / rise;
  const from = Math.max(0, Math.min(one, other));
  const to = Math.min(1, Math.max(one, other));
  return from <= to ? [from, to] : null;
}

/** Where a t^2 + 2 b t + c <= 0 in [from, to], or null. */
function clipQuadratic(a: number, b: number, c: number, from: number, to: number): readonly [number, number] | null {
  if (a <= 1e-30) return c <= 0 ? [from, to] : null;
  const discriminant = b * b - a * c;
  if (discriminant < 0) return null;
  const root = Math.sqrt(discriminant);
  const enter = Math.max(from, (-b - root) / a);
  const leave = Math.min(to, (-b + root) / a);
  return enter <= leave ? [enter, leave] : null;
}

function cylinderDepth(
  h0: number,
  dh: number,
  half: number,
  a: number,
  b: number,
  c: number,
  radius: number,
  from: number,
  to: number,
  leastRadial: number,
): number {
  const inside = clipQuadratic(a, b, c - radius * radius, from, to);
  if (!inside) return 0;
  const one = h0 + dh * inside[0];
  const other = h0 + dh * inside[1];
  return Math.max(0, Math.min(radius - leastRadial, half - Math.min(one, other), half + Math.max(one, other)));
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
      const length = Math.hypot(...axis);
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
        const length = Math.hypot(nextX - x, nextY - y) || 1;
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
        const length = Math.hypot(...subtract(solid.to, solid.from));
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
