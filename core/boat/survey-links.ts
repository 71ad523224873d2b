import * as portable from '../base/portable';
import { DEFAULT_GRADES_M } from './accuracy';
import type { BoatRecipe } from './edits';
import { AXES_OF_VIEW } from './interior/placing';
import type { Boat, Grade } from './schema/boat';
import { GRADES } from './schema/quantities';

/** What of the drawn boat stands at a surveyed point: `survey.points[id].of` read. */
export type SurveyLink =
  | { readonly kind: 'corner'; readonly compartment: string; readonly corner: number }
  | { readonly kind: 'range'; readonly compartment: string; readonly end: 0 | 1 }
  | { readonly kind: 'opening'; readonly opening: string; readonly what: 'at' | 'widthM' | 'heightM' }
  | { readonly kind: 'station'; readonly station: string; readonly index: number };

/** Axes of an outline's two numbers and of its range, by the view that it is drawn in. */
type Near = [number | null, number | null, number | null];
type Draft = Parameters<BoatRecipe>[0];

/** The record that a path names; null where it names none, or what a survey cannot fix (a turned compartment). */
export function surveyLinkOf(boat: Boat | Draft, path: string): SurveyLink | null {
  const within = /^(compartments|openings|hull\.stations)\.(.+)\.([A-Za-z]+)(?:\[(\d+)\])?$/.exec(path);
  const [, group, id = '', key, number] = within ?? [];
  const index = Number(number);
  if (group === 'compartments') {
    const compartment = own(boat.compartments, id);
    if (compartment?.yawDeg !== 0) return null;
    if (key === 'outline' && index < compartment.outline.length)
      return { kind: 'corner', compartment: id, corner: index };
    return key === 'rangeM' && (index === 0 || index === 1) ? { kind: 'range', compartment: id, end: index } : null;
  }
  if (group === 'openings' && own(boat.openings, id) && number === undefined) {
    return key === 'at' || key === 'widthM' || key === 'heightM' ? { kind: 'opening', opening: id, what: key } : null;
  }
  const station = group === 'hull.stations' ? own(boat.hull?.stations ?? {}, id) : undefined;
  return station && key === 'points' && index < station.points.length ? { kind: 'station', station: id, index } : null;
}

const own = <T>(records: Readonly<Record<string, T>>, id: string): T | undefined =>
  Object.hasOwn(records, id) ? records[id] : undefined;

/** Where the drawn boat has its surveyed points, by their id; null for a coordinate that it does not say. */
export function drawnPlaces(boat: Boat): Readonly<Record<string, Near>> {
  const places: Record<string, Near> = {};
  for (const [id, { of }] of Object.entries(boat.survey?.points ?? {})) {
    const at: Near = [null, null, null];
    for (const path of of ?? []) {
      const link = surveyLinkOf(boat, path);
      if (!link) continue;
      drawnParts(boat, link).forEach((part, axis) => {
        if (part !== null) at[axis] = part;
      });
    }
    places[id] = at;
  }
  return places;
}

function drawnParts(boat: Boat, link: SurveyLink): Near {
  const at: Near = [null, null, null];
  switch (link.kind) {
    case 'corner': {
      const { view, outline } = boat.compartments[link.compartment] as Boat['compartments'][string];
      const [first, second] = AXES_OF_VIEW[view];
      const corner = outline[link.corner];
      at[first] = corner?.[0] ?? null;
      at[second] = corner?.[1] ?? null;
      return at;
    }
    case 'range': {
      const { view, rangeM } = boat.compartments[link.compartment] as Boat['compartments'][string];
      at[AXES_OF_VIEW[view][2]] = rangeM[link.end];
      return at;
    }
    case 'opening': {
      // Two edges lie to either side of the centre; a start there is near enough for both.
      const centre = boat.openings[link.opening]?.at;
      return centre ? [...centre] : at;
    }
    case 'station': {
      const station = boat.hull?.stations[link.station];
      const offsets = station?.points[link.index];
      // Which side was measured is not said: the offsets stand for both.
      return station && offsets ? [station.xM, null, offsets[1]] : at;
    }
  }
}

/** A point as the survey leaves it: its place, and one standard deviation along each axis, null where it is not fixed. */
export interface SurveyedPlace {
  readonly at: readonly [number, number, number];
  readonly sdM: readonly [number | null, number | null, number | null];
}

/**
 * One edit: what stands at surveyed points goes to where the survey found them. Corners and ranges of compartments, centres and
 * clear sizes of openings, offsets of stations; where several points say one value, their mean. The grade of a record follows
 * where the survey fixed it whole. Coordinates that are not fixed stay.
 */
