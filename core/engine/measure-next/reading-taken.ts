import { current, isDraft } from 'immer';
import type { BoatRecipe, Draft } from '../../boat/edits';
import { facesOf } from '../../boat/interior/faces';
import { facesMoved } from '../../boat/interior/shaping';
import type { Boat } from '../../boat/schema/boat';
import type { NextReading } from '../../rules/next-reading';
import { pathOfSide } from '../../shape/layout/faces';
import { groupMoved, sidesWith } from './face-groups';
import { presentValue, type ReadingPlace } from './present-value';

/**
 * Enters a reading: the value, in the unit of the reading, and that it was measured. Both faces of a bulkhead move as one; the
 * side that the tape ran to moves, the one that it began at stays. Readings may be entered one after the other: each is held
 * against the boat as it is by then. Null confirms the present value.
 */
export const readingTaken =
  ({ kind, record, from, paths }: ReadingPlace, value: number | null): BoatRecipe =>
  (boat) => {
    const present = value === null ? null : presentValue(plain(boat), { kind, record, from, paths });
    const by = value === null || present === null ? 0 : value - present;
    if (by !== 0) TAKE[kind]?.(boat, { record, from, paths, by });
    if (kind === 'missing') {
      if (value !== null && paths[0] !== undefined) setAt(boat, paths[0], () => value);
      return;
    }
    boat.gradeOf ??= {};
    for (const path of paths) boat.gradeOf[path] = 'measured';
  };

interface Change extends Pick<ReadingPlace, 'record' | 'from' | 'paths'> {
  /** New value less the present one, metres. */
  readonly by: number;
}

type Take = (boat: Draft<Boat>, change: Change) => void;

const addAtPath: Take = (boat, { paths, by }) => {
  for (const path of paths) setAt(boat, path, (value) => value + by);
};

const TAKE: Readonly<Partial<Record<NextReading['kind'], Take>>> = {
  openingWidth: addAtPath,
  openingHeight: addAtPath,
  partSize: addAtPath,
  heightAboveWater: addAtPath,
  freeboard: (boat, { record, by }) => {
    const freeboard = boat.reference.freeboards[record];
    if (freeboard) freeboard.freeboardM += by;
  },
  thingPlace: (boat, { from, paths, by }) => {
    const sign = FORWARD_SIDES.has(from.side ?? '') ? -1 : 1;
    for (const path of paths) setAt(boat, path, (value) => value + sign * by);
  },
  clearLength: (boat, { record, paths, by }) => {
    const { compartments } = plain(boat);
    const own = compartments[record];
    const key = own && facesOf(own).find((face) => pathOfSide(record, face.key) === paths.at(-1))?.key;
    if (key) facesMoved(groupMoved(compartments, sidesWith(compartments, { id: record, key }), by))(boat);
  },
  hullBreadth: (boat, { record, by }) => {
    const station = boat.hull?.stations[record];
    if (!station) return;
    const widest = Math.max(...station.points.map(([breadth]) => breadth));
    if (widest > 0)
      station.points = station.points.map(([b, z]): [number, number] => [(b * (widest + by)) / widest, z]);
  },
};

/** The boat as it is by now, without the draft about it: what looks at every face of every compartment would pay for each look. */
const plain = (boat: Draft<Boat>): Boat => (isDraft(boat) ? current(boat) : boat) as Boat;

/** Sides that look along an axis of the boat: away from them the coordinate falls. */
const FORWARD_SIDES: ReadonlySet<string> = new Set(['forward end', 'port side', 'top']);

/** Changes the number at a path such as `openings.lid.widthM`; paths that do not lead to a record do nothing. */
function setAt(boat: object, path: string, change: (value: number) => number): void {
  const keys = path.split('.');
  const last = keys.pop() as string;
  let at: unknown = boat;
  for (const key of keys) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) {
      if (key !== 'electric' || typeof at !== 'object' || at === null) return;
      (at as Record<string, unknown>)[key] = {};
    }
    at = (at as Record<string, unknown>)[key];
  }
  if (typeof at !== 'object' || at === null) return;
  const record = at as Record<string, unknown>;
  const before = record[last];
  record[last] = change(typeof before === 'number' ? before : 0);
}
