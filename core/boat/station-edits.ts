import * as portable from '../base/portable';
import type { Vec2 } from '../base/vec';
import type { BoatRecipe } from './edits';
import { quantised } from './quantise';
import type { Hull } from './schema/boat';

export type Station = Hull['stations'][string];
type DraftBoat = Parameters<BoatRecipe>[0];
type DraftStation = NonNullable<DraftBoat['hull']>['stations'][string];

/** Two points of a station nearer than this are one. */
const SAME_POINT_M = 1e-6;

/** Stations from aft forward with their ids. */
export const stationsInOrder = (hull: Pick<Hull, 'stations'>): readonly (readonly [string, Station])[] =>
  Object.entries(hull.stations).sort(([idA, a], [idB, b]) => a.xM - b.xM || (idA < idB ? -1 : 1));

/**
 * The two hulls of a hull off the centreline where they run into each other there, metres: its place, and its greatest
 * half-breadth over the shell. What they share is counted twice. Null where they stand clear, and for a hull on the centreline.
 */
export function hullsOverlap({ offsetM, stations, measuredTo, shellM, liningM }: Hull): {
  readonly offsetM: number;
  readonly halfBreadthM: number;
} | null {
  const skinM = measuredTo === 'inside' ? shellM + liningM : 0;
  const halfBreadthM = skinM + Math.max(0, ...Object.values(stations).flatMap(({ points }) => points.map(([y]) => y)));
  return offsetM !== 0 && Math.abs(offsetM) < halfBreadthM ? { offsetM: Math.abs(offsetM), halfBreadthM } : null;
}

/** Number of a station on the drawing: they are counted from aft, from 0. */
export const stationNumber = (hull: Pick<Hull, 'stations'>, id: string): number =>
  stationsInOrder(hull).findIndex(([own]) => own === id);

/**
 * Where a point of a station may be: its half-breadth is not negative, and its height lies between those of the points beside
 * it, since a section never falls on its way from the keel to the sheer. The nearest such place.
 */
export function allowedPoint(points: readonly Vec2[], index: number, [y, z]: Vec2): Vec2 {
  const low = points[index - 1]?.[1] ?? Number.NEGATIVE_INFINITY;
  const high = points[index + 1]?.[1] ?? Number.POSITIVE_INFINITY;
  return [quantised(Math.max(0, y)), quantised(Math.min(high, Math.max(low, z)))];
}

/** A hull in which one station has other points: what a drag shows before it is an edit. */
export const withStationPoints = (hull: Hull, id: string, points: readonly Vec2[]): Hull => {
  const station = hull.stations[id];
  if (!station) return hull;
  return {
    ...hull,
    stations: { ...hull.stations, [id]: { ...station, points: points.map(([y, z]): [number, number] => [y, z]) } },
  };
};

/** Moves one point; what was typed for it is no longer so. */
export const pointMoved =
  (id: string, index: number, [y, z]: Vec2): BoatRecipe =>
  (boat) => {
    const point = boat.hull?.stations[id]?.points[index];
    if (!point) return;
    for (const axis of [0, 1] as const) {
      const value = axis === 0 ? y : z;
      if (point[axis] === value) continue;
      point[axis] = value;
      if (boat.typed) delete boat.typed[pointPath(id, index, axis)];
    }
  };

/** Puts a point into a station, in the order of height; knuckles and typed words go on belonging to their points. */
export const pointAdded =
  (id: string, index: number, [y, z]: Vec2): BoatRecipe =>
  (boat) => {
    const station = boat.hull?.stations[id];
    if (!station) return;
    station.points.splice(index, 0, [quantised(y), quantised(z)]);
    if (station.knuckles) station.knuckles = station.knuckles.map((k) => (k >= index ? k + 1 : k));
    renamedTyped(boat, id, (k) => (k >= index ? k + 1 : k));
  };

/** Takes a point out of a station. Two have to stay. */
export const pointRemoved =
  (id: string, index: number): BoatRecipe =>
  (boat) => {
    const station = boat.hull?.stations[id];
    if (!station) return;
    station.points.splice(index, 1);
    setKnuckles(
      station,
      (station.knuckles ?? []).filter((k) => k !== index).map((k) => (k > index ? k - 1 : k)),
    );
    renamedTyped(boat, id, (k) => (k === index ? null : k > index ? k - 1 : k));
  };

/** Makes a point a corner of the section, or a smooth point again. */
export const knuckleSet =
  (id: string, index: number, on: boolean): BoatRecipe =>
  (boat) => {
    const station = boat.hull?.stations[id];
    if (!station) return;
    const others = (station.knuckles ?? []).filter((k) => k !== index);
    setKnuckles(station, on ? [...others, index].sort((a, b) => a - b) : others);
  };

