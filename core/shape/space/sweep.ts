import * as portable from '../../base/portable';
import { add, along, cross, dot, norm, radians, scale, subtract, unit, type Vec3 } from '../../base/vec';
import { type Convex, convexOf } from './convex';
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

/** The shape is drawn in by this, so that it may slide along what it touches (metres). */
const DRAWN_IN_M = 2e-4;
/** Nearer than this is contact (metres). */
const CONTACT_M = 1e-4;
/** Least steps past the hull and in a turn. */
const LEAST_STEP_M = 5e-4;
const LEAST_TURN = radians(0.25);

/**
 * How far a solid goes before it meets something. Straight: exact to 0.2 mm. Turning: steps as long as the nearest thing is
 * away, a quarter of a degree at least, so what is thinner than that step may be missed; the contact found is exact to 0.01
 * degrees.
 */
export function sweepThrough(scene: Scene, shape: Solid, motion: Motion, mover: Mover): Sweep {
  const drawnIn = smaller(shape, DRAWN_IN_M - mover.radiusM);
  return motion.kind === 'straight'
    ? straightSweep(scene, drawnIn, motion, mover)
    : turnSweep(scene, drawnIn, motion, mover);
}

function smaller(shape: Solid, by: number): Solid {
  const side = (h: number): number => Math.max(1e-6, h - by);
  if (shape.type === 'box') return { ...shape, half: [side(shape.half[0]), side(shape.half[1]), side(shape.half[2])] };
  const span = subtract(shape.to, shape.from);
  const length = norm(span);
  if (shape.type === 'capsule' || length <= 2 * by) return { ...shape, radius: side(shape.radius) };
  const axis = unit(span);
  return { ...shape, radius: side(shape.radius), from: along(shape.from, axis, by), to: along(shape.to, axis, -by) };
}

function straightSweep(scene: Scene, shape: Solid, motion: Extract<Motion, { kind: 'straight' }>, mover: Mover): Sweep {
  const { direction, distanceM } = motion;
  const body = convexOf(shape);
  let free = distanceM;
  let blocker: Blocker | null = null;
  for (const obstacle of obstaclesWithin(scene, shape, mover, body, scale(direction, distanceM))) {
    const hit = timeOfContact(body, obstacle.body, direction, free);
    if (!hit || hit.t >= free) continue;
    free = hit.t;
    blocker = { ...obstacle.name, at: hit.at };
  }
  if (scene.hull) {
    const { hull } = scene;
    const lines = linesOver(shape);
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

function* obstaclesWithin(scene: Scene, shape: Solid, mover: Mover, body: Convex, by: Vec3): Generator<Obstacle> {
  const [low, high] = [0, 1, 2].reduce<[number[], number[]]>(
    ([l, h], k) => [
      [...l, (body.low[k] as number) + Math.min(0, by[k] as number)],
      [...h, (body.high[k] as number) + Math.max(0, by[k] as number)],
    ],
    [[], []],
  );
  for (const i of scene.near(low as unknown as Vec3, high as unknown as Vec3, mover)) {
    const obstacle = scene.obstacles[i] as Obstacle;
    if (obstacle.name.owner !== shape.owner) yield obstacle;
  }
}

/**
 * Travel until contact: the plane between the nearest points parts the two until the body has closed its distance to it, and
 * moving along that plane it never does (conservative advancement, Mirtich 1996).
 */
function timeOfContact(
  body: Convex,
  obstacle: Convex,
  direction: Vec3,
  withinM: number,
): { t: number; at: Vec3 } | null {
  let t = 0;
  for (let step = 0; step < 200; step++) {
    const by = scale(direction, t);
    const moved: Convex = { ...body, centre: add(body.centre, by), support: (d) => add(body.support(d), by) };
    const { distanceM, onFirst, onSecond } = nearestPoints(moved, obstacle);
    if (distanceM < CONTACT_M) return { t, at: onSecond };
    const closing = dot(subtract(onSecond, onFirst), direction) / distanceM;
    if (closing <= 1e-9) return null;
    // Not further than leaves a tenth of the contact distance: the next measurement must still see a gap.
    t += Math.max(distanceM - CONTACT_M / 2, CONTACT_M / 10) / closing;
    if (t >= withinM) return null;
  }
  return null;
}

function turnSweep(scene: Scene, shape: Solid, motion: Extract<Motion, { kind: 'turn' }>, mover: Mover): Sweep {
  const { about, axis, angleDeg } = motion;
  const whole = radians(Math.abs(angleDeg));
  const sign = angleDeg < 0 ? -1 : 1;
  const arm = farthestFrom(shape, about, axis);
  const turned = (angle: number): Solid => turnedSolid(shape, about, axis, sign * angle);
  const reach = farthestFromPoint(shape, about);
  const near = scene
    .near(
      [about[0] - reach, about[1] - reach, about[2] - reach],
      [about[0] + reach, about[1] + reach, about[2] + reach],
      mover,
    )
    .map((i) => scene.obstacles[i] as Obstacle)
    .filter((o) => o.name.owner !== shape.owner);
  const at = (angle: number): { room: number; blocker: Blocker | null } => {
    const solid = turned(angle);
    const body = convexOf(solid);
    let room = 0.1;
    let blocker: Blocker | null = null;
    for (const obstacle of near) {
      const { distanceM, onSecond } = nearestPoints(body, obstacle.body);
      if (distanceM >= room) continue;
      room = distanceM;
      blocker = { ...obstacle.name, at: onSecond };
    }
    if (scene.hull)
      for (const [a, b] of linesOver(solid)) {
        const free = scene.hull.clearance(a, b, room) + CONTACT_M;
        if (free >= room) continue;
        room = free;
        blocker = { ...HULL, at: nearestToHull(scene.hull, a, b) };
      }
    return { room, blocker };
  };
  let angle = 0;
  let here = at(0);
  while (here.room >= CONTACT_M && angle < whole) {
    const next = Math.min(whole, angle + Math.max(here.room / arm, LEAST_TURN));
    here = at(next);
    if (here.room < CONTACT_M) angle = lastFree(angle, next, radians(0.01), (s) => at(s).room >= CONTACT_M);
    else angle = next;
  }
  const isFree = here.room >= CONTACT_M;
  const share = isFree || whole === 0 ? 1 : angle / whole;
  return { share, free: share * Math.abs(angleDeg), blocker: isFree ? null : here.blocker };
}

function turnedSolid(shape: Solid, about: Vec3, axis: Vec3, angle: number): Solid {
  const [c, s] = [portable.cos(angle), portable.sin(angle)];
  const turn = (v: Vec3): Vec3 => add(add(scale(v, c), scale(cross(axis, v), s)), scale(axis, dot(axis, v) * (1 - c)));
  const move = (p: Vec3): Vec3 => add(about, turn(subtract(p, about)));
  if (shape.type === 'box')
    return {
      ...shape,
      centre: move(shape.centre),
      axes: [turn(shape.axes[0]), turn(shape.axes[1]), turn(shape.axes[2])],
    };
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
