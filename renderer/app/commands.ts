import { newBoat } from '@core/boat/new-boat';
import { BOARD_COMMANDS } from '../board/board-commands';
import { MEASURE_COMMANDS } from '../board/measuring/measure-commands';
import { useDoor } from '../doors/door';
import { useEntryWish } from '../panels/survey/entry-wish';
import { useApp } from '../store/app';
import { TABS, type Tab, useDrawer } from '../store/drawer';
import { sortedFindings } from '../store/findings';
import { useHints } from '../store/hints';
import { useMeasureNext } from '../store/measure-next';
import { useTextSize } from '../store/text-size';
import { type DisplayUnits, type Layers, STAGES, type Stage, type ThemeChoice } from '../store/types';
import { needsBoat, needsReport } from './availability';
import { CLIPBOARD_COMMANDS } from './clipboard-commands';
import type { Command } from './command';
import { DATA_COMMANDS } from './data-commands';
import { useDialogs } from './dialogs';
import type { Documents } from './document';
import { focusFind, focusTableFilter } from './focus-fields';
import { DRAWING_TOOLS, INTERIOR_COMMANDS, putDown, tool } from './interior-commands';
import { PLACING_COMMANDS } from './placing-commands';
import { RUN_COMMANDS } from './run-commands';
import { SERVICE_COMMANDS } from './service-commands';
import { STEPS_COMMAND, WORK_COMMANDS } from './work/work-commands';

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

const TAB_WORDS: Readonly<Record<Tab, string>> = {
  Parts: 'parts and fixtures',
  Runs: 'runs',
  Unrolled: 'heights along a run, unrolled',
  Compartments: 'compartments',
  Panels: 'panels',
  Openings: 'openings and surfaces',
  Stations: 'stations',
  Hydrostatics: 'hydrostatics',
  Survey: 'survey readings',
  Service: 'service tasks',
  'Take-off': 'parts and lengths to take away',
};

const store = useApp.getState;

const SECTION_COMMANDS: readonly Command[] = (
  [
    ['aft', '[', -1],
    ['forward', ']', 1],
  ] as const
).flatMap(([way, key, sign]) =>
  ([0.1, 0.01] as const).map(
    (stepM): Command => ({
      id: `section-${way}${stepM === 0.1 ? '' : '-fine'}`,
      words: `Section ${stepM * 1000} mm ${way}`,
      group: 'View',
      also: 'cut plane',
      keys: stepM === 0.1 ? key : `Shift ${key}`,
      why: needsBoat,
      run: () => store().setSectionX(store().sectionX + sign * stepM),
    }),
  ),
);

const theme = (choice: ThemeChoice, words: string): Command => ({
  id: `theme-${choice}`,
  words,
  group: 'Screen',
  also: 'theme appearance night day',
  run: () => store().setTheme(choice),
});
const units = (choice: DisplayUnits, words: string): Command => ({
  id: `units-${choice}`,
  words,
  group: 'Screen',
  also: 'units metric imperial',
  run: () => store().setDisplayUnits(choice),
});
const layer = (key: keyof Layers, words: string): Command => ({
  id: `layer-${key}`,
  words: `${words} on or off`,
  group: 'View',
  also: 'show hide layer',
  run: () => store().setLayer(key, !store().layers[key]),
});

export const FILE_COMMANDS: readonly Command[] = [
  {
    id: 'door-ten-minutes',
    words: 'New in ten minutes',
    group: 'Boat file',
    also: 'new boat quick start',
    run: () => useDoor.getState().show('tenMinutes'),
  },
  { id: 'new-empty', words: 'New empty boat', group: 'Boat file', run: () => void newEmptyBoat() },
  {
    id: 'door-one-locker',
    words: 'One locker',
    group: 'Boat file',
    also: 'new does it fit',
    run: () => useDoor.getState().show('oneLocker'),
  },
  {
    id: 'sample',
    words: 'New from sample',
    group: 'Boat file',
    also: 'example demo',
    run: () => useDialogs.getState().setSamples(true),
  },
  {
    id: 'open',
    words: 'Open',
    group: 'Boat file',
    also: 'load file boat',
    keys: 'Ctrl O',
    run: () => void documents?.open(),
  },
  {
    id: 'save',
    words: 'Save',
    group: 'Boat file',
    also: 'store write file',
    keys: 'Ctrl S',
    why: needsBoat,
    run: () => void documents?.save(),
  },
  {
    id: 'saveAs',
    words: 'Save as',
    group: 'Boat file',
    also: 'store write copy file',
    keys: 'Ctrl Shift S',
    why: needsBoat,
    run: () => void documents?.saveAs(),
  },
];

