import type { Pose, Vec3 } from '@core/base/vec';
import type { BoxSolid } from '@core/shape/space/solids';
import { axesOf, type LockerScene } from './lockers';

/*
 * Moves gone over again by other means than they were found by: poses half a millimetre apart between two moves, each part as corners and edges,
 * boxes against boxes by separating axes written out here, the wall by where the edges pass it.
 */

type Quaternion = readonly [number, number, number, number];

function quaternion(pose: Pose): Quaternion {
  // From yaw, pitch and roll by halves, the textbook way.
  const [y, p, r] = [pose.yawDeg, pose.pitchDeg, pose.rollDeg].map((deg) => (deg * Math.PI) / 360) as [
    number,
    number,
    number,
  ];
  const [cy, sy, cp, sp, cr, sr] = [Math.cos(y), Math.sin(y), Math.cos(p), Math.sin(p), Math.cos(r), Math.sin(r)];
  return [
    cr * cp * cy + sr * sp * sy,
    sr * cp * cy - cr * sp * sy,
    cr * sp * cy + sr * cp * sy,
    cr * cp * sy - sr * sp * cy,
  ];
}

function axesOfQuaternion([w, x, y, z]: Quaternion): readonly [Vec3, Vec3, Vec3] {
  return [
    [1 - 2 * (y * y + z * z), 2 * (x * y + w * z), 2 * (x * z - w * y)],
    [2 * (x * y - w * z), 1 - 2 * (x * x + z * z), 2 * (y * z + w * x)],
    [2 * (x * z + w * y), 2 * (y * z - w * x), 1 - 2 * (x * x + y * y)],
  ];
}

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

export interface Placed {
  readonly at: Vec3;
  readonly axes: readonly [Vec3, Vec3, Vec3];
}

/** Poses along the moves, no point of the part going farther than `stepM` from one to the next. */
export function* along(moves: readonly Pose[], reachM: number, stepM: number): Generator<Placed> {
  for (let n = 1; n < moves.length; n += 1) {
    const [from, to] = [moves[n - 1] as Pose, moves[n] as Pose];
    const p = quaternion(from);
    let q = quaternion(to);
    let cosine = p[0] * q[0] + p[1] * q[1] + p[2] * q[2] + p[3] * q[3];
    if (cosine < 0) {
      q = [-q[0], -q[1], -q[2], -q[3]];
      cosine = -cosine;
    }
    const angle = Math.acos(Math.min(1, cosine));
    const wayM = Math.hypot(to.at[0] - from.at[0], to.at[1] - from.at[1], to.at[2] - from.at[2]) + 2 * angle * reachM;
    const steps = Math.max(1, Math.ceil(wayM / stepM));
    for (let k = 0; k <= steps; k += 1) {
      const t = k / steps;
      const [a, b] =
        angle < 1e-7
          ? [1 - t, t]
          : [Math.sin((1 - t) * angle) / Math.sin(angle), Math.sin(t * angle) / Math.sin(angle)];
      const mixed = [0, 1, 2, 3].map((i) => (p[i] as number) * a + (q[i] as number) * b);
      const length = Math.hypot(...mixed);
      yield {
        at: [0, 1, 2].map(
          (i) => (from.at[i] as number) + ((to.at[i] as number) - (from.at[i] as number)) * t,
        ) as unknown as Vec3,
        axes: axesOfQuaternion(mixed.map((m) => m / length) as unknown as Quaternion),
      };
    }
  }
}

/** Half sides of a box that the part is, or that holds it. */
export const halfOf = (scene: LockerScene): Vec3 =>
  scene.shape.type === 'box'
    ? [scene.shape.sizeM[0] / 2, scene.shape.sizeM[1] / 2, scene.shape.sizeM[2] / 2]
    : [scene.shape.lengthM / 2, scene.shape.diameterM / 2, scene.shape.diameterM / 2];

/** Corners on the rims of the part and the lines between them. */
function outline(scene: LockerScene, { at, axes }: Placed): { points: Vec3[]; lines: (readonly [Vec3, Vec3])[] } {
  const put = (a: number, b: number, c: number): Vec3 => [
    at[0] + axes[0][0] * a + axes[1][0] * b + axes[2][0] * c,
    at[1] + axes[0][1] * a + axes[1][1] * b + axes[2][1] * c,
    at[2] + axes[0][2] * a + axes[1][2] * b + axes[2][2] * c,
  ];
  const [h, i, j] = halfOf(scene);
  const rim =
    scene.shape.type === 'box'
      ? [
          [-i, -j],
          [i, -j],
          [i, j],
          [-i, j],
        ]
      : Array.from({ length: 24 }, (_, k) => [i * Math.cos((k * Math.PI) / 12), i * Math.sin((k * Math.PI) / 12)]);
  const ends = [-h, h].map((a) => rim.map(([b, c]) => put(a, b as number, c as number)));
  const [one, other] = ends as [Vec3[], Vec3[]];
  const lines = rim.flatMap((_, k) => {
    const next = (k + 1) % rim.length;
    return [
      [one[k] as Vec3, other[k] as Vec3],
      [one[k] as Vec3, one[next] as Vec3],
      [other[k] as Vec3, other[next] as Vec3],
    ] as const;
  });
  return { points: [...one, ...other], lines };
}

