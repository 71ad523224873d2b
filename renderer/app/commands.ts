import { newBoat } from '@core/boat/new-boat';
import { useDoor } from '../doors/door';
import { useEntryWish } from '../panels/survey/entry-wish';
import { useApp } from '../store/app';
import { sortedFindings } from '../store/findings';
import { useMeasureNext } from '../store/measure-next';
import { type DisplayUnits, STAGES, type Stage, type ThemeChoice } from '../store/types';
import type { Command } from './command';
import { useDialogs } from './dialogs';
import type { Documents } from './document';
import { INTERIOR_COMMANDS, putDown } from './interior-commands';
import { RUN_COMMANDS } from './run-commands';

let documents: Documents | null = null;
export const connectDocuments = (connected: Documents): void => {
  documents = connected;
};
export const documentsNow = (): Documents | null => documents;

const STAGE_WORDS: Readonly<Record<Stage, string>> = {
  hull: 'Hull',
  compartments: 'Compartments',
  equipment: 'Equipment',
  runs: 'Runs',
  checks: 'Checks',
  sheets: 'Sheets',
};
export const stageWords = (stage: Stage): string => STAGE_WORDS[stage];

const store = useApp.getState;
const SECTION_STEP_M = 0.1;

const theme = (choice: ThemeChoice, words: string): Command => ({
  id: `theme-${choice}`,
  words,
  run: () => store().setTheme(choice),
});
const units = (choice: DisplayUnits, words: string): Command => ({
  id: `units-${choice}`,
  words,
  run: () => store().setDisplayUnits(choice),
});
const layer = (key: Parameters<ReturnType<typeof store>['setLayer']>[0], words: string): Command => ({
  id: `layer-${key}`,
  words,
  run: () => store().setLayer(key, !store().layers[key]),
});

export const FILE_COMMANDS: readonly Command[] = [
  { id: 'door-ten-minutes', words: 'New in ten minutes', run: () => useDoor.getState().show('tenMinutes') },
  { id: 'new-empty', words: 'New empty boat', run: () => void newEmptyBoat() },
  { id: 'door-one-locker', words: 'One locker', run: () => useDoor.getState().show('oneLocker') },
  { id: 'sample', words: 'New from sample', run: () => useDialogs.getState().setSamples(true) },
  { id: 'open', words: 'Open', keys: 'Ctrl O', run: () => void documents?.open() },
  { id: 'save', words: 'Save', keys: 'Ctrl S', run: () => void documents?.save() },
  { id: 'saveAs', words: 'Save as', keys: 'Ctrl Shift S', run: () => void documents?.saveAs() },
];

/** Every command once: menu, find field, keyboard map and keys all read this list. */
export const COMMANDS: readonly Command[] = [
  ...FILE_COMMANDS,
  { id: 'undo', words: 'Undo', keys: 'Ctrl Z', run: () => store().undo() },
  { id: 'redo', words: 'Redo', keys: 'Ctrl Y', run: () => store().redo() },
  ...STAGES.map(
    (stage, index): Command => ({
      id: `stage-${stage}`,
      words: `Go to ${STAGE_WORDS[stage]}`,
      keys: String(index + 1),
      run: () => store().setStage(stage),
    }),
  ),
  {
    id: 'section-aft',
    words: 'Section 100 mm aft',
    keys: '[',
    run: () => store().setSectionX(store().sectionX - SECTION_STEP_M),
  },
  {
    id: 'section-forward',
    words: 'Section 100 mm forward',
    keys: ']',
    run: () => store().setSectionX(store().sectionX + SECTION_STEP_M),
  },
  { id: 'next-finding', words: 'Next finding', keys: 'N', run: nextFinding },
  { id: 'measure-next', words: 'Measure this next', run: measureNext },
  { id: 'survey-entry', words: 'Enter survey readings', run: () => useEntryWish.getState().ask() },
  { id: 'turn', words: 'Quarter turn of the selected thing', keys: 'R', run: quarterTurn },
  { id: 'tool-select', words: 'Tool: select and move', run: () => store().setTool('select') },
  { id: 'tool-pan', words: 'Tool: move the sheet', run: () => store().setTool('pan') },
  { id: 'tool-section', words: 'Tool: move the section', run: () => store().setTool('section') },
  ...INTERIOR_COMMANDS,
  ...RUN_COMMANDS,
  { id: 'select-none', words: 'Put down the tool, select nothing', keys: 'Esc', run: putDown },
  theme('light', 'Light colours'),
  theme('dark', 'Dark colours'),
  theme('system', 'Colours of the system'),
  units('mm', 'Show millimetres'),
  units('inch', 'Show inches'),
  layer('names', 'Names of compartments on or off'),
  layer('balloons', 'Item balloons on or off'),
  layer('stations', 'Stations on or off'),
  layer('grid', 'Grid on or off'),
  layer('service', 'Room for service on or off'),
  layer('sweeps', 'Moving sweeps on or off'),
  layer('heeled', 'Heeled waterline on or off'),
  { id: 'help', words: 'Keyboard map', keys: '?', run: () => useDialogs.getState().setHelp(true) },
];

/** What may be given from a door without leaving it: all else speaks of the boat that is open, and shows it. */
const STAYS_AT_DOOR: ReadonlySet<string> = new Set([
  ...FILE_COMMANDS.map(({ id }) => id),
  ...COMMANDS.flatMap(({ id }) => (/^(theme|units)-/.test(id) ? [id] : [])),
  'help',
]);

/** Runs a command, and where it works on the open boat, closes the door that stands before it. */
export function give({ id, run }: Command): void {
  if (!STAYS_AT_DOOR.has(id)) useDoor.getState().show(null);
  run();
}

/** Keys that would work on a boat which is out of sight do nothing at a door; Esc, like a stage, leads back to the boat. */
export const worksAtDoor = (id: string): boolean =>
  STAYS_AT_DOOR.has(id) || id.startsWith('stage-') || id === 'find' || id === 'select-none';

export const commandOf = (id: string): Command | null => COMMANDS.find((command) => command.id === id) ?? null;

/** A boat with nothing in it, at the stage in which one draws. */
async function newEmptyBoat(): Promise<void> {
  await documents?.openNew(newBoat('New boat'));
  if (store().document.fileName === 'New boat') store().setStage('compartments');
}

function quarterTurn(): void {
  const { selection, turn, activeView } = store();
  if (selection?.kind !== 'thing') return;
  // Clockwise as one looks at the view: profile and section look along +y and +x, the plan along -z.
  if (activeView === 'profile') turn(selection.id, 'y', 90);
  else if (activeView === 'section') turn(selection.id, 'x', 90);
  else turn(selection.id, 'z', -90);
}

/** Shows the readings that would settle most, and has them worked out. */
function measureNext(): void {
  store().select(null);
  store().setStage('checks');
  useMeasureNext.getState().start();
}

function nextFinding(): void {
  const { report, selection, goTo } = store();
  if (!report) return;
  const { open } = sortedFindings(report.findings);
  const now = open.findIndex((finding) => selection?.kind === 'finding' && finding.key === selection.id);
  const next = open[(now + 1) % Math.max(1, open.length)];
  if (next) goTo({ kind: 'finding', id: next.key }, next.at);
}