/** Says of a point that looks unfair that the boat is so. Once it moves, the question is open again. */
export const unfairAccepted =
  (id: string, [y, z]: Vec2): BoatRecipe =>
  (boat) => {
    const station = boat.hull?.stations[id];
    if (station) station.acceptedUnfair = [...(station.acceptedUnfair ?? []), [y, z]];
  };

/** True where that point was accepted as being the boat. */
export const isAcceptedUnfair = (station: Pick<Station, 'acceptedUnfair'>, [y, z]: Vec2): boolean =>
  (station.acceptedUnfair ?? []).some(([a, b]) => portable.hypot(a - y, b - z) < SAME_POINT_M);

/** Adds a station, or puts another in its place. */
export const stationSet =
  (id: string, station: Station): BoatRecipe =>
  (boat) => {
    if (!boat.hull) return;
    boat.hull.stations[id] = JSON.parse(JSON.stringify(station)) as DraftStation;
  };

export const stationDeleted =
  (id: string): BoatRecipe =>
  (boat) => {
    if (!boat.hull) return;
    delete boat.hull.stations[id];
    wordsForgotten(boat, `${STATIONS}${id}.`);
  };

/**
 * Names the stations by their number from aft: `0`, `1`, `2` ..., with leading noughts so that they sort. What was typed, and
 * grades of single values, go with them.
 */
export const stationsRenumbered = (): BoatRecipe => (boat) => {
  const hull = boat.hull;
  if (!hull) return;
  const order = stationsInOrder(hull as Hull).map(([id]) => id);
  const digits = String(order.length - 1).length;
  const names = new Map(order.map((id, index) => [id, `s${String(index).padStart(digits, '0')}`]));
  hull.stations = Object.fromEntries(order.map((id) => [names.get(id) ?? id, hull.stations[id] as DraftStation]));
  for (const records of [boat.typed, boat.gradeOf] as (Record<string, unknown> | undefined)[]) {
    if (!records) continue;
    const moved = Object.entries(records).filter(([path]) => path.startsWith(STATIONS));
    for (const [path] of moved) delete records[path];
    for (const [path, value] of moved) {
      const [id = '', ...rest] = path.slice(STATIONS.length).split('.');
      records[[`${STATIONS}${names.get(id) ?? id}`, ...rest].join('.')] = value;
    }
  }
};

/** The next free id of a station. */
export function freeStationId(hull: Pick<Hull, 'stations'>): string {
  let number = Object.keys(hull.stations).length;
  while (Object.hasOwn(hull.stations, `s${String(number).padStart(2, '0')}`)) number += 1;
  return `s${String(number).padStart(2, '0')}`;
}

/** A hull of these stations in place of the boat's: from a table, a form or a tape. What else the hull says is kept. */
export const stationsReplaced =
  (stations: Hull['stations'], more: Partial<Omit<Hull, 'stations'>> = {}): BoatRecipe =>
  (boat) => {
    wordsForgotten(boat, STATIONS);
    const kept: Partial<Hull> = boat.hull ? { ...(boat.hull as Hull) } : {};
    boat.hull = JSON.parse(JSON.stringify({ ...kept, ...more, stations })) as NonNullable<DraftBoat['hull']>;
  };

const STATIONS = 'hull.stations.';

/** Path of a coordinate of a point, as problems of a boat file name it. */
export const pointPath = (id: string, index: number, axis: 0 | 1): string =>
  `${STATIONS}${id}.points[${index}][${axis}]`;

function setKnuckles(station: DraftStation, knuckles: number[]): void {
  if (knuckles.length > 0) station.knuckles = knuckles;
  else delete station.knuckles;
}

/** Typed words of a station's points under their new numbers; null takes them away. */
function renamedTyped(boat: DraftBoat, id: string, renamed: (index: number) => number | null): void {
  const { typed } = boat;
  if (!typed) return;
  const head = `${STATIONS}${id}.points[`;
  const moved = Object.entries(typed).filter(([path]) => path.startsWith(head));
  for (const [path] of moved) delete typed[path];
  for (const [path, text] of moved) {
    const [, index = '0', axis = '0'] = /\[(\d+)\]\[([01])\]$/.exec(path) ?? [];
    const next = renamed(Number(index));
    if (next !== null) typed[pointPath(id, next, axis === '1' ? 1 : 0)] = text;
  }
}

/** Takes away what was typed, and grades of single values, under a path: the values there are other ones now. */
export function wordsForgotten(boat: DraftBoat, head: string): void {
  for (const records of [boat.typed, boat.gradeOf] as (Record<string, unknown> | undefined)[]) {
    for (const path of Object.keys(records ?? {})) if (records && path.startsWith(head)) delete records[path];
  }
}
