import type { Vec2 } from '../../base/vec';
import type { HullSurface } from './types';

/**
 * Half section at x from the keel to the sheer, [half-breadth from the hull's centre, z]. A keel with breadth is closed to the
 * centre plane; without `closed` that part of its bottom is left out.
 */
export function halfSectionAt(surface: HullSurface, xM: number, closed = true): readonly Vec2[] {
  const whole = surface.sectionAt(xM);
  const count = Math.ceil(whole.length / 2);
  // Read at every step of a drag, for every line: one pass, no copies between.
  const side = Array.from({ length: count }, (_, i): Vec2 => {
    const [y, z] = whole[count - 1 - i] as Vec2;
    return [Math.max(0, y - surface.offsetM), z];
  });
  return !closed && side.length > 2 && side[0]?.[0] === 0 ? side.slice(1) : side;
}

/** Area below a height of the whole section whose half is given, m2. */
export function areaBelow(side: readonly Vec2[], levelM: number): number {
  let area = 0;
  for (let i = 0; i + 1 < side.length; i += 1) {
    const [y0, z0] = side[i] as Vec2;
    const [y1, z1] = side[i + 1] as Vec2;
    if (z0 >= levelM) break;
    const top = Math.min(z1, levelM);
    const yTop = z1 > z0 ? y0 + ((y1 - y0) * (top - z0)) / (z1 - z0) : y1;
    area += (top - z0) * (y0 + yTop);
  }
  return area;
}
