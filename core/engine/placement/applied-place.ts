import type { Pose } from '../../base/vec';
import { currentArrangementId, type Patch, patchesBetween } from '../../boat/edits';
import { quantisedTree } from '../../boat/quantise';
import type { Arrangement, Boat, Place } from '../../boat/schema/boat';
import { clipPoints, pin, placeChoices, pose, type Source, sourceOf } from '../source';
import type { InputStage } from '../store';

/** A boat with parts put somewhere else, and the edit that does it. */
export interface AppliedPlace {
  readonly boat: Boat;
  readonly patches: readonly Patch[];
  readonly source: Source;
}

/** Id of the arrangement that is begun where a boat has none. */
const FIRST_ARRANGEMENT = 'a';

/** Lines that end at one of the parts, in the order of their ids. */
export const linesAt = (boat: Boat, ids: readonly string[]): readonly string[] =>
  Object.keys(boat.lines)
    .sort()
    .filter((id) => {
      const own = boat.lines[id];
      return own && (ids.includes(own.from.thing) || ids.includes(own.to.thing));
    });

/**
 * The parts at other poses. What their places said of the old spot goes: the way in, the surface, that they are fitted as drawn; and of their
 * lines the clip points and runs as built. What else is told of them is kept.
 */
export function appliedPlace(
  boat: Boat,
  arrangementId: string | null,
  poses: Readonly<Record<string, Pose>>,
  mountedOn: Readonly<Record<string, string | null>>,
): AppliedPlace {
  const id = arrangementId ?? currentArrangementId(boat) ?? FIRST_ARRANGEMENT;
  const before: Arrangement = boat.arrangements[id] ?? {
    name: 'Arrangement',
    places: {},
    clipPoints: {},
    newHoles: {},
  };
  const ids = Object.keys(poses);
  const lines = linesAt(boat, ids);
  const places: Record<string, Place> = { ...before.places };
  for (const part of ids) {
    const { wayIn: _, mountedOn: __, ...kept } = before.places[part] ?? {};
    const surface = mountedOn[part] ?? null;
    const { at, yawDeg, pitchDeg, rollDeg } = quantisedTree(poses[part] as Pose);
    places[part] = {
      ...kept,
      at: [...at],
      yawDeg,
      pitchDeg,
      rollDeg,
      ...(surface === null ? {} : { mountedOn: surface }),
    };
  }
  const after: Arrangement = {
    ...before,
    places,
    clipPoints: without(before.clipPoints, lines),
    ...(before.pins ? { pins: without(before.pins, lines) } : {}),
    ...(before.asBuilt ? { asBuilt: before.asBuilt.filter((part) => !ids.includes(part)) } : {}),
  };
  const next: Boat = { ...boat, arrangements: { ...boat.arrangements, [id]: after } };
  return { boat: next, patches: patchesBetween(boat, next), source: sourceOf(next, id) };
}

function without<T>(records: Readonly<Record<string, T>>, ids: readonly string[]): Record<string, T> {
  return Object.fromEntries(Object.entries(records).filter(([id]) => !ids.includes(id)));
}

/** What of a source such an edit may change, where the parts belong to the arrangement already. */
export const changedBy = (
  boat: Boat,
  ids: readonly string[],
): readonly (readonly [InputStage<Source, unknown>, string])[] => [
  ...ids.flatMap((id) => [[pose, id] as const, [placeChoices, id] as const]),
  ...linesAt(boat, ids).flatMap((id) => [[clipPoints, id] as const, [pin, id] as const]),
];