/** What else the menu of the boat file holds. */
export const EXPORT_COMMAND: Command = {
  id: 'export-list',
  words: 'Export the list as CSV',
  group: 'Boat file',
  also: 'take-off shopping parts spreadsheet',
  why: () => needsReport() ?? (store().stale ? 'The boat is being checked again' : null),
  run: () => {
    const { report } = store();
    if (report) void documents?.exportList(report.takeoff);
  },
};

export const TOOL_COMMANDS: readonly Command[] = [
  tool('select', 'select and move', { also: 'pointer arrow pick' }),
  tool('pan', 'move the sheet', { also: 'pan hand scroll' }),
  tool('section', 'move the section', { also: 'cut plane' }),
  ...DRAWING_TOOLS,
  tool('join', 'join two ports', {
    keys: 'J',
    also: 'connect line hose tube cable wire draw a line from a port to a port',
  }),
  tool('measure', 'measure a distance', { keys: 'M', also: 'tape ruler dimension angle' }),
];

/** Every command once: menus, buttons, the command finder, the keyboard map and the keys all read this list. */
export const COMMANDS: readonly Command[] = [
  ...FILE_COMMANDS,
  EXPORT_COMMAND,
  ...WORK_COMMANDS,
  ...DATA_COMMANDS,
  STEPS_COMMAND,
  {
    id: 'undo',
    words: 'Undo',
    group: 'Copy and delete',
    also: 'take back revert',
    keys: 'Ctrl Z',
    why: () => (store().canUndo === null ? 'Nothing to undo' : null),
    run: () => store().undo(),
  },
  {
    id: 'redo',
    words: 'Redo',
    group: 'Copy and delete',
    also: 'do again',
    keys: 'Ctrl Y',
    moreKeys: ['Ctrl Shift Z'],
    why: () => (store().canRedo === null ? 'Nothing to redo' : null),
    run: () => store().redo(),
  },
  ...STAGES.map(
    (stage, index): Command => ({
      id: `stage-${stage}`,
      words: `Go to ${STAGE_WORDS[stage]}`,
      group: 'Stages',
      keys: String(index + 1),
      run: () => store().setStage(stage),
    }),
  ),
  ...SECTION_COMMANDS,
  {
    id: 'next-finding',
    words: 'Next finding',
    group: 'Findings and readings',
    also: 'problem fault danger check',
    keys: 'N',
    why: needsReport,
    run: nextFinding,
  },
  {
    id: 'measure-next',
    words: 'Measure this next',
    group: 'Findings and readings',
    also: 'which reading settles most',
    why: needsBoat,
    run: measureNext,
  },
  {
    id: 'survey-entry',
    words: 'Enter survey readings',
    group: 'Findings and readings',
    also: 'tape measurement table',
    why: needsBoat,
    run: () => useEntryWish.getState().ask(),
  },
  ...BOARD_COMMANDS,
  ...TOOL_COMMANDS,
  ...MEASURE_COMMANDS,
  ...INTERIOR_COMMANDS,
  ...PLACING_COMMANDS,
  ...RUN_COMMANDS,
  ...SERVICE_COMMANDS,
  ...CLIPBOARD_COMMANDS,
  {
    id: 'select-none',
    words: 'Put down the tool, select nothing',
    group: 'Pick',
    also: 'deselect cancel escape',
    keys: 'Esc',
    run: putDown,
  },
  ...TABS.map(
    (tab): Command => ({
      id: `table-${tab.toLowerCase()}`,
      words: `Table of ${TAB_WORDS[tab]}`,
      group: 'Tables',
      also: `${tab} list rows`,
      why: needsBoat,
      run: () => useDrawer.getState().show(tab),
    }),
  ),
  {
    id: 'table-filter',
    words: 'Find rows in the table',
    group: 'Tables',
    also: 'filter search table',
    keys: 'Ctrl F',
    why: needsBoat,
    run: focusTableFilter,
  },
  {
    id: 'tables-taller',
    words: 'Tables taller or lower',
    group: 'Tables',
    also: 'drawer height',
    keys: 'T',
    run: () => {
      const { height, setHeight } = useDrawer.getState();
      setHeight(height === 'usual' ? 'tall' : 'usual');
    },
  },
  {
    id: 'tables-close',
    words: 'Close the tables',
    group: 'Tables',
    also: 'drawer hide',
    keys: 'Shift T',
    run: () => useDrawer.getState().setHeight('closed'),
  },
  theme('light', 'Light colours'),
  theme('dark', 'Dark colours'),
  theme('system', 'Colours of the system'),
  {
    id: 'text-larger',
    words: 'Larger text',
    group: 'Screen',
    also: 'letters size zoom bigger font 125 150',
    why: () => (useTextSize.getState().size === 150 ? 'The text is as large as it gets' : null),
    run: () => useTextSize.getState().step(1),
  },
  {
    id: 'text-smaller',
    words: 'Smaller text',
    group: 'Screen',
    also: 'letters size zoom font usual 100',
    why: () => (useTextSize.getState().size === 100 ? 'The text is as small as it gets' : null),
    run: () => useTextSize.getState().step(-1),
  },
  units('mm', 'Show millimetres'),
  units('inch', 'Show inches'),
  layer('names', 'Names of compartments'),
  layer('balloons', 'Item balloons'),
  layer('stations', 'Stations'),
  layer('grid', 'Grid'),
  layer('service', 'Room for service'),
  layer('sweeps', 'Moving sweeps'),
  layer('heeled', 'Heeled waterline'),
  {
    id: 'find',
    words: 'Find a part, command or term',
    group: 'Screen',
    also: 'search command finder palette',
    keys: 'Ctrl K',
    run: focusFind,
  },
  {
    id: 'hints',
    words: 'Hints on or off',
    group: 'Screen',
    also: 'help tour first steps notes sample tips',
    why: () => (store().document.isSample ? null : 'Hints stand on the sample boats'),
    run: () => {
      const { away, again, putAllAway } = useHints.getState();
      if (away.length === 0) putAllAway();
      else again();
    },
  },
  {
    id: 'help',
    words: 'Keyboard map',
    group: 'Screen',
    also: 'shortcuts keys help',
    keys: '?',
    run: () => useDialogs.getState().setHelp(true),
  },
];

