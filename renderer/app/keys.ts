import { useDoor } from '../doors/door';
import { commandOf, give, worksAtDoor } from './commands';
import { useDialogs } from './dialogs';
import { focusFind } from './find';

/** Keys of the whole window. Fields keep what they need: a key typed into one is never a command, but for those with Ctrl. */
export function listenToKeys(window: Window): () => void {
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.defaultPrevented) return;
    const id = commandFor(event, isTyping(event.target));
    if (id === null || (useDoor.getState().door !== null && !worksAtDoor(id))) return;
    event.preventDefault();
    const command = commandOf(id);
    if (id === 'find') focusFind();
    else if (command) give(command);
  };
  window.addEventListener('keydown', onKeyDown);
  return () => window.removeEventListener('keydown', onKeyDown);
}

const WITH_CTRL: Readonly<Record<string, string>> = { z: 'undo', y: 'redo', s: 'save', o: 'open', k: 'find' };
const WITH_CTRL_SHIFT: Readonly<Record<string, string>> = { z: 'redo', s: 'saveAs' };
const PLAIN: Readonly<Record<string, string>> = {
  '1': 'stage-hull',
  '2': 'stage-compartments',
  '3': 'stage-equipment',
  '4': 'stage-runs',
  '5': 'stage-checks',
  '6': 'stage-sheets',
  '[': 'section-aft',
  ']': 'section-forward',
  n: 'next-finding',
  r: 'turn',
  b: 'tool-rectangle',
  p: 'tool-polygon',
  x: 'tool-split',
  o: 'tool-opening',
  m: 'tool-measure',
  c: 'new-compartment',
  l: 'panel-next',
  k: 'clip-point',
  i: 'pin',
  a: 'other-ways',
  delete: 'delete-selected',
  '?': 'help',
  escape: 'select-none',
};

export function commandFor(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>,
  typing: boolean,
): string | null {
  const key = event.key.toLowerCase();
  const own = (keys: Readonly<Record<string, string>>): string | null =>
    Object.hasOwn(keys, key) ? (keys[key] ?? null) : null;
  if (event.altKey || isDialogUp()) return null;
  if (event.ctrlKey || event.metaKey) {
    const id = own(event.shiftKey ? WITH_CTRL_SHIFT : WITH_CTRL);
    // In a field undo and redo belong to the text.
    return typing && (id === 'undo' || id === 'redo') ? null : id;
  }
  if (typing) return null;
  return own(PLAIN);
}

/** A dialog has the keyboard to itself: Esc closes it, and no command runs behind it. */
function isDialogUp(): boolean {
  const { question, help, samples } = useDialogs.getState();
  return question !== null || help || samples;
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return target.type !== 'checkbox' && target.type !== 'range';
  return target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement || target.isContentEditable;
}
