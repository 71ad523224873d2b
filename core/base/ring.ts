import type { Vec2 } from './vec';

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
