import type { Boat } from '@core/boat/schema/boat';
import { nameOf } from '@core/output/text/names';
import { useDoor } from '../doors/door';
import { useApp } from '../store/app';
import { markOf, placeOf, thingsOf } from '../store/select';
import { COMMANDS, give } from './commands';

export interface Found {
  readonly id: string;
  readonly words: string;
  readonly kind: string;
  run(): void;
}

const FIELD_ID = 'find-field';
const MOST = 14;

export const findFieldId = FIELD_ID;
export const focusFind = (): void => document.getElementById(FIELD_ID)?.focus();

/** Parts, lines, compartments, openings and commands whose words hold every typed word; those that start so come first. */
export function find(text: string, boat: Boat | null, arrangementId: string | null): readonly Found[] {
  const wanted = text.toLowerCase().split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return [];
  const { setStage } = useApp.getState();
  const goTo = (...wanted: Parameters<ReturnType<typeof useApp.getState>['goTo']>): void => {
    useDoor.getState().show(null);
    useApp.getState().goTo(...wanted);
  };
  const all: Found[] = [];
  if (boat) {
    for (const { id, thing, part } of thingsOf(boat)) {
      const at = placeOf(boat, arrangementId, id)?.at ?? null;
      all.push({
        id: `thing ${id}`,
        words: `${markOf(id, thing)} ${thing.name}`,
        kind: part ? 'part' : 'aboard',
        run: () => goTo({ kind: 'thing', id }, at),
      });
    }
    for (const [id, line] of Object.entries(boat.lines)) {
      all.push({
        id: `line ${id}`,
        words: `${markOf(id, line)} ${line.name}`,
        kind: 'run',
        run: () => {
          const run = useApp.getState().report?.runs.find((found) => found.lineId === id);
          goTo({ kind: 'line', id }, run?.prims[0]?.from ?? null);
        },
      });
    }
    for (const id of Object.keys(boat.compartments)) {
      all.push({
        id: `compartment ${id}`,
        words: nameOf(boat, id),
        kind: 'compartment',
        run: () => {
          setStage('compartments');
          goTo({ kind: 'compartment', id }, null);
        },
      });
    }
    for (const [id, opening] of Object.entries(boat.openings)) {
      all.push({
        id: `opening ${id}`,
        words: opening.name,
        kind: 'opening',
        run: () => goTo({ kind: 'opening', id }, opening.at),
      });
    }
  }
  for (const command of COMMANDS)
    all.push({
      id: `command ${command.id}`,
      words: command.words,
      kind: command.keys ?? 'command',
      run: () => give(command),
    });
  const matching = all.filter(({ words }) => wanted.every((word) => words.toLowerCase().includes(word)));
  const first = wanted[0] ?? '';
  const starts = (found: Found): number => Number(!found.words.toLowerCase().startsWith(first));
  return matching.sort((a, b) => starts(a) - starts(b)).slice(0, MOST);
}
