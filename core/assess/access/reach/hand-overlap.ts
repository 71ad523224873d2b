import { squareTo, subtract, unit, type Vec3 } from '../../../base/vec';
import type { AnySolid } from '../../../shape/space/kernel';
import { segmentBox } from '../../../shape/space/segment-distance';

/** Axes shorter than this are no directions: two edges are parallel. */
const PARALLEL = 1e-9;
const BOX = 0;
const ROUND = 1;
const CYLINDER = 2;
const PLATE = 3;

/**
 * Whether a turned box meets solids, exactly: boxes and plates by separating axes, capsules by the distance of a segment from a box, cylinders
 * by the part of the box between their ends, seen along their axis.
 * Frames come as 15 numbers: middle, three unit axes, half sides.
 */
export class BoxOverlaps {
  private readonly kinds: Uint8Array;
  private readonly starts: Int32Array;
  private readonly data: Float64Array;

  constructor(solids: readonly AnySolid[]) {
    this.kinds = new Uint8Array(solids.length);
    this.starts = new Int32Array(solids.length);
    const data: number[] = [];
    solids.forEach((solid, k) => {
      this.starts[k] = data.length;
      this.kinds[k] = pushSolid(solid, data);
    });
    this.data = Float64Array.from(data);
  }

  meets(index: number, frame: Float64Array): boolean {
    switch (this.kinds[index]) {
      case BOX:
        return this.meetsBox(this.starts[index] as number, frame);
      case PLATE:
        return this.meetsPlate(this.starts[index] as number, frame);
      case ROUND:
        return (
          this.fromAxis(this.starts[index] as number, frame) < (this.data[(this.starts[index] as number) + 6] as number)
        );
      default:
        return this.meetsCylinder(index, frame);
    }
  }

  /** Distance of the box from the segment in six numbers from `s` on. */
  private fromAxis(s: number, f: Float64Array): number {
    const d = this.data;
    const px = (d[s] as number) - (f[0] as number);
    const py = (d[s + 1] as number) - (f[1] as number);
    const pz = (d[s + 2] as number) - (f[2] as number);
    const vx = (d[s + 3] as number) - (d[s] as number);
    const vy = (d[s + 4] as number) - (d[s + 1] as number);
    const vz = (d[s + 5] as number) - (d[s + 2] as number);
    return segmentBox(
      px * (f[3] as number) + py * (f[4] as number) + pz * (f[5] as number),
      px * (f[6] as number) + py * (f[7] as number) + pz * (f[8] as number),
      px * (f[9] as number) + py * (f[10] as number) + pz * (f[11] as number),
      vx * (f[3] as number) + vy * (f[4] as number) + vz * (f[5] as number),
      vx * (f[6] as number) + vy * (f[7] as number) + vz * (f[8] as number),
      vx * (f[9] as number) + vy * (f[10] as number) + vz * (f[11] as number),
      f[12] as number,
      f[13] as number,
      f[14] as number,
    );
  }

  /** Half the shadow of the box along a direction. */
  private shadow(f: Float64Array, x: number, y: number, z: number): number {
    return (
      Math.abs(x * (f[3] as number) + y * (f[4] as number) + z * (f[5] as number)) * (f[12] as number) +
      Math.abs(x * (f[6] as number) + y * (f[7] as number) + z * (f[8] as number)) * (f[13] as number) +
      Math.abs(x * (f[9] as number) + y * (f[10] as number) + z * (f[11] as number)) * (f[14] as number)
    );
  }

  private boxesApart(s: number, f: Float64Array, x: number, y: number, z: number): boolean {
    const d = this.data;
    const away = Math.abs(
      x * ((f[0] as number) - (d[s] as number)) +
        y * ((f[1] as number) - (d[s + 1] as number)) +
        z * ((f[2] as number) - (d[s + 2] as number)),
    );
    const other =
      Math.abs(x * (d[s + 6] as number) + y * (d[s + 7] as number) + z * (d[s + 8] as number)) * (d[s + 3] as number) +
      Math.abs(x * (d[s + 9] as number) + y * (d[s + 10] as number) + z * (d[s + 11] as number)) *
        (d[s + 4] as number) +
      Math.abs(x * (d[s + 12] as number) + y * (d[s + 13] as number) + z * (d[s + 14] as number)) *
        (d[s + 5] as number);
    return away >= other + this.shadow(f, x, y, z);
  }

