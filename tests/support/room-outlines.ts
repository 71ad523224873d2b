import type { P2 } from './geometry-oracle';

/**
 * Outlines of rooms that are no boxes: a centre with a side to port and one to starboard of it, `g` apart. Half widths of the centre: `ya`
 * at its foot or aft, `yb` at its head or forward.
 */
export const BOTH_SIDES = [
  ['p', 1],
  ['s', -1],
] as const;

/** In section: walls that lean. */
export const flaredCentre = (ya: number, yb: number, sole: number, top: number): P2[] => [
  [-ya, sole],
  [ya, sole],
  [yb, top],
  [-yb, top],
];
/** Beside it, out to beyond the hull, its foot `rise` higher there. */
export const flaredSide = (
  s: 1 | -1,
  ya: number,
  yb: number,
  g: number,
  sole: number,
  top: number,
  rise: number,
): P2[] => [
  [s * (ya + g), sole],
  [s * 2, sole + rise],
  [s * 2, top],
  [s * (yb + g), top],
];

/** In plan: of another width from `xm` on. */
export const steppedCentre = ([x0, xm, x1]: readonly [number, number, number], ya: number, yb: number): P2[] => [
  [x0, -ya],
  [xm, -ya],
  [xm, -yb],
  [x1, -yb],
  [x1, yb],
  [xm, yb],
  [xm, ya],
  [x0, ya],
];
/** Beside it, out to beyond the hull. */
export function steppedSide(
  s: 1 | -1,
  [x0, xm, x1]: readonly [number, number, number],
  ya: number,
  yb: number,
  g: number,
): P2[] {
  const shift = yb > ya ? g : -g;
  return [
    [x0, s * (ya + g)],
    [xm - shift, s * (ya + g)],
    [xm - shift, s * (yb + g)],
    [x1, s * (yb + g)],
    [x1, s * 2],
    [x0, s * 2],
  ];
}
