import { distanceToSegment } from '@core/base/segment';
import type { Vec2 } from '@core/base/vec';
import type { BoatRecipe } from '@core/boat/edits';
import type { Hull } from '@core/boat/schema/boat';
import {
  allowedPoint,
  freeStationId,
  knuckleSet,
  pointAdded,
  pointMoved,
  pointRemoved,
  stationDeleted,
  stationNumber,
  stationSet,
  stationsInOrder,
  stationsRenumbered,
  unfairAccepted,
} from '@core/boat/station-edits';
import type { UnfairPoint } from '@core/shape/hull/fairness';
import { stationBetween } from '@core/shape/hull/station-between';
import { lengthUnit, wholeLength } from '../panels/format';
import { useApp } from '../store/app';
import { activeStationId, setSections, useSections } from './store';
import { limitWords } from './words';

/** What mouse, keys and buttons of the section board do: each is one edit, and says at the place why it was not done. */

const hullNow = (): Hull | null => useApp.getState().boat?.hull ?? null;

/** The station that is edited, as it stands in the boat. */
function activeNow(): { readonly hull: Hull; readonly id: string; readonly points: readonly Vec2[] } | null {
  const { boat } = useApp.getState();
  const id = boat ? activeStationId(boat, useSections.getState().stationId) : null;
  const points = id === null ? undefined : boat?.hull?.stations[id]?.points;
  return boat?.hull && id !== null && points ? { hull: boat.hull, id, points } : null;
}

const nameOf = (hull: Hull, id: string): string => `station ${stationNumber(hull, id)}`;

function edited(label: string, recipe: BoatRecipe, merge?: string): boolean {
  setSections({ refusal: null });
  return useApp.getState().edit(label, recipe, merge);
}

export function pickStation(id: string): void {
  const station = hullNow()?.stations[id];
  if (!station) return;
  const same = useSections.getState().stationId === id;
  setSections(same ? { refusal: null } : { stationId: id, point: null, refusal: null });
  const { select, setSectionX, selection } = useApp.getState();
  if (selection?.kind !== 'station' || selection.id !== id) select({ kind: 'station', id });
  setSectionX(station.xM);
}

export function pickPoint(id: string, index: number): void {
  pickStation(id);
  setSections({ point: index });
}

/** The station before or after the active one, along the boat. */
export function stepStation(by: 1 | -1): void {
  const active = activeNow();
  if (!active) return;
  const order = stationsInOrder(active.hull).map(([id]) => id);
  const next = order[order.indexOf(active.id) + by];
  if (next !== undefined) pickStation(next);
}

export function stepPoint(to: number): void {
  const active = activeNow();
  if (active) pickPoint(active.id, Math.min(active.points.length - 1, Math.max(0, to)));
}

/** Holds a point off its place by so much, [half-breadth, height] metres: nothing of it is an edit yet. */
export function holdPoint(index: number, by: Vec2): void {
  const active = activeNow();
  const from = active?.points[index];
  if (!active || !from) return;
  const wanted: Vec2 = [from[0] + by[0], from[1] + by[1]];
  const at = allowedPoint(active.points, index, wanted);
  const points = active.points.map((point, i) => (i === index ? at : point));
  setSections({
    held: { id: active.id, index, points },
    refusal: limitWords(active.points, index, wanted, useApp.getState().displayUnits),
  });
}

/** The hand lets go: what is held becomes one edit. */
export function releasePoint(): void {
  const { held } = useSections.getState();
  const hull = hullNow();
  setSections({ held: null, refusal: null });
  const at = held?.points[held.index];
  if (!held || !hull || !at) return;
  if (edited(`Move point ${held.index + 1} of ${nameOf(hull, held.id)}`, pointMoved(held.id, held.index, at)))
    tell(held.index, at);
}

export const giveUpPoint = (): void => setSections({ held: null, refusal: null });

/** Moves the picked point by a step of the keys; steps in a row are one edit. */
export function nudgePoint(by: Vec2): void {
  const active = activeNow();
  const { point } = useSections.getState();
  const from = point === null ? undefined : active?.points[point];
  if (!active || point === null || !from) return;
  const wanted: Vec2 = [from[0] + by[0], from[1] + by[1]];
  const at = allowedPoint(active.points, point, wanted);
  const why = limitWords(active.points, point, wanted, useApp.getState().displayUnits);
  if (at[0] !== from[0] || at[1] !== from[1]) {
    edited(
      `Move point ${point + 1} of ${nameOf(active.hull, active.id)}`,
      pointMoved(active.id, point, at),
      `nudge ${active.id} ${point}`,
    );
    tell(point, at);
  }
  setSections({ refusal: why });
}

