import { turnedAbout } from '../../base/turning';
import { add, along, cross, norm, radians, rotate, scale, subtract, UNIT_AXES, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';
import { smaller, travelToContact } from './contact';
import { convexOf } from './convex';
import { nearestPoints } from './convex-distance';
import type { Blocker } from './free-depth';
import { linesOver } from './overlap';
import { HULL, type Mover, nearestToHull, type Obstacle, type Scene } from './scene';
import type { Solid } from './solids';

export type Motion =
  | { readonly kind: 'straight' /** Unit. */; readonly direction: Vec3; readonly distanceM: number }
  | {
      readonly kind: 'turn';
      readonly about: Vec3;
      /** Unit; right-handed. */
      readonly axis: Vec3;
      readonly angleDeg: number;
    };

export interface Sweep {
  /** Share of the motion that is free, 0 to 1. */
  readonly share: number;
  /** Metres of a straight motion, degrees of a turn. */
  readonly free: number;
  readonly blocker: Blocker | null;
}

/** A turning shape, and one along the hull, is drawn in by this, so that it may slide along what it touches (metres). */
const DRAWN_IN_M = 2e-4;
/** Nearer than this is contact (metres). */
const CONTACT_M = 1e-4;
/** Least steps past the hull and in a turn. */
const LEAST_STEP_M = 5e-4;
const LEAST_TURN = radians(0.25);
/** As far as the hull is looked for in a turn (metres). */
const HULL_NEAR_M = 0.1;

/** One thing that may stop a sweep. */
export type InTheWay = Pick<Obstacle, 'name' | 'body'>;

/** How far a solid goes in a scene before it meets something, as sweepPast; what belongs to its owner is passed. */
export function sweepThrough(scene: Scene, shape: Solid, motion: Motion, mover: Mover): Sweep {
  const moving = mover.radiusM === 0 ? shape : smaller(shape, -mover.radiusM);
  const [low, high] = sweptBounds(moving, motion);
  const near = scene.near(low, high, mover).map((i) => scene.obstacles[i] as Obstacle);
  return sweepPast(
    near.filter(({ name }) => name.owner !== shape.owner),
    scene.hull,
    moving,
    motion,
  );
}

/**
 * How far a solid goes before it meets something. Straight: exact (`contact.ts`); along the hull to 0.2 mm. Turning: steps as long as
 * the nearest thing is away, a quarter of a degree at least, so what is thinner than that step may be missed; the contact found is exact
 * to 0.01 degrees.
 */
export function sweepPast(
  obstacles: readonly InTheWay[],
  hull: HullSurface | null,
  shape: Solid,
  motion: Motion,
): Sweep {
  return motion.kind === 'straight'
    ? straightSweep(obstacles, hull, shape, motion)
    : turnSweep(obstacles, hull, smaller(shape, DRAWN_IN_M), motion);
}

/** Bounds of all that a motion may sweep. */
function sweptBounds(shape: Solid, motion: Motion): readonly [Vec3, Vec3] {
  if (motion.kind === 'turn') {
    const { about } = motion;
    const reach = farthestFromPoint(shape, about);
    return [
      [about[0] - reach, about[1] - reach, about[2] - reach],
      [about[0] + reach, about[1] + reach, about[2] + reach],
    ];
  }
  const { low, high } = convexOf(shape);
  const by = scale(motion.direction, motion.distanceM);
  return [
    [low[0] + Math.min(0, by[0]), low[1] + Math.min(0, by[1]), low[2] + Math.min(0, by[2])],
    [high[0] + Math.max(0, by[0]), high[1] + Math.max(0, by[1]), high[2] + Math.max(0, by[2])],
  ];
}

function straightSweep(
  obstacles: readonly InTheWay[],
  hull: HullSurface | null,
  shape: Solid,
  motion: Extract<Motion, { kind: 'straight' }>,
): Sweep {
  const { direction, distanceM } = motion;
  let free = distanceM;
  let blocker: Blocker | null = null;
  for (const obstacle of obstacles) {
    const hit = travelToContact(shape, obstacle.body, direction, free);
    if (!hit) continue;
    free = hit.t;
    blocker = { ...obstacle.name, at: hit.at };
  }
  if (hull) {
    const lines = linesOver(smaller(shape, DRAWN_IN_M));
    const freeAt = (t: number): number =>
      lines.reduce(
        (least, [a, b]) => Math.min(least, hull.clearance(along(a, direction, t), along(b, direction, t), least)),
        0.05,
      );
    let t = 0;
    let room = freeAt(0);
    while (room >= -CONTACT_M && t < free) {
      const next = Math.min(free, t + Math.max(room, LEAST_STEP_M));
      room = freeAt(next);
      if (room < -CONTACT_M) t = lastFree(t, next, 1e-6, (s) => freeAt(s) >= -CONTACT_M);
      else t = next;
    }
    if (room < -CONTACT_M) {
      free = t;
      const [a, b] = deepestLine(lines, (p, q) => hull.clearance(along(p, direction, t), along(q, direction, t), 0.05));
      blocker = { ...HULL, at: nearestToHull(hull, along(a, direction, t), along(b, direction, t)) };
    }
  }
  return { share: distanceM > 0 ? free / distanceM : 1, free, blocker };
}

function turnSweep(
  obstacles: readonly InTheWay[],
  hull: HullSurface | null,
  shape: Solid,
  motion: Extract<Motion, { kind: 'turn' }>,
): Sweep {
  const { about, axis, angleDeg } = motion;
  const whole = radians(Math.abs(angleDeg));
  const sign = angleDeg < 0 ? -1 : 1;
  const arm = farthestFrom(shape, about, axis);
  const turned = (angle: number): Solid => turnedSolid(shape, about, axis, sign * angle);
  let free = whole;
  let blocker: Blocker | null = null;
  /** Nothing moves faster than the farthest point of the shape: so far it is free at least. */
  const stopsAt = (roomAt: (angle: number) => number): number | null => {
    let angle = 0;
    let room = roomAt(0);
    if (room < CONTACT_M) return 0;
    while (room / arm < free - angle) {
      const next = Math.min(free, angle + Math.max(room / arm, LEAST_TURN));
      room = roomAt(next);
      if (room < CONTACT_M) return lastFree(angle, next, radians(0.01), (s) => roomAt(s) >= CONTACT_M);
      angle = next;
    }
    return null;
  };
  for (const { name, body } of obstacles) {
    const stop = stopsAt((angle) => nearestPoints(convexOf(turned(angle)), body).distanceM);
    if (stop === null || (blocker && stop >= free)) continue;
    free = stop;
    blocker = { ...name, at: nearestPoints(convexOf(turned(free)), body).onSecond };
  }
  if (hull) {
    const linesAt = (angle: number): (readonly [Vec3, Vec3])[] => linesOver(turned(angle));
    const roomAt = (angle: number): number =>
      linesAt(angle).reduce((least, [a, b]) => Math.min(least, hull.clearance(a, b, least) + CONTACT_M), HULL_NEAR_M);
    const stop = stopsAt(roomAt);
    if (stop !== null && !(blocker && stop >= free)) {
      free = stop;
      const [a, b] = deepestLine(linesAt(free), (p, q) => hull.clearance(p, q, HULL_NEAR_M));
      blocker = { ...HULL, at: nearestToHull(hull, a, b) };
    }
  }
  const share = blocker === null || whole === 0 ? 1 : free / whole;
  return { share, free: share * Math.abs(angleDeg), blocker };
}

/** A solid turned about an axis (unit) through a point, right-handed, radians. */
export function turnedSolid(shape: Solid, about: Vec3, axis: Vec3, angle: number): Solid {
  const turn = turnedAbout(UNIT_AXES, axis, angle);
  const move = (p: Vec3): Vec3 => add(about, rotate(turn, subtract(p, about)));
  if (shape.type === 'box') return { ...shape, centre: move(shape.centre), axes: turnedAbout(shape.axes, axis, angle) };
  return { ...shape, from: move(shape.from), to: move(shape.to) };
}

function extremesOf(shape: Solid): { readonly points: readonly Vec3[]; readonly pad: number } {
  if (shape.type !== 'box') return { points: [shape.from, shape.to], pad: shape.radius };
  const points = [0, 1, 2, 3, 4, 5, 6, 7].map((i) =>
    ([0, 1, 2] as const).reduce<Vec3>(
      (p, k) => along(p, shape.axes[k], (i & (1 << k) ? 1 : -1) * shape.half[k]),
      shape.centre,
    ),
  );
  return { points, pad: 0 };
}

function farthestFrom(shape: Solid, about: Vec3, axis: Vec3): number {
  const { points, pad } = extremesOf(shape);
  return pad + Math.max(...points.map((p) => norm(cross(axis, subtract(p, about)))), 1e-3);
}

function farthestFromPoint(shape: Solid, about: Vec3): number {
  const { points, pad } = extremesOf(shape);
  return pad + Math.max(...points.map((p) => norm(subtract(p, about))));
}

function lastFree(from: number, to: number, tolerance: number, isFree: (t: number) => boolean): number {
  let [low, high] = [from, to];
  while (high - low > tolerance) {
    const middle = (low + high) / 2;
    if (isFree(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function deepestLine(
  lines: readonly (readonly [Vec3, Vec3])[],
  freeOf: (a: Vec3, b: Vec3) => number,
): readonly [Vec3, Vec3] {
  let best = lines[0] as readonly [Vec3, Vec3];
  let least = Number.POSITIVE_INFINITY;
  for (const line of lines) {
    const free = freeOf(line[0], line[1]);
    if (free < least) {
      least = free;
      best = line;
    }
  }
  return best;
}
