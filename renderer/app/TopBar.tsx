import type { JSX } from 'react';
import { type Door, useDoor } from '../doors/door';
import { hasUnsaved, useApp } from '../store/app';
import { STAGES, type ThemeChoice } from '../store/types';
import { CommandButton } from './CommandButton';
import type { Command } from './command';
import { commandOf, EXPORT_COMMAND, FILE_COMMANDS, give, stageWords } from './commands';
import { DATA_COMMANDS } from './data-commands';
import { FindField } from './FindField';
import { ICONS, Logo } from './icons';
import { Menu, type MenuItem } from './Menu';
import { PLACING_COMMANDS } from './placing-commands';
import { useOffers } from './recovery';
import { WORK_COMMANDS } from './work/work-commands';

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
        <CommandButton id="help" className="icon-button" label="Keyboard map">
          {ICONS.help}
        </CommandButton>
      </div>
    </header>
  );
}

const FILE_MENU: readonly (readonly Command[])[] = [
  FILE_COMMANDS,
  WORK_COMMANDS,
  DATA_COMMANDS,
  PLACING_COMMANDS,
  [EXPORT_COMMAND],
];

function FileMenu(): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const other = commandOf(units === 'mm' ? 'units-inch' : 'units-mm');
  const groups = [...FILE_MENU, other ? [other] : []];
  // What they depend on: work left behind, a boat that is open, what is picked, the answer.
  useOffers((state) => state.offers.length);
  useApp((state) => state.boat !== null);
  useApp((state) => state.selection);
  useApp((state) => state.report !== null && !state.stale);
  const items = groups.flatMap((group, index) =>
    group.map(
      (command, place): MenuItem => ({
        id: command.id,
        words: command.words,
        keys: command.keys,
        disabled: (command.why?.() ?? null) !== null,
        ruled: index > 0 && place === 0,
        run: () => give(command),
      }),
    ),
  );
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
          data-command={`stage-${name}`}
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
  return (
    <>
      <StepButton id="undo" word="Undo" step={canUndo} />
      <StepButton id="redo" word="Redo" step={canRedo} />
    </>
  );
}

function StepButton({
  id,
  word,
  step,
}: {
  readonly id: 'undo' | 'redo';
  readonly word: string;
  /** What it would take back or do again. */
  readonly step: string | null;
}): JSX.Element {
  const command = commandOf(id);
  return (
    <button
      type="button"
      className="icon-button"
      aria-label={step === null ? word : `${word}: ${step}`}
      title={step === null ? `Nothing to ${id}` : `${word}: ${step} (${command?.keys ?? ''})`}
      disabled={step === null}
      data-command={id}
      onClick={() => command && give(command)}
    >
      {ICONS[id]}
    </button>
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
  const id = `theme-${NEXT_THEME[choice]}`;
  return (
    <button
      type="button"
      className="icon-button"
      aria-label={`${THEME_WORDS[choice]}. Change to: ${THEME_WORDS[NEXT_THEME[choice]]}`}
      title={THEME_WORDS[choice]}
      data-command={id}
      onClick={() => {
        const command = commandOf(id);
        if (command) give(command);
      }}
    >
      {ICONS.theme}
    </button>
  );
}
