import type { Vec2 } from './vec';

/** Twice the area of the triangle a b c: + where the way from a over b to c turns left. */
export const turn = (a: Vec2, b: Vec2, c: Vec2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Area that a closed ring goes round, + counter-clockwise, in the square of its own unit; 0 for fewer than three corners. */
export function signedArea(ring: readonly Vec2[]): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i] as Vec2;
    const b = ring[(i + 1) % ring.length] as Vec2;
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return twice / 2;
}

/** Whether a closed ring goes round a point; on the ring itself either may be said. */
export function ringContains(ring: readonly Vec2[], [u, v]: Vec2): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ui, vi] = ring[i] as Vec2;
    const [uj, vj] = ring[j] as Vec2;
    if (vi > v !== vj > v && u < ((uj - ui) * (v - vi)) / (vj - vi) + ui) inside = !inside;
  }
  return inside;
}
