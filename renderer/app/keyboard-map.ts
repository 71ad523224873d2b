import { COMMAND_GROUPS, type Command, type CommandGroup, keysOf } from './command';
import { COMMANDS } from './commands';
import { matchOf } from './matching';

export interface KeyRow {
  readonly keys: string;
  readonly words: string;
  /** Where the keys work, when not everywhere. */
  readonly where: string;
}
export interface KeyGroup {
  readonly title: CommandGroup | 'By mouse' | 'In tables and fields';
  readonly rows: readonly KeyRow[];
}

const WHERE: Readonly<Record<NonNullable<Command['where']>, string>> = {
  window: '',
  drawing: 'on the drawing',
  rehearsal: 'in a rehearsal',
  clipboard: '',
};

/** What has no command: gestures of the mouse, and keys that belong to what has the focus. */
const GESTURES: KeyGroup = {
  title: 'By mouse',
  rows: [
    ['Click', 'Pick; of things that stay together all of them'],
    ['Double click', 'Pick one of things that stay together'],
    ['Shift or Ctrl and click', 'Pick one more, or one less'],
    ['Shift and drag on the sheet', 'Pick all that lies within the box'],
    ['Drag', 'Move what is picked in the plane of the view'],
    ['Alt and drag', 'Move freely, to the millimetre, onto no face'],
    ['Drag from a port to a port', 'Join them by a line'],
    ['Drag the end of the picked run', 'Lead it to another port'],
    ['Drag the picked run', 'Clip point there'],
    ['Space and drag, drag on the sheet', 'Move the sheet'],
    ['Wheel', 'Closer, further away'],
  ].map(([keys = '', words = '']) => ({ keys, words, where: '' })),
};
const WITHIN: KeyGroup = {
  title: 'In tables and fields',
  rows: [
    ['Tab', 'Stages, tools, drawing, inspector, findings, tables', ''],
    ['Up, Down, Page up, Page down, Home, End', 'Another row', 'in a table'],
    ['Shift Up, Shift Down', 'One more row', 'in a table'],
    ['Ctrl Space', 'This row too, or not', 'in a table'],
    ['Ctrl A', 'All rows', 'in a table'],
    ['Enter', 'Take the view to it', 'in a table'],
    ['Enter', 'Take what was typed', 'in a field'],
    ['Esc', 'Leave the field as it was', 'in a field'],
    ['Page up, Page down', 'Look at another place', 'while it is asked where a part can go'],
    ['Enter', 'Move the part to the place that is looked at', 'while it is asked where a part can go'],
    ['Enter, Backspace', 'End what is drawn or measured, take the last point back', 'while drawing'],
    ['A, K, Delete', 'Add a point after it, make it a knuckle, remove it', 'on a point of a station'],
    ['Home, End', 'The first step, the last', 'in a rehearsal'],
    ['[ and ]', 'The station before, the station after', 'on a point of a station'],
  ].map(([keys = '', words = '', where = '']) => ({ keys, words, where })),
};

/** All that keys and mouse do, grouped; commands from the one list of them. `typed` narrows it to rows that hold these words. */
export function keyboardMap(typed = ''): readonly KeyGroup[] {
  const groups = COMMAND_GROUPS.map((title): KeyGroup & { readonly also: ReadonlyMap<KeyRow, string> } => {
    const also = new Map<KeyRow, string>();
    const rows = COMMANDS.flatMap((command): KeyRow[] => {
      const keys = keysOf(command);
      if (command.group !== title || keys.length === 0) return [];
      const row = { keys: keys.join(', '), words: command.words, where: WHERE[command.where ?? 'window'] };
      also.set(row, command.also ?? '');
      return [row];
    });
    return { title, rows, also };
  });
  const all = [...groups, { ...GESTURES, also: NO_WORDS }, { ...WITHIN, also: NO_WORDS }];
  const isWanted = (title: string, row: KeyRow, also: string): boolean =>
    typed.trim() === '' ||
    matchOf(typed, { words: `${row.words} ${row.keys} ${row.where}`, also: `${also} ${title}` }) !== null;
  return all
    .map(({ title, rows, also }) => ({ title, rows: rows.filter((row) => isWanted(title, row, also.get(row) ?? '')) }))
    .filter(({ rows }) => rows.length > 0);
}

const NO_WORDS: ReadonlyMap<KeyRow, string> = new Map();

/** The map as plain text, to be printed or kept. */
export function keyboardMapText(): string {
  const groups = keyboardMap();
  const width = Math.max(...groups.flatMap(({ rows }) => rows.map(({ keys }) => keys.length))) + 2;
  return groups
    .map(({ title, rows }) =>
      [
        title,
        ...rows.map(({ keys, words, where }) => `  ${keys.padEnd(width)}${words}${where === '' ? '' : `, ${where}`}`),
      ].join('\n'),
    )
    .join('\n\n');
}