/** Why a pose is not free, or null. Touching by less than `slackM` is free. */
function stoppedAt(scene: LockerScene, placed: Placed, slackM: number, growM = 0): string | null {
  const { points, lines } = outline(scene, placed);
  const [length, depth, height] = scene.sizeM;
  const { at, widthM, heightM, isRound } = scene.opening;
  for (const [x, y, z] of points) {
    const isIn = y > 0;
    const inside = isIn
      ? x > -slackM && x < length + slackM && y < depth + slackM && z > -slackM && z < height + slackM
      : x > -1.5 - slackM &&
        x < length + 1.5 + slackM &&
        y > -scene.beforeM - slackM &&
        z > -0.4 - slackM &&
        z < 1.6 + slackM;
    if (!inside) return isIn ? 'a side of the locker' : 'a side of the cabin';
  }
  for (const [p, q] of lines) {
    if (p[1] > 0 === q[1] > 0) continue;
    const t = p[1] / (p[1] - q[1]);
    const u = p[0] + (q[0] - p[0]) * t - at[0];
    const v = p[2] + (q[2] - p[2]) * t - at[1];
    const clear = isRound
      ? Math.hypot(u, v) < widthM / 2 + slackM
      : Math.abs(u) < widthM / 2 + slackM && Math.abs(v) < heightM / 2 + slackM;
    if (!clear) return 'the frame of the opening';
  }
  for (const box of scene.clutter)
    if (
      boxesMeet(placed, halfOf(scene).map((h) => h + growM - slackM) as unknown as Vec3, box) &&
      meetsRound(scene, placed, box, growM - slackM)
    )
      return box.owner;
  return null;
}

/** Two boxes by the fifteen separating axes. */
export function boxesMeet(a: Placed, half: Vec3, b: Pick<BoxSolid, 'centre' | 'half' | 'axes'>): boolean {
  const ways: Vec3[] = [...a.axes, ...b.axes];
  for (const p of a.axes) for (const q of b.axes) ways.push(cross(p, q));
  const d: Vec3 = [b.centre[0] - a.at[0], b.centre[1] - a.at[1], b.centre[2] - a.at[2]];
  return ways.every((n) => {
    if (dot(n, n) < 1e-12) return true;
    const reach =
      a.axes.reduce((sum, axis, k) => sum + Math.abs(dot(axis, n)) * (half[k] as number), 0) +
      b.axes.reduce((sum, axis, k) => sum + Math.abs(dot(axis, n)) * (b.half[k] as number), 0);
    return Math.abs(dot(d, n)) < reach;
  });
}

/** Of a cylinder: whether points of its surface, 10 mm apart, are in the box. A box is what it is. */
function meetsRound(scene: LockerScene, { at, axes }: Placed, box: BoxSolid, growM: number): boolean {
  if (scene.shape.type === 'box') return true;
  const h = scene.shape.lengthM / 2 + growM;
  const r = scene.shape.diameterM / 2 + growM;
  const rings = Math.ceil((2 * h) / 0.01);
  const round = Math.ceil((2 * Math.PI * r) / 0.01);
  for (let n = 0; n <= rings; n += 1)
    for (let k = 0; k < round; k += 1)
      for (const part of n === 0 || n === rings ? [1, 0.66, 0.33, 0] : [1]) {
        const a = -h + (2 * h * n) / rings;
        const b = part * r * Math.cos((2 * Math.PI * k) / round);
        const c = part * r * Math.sin((2 * Math.PI * k) / round);
        const p = [0, 1, 2].map(
          (i) =>
            (at[i] as number) +
            (axes[0][i] as number) * a +
            (axes[1][i] as number) * b +
            (axes[2][i] as number) * c -
            (box.centre[i] as number),
        ) as unknown as Vec3;
        if (box.axes.every((axis, i) => Math.abs(dot(p, axis)) < (box.half[i] as number))) return true;
      }
  return false;
}

/** The first pose of the moves, half a millimetre apart, that is not free; null when all are. */
export function firstStop(scene: LockerScene, moves: readonly Pose[], slackM: number): string | null {
  const reachM = Math.hypot(...halfOf(scene));
  for (const placed of along(moves, reachM, 5e-4)) {
    const stop = stoppedAt(scene, placed, slackM);
    if (stop) return stop;
  }
  return null;
}

export { axesOf };
