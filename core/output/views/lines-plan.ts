import type { Vec2 } from '../../base/vec';
import type { Hull } from '../../boat/schema/boat';
import { stationsInOrder } from '../../boat/station-edits';
import { areaBelow, halfSectionAt } from '../../shape/hull/half-section';
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

/** Gaps along the hull between the sections that lines along it are read from: closer at the ends than amidships. */
const ALONG = 56;
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

/** Half sections along the hull, from which everything that runs along it is read: made once a drawing. */
export interface SectionAlong {
  readonly xM: number;
  readonly points: readonly Vec2[];
}

export const sectionsAlong = (surface: HullSurface): readonly SectionAlong[] =>
  placesAlong(surface, ALONG).map((xM) => ({ xM, points: halfSectionAt(surface, xM) }));

/** Buttocks at multiples of a spacing from the hull's centre, [x, z] from aft forward: where a section first is that broad. */
export const buttocksEvery = (sections: readonly SectionAlong[], spacingM: number, halfBreadthM: number) =>
  levelsEvery(spacingM, spacingM / 2, halfBreadthM).flatMap((yM) => {
    const points = sections.flatMap(({ xM, points: side }): Vec2[] => {
      const k = side.findIndex(([y]) => y >= yM);
      const at = side[k];
      const before = side[k - 1];
      if (!at) return [];
      if (!before || before[0] === at[0]) return [[xM, at[1]]];
      return [[xM, before[1] + ((at[1] - before[1]) * (yM - before[0])) / (at[0] - before[0])]];
    });
    return points.length > 1 ? [{ yM, points }] : [];
  });

/** Keel line and sheer from aft forward, [x, z]. */
export const profileOf = (
  sections: readonly SectionAlong[],
): { readonly keel: readonly Vec2[]; readonly sheer: readonly Vec2[] } => ({
  keel: sections.flatMap(({ xM, points }): Vec2[] => (points[0] ? [[xM, points[0][1]]] : [])),
  sheer: sections.flatMap(({ xM, points }): Vec2[] => lastOf(points).map(([, z]) => [xM, z])),
});

/** The sheer in plan, [x, half-breadth]. */
export const sheerInPlan = (sections: readonly SectionAlong[]): readonly Vec2[] =>
  sections.flatMap(({ xM, points }): Vec2[] => lastOf(points).map(([y]) => [xM, y]));

const lastOf = (points: readonly Vec2[]): readonly Vec2[] => points.slice(-1);

/** Curve of areas: area of each section below the water, [x, m2] from aft forward. */
export const curveOfAreas = (sections: readonly SectionAlong[], water: WaterPlane): readonly Vec2[] =>
  sections.map(({ xM, points }): Vec2 => [xM, areaBelow(points, waterHeight(water, xM, 0))]);
