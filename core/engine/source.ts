import type { Pose } from '../base/vec';
import { arrangedIn } from '../boat/arranged';
import { lineKindOf } from '../boat/catalogue/line-kinds';
import { assumptionsOf } from '../boat/catalogue/service-assumptions';
import { currentArrangementId, poseOf } from '../boat/edits';
import type { Arrangement, Boat, Grade, Line, LineKind, Thing } from '../boat/schema/boat';
import { sameValue } from '../boat/schema-walk';
import type { Effort, RunOutcome } from '../runs/routing/types';
import type { Spare } from '../runs/spare/spare';
import { type InputStage, identical } from './store';

/** What an answer depends on: the boat, the arrangement that is judged, poses tried in place of those in the file. */
export interface Source {
  readonly boat: Boat;
  readonly arrangementId: string | null;
  readonly tried: Readonly<Record<string, Pose>>;
  readonly clips: TriedClips;
  readonly effort: Effort;
  /** Whether bounds are the close ones, and lines that are blocked without proof count with what a deeper try comes to. */
  readonly deeper: boolean;
  /** Whether runs are led as they should be where they can, or as cheaply as their lengths and holes allow. */
  readonly wishes: 'all' | 'none';
  /** Runs that are shown while something is dragged, in place of those at rest. */
  readonly held: ReadonlyMap<string, RunOutcome>;
  /** What lay at rest when the drag began: runs with their spare length. */
  readonly atRest: ReadonlyMap<string, { readonly run: RunOutcome; readonly spare: Spare | null }>;
}

/** Clip points of lines, by line, that stand in for those of the arrangement. */
export type TriedClips = Arrangement['clipPoints'];

export const sourceOf = (
  boat: Boat,
  arrangementId?: string | null,
  effort: Effort = 'fast',
  deeper = false,
  wishes: Source['wishes'] = 'all',
): Source => ({
  boat,
  arrangementId: arrangementId ?? currentArrangementId(boat),
  tried: {},
  clips: {},
  effort,
  deeper,
  wishes,
  held: new Map(),
  atRest: new Map(),
});

function input<T>(id: string, select: (source: Source, key: string) => T): InputStage<Source, T> {
  return { id, select, same: sameValue };
}

const NONE: Readonly<Record<string, never>> = {};
const own = <T>(records: Readonly<Record<string, T>> | undefined, key: string): T | undefined =>
  records && Object.hasOwn(records, key) ? records[key] : undefined;
const arrangementOf = ({ boat, arrangementId }: Source): Arrangement | undefined =>
  arrangementId === null ? undefined : own(boat.arrangements, arrangementId);

export const boatName = input('boatName', ({ boat }) => boat.name);
export const arrangementId = input('arrangementId', (source) => source.arrangementId);
export const effort = input('effort', (source) => source.effort);
export const wishesAsked = input('wishesAsked', (source) => source.wishes);
export const deeper = input('deeper', (source) => source.deeper);
/** Compared by identity: a run that is shown is either the same object or another run. */
export const held: InputStage<Source, RunOutcome | undefined> = {
  id: 'held',
  select: (source, lineId) => source.held.get(lineId),
  same: identical,
};
/** Spare length of a run that is shown as it lay at rest; null of any other. */
export const heldSpare: InputStage<Source, Spare | null> = {
  id: 'heldSpare',
  select: ({ held: shown, atRest }, lineId) => {
    const rest = atRest.get(lineId);
    return rest && rest.run === shown.get(lineId) ? rest.spare : null;
  },
  same: identical,
};
export const practice = input('practice', ({ boat }) => boat.practice);
export const greatestHeel = input('greatestHeel', ({ boat }) => boat.greatestHeelDeg);
export const runStates = input('runStates', ({ boat }) => boat.runStates);
/** Without what belongs to another arrangement: a state may name the pumps and valves of several sets. */
export const operatingStates = input('operatingStates', ({ boat, arrangementId }) => {
  const here = arrangedIn(boat, arrangementId);
  return Object.fromEntries(
    Object.entries(boat.operatingStates).map(([id, state]) => [
      id,
      {
        ...state,
        running: state.running.filter(here.hasPart),
        valves: Object.fromEntries(Object.entries(state.valves).filter(([valve]) => here.hasPart(valve))),
      },
    ]),
  );
});
export const accuracy = input('accuracy', ({ boat }) => ({ accuracy: boat.accuracy, gradeOf: boat.gradeOf }));
export const hullData = input('hullData', ({ boat }) => boat.hull);
export const reference = input('reference', ({ boat }) => boat.reference);
export const weights = input('weights', ({ boat }) => boat.weights);
export const flooding = input('flooding', ({ boat }) => boat.flooding);
export const accepted = input('accepted', ({ boat }) => boat.accepted);
export const demands = input('demands', ({ boat }) => boat.demands);
export const openings = input('openings', ({ boat }) => boat.openings);
export const standingPlaces = input('standingPlaces', ({ boat }) => boat.standingPlaces);
export const people = input('people', ({ boat }) => boat.people);
/** What the minutes of service are reckoned with. */
export const serviceAssumptions = input('serviceAssumptions', ({ boat }) => assumptionsOf(boat));
export const mountingSurfaces = input('mountingSurfaces', ({ boat }) => boat.mountingSurfaces);
export const plannedYear = input('plannedYear', ({ boat }) => boat.plannedYear ?? null);
/** Compartments that somebody sleeps in or on, each with where heads lie. */
export const berths = input('berths', ({ boat }) =>
  Object.fromEntries(
    Object.keys(boat.compartments)
      .sort()
      .flatMap((id) => (own(boat.compartments, id)?.berth ? [[id, own(boat.compartments, id)?.pillows ?? []]] : [])),
  ),
);
export const compartmentData = input('compartmentData', ({ boat }) => boat.compartments);
export const compartmentName = input('compartmentName', ({ boat }, id) => own(boat.compartments, id)?.name);
export const compartmentKind = input('compartmentKind', ({ boat }, id) => own(boat.compartments, id)?.kind);
export const compartment = input('compartment', ({ boat }, id) => own(boat.compartments, id));
export const limberHoles = input('limberHoles', ({ boat }) => boat.flooding?.limberHoles ?? NONE);
export const needs = input('needs', ({ boat }) => boat.needs ?? null);
export const panelData = input('panelData', ({ boat }) => boat.panels);
export const suppliedLengths = input('suppliedLengths', ({ boat }) => boat.suppliedLengths);
export const takeoffSettings = input('takeoffSettings', ({ boat }) => boat.takeoff);
export const newHoleCost = input('newHoleCost', ({ boat }) => boat.newHoleCostM);
export const newHoles = input('newHoles', (source) => arrangementOf(source)?.newHoles ?? NONE);
/** Ids in one order that does not depend on the order of the records. What belongs to another arrangement is not among them. */
const sorted = (records: object): readonly string[] => Object.keys(records).sort();

