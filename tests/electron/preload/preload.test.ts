import { CHANNELS } from '@electron/ipc/channels';
import type { UnderberthDesktop } from '@electron/ipc/contract';
import { beforeAll, describe, expect, it, vi } from 'vitest';

const asked: unknown[][] = [];
const listeners = new Map<string, (...words: unknown[]) => void>();
const exposed = new Map<string, UnderberthDesktop>();
vi.mock('electron', () => ({
  contextBridge: { exposeInMainWorld: (name: string, api: UnderberthDesktop) => exposed.set(name, api) },
  ipcRenderer: {
    invoke: async (...words: unknown[]) => {
      asked.push(words);
      return null;
    },
    on: (channel: string, listener: (...words: unknown[]) => void) => listeners.set(channel, listener),
    removeListener: (channel: string) => listeners.delete(channel),
  },
}));

describe('the preload', () => {
  beforeAll(async () => {
    await import('../../../electron/preload/preload');
  });
  const desktop = (): UnderberthDesktop => {
    const api = exposed.get('underberthDesktop');
    if (!api) throw new Error('nothing exposed');
    return api;
  };

  it('exposes one object of named functions, and no way to name a channel (Electron checklist, item 20)', () => {
    expect([...exposed.keys()]).toEqual(['underberthDesktop']);
    expect(Object.values(desktop()).every((entry) => typeof entry === 'function')).toBe(true);
    expect(Object.keys(desktop()).sort()).toEqual(
      [
        'appendJournal',
        'boatVersions',
        'clearJournal',
        'confirmClose',
        'exportFile',
        'keepPicture',
        'lookAtBoat',
        'onCloseRequest',
        'openBoat',
        'readJournals',
        'readPicture',
        'saveBoat',
        'setUnsaved',
        'startJournal',
      ].sort(),
    );
  });

  it('reaches every channel by exactly one function', async () => {
    const save = { token: null, suggestedName: 'a.json', text: '', replaces: null };
    const token = 'a'.repeat(32);
    const documentId = 'document-1';
    await desktop().openBoat();
    await desktop().saveBoat(save);
    await desktop().lookAtBoat({ token });
    await desktop().boatVersions({ token });
    await desktop().exportFile({ suggestedName: 'a.csv', content: '' });
    await desktop().keepPicture({ token, name: 'bilge.png', content: new Uint8Array(8) });
    await desktop().readPicture({ token, name: 'bilge.png' });
    await desktop().startJournal({ documentId, name: 'a', token: null, baseText: '', isSaved: true });
    await desktop().appendJournal({ documentId, entry: '' });
    await desktop().readJournals();
    await desktop().clearJournal({ documentId });
    await desktop().setUnsaved({ unsaved: true });
    await desktop().confirmClose();
    expect(asked.map(([channel]) => channel)).toEqual(CHANNELS);
    expect(asked[1]).toEqual(['boat:save', save]);
  });

  it('keeps the event object from the page, and stops listening when told', () => {
    const heard: unknown[][] = [];
    const stop = desktop().onCloseRequest((...words: unknown[]) => heard.push(words));
    listeners.get('window:closeRequested')?.({ sender: 'the whole IPC' });
    expect(heard).toEqual([[]]);
    stop();
    expect(listeners.size).toBe(0);
  });
});