function tell(index: number, at: Vec2): void {
  const { notify, displayUnits } = useApp.getState();
  const [b, h] = at.map((value) => wholeLength(value, displayUnits));
  notify(`Point ${index + 1}: half-breadth ${b}, height ${h} ${lengthUnit(displayUnits)}. Undo: Ctrl Z`);
}

/** A new point on a section where it was pressed, [half-breadth, z]. */
export function addPointAt(id: string, at: Vec2): void {
  const hull = hullNow();
  const station = hull?.stations[id];
  if (!hull || !station) return;
  const index = gapNearest(station.points, at) + 1;
  putPoint(hull, id, index, at);
}

/** A new point half way to the next one, or to the one before at the sheer. */
export function addPointAfter(index: number): void {
  const active = activeNow();
  if (!active) return;
  const from = Math.min(index, active.points.length - 2);
  const [a, b] = [active.points[from], active.points[from + 1]];
  if (a && b) putPoint(active.hull, active.id, from + 1, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
}

function putPoint(hull: Hull, id: string, index: number, at: Vec2): void {
  const points = hull.stations[id]?.points ?? [];
  const low = points[index - 1]?.[1] ?? at[1];
  const high = points[index]?.[1] ?? at[1];
  const inside: Vec2 = [Math.max(0, at[0]), Math.min(high, Math.max(low, at[1]))];
  if (edited(`Add a point to ${nameOf(hull, id)}`, pointAdded(id, index, inside))) pickPoint(id, index);
}

function gapNearest(points: readonly Vec2[], at: Vec2): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < points.length; i += 1) {
    const [a, b] = [points[i] as Vec2, points[i + 1] as Vec2];
    const off = distanceToSegment(at, a, b);
    if (off < least) {
      least = off;
      best = i;
    }
  }
  return best;
}

export function removePoint(index: number): void {
  const active = activeNow();
  if (!active) return;
  if (active.points.length <= 2) {
    setSections({ refusal: 'A station keeps two points at least: keel and sheer.' });
    return;
  }
  if (edited(`Remove point ${index + 1} of ${nameOf(active.hull, active.id)}`, pointRemoved(active.id, index)))
    setSections({ point: Math.min(index, active.points.length - 2) });
}

export function toggleKnuckle(index: number): void {
  const active = activeNow();
  if (!active) return;
  const on = !(active.hull.stations[active.id]?.knuckles ?? []).includes(index);
  edited(`Knuckle at point ${index + 1} of ${nameOf(active.hull, active.id)}`, knuckleSet(active.id, index, on));
}

/** Moves an unfair point to where it is fair. */
export function makeFair(id: string, { index, fairAt }: UnfairPoint): void {
  const hull = hullNow();
  if (hull) edited(`Fair point ${index + 1} of ${nameOf(hull, id)}`, pointMoved(id, index, fairAt));
}

/** Keeps in the file that an unfair point is the boat. */
export function acceptAsBoat(id: string, { index }: UnfairPoint): void {
  const hull = hullNow();
  const point = hull?.stations[id]?.points[index];
  if (hull && point) edited(`Point ${index + 1} of ${nameOf(hull, id)} is the boat`, unfairAccepted(id, point));
}

/** A station read off the surface at x; false and the reason where none can be. */
export function addStationAt(xM: number): boolean {
  const hull = hullNow();
  if (!hull) return false;
  const station = stationBetween(hull, xM);
  const { displayUnits } = useApp.getState();
  const place = `${wholeLength(xM, displayUnits)} ${lengthUnit(displayUnits)}`;
  if (!station) {
    const order = stationsInOrder(hull);
    const there = order.find(([, { xM: own }]) => Math.abs(own - xM) < 1e-3);
    const [aft, forward] = [order[0]?.[1].xM ?? 0, order.at(-1)?.[1].xM ?? 0].map((x) => wholeLength(x, displayUnits));
    setSections({
      refusal: there
        ? `${place} is where station ${stationNumber(hull, there[0])} stands already.`
        : `${place} lies beyond the hull, which goes from ${aft} to ${forward}. Copy an end station to make it longer.`,
    });
    return false;
  }
  const id = freeStationId(hull);
  if (!edited(`Add a station at ${place}`, stationSet(id, station))) return false;
  pickStation(id);
  return true;
}

