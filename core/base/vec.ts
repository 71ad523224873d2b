import * as portable from './portable';

/**
 * Vectors, rotations and poses. Lengths are metres, angles degrees where a name ends in Deg, radians otherwise.
 * The boat frame: x forward, y to port, z up from the floating waterline in cruising trim.
 */
export type Vec2 = readonly [number, number];
export type Vec3 = readonly [number, number, number];
/** The boat's axes, and a thing's own, in the order of coordinates. */
export const AXES = ['x', 'y', 'z'] as const;
export type Axis = 0 | 1 | 2;
/** Rotation as three columns: the images of the x, y and z axes. */
export type Rotation = readonly [Vec3, Vec3, Vec3];
export interface Turn {
  readonly yawDeg: number;
  readonly pitchDeg: number;
  readonly rollDeg: number;
}
/** Places a thing: its envelope's centre in the boat, and its turn. */
export interface Pose extends Turn {
  readonly at: Vec3;
}

export const ORIGIN: Vec3 = [0, 0, 0];
export const UP: Vec3 = [0, 0, 1];
/** The axes as unit vectors: the rotation that turns nothing. */
export const UNIT_AXES: Rotation = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const DEGREE = Math.PI / 180;

export const radians = (degrees: number): number => degrees * DEGREE;
export const degrees = (rad: number): number => rad / DEGREE;

export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
/** a + b k */
export const along = (a: Vec3, b: Vec3, k: number): Vec3 => [a[0] + b[0] * k, a[1] + b[1] * k, a[2] + b[2] * k];
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const norm = (a: Vec3): number => Math.sqrt(dot(a, a));
export const distance = (a: Vec3, b: Vec3): number => norm(subtract(a, b));
export const distanceSquared = (a: Vec3, b: Vec3): number => {
  const dx = a[0] - b[0];
  const dy = a[1] - b[1];
  const dz = a[2] - b[2];
  return dx * dx + dy * dy + dz * dz;
};

export const midpoint = (a: Vec3, b: Vec3): Vec3 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];

/** Angle between two vectors of any length, 0 to pi; exact for small angles too. */
export function angleBetween(a: Vec3, b: Vec3): number {
  const x = a[1] * b[2] - a[2] * b[1];
  const y = a[2] * b[0] - a[0] * b[2];
  const z = a[0] * b[1] - a[1] * b[0];
  return portable.atan2(Math.sqrt(x * x + y * y + z * z), dot(a, b));
}

/** Unit vector; a zero vector is a bug of the caller. */
export function unit(a: Vec3): Vec3 {
  const length = norm(a);
  if (!(length > 1e-12)) throw new Error(`unit: expected a vector with length, got [${a.join(', ')}]`);
  return scale(a, 1 / length);
}

/** Some unit vector square to `a`, chosen deterministically. */
export function squareTo(a: Vec3): Vec3 {
  const ax = Math.abs(a[0]);
  const ay = Math.abs(a[1]);
  const az = Math.abs(a[2]);
  const other: Vec3 = ax <= ay && ax <= az ? [1, 0, 0] : ay <= az ? [0, 1, 0] : [0, 0, 1];
  return unit(cross(a, other));
}

/** Roll about x first, then pitch about y, then yaw about z, each right-handed. Quarter turns are exact. */
export function rotationOf(turn: Turn): Rotation {
  const [cy, sy] = cosSin(turn.yawDeg);
  const [cp, sp] = cosSin(turn.pitchDeg);
  const [cr, sr] = cosSin(turn.rollDeg);
  return [
    [cy * cp, sy * cp, -sp],
    [cy * sp * sr - sy * cr, sy * sp * sr + cy * cr, cp * sr],
    [cy * sp * cr + sy * sr, sy * sp * cr - cy * sr, cp * cr],
  ];
}

/** Cosine and sine, exact at multiples of 90 degrees so that quarter turns leave no rounding dust. */
export function cosSin(deg: number): readonly [number, number] {
  const turn = ((deg % 360) + 360) % 360;
  if (turn === 0) return [1, 0];
  if (turn === 90) return [0, 1];
  if (turn === 180) return [-1, 0];
  if (turn === 270) return [0, -1];
  return [portable.cos(turn * DEGREE), portable.sin(turn * DEGREE)];
}

export const rotate = (r: Rotation, v: Vec3): Vec3 => [
  r[0][0] * v[0] + r[1][0] * v[1] + r[2][0] * v[2],
  r[0][1] * v[0] + r[1][1] * v[1] + r[2][1] * v[2],
  r[0][2] * v[0] + r[1][2] * v[1] + r[2][2] * v[2],
];

/** A point, or a direction, of a thing's own frame in the boat. */
export const pointInBoat = (pose: Pose, local: Vec3): Vec3 => add(pose.at, rotate(rotationOf(pose), local));
export const directionInBoat = (pose: Pose, local: Vec3): Vec3 => rotate(rotationOf(pose), local);