export const surveyTakenOver =
  (surveyed: Readonly<Record<string, SurveyedPlace>>): BoatRecipe =>
  (boat) => {
    const places = new Map<string, { readonly link: SurveyLink; readonly points: SurveyedPlace[] }>();
    for (const [id, { of }] of Object.entries(boat.survey?.points ?? {})) {
      const place = own(surveyed, id);
      for (const path of place ? (of ?? []) : []) {
        const link = surveyLinkOf(boat, path);
        if (!link || !place) continue;
        const known = places.get(path) ?? { link, points: [] };
        known.points.push(place);
        places.set(path, known);
      }
    }
    const deviations = new Map<string, number[]>();
    for (const [path, { link, points }] of places) {
      const deviation = takeOver(boat, link, points);
      if (deviation === null) continue;
      if (boat.typed) for (const key of Object.keys(boat.typed)) if (key.startsWith(path)) delete boat.typed[key];
      const record = recordOf(link);
      deviations.set(record, [...(deviations.get(record) ?? []), deviation]);
    }
    for (const [record, found] of deviations) regrade(boat, record, found);
  };

/** How many records there are that `surveyTakenOver` would move. */
export const surveyedRecords = (boat: Boat, surveyed: Readonly<Record<string, SurveyedPlace>>): number =>
  new Set(
    Object.entries(boat.survey?.points ?? {}).flatMap(([id, { of }]) =>
      Object.hasOwn(surveyed, id)
        ? (of ?? []).flatMap((path) => {
            const link = surveyLinkOf(boat, path);
            return link ? [recordOf(link)] : [];
          })
        : [],
    ),
  ).size;

const recordOf = (link: SurveyLink): string =>
  link.kind === 'opening'
    ? `openings ${link.opening}`
    : link.kind === 'station'
      ? `stations ${link.station}`
      : `compartments ${link.compartment}`;

/** Writes one value; the greatest standard deviation in it, null where nothing was written. */
function takeOver(boat: Draft, link: SurveyLink, points: readonly SurveyedPlace[]): number | null {
  const mean = (axis: 0 | 1 | 2): { readonly value: number; readonly sdM: number } | null => {
    const fixed = points.flatMap(({ at, sdM }) => {
      const deviation = sdM[axis];
      return deviation === null ? [] : [{ value: at[axis], weight: 1 / Math.max(deviation, 1e-6) ** 2 }];
    });
    const weight = fixed.reduce((sum, one) => sum + one.weight, 0);
    if (weight === 0) return null;
    return { value: fixed.reduce((sum, one) => sum + one.value * one.weight, 0) / weight, sdM: Math.sqrt(1 / weight) };
  };
  let worst: number | null = null;
  const write = (found: ReturnType<typeof mean>, put: (value: number) => void): void => {
    if (!found) return;
    put(found.value);
    worst = Math.max(worst ?? 0, found.sdM);
  };
  switch (link.kind) {
    case 'corner': {
      const compartment = boat.compartments[link.compartment];
      const corner = compartment?.outline[link.corner];
      if (!compartment || !corner) return null;
      const [first, second] = AXES_OF_VIEW[compartment.view];
      write(mean(first), (value) => {
        corner[0] = value;
      });
      write(mean(second), (value) => {
        corner[1] = value;
      });
      return worst;
    }
    case 'range': {
      const compartment = boat.compartments[link.compartment];
      if (!compartment) return null;
      write(mean(AXES_OF_VIEW[compartment.view][2]), (value) => {
        compartment.rangeM[link.end] = value;
      });
      return worst;
    }
    case 'opening': {
      const opening = boat.openings[link.opening];
      if (!opening) return null;
      if (link.what === 'at') {
        for (const axis of [0, 1, 2] as const) {
          write(mean(axis), (value) => {
            opening.at[axis] = value;
          });
        }
        return worst;
      }
      const [a, b] = points;
      if (!a || !b || points.length !== 2 || [...a.sdM, ...b.sdM].includes(null)) return null;
      opening[link.what] = portable.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1], a.at[2] - b.at[2]);
      return portable.hypot(Math.max(...a.sdM.map(Number)), Math.max(...b.sdM.map(Number)));
    }
    case 'station': {
      const offsets = boat.hull?.stations[link.station]?.points[link.index];
      if (!offsets) return null;
      write(mean(1), (value) => {
        offsets[0] = Math.abs(value);
      });
      write(mean(2), (value) => {
        offsets[1] = value;
      });
      return worst;
    }
  }
}

/** The finest grade that two standard deviations stay within, where every value of the record was found; else only a coarser one. */
function regrade(boat: Draft, record: string, deviations: readonly number[]): void {
  const [group, id = ''] = record.split(' ');
  const inMetres = (grade: Grade): number => boat.accuracy[grade] ?? DEFAULT_GRADES_M[grade];
  const found = GRADES.find((grade) => inMetres(grade) >= 2 * Math.max(...deviations)) ?? 'guessed';
  const set = (target: { grade?: Grade | undefined }, before: Grade, values: number): void => {
    if (deviations.length >= values || GRADES.indexOf(found) > GRADES.indexOf(before)) target.grade = found;
  };
  const compartment = group === 'compartments' ? boat.compartments[id] : undefined;
  if (compartment) set(compartment, compartment.grade, compartment.outline.length + 2);
  const opening = group === 'openings' ? boat.openings[id] : undefined;
  if (opening) set(opening, opening.grade, OPENING_VALUES);
  const station = group === 'stations' ? boat.hull?.stations[id] : undefined;
  if (station) set(station, station.grade ?? boat.hull?.grade ?? 'guessed', station.points.length);
}

/** Centre, width, height. */
const OPENING_VALUES = 3;
