/** In this order the keyboard map and the command finder show them. */
export const COMMAND_GROUPS = [
  'Boat file',
  'Stages',
  'Pick',
  'Move, turn, line up',
  'Copy and delete',
  'Tools',
  'Compartments and panels',
  'Runs and lines',
  'Findings and readings',
  'Service',
  'View',
  'Tables',
  'Screen',
] as const;
export type CommandGroup = (typeof COMMAND_GROUPS)[number];

/** One thing that can be done: menus, buttons, the command finder, the keyboard map and the keys all read one list of these. */
export interface Command {
  readonly id: string;
  readonly words: string;
  readonly group: CommandGroup;
  /** Other words that somebody may look for. */
  readonly also?: string;
  /** `Ctrl Shift S`; as the keyboard map shows it, and what the keys go by. */
  readonly keys?: string;
  /** Further keys for the same. */
  readonly moreKeys?: readonly string[];
  /**
   * Where its keys work: everywhere but in fields; while the drawing has the focus; while a rehearsal stands on the board; or by the
   * browser's own copy and paste, which no key of ours may take.
   */
  readonly where?: 'window' | 'drawing' | 'rehearsal' | 'clipboard';
  /** Why it cannot be done now; null: it can. */
  why?(): string | null;
  run(): void;
}

export const keysOf = ({ keys, moreKeys }: Command): readonly string[] =>
  keys === undefined ? [] : [keys, ...(moreKeys ?? [])];

export type Pressed = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

/** Keys as the keyboard map writes them, and as a browser names them. */
const NAMES: Readonly<Record<string, string>> = {
  right: 'arrowright',
  left: 'arrowleft',
  up: 'arrowup',
  down: 'arrowdown',
  'page down': 'pagedown',
  'page up': 'pageup',
  esc: 'escape',
  '\u2212': '-',
};

/** With shift some keys are another sign; where the map says Shift and the key, the sign is meant. */
const SHIFTED: Readonly<Record<string, string>> = { '{': '[', '}': ']' };

export interface Stroke {
  readonly key: string;
  readonly ctrl: boolean;
  readonly shift: boolean;
}

export function strokeOf(keys: string): Stroke {
  const ctrl = keys.startsWith('Ctrl ');
  const rest = ctrl ? keys.slice(5) : keys;
  const shift = rest.startsWith('Shift ');
  const key = (shift ? rest.slice(6) : rest).toLowerCase();
  return { key: NAMES[key] ?? key, ctrl, shift };
}

/** Signs that need shift on some keyboards and not on others: only the sign counts. */
const isSign = (key: string): boolean => key.length === 1 && key.toLowerCase() === key.toUpperCase();

export function isStroke({ key, ctrl, shift }: Stroke, pressed: Pressed): boolean {
  if (pressed.altKey || ctrl !== (pressed.ctrlKey || pressed.metaKey)) return false;
  const own = pressed.key.toLowerCase();
  if (shift) return pressed.shiftKey && (SHIFTED[own] ?? own) === key;
  return own === key && (isSign(key) || !pressed.shiftKey);
}

/** The command of a list that a key gives; its keys are read once. */
export function keyed(commands: readonly Command[]): (pressed: Pressed) => Command | null {
  const strokes = commands.flatMap((command) => keysOf(command).map((keys) => [strokeOf(keys), command] as const));
  return (pressed) => strokes.find(([stroke]) => isStroke(stroke, pressed))?.[1] ?? null;
}
