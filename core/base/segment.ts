import * as portable from './portable';
import { along, distance, dot, subtract, type Vec2, type Vec3 } from './vec';

/** The point of the stretch from a to b that is nearest to p. */
export function footOnSegment([x, y]: Vec2, a: Vec2, b: Vec2): Vec2 {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length = dx * dx + dy * dy;
  const t = length > 0 ? Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / length)) : 0;
  return [a[0] + t * dx, a[1] + t * dy];
}

/** Distance from p to the stretch from a to b, in its own unit. */
export function distanceToSegment(p: Vec2, a: Vec2, b: Vec2): number {
  const foot = footOnSegment(p, a, b);
  return portable.hypot(p[0] - foot[0], p[1] - foot[1]);
}

/** As footOnSegment, in space. */
export function footOnLeg(p: Vec3, a: Vec3, b: Vec3): Vec3 {
  const way = subtract(b, a);
  const length = dot(way, way);
  const t = length > 0 ? Math.min(1, Math.max(0, dot(subtract(p, a), way) / length)) : 0;
  return along(a, way, t);
}

/** As distanceToSegment, in space. */
export const distanceToLeg = (p: Vec3, a: Vec3, b: Vec3): number => distance(p, footOnLeg(p, a, b));
