import { contextBridge, ipcRenderer } from 'electron';
import { CHANNELS, type Channel, CLOSE_REQUESTED } from '../ipc/channels';
import type { UnderberthDesktop } from '../ipc/contract';

const allowed: ReadonlySet<string> = new Set(CHANNELS);

/** The only way out of the sandbox: a listed channel, one plain value. */
function ask(channel: Channel, payload: unknown): Promise<never> {
  if (!allowed.has(channel)) return Promise.reject(new Error(`Unknown channel ${channel}`));
  // The main process parses both directions by the contract; what arrives here has the promised shape.
  return ipcRenderer.invoke(channel, payload) as Promise<never>;
}

const desktop: UnderberthDesktop = {
  openBoat: () => ask('boat:open', null),
  saveBoat: (request) => ask('boat:save', request),
  lookAtBoat: (request) => ask('boat:look', request),
  boatVersions: (request) => ask('boat:versions', request),
  exportFile: (request) => ask('export:save', request),
  keepPicture: (request) => ask('picture:keep', request),
  readPicture: (request) => ask('picture:read', request),
  startJournal: (request) => ask('journal:start', request),
  appendJournal: (request) => ask('journal:append', request),
  readJournals: () => ask('journal:list', null),
  clearJournal: (request) => ask('journal:clear', request),
  setUnsaved: (request) => ask('window:unsaved', request),
  confirmClose: () => ask('window:closeConfirmed', null),
  onCloseRequest: (listener) => {
    // The event object stays on this side.
    const heard = (): void => listener();
    ipcRenderer.on(CLOSE_REQUESTED, heard);
    return () => {
      ipcRenderer.removeListener(CLOSE_REQUESTED, heard);
    };
  },
};

contextBridge.exposeInMainWorld('underberthDesktop', desktop);
