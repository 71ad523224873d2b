import { add, along, cross, dot, norm, scale, subtract, unit, type Vec3 } from '../../base/vec';
import { type Convex, convexOf } from './convex';
import { nearestPoints } from './convex-distance';
import type { Solid } from './solids';

/** An overlap no deeper than this is a touch: what slides along a wall is not stopped by it (metres). */
export const TOUCH_M = 1e-4;
/** A round body is at its contact when it is nearer than this (metres). */
const CONTACT_M = 1e-6;
/** Slower than this towards one another is alongside (share of the travel). */
const ALONGSIDE = 1e-9;
/** Counted limit of the search among round bodies; it ends in a handful of steps, in some tens at a graze. */
const STEPS = 200;

export interface Contact {
  /** Travel, metres. */
  readonly t: number;
  readonly at: Vec3;
}

/**
 * Travel along `direction` (unit) at which a solid first meets another body, within `withinM`; null when it does not, or only grazes it.
 * Boxes and plates: exact, each separating axis parts them but for one interval of the travel. Where one is round: the distance is convex
 * along the travel, so that following its tangent to zero never overshoots (conservative advancement, Mirtich 1996); to a micrometre
 * across the contact.
 */
export function travelToContact(shape: Solid, obstacle: Convex, direction: Vec3, withinM: number): Contact | null {
  const body = convexOf(shape);
  if (!mayMeet(body, obstacle, direction, withinM)) return null;
  if (body.isPolytope && obstacle.isPolytope) {
    const t = travelOfPolytopes(body, obstacle, direction, withinM);
    return t === null ? null : { t, at: nearestPoints(movedBy(body, direction, t), obstacle).onSecond };
  }
  const drawnIn = timeOfContact(convexOf(smaller(shape, TOUCH_M)), obstacle, direction, withinM + TOUCH_M);
  if (!drawnIn) return null;
  const whole = timeOfContact(body, obstacle, direction, drawnIn.t);
  // What touches from the start may slide along before it runs in: then the drawn-in body alone tells where.
  const contact = whole && (whole.t > 0 || drawnIn.t <= 2 * TOUCH_M) ? whole : drawnIn;
  return contact.t < withinM ? contact : null;
}

/** A solid with everything of its surface `by` further in; at least a micrometre is left of it. Negative: grown. */
export function smaller(shape: Solid, by: number): Solid {
  const side = (h: number): number => Math.max(1e-6, h - by);
  if (shape.type === 'box') return { ...shape, half: [side(shape.half[0]), side(shape.half[1]), side(shape.half[2])] };
  const span = subtract(shape.to, shape.from);
  const length = norm(span);
  if (shape.type === 'capsule' || length <= 2 * by) return { ...shape, radius: side(shape.radius) };
  const axis = unit(span);
  return { ...shape, radius: side(shape.radius), from: along(shape.from, axis, by), to: along(shape.to, axis, -by) };
}

const movedBy = (body: Convex, direction: Vec3, t: number): Convex => {
  const by = scale(direction, t);
  return { ...body, centre: add(body.centre, by), support: (d) => add(body.support(d), by) };
};

/** False where the bounds of what is swept miss those of the obstacle. */
function mayMeet(body: Convex, obstacle: Convex, direction: Vec3, withinM: number): boolean {
  for (let k = 0; k < 3; k += 1) {
    const by = (direction[k] as number) * withinM;
    if ((body.low[k] as number) + Math.min(0, by) > (obstacle.high[k] as number)) return false;
    if ((body.high[k] as number) + Math.max(0, by) < (obstacle.low[k] as number)) return false;
  }
  return true;
}

function travelOfPolytopes(a: Convex, b: Convex, direction: Vec3, withinM: number): number | null {
  let [enter, leave] = [0, Number.POSITIVE_INFINITY];
  let exact = 0;
  const narrow = (n: Vec3): boolean => {
    const speed = dot(direction, n);
    // Room before the body along n, and what it must travel to have passed the obstacle.
    const ahead = -dot(b.support(scale(n, -1)), scale(n, -1)) - dot(a.support(n), n);
    const past = dot(b.support(n), n) + dot(a.support(scale(n, -1)), scale(n, -1));
    if (Math.abs(speed) < ALONGSIDE) return ahead < -TOUCH_M && past > TOUCH_M;
    const [first, last] = speed > 0 ? [ahead, past] : [past, ahead];
    enter = Math.max(enter, first / speed + TOUCH_M / Math.abs(speed));
    leave = Math.min(leave, last / speed - TOUCH_M / Math.abs(speed));
    exact = Math.max(exact, first / speed);
    return enter < leave && exact < withinM;
  };
  for (const n of [...a.normals, ...b.normals]) if (!narrow(n)) return null;
  for (const p of a.edges)
    for (const q of b.edges) {
      const n = cross(p, q);
      if (norm(n) > 1e-9 && !narrow(unit(n))) return null;
    }
  return exact;
}

/**
 * Travel until two convex bodies are a micrometre apart, the first moving along `direction` (unit); null when they are not within
 * `withinM`. The plane between the nearest points parts the two until the body has closed its distance to it, and moving along that plane
 * it never does.
 */
function timeOfContact(body: Convex, obstacle: Convex, direction: Vec3, withinM: number): Contact | null {
  let t = 0;
  for (let step = 0; step < STEPS; step += 1) {
    const { distanceM, onFirst, onSecond } = nearestPoints(movedBy(body, direction, t), obstacle);
    if (distanceM < CONTACT_M) return { t, at: onSecond };
    const closing = dot(subtract(onSecond, onFirst), direction) / distanceM;
    if (closing <= ALONGSIDE) return null;
    // Not further than leaves a tenth of the contact distance: the next measurement must still see a gap.
    t += Math.max(distanceM - CONTACT_M / 2, CONTACT_M / 10) / closing;
    if (t >= withinM) return null;
  }
  return null;
}