export const fixtureIds = input('fixtureIds', ({ boat }) => sorted(boat.fixtures));
export const partIds = input('partIds', ({ boat, arrangementId }) =>
  sorted(boat.parts).filter(arrangedIn(boat, arrangementId).hasPart),
);
export const thingIds = input('thingIds', ({ boat, arrangementId }) =>
  [...sorted(boat.fixtures), ...sorted(boat.parts).filter(arrangedIn(boat, arrangementId).hasPart)].sort(),
);
export const lineIds = input('lineIds', ({ boat, arrangementId }) =>
  sorted(boat.lines).filter(arrangedIn(boat, arrangementId).hasLine),
);

/** What a thing is, without where it is: the pose of a fixture is read as that of a part is, by `pose`. */
export const thing = input<Thing | undefined>('thing', ({ boat }, id) => {
  const part = own(boat.parts, id);
  if (part) return part;
  const fixture = own(boat.fixtures, id);
  if (!fixture) return undefined;
  const { pose: _, ...rest } = fixture;
  return rest;
});
export const partById = input('partById', ({ boat }, id) => own(boat.parts, id));
export const isPart = input('isPart', ({ boat }, id) => Object.hasOwn(boat.parts, id));
export const line = input<Line | undefined>('line', ({ boat }, id) => own(boat.lines, id));
export const lineKind = input<LineKind | undefined>('lineKind', ({ boat }, id) => lineKindOf(boat.lineKinds, id));

/** Pose of a thing, the one that is tried before the one in the file; null when it is not placed. */
export const pose = input<Pose | null>('pose', (source, id) => {
  const found = own(source.tried, id) ?? poseOf(source.boat, source.arrangementId, id);
  return found && { at: found.at, yawDeg: found.yawDeg, pitchDeg: found.pitchDeg, rollDeg: found.rollDeg };
});
/** What else the place of a part says: the way in, what it is screwed to. */
export const placeChoices = input('placeChoices', (source, id) => {
  const place = own(arrangementOf(source)?.places, id);
  return place && { wayIn: place.wayIn, mountedOn: place.mountedOn, grade: place.grade };
});
export const clipPoints = input(
  'clipPoints',
  (source, lineId) => own(source.clips, lineId) ?? own(arrangementOf(source)?.clipPoints, lineId) ?? NONE,
);
/** The run as built, where it is pinned. */
export const pin = input('pin', (source, lineId) => own(arrangementOf(source)?.pins, lineId) ?? null);
export const forbidden = input('forbidden', (source, lineId) => own(arrangementOf(source)?.forbidden, lineId) ?? []);

/** Path and grade of a record that was measured; a part counts with its envelope, its place is chosen. */
export const grades = input<{ readonly path: string; readonly grade: Grade } | undefined>('grades', ({ boat }, id) => {
  const fixture = own(boat.fixtures, id);
  if (fixture) return { path: `fixtures.${id}`, grade: fixture.pose.grade ?? fixture.grade ?? 'taped' };
  const part = own(boat.parts, id);
  if (part) return { path: `parts.${id}`, grade: part.grade ?? 'measured' };
  const freeboard = own(boat.reference.freeboards, id);
  if (freeboard) return { path: `reference.freeboards.${id}`, grade: freeboard.grade ?? 'taped' };
  const compartment = own(boat.compartments, id);
  if (compartment) return { path: `compartments.${id}`, grade: compartment.grade };
  const opening = own(boat.openings, id);
  if (opening) return { path: `openings.${id}`, grade: opening.grade };
  const surface = own(boat.mountingSurfaces, id);
  if (surface) return { path: `mountingSurfaces.${id}`, grade: surface.grade ?? 'measured' };
  return id === 'hull' && boat.hull ? { path: 'hull', grade: boat.hull.grade } : undefined;
});

/** Inputs that two sources of one drag may give different values: poses and clip points that are tried, runs that are shown. */
export function differing(before: Source, after: Source): readonly (readonly [InputStage<Source, unknown>, string])[] {
  const moved = new Set([...Object.keys(before.tried), ...Object.keys(after.tried)]);
  const shown = new Set([...before.held.keys(), ...after.held.keys()]);
  return [
    ...[...moved].map((id) => [pose, id] as const),
    ...Object.keys({ ...before.clips, ...after.clips }).map((id) => [clipPoints, id] as const),
    ...[...shown]
      .filter((id) => before.held.get(id) !== after.held.get(id))
      .flatMap((id) => [[held, id] as const, [heldSpare, id] as const]),
  ];
}
