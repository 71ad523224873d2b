import * as portable from '../../base/portable';

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
  other[0] = cx;
  other[1] = cy;
  other[2] = cz;
  other[3] = dx;
  other[4] = dy;
  other[5] = dz;
  return squaredToStored(ax, ay, az, bx, by, bz, other, 0);
}
const other = new Float64Array(6);

/** The same with the ends of the second segment in six numbers from `k` on: many numbers to a call would each be put on the heap. */
export function squaredToStored(
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  stored: Float64Array,
  k: number,
): number {
  const cx = stored[k] as number;
  const cy = stored[k + 1] as number;
  const cz = stored[k + 2] as number;
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const vx = (stored[k + 3] as number) - cx;
  const vy = (stored[k + 4] as number) - cy;
  const vz = (stored[k + 5] as number) - cz;
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

/** Segment in the box's own axes (p to p + d), half sides h. The squared distance along it is convex and piecewise quadratic. */
export function segmentBox(
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
export function rimLeast(
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
    return portable.hypot(h0 + dh * t, Math.max(0, rho - radius));
  };
  const slope = (t: number): number => {
    const rho = Math.sqrt(Math.max(0, a * t * t + 2 * b * t + c));
    const out = Math.max(0, rho - radius);
    const g = portable.hypot(h0 + dh * t, out);
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

/** Where start + rise t lies in [low, high] for t in [0, 1], or null. */
export function clipLinear(start: number, rise: number, low: number, high: number): readonly [number, number] | null {
  if (rise === 0) return start >= low && start <= high ? [0, 1] : null;
  const one = (low - start) / rise;
  const other = (high - start) / rise;
  const from = Math.max(0, Math.min(one, other));
  const to = Math.min(1, Math.max(one, other));
  return from <= to ? [from, to] : null;
}

/** Where a t^2 + 2 b t + c <= 0 in [from, to], or null. */
export function clipQuadratic(
  a: number,
  b: number,
  c: number,
  from: number,
  to: number,
): readonly [number, number] | null {
  if (a <= 1e-30) return c <= 0 ? [from, to] : null;
  const discriminant = b * b - a * c;
  if (discriminant < 0) return null;
  const root = Math.sqrt(discriminant);
  const enter = Math.max(from, (-b - root) / a);
  const leave = Math.min(to, (-b + root) / a);
  return enter <= leave ? [enter, leave] : null;
}

export function cylinderDepth(
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
