import { COMMAND_GROUPS, isStroke, keysOf, type Pressed, strokeOf } from '@renderer/app/command';
import { COMMANDS } from '@renderer/app/commands';
import { keyboardMap, keyboardMapText } from '@renderer/app/keyboard-map';
import { matchOf } from '@renderer/app/matching';
import { useApp } from '@renderer/store/app';
import { TABS } from '@renderer/store/drawer';
import { STAGES, TOOLS } from '@renderer/store/types';
import { describe, expect, it } from 'vitest';

const ids = COMMANDS.map(({ id }) => id);
const press = (keys: string): Pressed => {
  const { key, ctrl, shift } = strokeOf(keys);
  // With shift a bracket is a brace.
  const sign = shift ? ({ '[': '{', ']': '}' }[key] ?? key) : key;
  return { key: sign, ctrlKey: ctrl, metaKey: false, shiftKey: shift, altKey: false };
};

describe('the one list of commands', () => {
  it('has each once, in words, in a group of the keyboard map', () => {
    expect(new Set(ids).size).toBe(ids.length);
    const words = COMMANDS.map(({ words }) => words.toLowerCase());
    expect(new Set(words).size).toBe(words.length);
    for (const { words: own, group } of COMMANDS) {
      expect(own).toMatch(/^[A-Z].{3,}$/);
      expect(COMMAND_GROUPS).toContain(group);
    }
  });

  it('has one for every tool, stage, table and layer of the window', () => {
    for (const tool of TOOLS) expect(ids).toContain(`tool-${tool}`);
    for (const stage of STAGES) expect(ids).toContain(`stage-${stage}`);
    for (const tab of TABS) expect(ids).toContain(`table-${tab.toLowerCase()}`);
    for (const layer of Object.keys(useApp.getState().layers)) expect(ids).toContain(`layer-${layer}`);
  });

  it('gives no key to two commands, wherever it is pressed', () => {
    const strokes = COMMANDS.flatMap((command) => keysOf(command).map((keys) => ({ ...command, keys })));
    expect(strokes.length).toBeGreaterThan(50);
    // The drawing and a rehearsal never stand on the board together.
    const meet = (a: string | undefined, b: string | undefined): boolean =>
      !([a, b].includes('drawing') && [a, b].includes('rehearsal'));
    for (const { keys, id, where } of strokes) {
      const answering = strokes.filter(
        (other) => meet(where, other.where) && isStroke(strokeOf(other.keys), press(keys)),
      );
      expect(answering.map((other) => other.id)).toEqual([id]);
    }
  });

  it('takes no key that the browser gives to text: each with Ctrl names what it does', () => {
    expect(COMMANDS.filter(({ where }) => where === 'clipboard').map(({ keys }) => keys)).toEqual([
      'Ctrl C',
      'Ctrl X',
      'Ctrl V',
    ]);
  });

  it('says why a command of the boat cannot be given without one', () => {
    expect(useApp.getState().boat).toBeNull();
    for (const id of ['save', 'turn', 'line-up-left', 'copy', 'keep-together', 'tool-join', 'pin', 'delete-selected'])
      expect(COMMANDS.find((command) => command.id === id)?.why?.()).toMatch(/\w{4}/);
  });
});

describe('the keyboard map', () => {
  it('lists the keys of every command', () => {
    const rows = keyboardMap().flatMap(({ rows: own }) => own);
    for (const command of COMMANDS)
      for (const keys of keysOf(command))
        expect(rows.some((row) => row.words === command.words && row.keys.split(', ').includes(keys))).toBe(true);
  });

  it('is searched by words, by synonyms and by keys', () => {
    const found = (typed: string) => keyboardMap(typed).flatMap(({ rows }) => rows.map(({ words }) => words));
    expect(found('rotate')).toContain('Quarter turn clockwise in the view');
    expect(found('group')).toContain('Keep what is picked together');
    expect(found('ctrl z')).toContain('Undo');
    expect(found('xyzzy')).toEqual([]);
  });

  it('comes as plain text, a line for each row', () => {
    const lines = keyboardMapText().split('\n');
    const rows = keyboardMap().flatMap(({ rows: own }) => own);
    expect(lines.filter((line) => line.startsWith('  '))).toHaveLength(rows.length);
    expect(lines).toContain('Move, turn, line up');
  });
});

describe('matching words', () => {
  const match = (typed: string, words: string, also = '') => matchOf(typed, { words, also });

  it('meets every typed word, in any order', () => {
    expect(match('locker cockpit', 'Cockpit locker, port')).not.toBeNull();
    expect(match('locker saloon', 'Cockpit locker, port')).toBeNull();
  });

  it('forgives one slip of the key in a longer word, none in a short one', () => {
    for (const typed of ['measuer', 'mesure', 'meassure', 'measute'])
      expect(match(typed, 'Measure a distance')).not.toBeNull();
    expect(match('sav', 'Salon')).toBeNull();
    expect(match('bilg', 'Table of parts')).toBeNull();
  });

  it('puts the word itself before its beginning, that before its inside, and own words before others', () => {
    const order = [
      match('turn', 'Turn'),
      match('turn', 'Turning'),
      match('turn', 'Return'),
      match('turn', 'Rotate', 'turn'),
    ];
    const values = order.map((value) => value ?? Number.NEGATIVE_INFINITY);
    expect(values[0]).toBeGreaterThan(values[1] as number);
    expect(values[1]).toBeGreaterThan(values[2] as number);
    expect(values[0]).toBeGreaterThan(values[3] as number);
  });
});
