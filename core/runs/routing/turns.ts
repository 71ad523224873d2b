import * as portable from '../../base/portable';

/** Tangent length of a fillet, metres, for a turn by an angle in radians; beyond 150 degrees it grows no more, two bends do that better. */
export function tangentOf(angle: number, radiusM: number): number {
  return radiusM * portable.tan(Math.min(angle, 2.618) / 2);
}

/** The same by the cosine of the turn. */
export const tangentAt = (cos: number, radiusM: number): number =>
  cos < -0.866 ? radiusM * 3.732 : cos >= 1 ? 0 : radiusM * Math.sqrt((1 - cos) / (1 + cos));

/** What a turn out of a given direction adds to the straight distance, metres, by its cosine: R (angle - sin angle). */
export const turnExcess = (cos: number, radiusM: number): number => {
  const angle = portable.acos(cos < -1 ? -1 : cos > 1 ? 1 : cos);
  return radiusM * (angle - portable.sin(angle));
};
