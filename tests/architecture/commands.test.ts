import { COMMANDS } from '@renderer/app/commands';
import { describe, expect, it } from 'vitest';
import { filesUnder, textOf } from './sources';

/** Words of buttons that only answer the form or the strip that they stand in, by file: there is nothing to do with them elsewhere. */
const LOCAL: Readonly<Record<string, readonly string[]>> = {
  'renderer/app/TopBar.tsx': [],
  'renderer/app/Rail.tsx': [],
  'renderer/app/TitleBlock.tsx': [],
  'renderer/app/CommandButton.tsx': [],
  // The entries of a menu: each is made from a command.
  'renderer/app/Menu.tsx': ['menu', 'entry'],
  'renderer/board/PickedBar.tsx': [],
  'renderer/board/PullBar.tsx': [],
  // Close the strip; set the typed point, close the outline, end the measure.
  'renderer/board/drawing/DrawingBar.tsx': ['Done', 'Set', 'Close', 'End'],
  // Close the strip; join the two chosen ports.
  'renderer/board/joining/JoinBar.tsx': ['Done', 'Join'],
};

const files = filesUnder('renderer').filter((file) => /\.tsx?$/.test(file));
/** The opening tags of buttons of a file: up to the bracket that stands in no braces. */
function buttonsOf(text: string): readonly string[] {
  return text
    .split(/<button\b/)
    .slice(1)
    .map((rest) => {
      let depth = 0;
      for (let i = 0; i < rest.length; i++) {
        if (rest[i] === '{') depth++;
        else if (rest[i] === '}') depth--;
        else if (rest[i] === '>' && depth === 0) return rest.slice(0, i);
      }
      return rest;
    });
}

describe('what the frame of the window offers', () => {
  it('is a command each, or answers the strip that it stands in', () => {
    for (const [file, local] of Object.entries(LOCAL)) {
      const plain = buttonsOf(textOf(file)).filter((tag) => !tag.includes('data-command'));
      expect([file, plain.length]).toEqual([file, local.length]);
    }
  });

  it('names only commands that exist', () => {
    const ids = new Set(COMMANDS.map(({ id }) => id));
    const named = files.flatMap((file) =>
      [...textOf(file).matchAll(/<CommandButton[^>]*?\bid="([^"]+)"|commandOf\('([^']+)'\)/g)].map(
        ([, button, call]) => [file, button ?? call ?? ''] as const,
      ),
    );
    expect(named.length).toBeGreaterThan(2);
    expect(named.filter(([, id]) => !ids.has(id))).toEqual([]);
  });

  it('has no menu but of commands', () => {
    const menus = files.filter((file) => /<Menu\b/.test(textOf(file)));
    expect(menus).toEqual(['renderer/app/TopBar.tsx']);
    const [, body = ''] = textOf('renderer/app/TopBar.tsx').split('function FileMenu');
    expect(body.slice(0, body.indexOf('\n}'))).not.toMatch(/words: '/);
  });
});

describe('keys of the window', () => {
  it('are heard in one place, which reads them from the commands', () => {
    const hearing = files.filter((file) => /addEventListener\('key/.test(textOf(file)));
    expect(hearing).toEqual([
      'renderer/app/keys.ts',
      // Digits go to the size of what is being drawn; Esc ends a drag of a point.
      'renderer/board/drawing/DrawingBar.tsx',
      // Esc takes away what a term explains, before anything else hears it.
      'renderer/panels/Term.tsx',
      'renderer/sections/use-sections-pointing.ts',
    ]);
    expect(textOf('renderer/app/keys.ts')).toMatch(/keyed\(COMMANDS/);
    expect(textOf('renderer/board/keyboard.ts')).toMatch(/keyed\(BOARD_COMMANDS/);
  });

  it('are told to assistive technology only as a command has them', () => {
    const told = files.flatMap((file) =>
      [...textOf(file).matchAll(/aria-keyshortcuts=(.{0,40})/g)].map(([, how]) => how),
    );
    expect(told).toEqual(['{String(index + 1)}']);
  });
});
