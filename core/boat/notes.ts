import { inOrder } from '../base/order';
import type { Boat, Medium } from './schema/boat';
import { hullsOverlap } from './station-edits';
import { surveyLinkOf } from './survey-links';

/**
 * What a reader should know of a boat that is valid: nothing is refused for it, but something drawn may not mean what its owner thinks.
 */
export function notesOn(boat: Boat): string[] {
  return [
    ...mediumNotes(boat),
    ...waterNotes(boat),
    ...overlapNotes(boat),
    ...astrayLinks(boat),
    ...astrayCases(boat),
    ...keptOnly(boat),
  ];
}

/** A gauge tube carries the water of its tapping, and a tap or tank takes made water as fresh. */
const ALIKE: readonly (readonly Medium[])[] = [
  ['seaWater', 'brine', 'gauge'],
  ['freshWater', 'product', 'gauge'],
  ['dcPower', 'signal'],
];

/** Whether what one port or line carries may flow on in another. */
export const mediaAgree = (a: Medium, b: Medium): boolean =>
  a === b || ALIKE.some((group) => group.includes(a) && group.includes(b));

function mediumNotes(boat: Boat): string[] {
  const notes: string[] = [];
  for (const [id, line] of inOrder(boat.lines)) {
    for (const end of [line.from, line.to]) {
      const medium = (boat.parts[end.thing] ?? boat.fixtures[end.thing])?.ports[end.port]?.medium;
      if (medium && !mediaAgree(medium, line.medium))
        notes.push(`lines.${id}.medium is "${line.medium}", but port ${end.port} of ${end.thing} carries "${medium}".`);
    }
  }
  return notes;
}

/** A hull that z = 0 misses, where nothing else says how it floats. */
function waterNotes({ hull, reference, weights }: Boat): string[] {
  const isMeasured = Object.keys(reference.freeboards).length + Object.keys(reference.levelMarks).length > 0;
  if (!hull || isMeasured || (weights?.displacementKg ?? 0) > 0) return [];
  const stations = Object.entries(hull.stations);
  const [lowId, lowM] = extreme(stations, ([keel]) => keel?.[1] ?? 0, Math.min);
  const [highId, highM] = extreme(stations, (points) => points.at(-1)?.[1] ?? 0, Math.max);
  const means = 'the water is at z = 0 without freeboards, level marks or a displacement.';
  if (lowM >= 0)
    return [
      `hull.stations.${lowId} is the deepest with its keel at z = ${lowM}: the water does not reach the hull; ${means}`,
    ];
  if (highM <= 0)
    return [
      `hull.stations.${highId} is the highest with its sheer at z = ${highM}: the hull is all under water; ${means}`,
    ];
  return [];
}

/** Two hulls that run into each other at the centreline. */
function overlapNotes({ hull }: Boat): string[] {
  const overlap = hull ? hullsOverlap(hull) : null;
  if (!overlap) return [];
  const [offset, breadth] = [overlap.offsetM, overlap.halfBreadthM].map((value) => Math.round(value * 1000) / 1000);
  return [
    `hull.offsetM is ${offset}, less than the greatest half-breadth of ${breadth}: the two hulls overlap, and what they share is counted twice.`,
  ];
}

type Stations = [string, NonNullable<Boat['hull']>['stations'][string]][];

function extreme(
  stations: Stations,
  heightOf: (points: Stations[number][1]['points']) => number,
  pick: (...heights: number[]) => number,
): readonly [string, number] {
  const best = pick(...stations.map(([, { points }]) => heightOf(points)));
  return [stations.find(([, { points }]) => heightOf(points) === best)?.[0] ?? '', best];
}

/** A surveyed point may outlive what it stood at: then nothing is taken over there. */
function astrayLinks(boat: Boat): string[] {
  return Object.entries(boat.survey?.points ?? {}).flatMap(([id, { of }]) =>
    (of ?? [])
      .filter((path) => surveyLinkOf(boat, path) === null)
      .map(
        (path) =>
          `survey.points.${id}.of names ${path}, which is nothing that a survey can fix; it was kept and has no effect.`,
      ),
  );
}

/** What an owner may insist on and checks ask about. */
const JUDGED_DEMANDS: ReadonlySet<string> = new Set([
  'noHaulOut',
  'noNewHoleBelowWaterline',
  'noDismantling',
  'seenFrom',
  'notInBerthCompartment',
]);

/** Floods that checks ask about. */
const JUDGED_CASES: ReadonlySet<string> = new Set(['joint', 'poweredLine']);

/** A case about something that is not aboard is judged nowhere. */
function astrayCases(boat: Boat): string[] {
  return Object.entries(boat.flooding?.cases ?? {}).flatMap(([id, { subject }]) => {
    const isKnown =
      subject === undefined ||
      [boat.fixtures, boat.parts, boat.lines, boat.openings].some((records) => Object.hasOwn(records, subject));
    return isKnown ? [] : [`flooding.cases.${id}.subject is "${subject}", which no thing, line or opening is called.`];
  });
}

/** Fields that are kept in the file and not judged. */
function keptOnly(boat: Boat): string[] {
  const kept: string[] = [];
  const tell = (name: string, records: object | undefined) => {
    const count = Object.keys(records ?? {}).length;
    if (count > 0) kept.push(`${name} (${count})`);
  };
  const unjudged = Object.entries(boat.demands ?? {}).filter(([, { kind }]) => !JUDGED_DEMANDS.has(kind));
  tell('demands', Object.fromEntries(unjudged));
  const uncounted = Object.entries(boat.flooding?.cases ?? {}).filter(([, { kind }]) => !JUDGED_CASES.has(kind));
  tell('flooding.cases', Object.fromEntries(uncounted));
  return kept.length > 0 ? [`Kept in the file and not judged: ${kept.join(', ')}.`] : [];
}
