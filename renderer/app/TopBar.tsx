import type { JSX } from 'react';
import { type Door, useDoor } from '../doors/door';
import { hasUnsaved, useApp } from '../store/app';
import { STAGES, type ThemeChoice } from '../store/types';
import { commandOf, documentsNow, FILE_COMMANDS, give, stageWords } from './commands';
import { FindField } from './FindField';
import { ICONS, Logo } from './icons';
import { Menu, type MenuItem } from './Menu';

export function TopBar(): JSX.Element {
  const door = useDoor((state) => state.door);
  return (
    <header className="top-bar">
      <FileMenu />
      {door === null ? <BoatName /> : <DoorName door={door} />}
      <Stages />
      <div className="top-tools">
        <FindField />
        <UndoRedo />
        <ThemeButton />
        <button
          type="button"
          className="icon-button"
          aria-label="Keyboard map"
          onClick={() => commandOf('help')?.run()}
        >
          {ICONS.help}
        </button>
      </div>
    </header>
  );
}

function FileMenu(): JSX.Element {
  const hasBoat = useApp((state) => state.boat !== null);
  const settled = useApp((state) => state.report !== null && !state.stale);
  const units = useApp((state) => state.displayUnits);
  const items: readonly MenuItem[] = [
    ...FILE_COMMANDS.map((command) => ({
      ...command,
      disabled: !hasBoat && (command.id === 'save' || command.id === 'saveAs'),
    })),
    {
      id: 'export',
      words: 'Export the list as CSV',
      disabled: !settled,
      ruled: true,
      run: () => {
        const report = useApp.getState().report;
        if (report) void documentsNow()?.exportList(report.takeoff);
      },
    },
    {
      id: 'units',
      words: units === 'mm' ? 'Show inches' : 'Show millimetres',
      ruled: true,
      run: () => useApp.getState().setDisplayUnits(units === 'mm' ? 'inch' : 'mm'),
    },
  ];
  return (
    <Menu label="Boat file" className="logo" items={items}>
      <Logo />
    </Menu>
  );
}

function BoatName(): JSX.Element {
  const boat = useApp((state) => state.boat);
  const arrangementId = useApp((state) => state.arrangementId);
  const unsaved = useApp(hasUnsaved);
  const edit = useApp((state) => state.edit);
  const arrangements = Object.entries(boat?.arrangements ?? {});
  return (
    <div className="boat-name">
      <h1>
        {boat?.name ?? 'Underberth'}
        {unsaved ? (
          <span className="unsaved">
            {' \u2022'}
            <span className="spoken">unsaved edits</span>
          </span>
        ) : null}
      </h1>
      {arrangementId === null ? null : (
        <select
          className="arrangement-choice"
          aria-label="Arrangement"
          value={arrangementId}
          onChange={(event) =>
            edit('Current arrangement', (draft) => {
              draft.currentArrangement = event.target.value;
            })
          }
        >
          {arrangements.map(([id, arrangement]) => (
            <option key={id} value={id}>
              {arrangement.name}
            </option>
          ))}
        </select>
      )}
    </div>
  );
}

const DOOR_NAMES: Readonly<Record<NonNullable<Door>, string>> = { oneLocker: 'New locker', tenMinutes: 'New boat' };

/** At a door nothing on the page is of the boat that is open; that it stays so is said. */
function DoorName({ door }: { readonly door: NonNullable<Door> }): JSX.Element {
  const boat = useApp((state) => state.boat);
  return (
    <div className="boat-name">
      <h1>{DOOR_NAMES[door]}</h1>
      {boat ? <span className="waiting">{boat.name} stays open</span> : null}
    </div>
  );
}

function Stages(): JSX.Element {
  const stage = useApp((state) => state.stage);
  const isAtDoor = useDoor((state) => state.door !== null);
  const dangers = useApp((state) => state.report?.summary.danger ?? 0);
  return (
    <nav className="stages" aria-label="Stages">
      {STAGES.map((name, index) => (
        <button
          key={name}
          type="button"
          aria-current={stage === name && !isAtDoor ? 'true' : undefined}
          aria-keyshortcuts={String(index + 1)}
          onClick={() => {
            const command = commandOf(`stage-${name}`);
            if (command) give(command);
          }}
        >
          <span className="number" aria-hidden="true">
            {index + 1}
          </span>
          {stageWords(name)}
          {name === 'checks' && dangers > 0 ? <span className="tally"> {dangers} danger</span> : null}
        </button>
      ))}
    </nav>
  );
}

/** At a door there is nothing in sight that could be undone. */
function UndoRedo(): JSX.Element {
  const isAtDoor = useDoor((state) => state.door !== null);
  const canUndo = useApp((state) => (isAtDoor ? null : state.canUndo));
  const canRedo = useApp((state) => (isAtDoor ? null : state.canRedo));
  const undo = useApp((state) => state.undo);
  const redo = useApp((state) => state.redo);
  return (
    <>
      <button
        type="button"
        className="icon-button"
        aria-label={canUndo === null ? 'Undo' : `Undo: ${canUndo}`}
        title={canUndo === null ? 'Nothing to undo' : `Undo: ${canUndo}`}
        disabled={canUndo === null}
        onClick={undo}
      >
        {ICONS.undo}
      </button>
      <button
        type="button"
        className="icon-button"
        aria-label={canRedo === null ? 'Redo' : `Redo: ${canRedo}`}
        title={canRedo === null ? 'Nothing to redo' : `Redo: ${canRedo}`}
        disabled={canRedo === null}
        onClick={redo}
      >
        {ICONS.redo}
      </button>
    </>
  );
}

const NEXT_THEME: Readonly<Record<ThemeChoice, ThemeChoice>> = { system: 'light', light: 'dark', dark: 'system' };
const THEME_WORDS: Readonly<Record<ThemeChoice, string>> = {
  system: 'Colours of the system',
  light: 'Light colours',
  dark: 'Dark colours',
};

function ThemeButton(): JSX.Element {
  const choice = useApp((state) => state.themeChoice);
  const setTheme = useApp((state) => state.setTheme);
  return (
    <button
      type="button"
      className="icon-button"
      aria-label={`${THEME_WORDS[choice]}. Change to: ${THEME_WORDS[NEXT_THEME[choice]]}`}
      title={THEME_WORDS[choice]}
      onClick={() => setTheme(NEXT_THEME[choice])}
    >
      {ICONS.theme}
    </button>
  );
}
