import type { Vec2 } from '@core/base/vec';
import { gradeM } from '@core/boat/accuracy';
import type { Boat, Hull } from '@core/boat/schema/boat';
import { isAcceptedUnfair, withStationPoints } from '@core/boat/station-edits';
import {
  type BodyPlanLine,
  bodyPlan,
  bodyPlanExtent,
  buttocksEvery,
  curveOfAreas,
  profileOf,
  sectionsAlong,
  sheerInPlan,
  waterlinesEvery,
} from '@core/output/views/lines-plan';
import {
  type CombTooth,
  curvatureComb,
  type SectionCrossing,
  sectionCrossings,
  type UnfairPoint,
  unfairPoints,
} from '@core/shape/hull/fairness';
import { type Hydrostatics, hydrostatics } from '@core/shape/hull/hydrostatics';
import { measuredSurface } from '@core/shape/hull/station-between';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface, WaterPlane } from '@core/shape/hull/types';
import type { Tokens } from '../app/tokens';
import { hullOf } from '../store/derived';
import type { DisplayUnits } from '../store/types';
import type { BodyCamera, SectionSheet } from './sheet';
import type { HeldStation } from './store';

/** The lines of a hull as it stands or as the hand holds it. */
export interface HullLines {
  readonly hull: Hull;
  readonly surface: HullSurface;
  readonly body: readonly BodyPlanLine[];
  readonly waterlines: ReturnType<typeof waterlinesEvery>;
  readonly buttocks: ReturnType<typeof buttocksEvery>;
  readonly profile: ReturnType<typeof profileOf>;
  readonly sheer: readonly Vec2[];
  readonly areas: readonly Vec2[];
  readonly afloat: Hydrostatics;
}

/** All that the painters of the section board read. */
export interface SectionScene extends HullLines {
  readonly colours: Tokens;
  readonly units: DisplayUnits;
  readonly sheet: SectionSheet;
  readonly camera: BodyCamera;
  readonly level: WaterPlane;
  readonly densityKgM3: number;
  /** Displacement before the hand took hold, kg. */
  readonly restKg: number;
  readonly active: ActiveStation;
  readonly lines: { readonly shown: boolean; readonly waterlinesM: number; readonly buttocksM: number };
  readonly isHeld: boolean;
  /** Counts up when fonts arrive. */
  readonly fonts: number;
}

export interface ActiveStation {
  readonly id: string;
  readonly line: BodyPlanLine;
  readonly points: readonly Vec2[];
  readonly knuckles: readonly number[];
  readonly point: number | null;
  readonly comb: readonly CombTooth[];
  readonly combScaleM: number;
  readonly unfair: readonly UnfairPoint[];
  readonly crossings: readonly SectionCrossing[];
}

/** The hull with a station as it is held; the hull itself while nothing is. */
export const hullAsHeld = (hull: Hull, held: HeldStation | null): Hull =>
  held ? withStationPoints(hull, held.id, held.points) : hull;

/** Share of the facets while a point is held: chords stray by 0.6 mm on ten metres of hull, less than a line is wide on the drawing. */
const HELD_FINENESS = 0.5;

/** Draws all lines anew: what a drag does at every step. */
export function hullLines(boat: Boat, hull: Hull, level: WaterPlane, lines: SectionScene['lines']): HullLines {
  const isHeld = hull !== boat.hull;
  const fineness = isHeld ? HELD_FINENESS : 1;
  const surface = (isHeld ? null : hullOf(boat)) ?? hullSurface(hull, fineness);
  const isOwn = hull.offsetM === 0 && (hull.measuredTo === 'outside' || hull.shellM + hull.liningM === 0);
  const measured = isOwn ? surface : measuredSurface(hull, fineness);
  const body = bodyPlan(hull, measured);
  const along = sectionsAlong(surface);
  const { lowM, highM, halfBreadthM } = bodyPlanExtent(body);
  const shown = lines.shown
    ? {
        waterlines: waterlinesEvery(measured, lines.waterlinesM, lowM, highM),
        buttocks: buttocksEvery(isOwn ? along : sectionsAlong(measured), lines.buttocksM, halfBreadthM),
      }
    : { waterlines: [], buttocks: [] };
  return {
    hull,
    surface,
    body,
    ...shown,
    profile: profileOf(along),
    sheer: sheerInPlan(along),
    areas: curveOfAreas(along, level),
    afloat: hydrostatics(surface, level),
  };
}

/** Accuracy of a station's readings, two standard deviations, metres. */
export function stationGradeM(boat: Boat, hull: Hull, id: string): number {
  const grade = hull.stations[id]?.grade ?? hull.grade;
  return gradeM(boat, grade);
}

/** Unfair points of a station that were not accepted as being the boat. */
export function openUnfair(boat: Boat, hull: Hull, id: string): readonly UnfairPoint[] {
  const station = hull.stations[id];
  if (!station) return [];
  const { points, knuckles } = station;
  const found = unfairPoints(points, {
    gradeM: stationGradeM(boat, hull, id),
    ...(knuckles ? { knuckles } : {}),
    ...(hull.form ? { form: hull.form } : {}),
  });
  return found.filter(({ index }) => !isAcceptedUnfair(station, points[index] as Vec2));
}

export function activeStation(
  boat: Boat,
  { hull, body }: HullLines,
  id: string,
  { point, comb, combScaleM }: { point: number | null; comb: boolean; combScaleM: number },
): ActiveStation | null {
  const line = body.find((own) => own.id === id);
  const station = hull.stations[id];
  if (!line || !station) return null;
  const { points } = station;
  const knuckles = station.knuckles ?? [];
  return {
    id,
    line,
    points,
    knuckles,
    point: point !== null && point < points.length ? point : null,
    comb: comb ? curvatureComb(points, knuckles) : [],
    combScaleM,
    unfair: openUnfair(boat, hull, id),
    crossings: sectionCrossings(points),
  };
}
