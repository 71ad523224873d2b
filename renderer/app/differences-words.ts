import { type Difference, differencesBetween } from '@core/boat/differences';
import type { Boat } from '@core/boat/schema/boat';

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
  const told = [...new Set(differencesBetween(earlier, later).flatMap(wordsOf))];
  return told.length === 0 ? 'no difference' : told.join(', ');
}

function wordsOf({ key, added, removed, changed }: Difference): readonly string[] {
  const [one, many] = WORDS[key] ?? [];
  if (one === undefined || many === undefined) return [`${WHOLE[key] ?? key} changed`];
  const counted = (ids: readonly string[], what: string): readonly string[] =>
    ids.length === 0 ? [] : [`${ids.length} ${ids.length === 1 ? one : many} ${what}`];
  return [...counted(changed, 'changed'), ...counted(added, 'added'), ...counted(removed, 'removed')];
}
