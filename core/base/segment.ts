import type { Vec2 } from './vec';

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
  return Math.hypot(p[0] - foot[0], p[1] - foot[1]);
}
