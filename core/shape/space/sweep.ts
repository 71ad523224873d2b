import { turnedAbout } from '../../base/turning';
import { add, along, cross, degrees, norm, radians, rotate, subtract, UNIT_AXES, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';
import { smaller, travelToContact } from './contact';
import { type Convex, convexOf } from './convex';
import { nearestPoints } from './convex-distance';
import { type Blocker, HULL } from './free-depth';
import { linesOver } from './overlap';
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
  /** How far it is free: metres of a straight motion, degrees of a turn. */
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
export interface InTheWay {
  readonly name: Omit<Blocker, 'at'>;
  readonly body: Convex;
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
  return { free, blocker };
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
  return { free: blocker === null ? Math.abs(angleDeg) : degrees(free), blocker };
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

/** Of seventeen places along a line the one that is nearest to the hull. */
function nearestToHull(hull: HullSurface, from: Vec3, to: Vec3): Vec3 {
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= 16; k++) {
    const p = along(from, subtract(to, from), k / 16);
    const d = hull.clearance(p, p, 1);
    if (d < least - 1e-9) {
      least = d;
      best = p;
    }
  }
  return best;
}
