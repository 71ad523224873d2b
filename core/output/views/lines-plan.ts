import type { Vec2 } from '../../base/vec';
import type { Hull } from '../../boat/schema/boat';
import { stationsInOrder } from '../../boat/station-edits';
import { halfSectionAt, sectionArea } from '../../shape/hull/half-section';
import type { HullSurface, WaterPlane } from '../../shape/hull/types';
import { placesAlong, waterHeight } from './hull-lines';

/** The lines plan of a hull: body plan, waterlines, buttocks, curve of areas. Half-breadths are from the hull's own centre. */
export interface BodyPlanLine {
  readonly id: string;
  /** Counted from aft, from 0. */
  readonly number: number;
  readonly xM: number;
  /** The half of the body plan that it is drawn in. */
  readonly end: 'aft' | 'forward';
  /** [half-breadth, z] from keel to sheer. */
  readonly points: readonly Vec2[];
}

/** Places along the hull at which lines that follow a drag are read: a pixel apart on a strip 400 wide. */
const ALONG = 100;
/** Most lines of one kind: a spacing typed too small must not stop the drawing. */
const MOST_LINES = 60;

/** All stations laid over each other: those aft of the middle of the length in one half, the others in the other half. */
export function bodyPlan(hull: Hull, surface: HullSurface): readonly BodyPlanLine[] {
  const middle = (surface.aftM + surface.forwardM) / 2;
  return stationsInOrder(hull).map(([id, { xM }], number) => ({
    id,
    number,
    xM,
    end: xM < middle ? 'aft' : 'forward',
    points: halfSectionAt(surface, xM),
  }));
}

/** Lowest and highest z and the greatest half-breadth of a body plan. */
export function bodyPlanExtent(lines: readonly BodyPlanLine[]): {
  readonly lowM: number;
  readonly highM: number;
  readonly halfBreadthM: number;
} {
  let lowM = Number.POSITIVE_INFINITY;
  let highM = Number.NEGATIVE_INFINITY;
  let halfBreadthM = 0;
  for (const { points } of lines)
    for (const [y, z] of points) {
      lowM = Math.min(lowM, z);
      highM = Math.max(highM, z);
      halfBreadthM = Math.max(halfBreadthM, y);
    }
  return lowM < highM ? { lowM, highM, halfBreadthM } : { lowM: -1, highM: 1, halfBreadthM: 1 };
}

/** Multiples of a spacing within two bounds. */
export function levelsEvery(spacingM: number, lowM: number, highM: number): readonly number[] {
  if (!(spacingM > 0) || !((highM - lowM) / spacingM < MOST_LINES)) return [];
  const first = Math.ceil(lowM / spacingM - 1e-9);
  const last = Math.floor(highM / spacingM + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * spacingM + 0);
}

/** Waterlines at multiples of a spacing, [x, half-breadth] from aft forward. */
export const waterlinesEvery = (surface: HullSurface, spacingM: number, lowM: number, highM: number) =>
  levelsEvery(spacingM, lowM, highM).flatMap((zM) => {
    const points = surface.waterlineAt(zM);
    return points.length > 1 ? [{ zM, points }] : [];
  });

/** Buttocks at multiples of a spacing from the hull's centre, [x, z] from aft forward. */
export const buttocksEvery = (surface: HullSurface, spacingM: number, halfBreadthM: number) =>
  levelsEvery(spacingM, spacingM / 2, halfBreadthM).flatMap((yM) => {
    const points = surface.buttockAt(yM);
    return points.length > 1 ? [{ yM, points }] : [];
  });

/** Keel line and sheer from aft forward, [x, z]. */
export function profileOf(surface: HullSurface): { readonly keel: readonly Vec2[]; readonly sheer: readonly Vec2[] } {
  const xs = placesAlong(surface, ALONG);
  return {
    keel: xs.map((x): Vec2 => [x, surface.keelAt(x)]),
    sheer: xs.map((x): Vec2 => [x, surface.sheerAt(x)]),
  };
}

/** The sheer in plan, [x, half-breadth]. */
export const sheerInPlan = (surface: HullSurface): readonly Vec2[] =>
  placesAlong(surface, ALONG).map((x): Vec2 => [x, surface.halfBreadthAt(x, surface.sheerAt(x))]);

/** Curve of areas: area of each section below the water, [x, m2] from aft forward. */
export const curveOfAreas = (surface: HullSurface, water: WaterPlane): readonly Vec2[] =>
  placesAlong(surface, ALONG / 2).map((x): Vec2 => [x, sectionArea(surface, x, waterHeight(water, x, 0))]);