  private meetsBox(s: number, f: Float64Array): boolean {
    const d = this.data;
    for (let i = 0; i < 3; i += 1) {
      const a = 3 + 3 * i;
      if (this.boxesApart(s, f, f[a] as number, f[a + 1] as number, f[a + 2] as number)) return false;
      const b = s + 6 + 3 * i;
      if (this.boxesApart(s, f, d[b] as number, d[b + 1] as number, d[b + 2] as number)) return false;
    }
    for (let a = 3; a < 12; a += 3)
      for (let b = s + 6; b < s + 15; b += 3) {
        const x = (f[a + 1] as number) * (d[b + 2] as number) - (f[a + 2] as number) * (d[b + 1] as number);
        const y = (f[a + 2] as number) * (d[b] as number) - (f[a] as number) * (d[b + 2] as number);
        const z = (f[a] as number) * (d[b + 1] as number) - (f[a + 1] as number) * (d[b] as number);
        if (x * x + y * y + z * z > PARALLEL && this.boxesApart(s, f, x, y, z)) return false;
      }
    return true;
  }

  /** Whether a direction (of any length) parts box and plate. */
  private plateApart(s: number, f: Float64Array, x: number, y: number, z: number): boolean {
    const d = this.data;
    const count = d[s + 4] as number;
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let c = s + 5; c < s + 5 + 3 * count; c += 3) {
      const at =
        x * ((d[c] as number) - (f[0] as number)) +
        y * ((d[c + 1] as number) - (f[1] as number)) +
        z * ((d[c + 2] as number) - (f[2] as number));
      if (at < low) low = at;
      if (at > high) high = at;
    }
    const half =
      this.shadow(f, x, y, z) +
      Math.abs(x * (d[s] as number) + y * (d[s + 1] as number) + z * (d[s + 2] as number)) * (d[s + 3] as number);
    return low >= half || high <= -half;
  }

  private meetsPlate(s: number, f: Float64Array): boolean {
    const d = this.data;
    const nx = d[s] as number;
    const ny = d[s + 1] as number;
    const nz = d[s + 2] as number;
    if (this.plateApart(s, f, nx, ny, nz)) return false;
    for (let a = 3; a < 12; a += 3) {
      if (this.plateApart(s, f, f[a] as number, f[a + 1] as number, f[a + 2] as number)) return false;
      const x = (f[a + 1] as number) * nz - (f[a + 2] as number) * ny;
      const y = (f[a + 2] as number) * nx - (f[a] as number) * nz;
      const z = (f[a] as number) * ny - (f[a + 1] as number) * nx;
      if (x * x + y * y + z * z > PARALLEL && this.plateApart(s, f, x, y, z)) return false;
    }
    const count = d[s + 4] as number;
    const first = s + 5;
    for (let k = 0; k < count; k += 1) {
      const p = first + 3 * k;
      const q = first + 3 * (k + 1 === count ? 0 : k + 1);
      const ex = (d[q] as number) - (d[p] as number);
      const ey = (d[q + 1] as number) - (d[p + 1] as number);
      const ez = (d[q + 2] as number) - (d[p + 2] as number);
      if (this.plateApart(s, f, ey * nz - ez * ny, ez * nx - ex * nz, ex * ny - ey * nx)) return false;
      const long = ex * ex + ey * ey + ez * ez;
      for (let a = 3; a < 12; a += 3) {
        const x = (f[a + 1] as number) * ez - (f[a + 2] as number) * ey;
        const y = (f[a + 2] as number) * ex - (f[a] as number) * ez;
        const z = (f[a] as number) * ey - (f[a + 1] as number) * ex;
        if (x * x + y * y + z * z > PARALLEL * long && this.plateApart(s, f, x, y, z)) return false;
      }
    }
    return true;
  }

  private meetsCylinder(index: number, f: Float64Array): boolean {
    const s = this.starts[index] as number;
    const d = this.data;
    const radius = d[s + 6] as number;
    const distance = this.fromAxis(s, f);
    if (distance >= radius) return false;
    const ax = d[s + 7] as number;
    const ay = d[s + 8] as number;
    const az = d[s + 9] as number;
    const half = d[s + 10] as number;
    const mx = ((d[s] as number) + (d[s + 3] as number)) / 2 - (f[0] as number);
    const my = ((d[s + 1] as number) + (d[s + 4] as number)) / 2 - (f[1] as number);
    const mz = ((d[s + 2] as number) + (d[s + 5] as number)) / 2 - (f[2] as number);
    if (Math.abs(ax * mx + ay * my + az * mz) >= half + this.shadow(f, ax, ay, az)) return false;
    // The axis enters the box: they meet.
    if (distance <= 0) return true;
    for (let a = 3; a < 12; a += 3) {
      const x = f[a] as number;
      const y = f[a + 1] as number;
      const z = f[a + 2] as number;
      const cosine = x * ax + y * ay + z * az;
      const reach = Math.abs(cosine) * half + radius * Math.sqrt(Math.max(0, 1 - cosine * cosine));
      if (Math.abs(x * mx + y * my + z * mz) >= reach + (f[12 + (a - 3) / 3] as number)) return false;
    }
    return this.nearestToAxis(s, f) < radius * radius;
  }

  private readonly shadowPoints = new Float64Array(64);

  /**
   * Squared distance from a cylinder's axis of the part of the box that lies between its ends, where the axis does not enter that part: its
   * corners seen along the axis span a flat figure that does not hold the axis, and the nearest point of it is on a line between two of them.
   */
  private nearestToAxis(s: number, f: Float64Array): number {
    const d = this.data;
    const points = this.shadowPoints;
    const half = d[s + 10] as number;
    const [ax, ay, az] = [d[s + 7] as number, d[s + 8] as number, d[s + 9] as number];
    const [ux, uy, uz] = [d[s + 11] as number, d[s + 12] as number, d[s + 13] as number];
    const vx = ay * uz - az * uy;
    const vy = az * ux - ax * uz;
    const vz = ax * uy - ay * ux;
    const mx = (f[0] as number) - ((d[s] as number) + (d[s + 3] as number)) / 2;
    const my = (f[1] as number) - ((d[s + 1] as number) + (d[s + 4] as number)) / 2;
    const mz = (f[2] as number) - ((d[s + 2] as number) + (d[s + 5] as number)) / 2;
    // Middle and half sides of the box in height along the axis and in the plane square to it.
    const h0 = mx * ax + my * ay + mz * az;
    const x0 = mx * ux + my * uy + mz * uz;
    const y0 = mx * vx + my * vy + mz * vz;
    const side = this.sides;
    for (let k = 0; k < 3; k += 1) {
      const a = 3 + 3 * k;
      const long = f[12 + k] as number;
      const [bx, by, bz] = [f[a] as number, f[a + 1] as number, f[a + 2] as number];
      side[3 * k] = (bx * ax + by * ay + bz * az) * long;
      side[3 * k + 1] = (bx * ux + by * uy + bz * uz) * long;
      side[3 * k + 2] = (bx * vx + by * vy + bz * vz) * long;
    }
    let count = 0;
    const put = (x: number, y: number): void => {
      points[2 * count] = x;
      points[2 * count + 1] = y;
      count += 1;
    };
    for (let corner = 0; corner < 8; corner += 1) {
      const i = (corner & 1) * 2 - 1;
      const j = (corner & 2) - 1;
      const k = (corner & 4) / 2 - 1;
      const h = h0 + i * (side[0] as number) + j * (side[3] as number) + k * (side[6] as number);
      const x = x0 + i * (side[1] as number) + j * (side[4] as number) + k * (side[7] as number);
      const y = y0 + i * (side[2] as number) + j * (side[5] as number) + k * (side[8] as number);
      if (h <= half && h >= -half) put(x, y);
      // Each edge once, from its lower end: where it passes an end of the cylinder.
      for (let e = 0; e < 3; e += 1) {
        if (corner & (1 << e)) continue;
        const rise = 2 * (side[3 * e] as number);
        if (rise === 0) continue;
        for (let end = -1; end <= 1; end += 2) {
          const share = (end * half - h) / rise;
          if (share > 0 && share < 1)
            put(x + 2 * (side[3 * e + 1] as number) * share, y + 2 * (side[3 * e + 2] as number) * share);
        }
      }
    }
    return nearestOnLines(points, count);
  }

  private readonly sides = new Float64Array(9);
}

