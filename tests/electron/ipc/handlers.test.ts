import { CHANNELS } from '@electron/ipc/channels';
import { contract } from '@electron/ipc/contract';
import { type Asker, type Desktop, registerHandlers } from '@electron/ipc/handlers';
import { describe, expect, it } from 'vitest';

// Source of the duties: Electron's security checklist, item 17 (validate the sender of every message).
type Listener = (event: Asker, payload: unknown) => Promise<unknown>;
const OWN: Asker = { senderFrame: { url: 'app://underberth/index.html', parent: null } };

function desktop(changes: Partial<Desktop['files']> = {}) {
  const listeners = new Map<string, Listener>();
  const done: string[] = [];
  const unsaved: boolean[] = [];
  registerHandlers<Asker>(
    { handle: (channel, listener) => listeners.set(channel, listener) },
    {
      isOwnPage: (address) => address.startsWith('app://underberth/'),
      files: {
        open: async () => {
          done.push('open');
          return { outcome: 'cancelled' };
        },
        save: async (request) => {
          done.push(`save ${request.suggestedName}`);
          return { outcome: 'saved', token: 'a'.repeat(32), name: request.suggestedName };
        },
        look: async () => ({ outcome: 'same' }),
        versions: async () => ({ outcome: 'listed', versions: [] }),
        exportFile: async () => ({ outcome: 'cancelled' }),
        ...changes,
      },
      pictures: {
        keep: async ({ name }) => {
          done.push(`keep ${name}`);
          return { outcome: 'kept' };
        },
        read: async () => ({ outcome: 'problem', code: 'unreadable', message: 'is not beside the boat file' }),
      },
      journals: {
        start: async () => ({ outcome: 'started' }),
        append: async () => ({ outcome: 'appended', entries: 1 }),
        list: async () => ({ journals: [], unreadable: [] }),
        clear: async () => undefined,
      },
      setUnsaved: (now) => unsaved.push(now),
      confirmClose: () => done.push('close'),
    },
  );
  const ask = (channel: string, payload: unknown, event: Asker = OWN): Promise<unknown> => {
    const listener = listeners.get(channel);
    if (!listener) throw new Error(`no listener for ${channel}`);
    return listener(event, payload);
  };
  return { listeners, done, unsaved, ask };
}

describe('the channels between window and desktop', () => {
  it('are the same list in the preload, in the contract and in the handlers', () => {
    expect(Object.keys(contract).sort()).toEqual([...CHANNELS].sort());
    expect([...desktop().listeners.keys()].sort()).toEqual([...CHANNELS].sort());
  });

  it('do their work for the main frame of our own page', async () => {
    const { ask, done, unsaved } = desktop();
    expect(await ask('boat:open', null)).toEqual({ outcome: 'cancelled' });
    expect(await ask('window:unsaved', { unsaved: true })).toBeNull();
    expect(await ask('window:closeConfirmed', null)).toBeNull();
    expect(done).toEqual(['open', 'close']);
    expect(unsaved).toEqual([true]);
  });

  it.each<[string, Asker]>([
    ['no frame at all', { senderFrame: null }],
    ['a page from elsewhere', { senderFrame: { url: 'https://example.org/', parent: null } }],
    ['a file', { senderFrame: { url: 'file:///index.html', parent: null } }],
    ['a frame inside our page', { senderFrame: { url: 'app://underberth/index.html', parent: {} } }],
  ])('refuse %s on every channel, before any work', async (_who, event) => {
    const { ask, done, unsaved } = desktop();
    for (const channel of CHANNELS) await expect(ask(channel, null, event)).rejects.toThrow('Refused');
    expect([done, unsaved]).toEqual([[], []]);
  });

  const picture = { token: 'a'.repeat(32), name: 'bilge.png', content: new Uint8Array(8) };
  const save = { token: null, suggestedName: 'boat.boat.json', text: '{}', replaces: null };
  it.each<[string, string, unknown]>([
    ['a name with a path', 'boat:save', { ...save, suggestedName: '../boat.json' }],
    ['a name with a backslash', 'boat:save', { ...save, suggestedName: 'a\\boat.json' }],
    ['a hidden name', 'boat:save', { ...save, suggestedName: '.bashrc' }],
    ['a name with a line break', 'boat:save', { ...save, suggestedName: 'boat\n.json' }],
    ['a name that is a device on Windows', 'boat:save', { ...save, suggestedName: 'NUL.boat.json' }],
    ['another such', 'export:save', { suggestedName: 'com1.csv', content: '' }],
    ['a name that turns the writing round', 'boat:save', { ...save, suggestedName: 'boat\u202enosj.exe' }],
    ['a drive', 'boat:save', { ...save, suggestedName: 'C:boat.json' }],
    ['an address', 'boat:save', { ...save, suggestedName: 'https://example.org/boat.json' }],
    ['a stamp that is none', 'boat:save', { ...save, replaces: 'yes' }],
    ['a path to look at', 'boat:look', { token: '../boat.json' }],
    ['a path to list versions of', 'boat:versions', { token: '/etc/passwd' }],
    ['a path in place of a token', 'boat:save', { ...save, token: '/etc/passwd' }],
    ['text that is not text', 'boat:save', { ...save, text: 5 }],
    ['text beyond the limit', 'boat:save', { ...save, text: 'x'.repeat(20 * 1024 * 1024 + 1) }],
    ['content that is neither text nor bytes', 'export:save', { suggestedName: 'a.csv', content: { evil: 1 } }],
    ['a picture that climbs', 'picture:read', { token: 'a'.repeat(32), name: '../secret.png' }],
    ['a picture in a folder', 'picture:read', { token: 'a'.repeat(32), name: 'photos/bilge.png' }],
    ['what does not end as a picture', 'picture:read', { token: 'a'.repeat(32), name: 'boat.json' }],
    ['a picture of no boat', 'picture:keep', { ...picture, token: null }],
    ['a picture that is text', 'picture:keep', { ...picture, content: 'FFD8FF' }],
    ['a picture beyond the limit', 'picture:keep', { ...picture, content: new Uint8Array(30 * 1024 * 1024 + 1) }],
    ['a document id that climbs', 'journal:clear', { documentId: '../../recovery' }],
    ['a payload where none belongs', 'boat:open', { path: '/etc/passwd' }],
  ])('refuse %s', async (_what, channel, payload) => {
    const { ask, done } = desktop();
    await expect(ask(channel, payload)).rejects.toThrow();
    expect(done).toEqual([]);
  });

  it('let only agreed answers out: an answer with a path instead of a token is our bug and is stopped', async () => {
    const { ask } = desktop({
      open: async () => ({ outcome: 'opened', token: '/home/skipper/boat.json', name: 'boat.json', text: '{}' }),
    });
    await expect(ask('boat:open', null)).rejects.toThrow();
  });
});
