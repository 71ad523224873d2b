import type { JSX, ReactNode } from 'react';
import { useApp } from '../store/app';
import { useDrawing } from '../store/drawing';
import { type Command, keysOf } from './command';
import { commandOf, give } from './commands';

/** Why a command cannot be given now; asked again whenever what it may depend on changes. */
function useWhy(command: Command | null): string | null {
  // What commands depend on: these wake the button, `why` decides.
  useApp((s) => s.selection);
  useApp((s) => s.alsoSelected);
  useApp((s) => s.boat);
  useApp((s) => s.stale);
  useDrawing((s) => s.measures);
  return command?.why?.() ?? null;
}

/** `Undo (Ctrl Z)`. */
const hintOf = (command: Command, why: string | null): string => {
  const [keys] = keysOf(command);
  const words = keys === undefined ? command.words : `${command.words} (${keys})`;
  return why === null ? words : `${words}. ${why}`;
};

/** A button that gives a command: its hint, its keys and why it is not available come from the one list of commands. */
export function CommandButton({
  id,
  className = 'button',
  label,
  pressed,
  children,
}: {
  readonly id: string;
  readonly className?: string;
  /** Words where the button shows a sign. */
  readonly label?: string;
  readonly pressed?: boolean;
  readonly children: ReactNode;
}): JSX.Element | null {
  const command = commandOf(id);
  const why = useWhy(command);
  if (!command) return null;
  return (
    <button
      type="button"
      className={className}
      aria-label={label}
      aria-pressed={pressed}
      title={hintOf(command, why)}
      disabled={why !== null}
      data-command={id}
      onClick={() => give(command)}
    >
      {children}
    </button>
  );
}