/** Least squared distance from the origin of the lines between any two of the points. */
function nearestOnLines(points: Float64Array, count: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < count; i += 1) {
    const px = points[2 * i] as number;
    const py = points[2 * i + 1] as number;
    least = Math.min(least, px * px + py * py);
    for (let j = 0; j < i; j += 1) {
      const ex = (points[2 * j] as number) - px;
      const ey = (points[2 * j + 1] as number) - py;
      const long = ex * ex + ey * ey;
      const share = long > 0 ? -(px * ex + py * ey) / long : 0;
      if (share <= 0 || share >= 1) continue;
      const off = px * ey - py * ex;
      least = Math.min(least, (off * off) / long);
    }
  }
  return least;
}

function pushSolid(solid: AnySolid, data: number[]): number {
  switch (solid.type) {
    case 'box':
      data.push(...solid.centre, ...solid.half, ...solid.axes[0], ...solid.axes[1], ...solid.axes[2]);
      return BOX;
    case 'capsule':
      data.push(...solid.from, ...solid.to, solid.radius);
      return ROUND;
    case 'cylinder': {
      const span = subtract(solid.to, solid.from);
      const lengthM = Math.sqrt(span[0] * span[0] + span[1] * span[1] + span[2] * span[2]);
      const axis: Vec3 = lengthM > 1e-12 ? unit(span) : [0, 0, 1];
      data.push(...solid.from, ...solid.to, solid.radius, ...axis, lengthM / 2, ...squareTo(axis));
      return CYLINDER;
    }
    case 'plate':
      data.push(...unit(solid.normal), solid.thicknessM / 2, solid.polygon.length, ...solid.polygon.flat());
      return PLATE;
  }
}
