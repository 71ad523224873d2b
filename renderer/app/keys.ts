import { useDoor } from '../doors/door';
import { useService } from '../store/service';
import { type Command, keyed, type Pressed } from './command';
import { COMMANDS, give, worksAtDoor } from './commands';
import { type DialogState, useDialogs } from './dialogs';

/** Keys of the whole window. Fields keep what they need: a key typed into one is never a command, but for those with Ctrl. */
export function listenToKeys(window: Window): () => void {
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.defaultPrevented) return;
    const command = rehearsalCommandFor(event) ?? commandFor(event, isTyping(event.target));
    if (command === null || (useDoor.getState().door !== null && !worksAtDoor(command.id))) return;
    event.preventDefault();
    give(command);
  };
  window.addEventListener('keydown', onKeyDown);
  return () => window.removeEventListener('keydown', onKeyDown);
}

const byKeys = keyed(COMMANDS.filter(({ where }) => where === undefined || where === 'window'));
const inRehearsal = keyed(COMMANDS.filter(({ where }) => where === 'rehearsal'));

/** While a rehearsal stands on the board, arrow keys lead through its steps; sliders and choices keep them. */
function rehearsalCommandFor(event: KeyboardEvent): Command | null {
  if (useService.getState().chosen === null || isDialogUp() || isTyping(event.target)) return null;
  return event.target instanceof HTMLInputElement ? null : inRehearsal(event);
}

/** What a key typed into a field may still do: letters, undo and all of the text belong to the field. */
const IN_FIELDS: ReadonlySet<string> = new Set(['save', 'saveAs', 'open', 'find', 'table-filter']);

export function commandFor(event: Pressed, typing: boolean): Command | null {
  if (isDialogUp()) return null;
  const command = byKeys(event);
  return command && typing && !IN_FIELDS.has(command.id) ? null : command;
}

/** A dialog has the keyboard to itself: Esc closes it, and no command runs behind it. */
export const isDialogUp = ({ question, help, samples, shown }: DialogState = useDialogs.getState()): boolean =>
  question !== null || help || samples || shown !== null;

/** Whether keys go into a field now. */
export function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return target.type !== 'checkbox' && target.type !== 'range';
  return target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement || target.isContentEditable;
}
