import * as portable from '../../base/portable';

/**
 * Axes for a free corner between edges of unit directions a and b: towards the inside of its bend, square to the band, along it.
 */
export function cornerFrame(
  ax: number,
  ay: number,
  az: number,
  bx0: number,
  by0: number,
  bz0: number,
): readonly number[] {
  let tx = ax + bx0;
  let ty = ay + by0;
  let tz = az + bz0;
  let size = Math.sqrt(tx * tx + ty * ty + tz * tz);
  if (size < 1e-6) {
    tx = bx0;
    ty = by0;
    tz = bz0;
    size = 1;
  }
  tx /= size;
  ty /= size;
  tz /= size;
  let bx = bx0 - ax;
  let by = by0 - ay;
  let bz = bz0 - az;
  let along = bx * tx + by * ty + bz * tz;
  bx -= tx * along;
  by -= ty * along;
  bz -= tz * along;
  size = Math.sqrt(bx * bx + by * by + bz * bz);
  if (size < 1e-6) {
    // Straight here: any square direction, the one nearest to the vertical.
    along = tz;
    bx = -tx * along;
    by = -ty * along;
    bz = 1 - tz * along;
    size = Math.sqrt(bx * bx + by * by + bz * bz);
    if (size < 1e-3) {
      bx = 1 - tx * tx;
      by = -ty * tx;
      bz = -tz * tx;
      size = Math.sqrt(bx * bx + by * by + bz * bz);
    }
  }
  bx /= size;
  by /= size;
  bz /= size;
  return [bx, by, bz, ty * bz - tz * by, tz * bx - tx * bz, tx * by - ty * bx, tx, ty, tz];
}

/** Angle of a bend that begins at the end of a straight and then points at a place `ahead` and `aside` of that end; null without one. */
export function tightAngle(ahead: number, aside: number, radiusM: number): number | null {
  // The circle's centre lies one radius aside; the hose leaves it along the tangent through the place.
  const free = ahead * ahead + (aside - radiusM) ** 2 - radiusM * radiusM;
  if (free <= 0) return null;
  return Math.max(0, portable.atan2(aside - radiusM, ahead) + portable.atan2(radiusM, Math.sqrt(free)));
}