/** What may be given from a door without leaving it: all else speaks of the boat that is open, and shows it. */
const STAYS_AT_DOOR: ReadonlySet<string> = new Set([
  ...FILE_COMMANDS.map(({ id }) => id),
  ...COMMANDS.flatMap(({ id }) => (/^(theme|units|text)-/.test(id) ? [id] : [])),
  'help',
  'find',
]);

/** Runs a command, and where it works on the open boat, closes the door that stands before it; says why it cannot be done now. */
export function give({ id, run, why }: Command): void {
  const reason = why?.() ?? null;
  if (reason !== null) {
    store().notify(reason);
    return;
  }
  if (!STAYS_AT_DOOR.has(id)) useDoor.getState().show(null);
  run();
}

/** Keys that would work on a boat which is out of sight do nothing at a door; Esc, like a stage, leads back to the boat. */
export const worksAtDoor = (id: string): boolean =>
  STAYS_AT_DOOR.has(id) || id.startsWith('stage-') || id === 'select-none';

export const commandOf = (id: string): Command | null => COMMANDS.find((command) => command.id === id) ?? null;

/** A boat with nothing in it, at the stage in which one draws. */
async function newEmptyBoat(): Promise<void> {
  await documents?.openNew(newBoat('New boat'));
  if (store().document.fileName === 'New boat') store().setStage('compartments');
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
