import * as portable from './portable';
import {
  add,
  cosSin,
  cross,
  degrees,
  dot,
  type Pose,
  type Rotation,
  rotate,
  rotationOf,
  scale,
  type Vec3,
} from './vec';

/** A pose turned about an axis of the boat through its centre. Turns that come out as whole degrees are kept whole. */
export function turned(pose: Pose, axis: 'x' | 'y' | 'z', deg: number): Pose {
  if (axis === 'z') return { ...pose, yawDeg: wrapped(pose.yawDeg + deg) };
  const [c, s] = cosSin(deg);
  const about: Rotation =
    axis === 'x'
      ? [
          [1, 0, 0],
          [0, c, s],
          [0, -s, c],
        ]
      : [
          [c, 0, -s],
          [0, 1, 0],
          [s, 0, c],
        ];
  const columns = rotationOf(pose).map((column) => rotate(about, column)) as unknown as Rotation;
  return { at: pose.at, ...turnOf(columns) };
}

/** Yaw, pitch and roll of a rotation, each within half a turn. At a pitch of a quarter turn the roll is put to zero. */
export function turnOf(rotation: Rotation): { yawDeg: number; pitchDeg: number; rollDeg: number } {
  const [x, y, z]: readonly Vec3[] = rotation;
  if (!x || !y || !z) throw new Error('turnOf: expected three columns');
  const pitch = portable.asin(Math.min(1, Math.max(-1, -x[2])));
  if (Math.abs(x[2]) > 1 - 1e-12) {
    return { yawDeg: wrapped(degrees(portable.atan2(-y[0], y[1]))), pitchDeg: wrapped(degrees(pitch)), rollDeg: 0 };
  }
  return {
    yawDeg: wrapped(degrees(portable.atan2(x[1], x[0]))),
    pitchDeg: wrapped(degrees(pitch)),
    rollDeg: wrapped(degrees(portable.atan2(y[2], z[2]))),
  };
}

/** Into (-180, 180], with whole degrees free of rounding dust. */
function wrapped(deg: number): number {
  const turn = (((deg % 360) + 540) % 360) - 180;
  const half = turn === -180 ? 180 : turn;
  const whole = Math.round(half);
  return (Math.abs(half - whole) < 1e-9 ? whole : half) + 0;
}

/** Every axis of a rotation turned about a unit axis of the boat, right-handed, radians. */
export function turnedAbout(rotation: Rotation, axis: Vec3, angle: number): Rotation {
  const [c, s] = [portable.cos(angle), portable.sin(angle)];
  const turn = (v: Vec3): Vec3 => add(add(scale(v, c), scale(cross(axis, v), s)), scale(axis, dot(axis, v) * (1 - c)));
  return [turn(rotation[0]), turn(rotation[1]), turn(rotation[2])];
}