/** The widest gap beside a station, half way: where another one says most. */
export function middleOfGap(hull: Hull, id: string): number {
  const order = stationsInOrder(hull);
  const i = order.findIndex(([own]) => own === id);
  const x = order[i]?.[1].xM ?? 0;
  const before = x - (order[i - 1]?.[1].xM ?? x);
  const after = (order[i + 1]?.[1].xM ?? x) - x;
  return after >= before ? x + after / 2 : x - before / 2;
}

/** The same points at another place along the boat. */
export function copyStationTo(id: string, xM: number): boolean {
  const hull = hullNow();
  const station = hull?.stations[id];
  if (!hull || !station || !isFree(hull, xM)) return false;
  const { acceptedUnfair: _, ...copy } = station;
  const own = freeStationId(hull);
  if (!edited(`Copy ${nameOf(hull, id)}`, stationSet(own, { ...copy, xM }))) return false;
  pickStation(own);
  return true;
}

/** Moves a station along the boat: never onto another, never past a neighbour without a word. */
export function moveStationTo(id: string, xM: number): boolean {
  const hull = hullNow();
  const station = hull?.stations[id];
  if (!hull || !station) return false;
  if (!isFree(hull, xM, id)) return false;
  const order = stationsInOrder(hull);
  const i = order.findIndex(([own]) => own === id);
  const passed = [order[i - 1], order[i + 1]].find(
    (other) => other && Math.sign(other[1].xM - station.xM) !== Math.sign(other[1].xM - xM),
  );
  if (passed) {
    const { displayUnits } = useApp.getState();
    const at = `${wholeLength(passed[1].xM, displayUnits)} ${lengthUnit(displayUnits)}`;
    setSections({
      refusal: `Station ${i} cannot pass station ${stationNumber(hull, passed[0])}, at ${at}. Delete one, or copy this one there.`,
    });
    return false;
  }
  return edited(`Move ${nameOf(hull, id)}`, stationSet(id, { ...station, xM }));
}

function isFree(hull: Hull, xM: number, except?: string): boolean {
  const there = stationsInOrder(hull).find(([id, own]) => id !== except && Math.abs(own.xM - xM) < 1e-3);
  if (!there) return true;
  const { displayUnits } = useApp.getState();
  const place = `${wholeLength(xM, displayUnits)} ${lengthUnit(displayUnits)}`;
  setSections({ refusal: `${place} is where station ${stationNumber(hull, there[0])} stands already.` });
  return false;
}

/** Takes the points of a station from the surface between its neighbours, as if it were not there. */
export function interpolateStation(id: string): void {
  const hull = hullNow();
  const station = hull?.stations[id];
  if (!hull || !station) return;
  const { [id]: _, ...others } = hull.stations;
  const found = stationBetween({ ...hull, stations: others }, station.xM);
  if (found) edited(`Interpolate ${nameOf(hull, id)}`, stationSet(id, found));
  else setSections({ refusal: 'An end of the hull has no neighbour on its far side to interpolate from.' });
}

export function deleteStation(id: string): void {
  const hull = hullNow();
  if (!hull) return;
  if (Object.keys(hull.stations).length <= 2) {
    setSections({ refusal: 'A hull keeps two stations at least.' });
    return;
  }
  const name = nameOf(hull, id);
  const order = stationsInOrder(hull).map(([own]) => own);
  const next = order[order.indexOf(id) - 1] ?? order[1];
  if (edited(`Delete ${name}`, stationDeleted(id)) && next !== undefined) pickStation(next);
}

export function renumberStations(): void {
  const active = activeNow();
  if (!active) return;
  const number = stationNumber(active.hull, active.id);
  if (!edited('Renumber the stations', stationsRenumbered())) return;
  const next = stationsInOrder(hullNow() ?? active.hull)[number]?.[0];
  if (next !== undefined) pickStation(next);
}
