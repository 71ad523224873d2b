import { COMMANDS } from '@renderer/app/commands';
import { useDialogs } from '@renderer/app/dialogs';
import { commandFor } from '@renderer/app/keys';
import { describe, expect, it } from 'vitest';

const key = (
  name: string,
  more: Partial<{ ctrlKey: boolean; metaKey: boolean; shiftKey: boolean; altKey: boolean }> = {},
) => ({
  key: name,
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  altKey: false,
  ...more,
});

describe('keys', () => {
  it('name commands that exist', () => {
    const ids = new Set(COMMANDS.map((command) => command.id));
    for (const name of [...'123456[]nr?bpxomcl', 'Delete', 'Escape'])
      expect(ids).toContain(commandFor(key(name), false)?.id);
    for (const name of ['z', 'y', 's', 'o', 'k'])
      expect(ids).toContain(commandFor(key(name, { ctrlKey: true }), false)?.id);
    for (const name of ['z', 's'])
      expect(ids).toContain(commandFor(key(name, { ctrlKey: true, shiftKey: true }), false)?.id);
  });

  it('run nothing behind a dialog, so that Esc closes it', () => {
    useDialogs.getState().setHelp(true);
    expect(commandFor(key('Escape'), false)).toBeNull();
    expect(commandFor(key('z', { ctrlKey: true }), false)).toBeNull();
    useDialogs.getState().setHelp(false);
    expect(commandFor(key('Escape'), false)?.id).toBe('select-none');
  });

  it('leave a field its letters, its own undo, and keep saving', () => {
    expect(commandFor(key('r'), true)).toBeNull();
    expect(commandFor(key('z', { ctrlKey: true }), true)).toBeNull();
    expect(commandFor(key('s', { ctrlKey: true }), true)?.id).toBe('save');
    expect(commandFor(key('constructor'), false)).toBeNull();
  });
});
