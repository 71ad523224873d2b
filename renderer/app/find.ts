import type { Boat } from '@core/boat/schema/boat';
import { findingText } from '@core/output/text/finding-text';
import { nameOf } from '@core/output/text/names';
import { taskName, verdictWords } from '@core/output/text/task-words';
import { useDoor } from '../doors/door';
import { plainWords } from '../panels/words';
import { useApp } from '../store/app';
import { layoutOf } from '../store/derived';
import { findingNumbers } from '../store/findings';
import { markOf, placeOf, thingOf, thingsOf } from '../store/select';
import { useService } from '../store/service';
import type { Stage } from '../store/types';
import { keysOf } from './command';
import { COMMANDS, give } from './commands';
import { type Findable, matchOf } from './matching';
import { buttonsOnScreen } from './on-screen';

export interface Found extends Findable {
  readonly id: string;
  readonly kind: string;
  /** How a key gives the same. */
  readonly keys?: string | undefined;
  /** Why it cannot be chosen now. */
  readonly why?: string | null;
  run(): void;
}

const MOST = 24;

/** The one home of finding: commands, what is on the screen, and all of the boat that has a name, best answers first. */
export function find(text: string, boat: Boat | null, arrangementId: string | null): readonly Found[] {
  if (text.trim() === '') return [];
  const known = new Set(COMMANDS.map(({ words }) => words.toLowerCase()));
  const all = [
    ...commandsFound(),
    ...(boat ? thingsFound(boat, arrangementId) : []),
    ...(boat ? placesFound(boat, arrangementId) : []),
    ...(boat ? findingsFound(boat) : []),
    ...(boat ? tasksFound(boat) : []),
    ...buttonsOnScreen().filter(({ words }) => !known.has(words.toLowerCase())),
  ];
  return all
    .flatMap((found) => {
      const match = matchOf(text, found);
      return match === null ? [] : [{ found, match: found.why ? match - UNAVAILABLE : match }];
    })
    .sort((a, b) => b.match - a.match)
    .slice(0, MOST)
    .map(({ found }) => found);
}

/** What cannot be done now comes after what can. */
const UNAVAILABLE = 0.5;

const commandsFound = (): Found[] =>
  COMMANDS.map((command) => ({
    id: `command ${command.id}`,
    words: command.words,
    also: `${command.also ?? ''} ${command.group}`,
    kind: 'command',
    keys: keysOf(command)[0],
    why: command.why?.() ?? null,
    run: () => give(command),
  }));

const goTo = (...wanted: Parameters<ReturnType<typeof useApp.getState>['goTo']>): void => {
  useDoor.getState().show(null);
  useApp.getState().goTo(...wanted);
};

function thingsFound(boat: Boat, arrangementId: string | null): Found[] {
  const things = thingsOf(boat).map(({ id, thing, part }): Found => {
    const at = placeOf(boat, arrangementId, id)?.at ?? null;
    return {
      id: `thing ${id}`,
      words: `${markOf(id, thing)} ${thing.name}`,
      also: plainWords(thing.kind),
      kind: part ? 'part' : 'aboard',
      run: () => goTo({ kind: 'thing', id }, at),
    };
  });
  const lines = Object.entries(boat.lines).map(
    ([id, line]): Found => ({
      id: `line ${id}`,
      words: `${markOf(id, line)} ${line.name}`,
      also: `${plainWords(line.medium)} line hose`,
      kind: 'run',
      run: () => {
        const run = useApp.getState().report?.runs.find((found) => found.lineId === id);
        goTo({ kind: 'line', id }, run?.prims[0]?.from ?? null);
      },
    }),
  );
  return [...things, ...lines];
}

function placesFound(boat: Boat, arrangementId: string | null): Found[] {
  const inStage = (stage: Stage, ...where: Parameters<typeof goTo>): void => {
    useApp.getState().setStage(stage);
    goTo(...where);
  };
  const compartments = Object.keys(boat.compartments).map(
    (id): Found => ({
      id: `compartment ${id}`,
      words: nameOf(boat, id),
      also: plainWords(boat.compartments[id]?.kind ?? ''),
      kind: 'compartment',
      run: () => inStage('compartments', { kind: 'compartment', id }, null),
    }),
  );
  const openings = Object.entries(boat.openings).map(
    ([id, { name, at }]): Found => ({
      id: `opening ${id}`,
      words: name,
      kind: 'opening',
      run: () => goTo({ kind: 'opening', id }, at),
    }),
  );
  const surfaces = Object.entries(boat.mountingSurfaces).map(
    ([id, { name, at }]): Found => ({
      id: `surface ${id}`,
      words: name ?? id,
      also: 'mounting surface',
      kind: 'surface',
      run: () => goTo({ kind: 'surface', id }, at),
    }),
  );
  const standing = Object.entries(boat.standingPlaces).map(
    ([id, { name, at }]): Found => ({
      id: `standing ${id}`,
      words: name,
      also: 'standing place person',
      kind: 'place',
      run: () => goTo({ kind: 'standingPlace', id }, at),
    }),
  );
  const panels = Object.values(layoutOf(boat, arrangementId).panels).map(
    ({ id, name }): Found => ({
      id: `panel ${id}`,
      words: name,
      also: 'bulkhead panel',
      kind: 'panel',
      run: () => inStage('compartments', { kind: 'panel', id }, null),
    }),
  );
  return [...compartments, ...openings, ...surfaces, ...standing, ...panels];
}

/** Service tasks, once they have been tried: each leads to its rehearsal. */
const tasksFound = (boat: Boat): Found[] =>
  (useService.getState().report?.tasks ?? []).map(
    (task): Found => ({
      id: `task ${task.key}`,
      words: `${markOf(task.thing, thingOf(boat, task.thing))} ${taskName(boat, task)}`,
      also: `service task rehearse ${verdictWords(task.verdict)}`,
      kind: verdictWords(task.verdict).toLowerCase(),
      run: () => {
        useDoor.getState().show(null);
        useService.getState().choose(task.key);
        useService.setState({ focusWish: true });
      },
    }),
  );

function findingsFound(boat: Boat): Found[] {
  const { report } = useApp.getState();
  const numbers = findingNumbers(report);
  return (report?.findings ?? []).flatMap((finding): Found[] => {
    const number = numbers.get(finding.key);
    if (number === undefined) return [];
    return [
      {
        id: `finding ${finding.key}`,
        words: findingText(finding, boat).title,
        also: `finding ${number} ${finding.rule.replace('/', ' ')}`,
        kind: `finding ${number}`,
        run: () => goTo({ kind: 'finding', id: finding.key }, finding.at),
      },
    ];
  });
}
