import { type Difference, differencesBetween } from '@core/boat/differences';
import type { Boat } from '@core/boat/schema/boat';
import { sameValue } from '@core/boat/schema-walk';

/** One and many of what stands under a key of the boat file. */
const WORDS: Readonly<Record<string, readonly [string, string]>> = {
  compartments: ['compartment', 'compartments'],
  panels: ['panel', 'panels'],
  openings: ['opening', 'openings'],
  mountingSurfaces: ['mounting surface', 'mounting surfaces'],
  standingPlaces: ['standing place', 'standing places'],
  fixtures: ['fixture', 'fixtures'],
  parts: ['part', 'parts'],
  lines: ['line', 'lines'],
  lineKinds: ['kind of line', 'kinds of line'],
  arrangements: ['arrangement', 'arrangements'],
  runStates: ['run-state', 'run-states'],
  operatingStates: ['operating state', 'operating states'],
  pictures: ['picture', 'pictures'],
  accepted: ['acceptance', 'acceptances'],
  stock: ['tick in the list', 'ticks in the list'],
};
const WHOLE: Readonly<Record<string, string>> = {
  name: 'the name',
  hull: 'the hull',
  notes: 'the notes',
  practice: 'the practice profile',
  accuracy: 'the accuracy',
  gradeOf: 'the accuracy',
  reference: 'how she floats',
  weights: 'the weights',
  survey: 'the survey',
  flooding: 'how water spreads',
  currentArrangement: 'the current arrangement',
};

/** What must be told of the way from one boat to the other: `2 parts changed, 1 line added`. */
export function differenceWords(earlier: Boat, later: Boat): string {
  const told = [...new Set(differencesBetween(earlier, later).flatMap((one) => wordsOf(one, earlier, later)))];
  return told.length === 0 ? 'no difference' : told.join(', ');
}

function wordsOf({ key, added, removed, changed }: Difference, earlier: Boat, later: Boat): readonly string[] {
  const [one, many] = WORDS[key] ?? [];
  if (one === undefined || many === undefined) return [`${WHOLE[key] ?? key} changed`];
  const counted = (ids: readonly string[], what: string): readonly string[] =>
    ids.length === 0 ? [] : [`${ids.length} ${ids.length === 1 ? one : many} ${what}`];
  const moved = key === 'arrangements' ? changed.filter((id) => onlyMoved(earlier, later, id)) : [];
  return [
    ...movedWords(earlier, later, moved),
    ...counted(
      changed.filter((id) => !moved.includes(id)),
      'changed',
    ),
    ...counted(added, 'added'),
    ...counted(removed, 'removed'),
  ];
}

/** Whether nothing but the places of parts differs between the two states of an arrangement. */
function onlyMoved(earlier: Boat, later: Boat, id: string): boolean {
  const [was, is] = [earlier.arrangements[id], later.arrangements[id]];
  return was !== undefined && is !== undefined && sameValue({ ...was, places: {} }, { ...is, places: {} });
}

function movedWords(earlier: Boat, later: Boat, arrangements: readonly string[]): readonly string[] {
  const parts = new Set<string>();
  for (const id of arrangements) {
    const [was = {}, is = {}] = [earlier.arrangements[id]?.places, later.arrangements[id]?.places];
    for (const part of Object.keys({ ...was, ...is })) if (!sameValue(was[part], is[part])) parts.add(part);
  }
  return parts.size === 0 ? [] : [`${parts.size} ${parts.size === 1 ? 'part' : 'parts'} moved`];
}
