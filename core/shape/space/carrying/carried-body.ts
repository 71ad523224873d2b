import * as portable from '../../../base/portable';
import type { Vec3 } from '../../../base/vec';
import type { Shape } from '../../../boat/schema/boat';

/** A part that is carried: half sides along its own axes; of a cylinder `round` is the axis that it is round about. */
export interface CarriedBody {
  readonly half: Vec3;
  readonly round: 0 | 1 | 2 | null;
}

export function bodyOfShape(shape: Shape): CarriedBody {
  if (shape.type === 'box') {
    const [x, y, z] = shape.sizeM;
    return { half: [x / 2, y / 2, z / 2], round: null };
  }
  const round = shape.axis === 'x' ? 0 : shape.axis === 'y' ? 1 : 2;
  const half = [0, 1, 2].map((k) => (k === round ? shape.lengthM : shape.diameterM) / 2);
  return { half: half as unknown as Vec3, round };
}

/** Every side longer by twice `byM`; nothing gets thinner than a micrometre. */
export const grownBody = ({ half, round }: CarriedBody, byM: number): CarriedBody => ({
  half: half.map((h) => Math.max(1e-6, h + byM)) as unknown as Vec3,
  round,
});

/** Farthest point of it from its middle, metres. */
export const reachOfBody = ({ half, round }: CarriedBody): number =>
  round === null ? portable.hypot(...half) : portable.hypot(half[round], half[((round + 1) % 3) as 0 | 1 | 2]);

/** Where its middle is and how it is turned, as a unit quaternion [w, x, y, z]. */
export interface CarriedPose {
  readonly at: Vec3;
  readonly turn: Quaternion;
}
export type Quaternion = readonly [number, number, number, number];

/** The three own axes of a turned body, nine numbers. */
export function axesOf([w, x, y, z]: Quaternion, into: Float64Array = new Float64Array(9)): Float64Array {
  into[0] = 1 - 2 * (y * y + z * z);
  into[1] = 2 * (x * y + w * z);
  into[2] = 2 * (x * z - w * y);
  into[3] = 2 * (x * y - w * z);
  into[4] = 1 - 2 * (x * x + z * z);
  into[5] = 2 * (y * z + w * x);
  into[6] = 2 * (x * z + w * y);
  into[7] = 2 * (y * z - w * x);
  into[8] = 1 - 2 * (x * x + y * y);
  return into;
}

/** Unit quaternion of right-handed axes. */
export function quaternionOf(axes: readonly [Vec3, Vec3, Vec3]): Quaternion {
  const [[a, b, c], [d, e, f], [g, h, i]] = axes;
  const trace = a + e + i;
  if (trace > 0) {
    const s = Math.sqrt(trace + 1) * 2;
    return unitQuaternion([s / 4, (f - h) / s, (g - c) / s, (b - d) / s]);
  }
  if (a > e && a > i) {
    const s = Math.sqrt(1 + a - e - i) * 2;
    return unitQuaternion([(f - h) / s, s / 4, (b + d) / s, (g + c) / s]);
  }
  if (e > i) {
    const s = Math.sqrt(1 + e - a - i) * 2;
    return unitQuaternion([(g - c) / s, (b + d) / s, s / 4, (f + h) / s]);
  }
  const s = Math.sqrt(1 + i - a - e) * 2;
  return unitQuaternion([(b - d) / s, (g + c) / s, (f + h) / s, s / 4]);
}

export function unitQuaternion([w, x, y, z]: Quaternion): Quaternion {
  const length = Math.sqrt(w * w + x * x + y * y + z * z);
  return [w / length, x / length, y / length, z / length];
}

export const aboutAxis = (axis: Vec3, angle: number): Quaternion => {
  const s = portable.sin(angle / 2);
  return [portable.cos(angle / 2), axis[0] * s, axis[1] * s, axis[2] * s];
};

export const timesQuaternion = ([a, b, c, d]: Quaternion, [e, f, g, h]: Quaternion): Quaternion => [
  a * e - b * f - c * g - d * h,
  a * f + b * e + c * h - d * g,
  a * g - b * h + c * e + d * f,
  a * h + b * g - c * f + d * e,
];

/** Angle of the turn that leads from one to the other, radians. */
export function turnBetween(p: Quaternion, q: Quaternion): number {
  const cosine = Math.abs(p[0] * q[0] + p[1] * q[1] + p[2] * q[2] + p[3] * q[3]);
  return cosine >= 1 ? 0 : 2 * portable.acos(cosine);
}

/**
 * The pose at a share of a leg: the middle goes straight while the body turns evenly about one axis. No point of the body goes farther than
 * the middle and, round it, the angle times its reach.
 */
export function onLeg(from: CarriedPose, to: CarriedPose, share: number): CarriedPose {
  const at: Vec3 = [
    from.at[0] + (to.at[0] - from.at[0]) * share,
    from.at[1] + (to.at[1] - from.at[1]) * share,
    from.at[2] + (to.at[2] - from.at[2]) * share,
  ];
  const [p, q] = [from.turn, to.turn];
  const product = p[0] * q[0] + p[1] * q[1] + p[2] * q[2] + p[3] * q[3];
  const sign = product < 0 ? -1 : 1;
  const angle = portable.acos(Math.min(1, Math.abs(product)));
  if (angle < 1e-9) return { at, turn: share < 0.5 ? p : q };
  const sine = portable.sin(angle);
  const a = portable.sin((1 - share) * angle) / sine;
  const b = (sign * portable.sin(share * angle)) / sine;
  return {
    at,
    turn: unitQuaternion([p[0] * a + q[0] * b, p[1] * a + q[1] * b, p[2] * a + q[2] * b, p[3] * a + q[3] * b]),
  };
}

/** Bound of how far any point of the body goes along a leg, metres. */
export function legLength(from: CarriedPose, to: CarriedPose, reachM: number): number {
  const dx = to.at[0] - from.at[0];
  const dy = to.at[1] - from.at[1];
  const dz = to.at[2] - from.at[2];
  return Math.sqrt(dx * dx + dy * dy + dz * dz) + turnBetween(from.turn, to.turn) * reachM;
}
