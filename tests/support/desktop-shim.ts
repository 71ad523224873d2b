import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { BoatFiles } from '../../electron/files/boat-files';
import { GrantedPaths } from '../../electron/files/granted-paths';
import { Journals } from '../../electron/files/journal';
import { PictureFiles } from '../../electron/files/picture-files';
import { CLOSE_REQUESTED } from '../../electron/ipc/channels';
import { type Asker, registerHandlers } from '../../electron/ipc/handlers';
import { inProject } from '../../electron/launch/project.mjs';

/** What the user answers in the system's dialogs; a test changes it as it goes. Null cancels. */
export interface DialogAnswers {
  boatToOpen: string | null;
  boatToSave: string | null;
  exportTo: string | null;
}
export interface DesktopShim {
  readonly answers: DialogAnswers;
  /** Every channel that the page used, in order. */
  readonly used: readonly string[];
  readonly unsaved: () => boolean;
  readonly closeConfirmed: () => boolean;
  /** As if the user closed the window. */
  readonly requestClose: (page: Page) => Promise<void>;
  readonly dispose: () => Promise<void>;
}

type Listener = (event: Asker, payload: unknown) => Promise<unknown>;
/** Bytes leave the page as a list of numbers beside the rest. */
interface Wire {
  readonly payload: unknown;
  readonly bytes: readonly number[] | null;
}

/**
 * The desktop without its binary: the BUILT preload runs in every page of `context` before the page's own code, its
 * `require('electron')` is played here, and what it asks reaches the REAL handlers, which write real files.
 * `userData` is a folder of the test's own.
 */
export async function installDesktop(context: BrowserContext, userData: string): Promise<DesktopShim> {
  const answers: DialogAnswers = { boatToOpen: null, boatToSave: null, exportTo: null };
  const listeners = new Map<string, Listener>();
  const used: string[] = [];
  let unsaved = false;
  let closeConfirmed = false;
  const granted = new GrantedPaths();
  const journals = new Journals(path.join(userData, 'recovery'), granted);
  registerHandlers<Asker>(
    { handle: (channel, listener) => listeners.set(channel, listener) },
    {
      isOwnPage: (address) => new URL(address).hostname === '127.0.0.1',
      files: new BoatFiles(granted, {
        boatToOpen: async () => answers.boatToOpen,
        boatToSave: async () => answers.boatToSave,
        exportTo: async () => answers.exportTo,
      }),
      pictures: new PictureFiles(granted),
      journals,
      setUnsaved: (now) => {
        unsaved = now;
      },
      confirmClose: () => {
        closeConfirmed = true;
      },
    },
  );
  await context.exposeBinding('underberthInvoke', async ({ frame }, channel: string, wire: Wire) => {
    used.push(channel);
    const listener = listeners.get(channel);
    if (!listener) throw new Error(`No handler registered for '${channel}'`);
    const event: Asker = { senderFrame: { url: frame.url(), parent: frame.parentFrame() } };
    return listener(event, unwire(wire));
  });
  await context.addInitScript({
    content: pageSide(readFileSync(inProject('dist', 'electron', 'preload.cjs'), 'utf8')),
  });
  return {
    answers,
    used,
    unsaved: () => unsaved,
    closeConfirmed: () => closeConfirmed,
    requestClose: (page) =>
      page.evaluate((channel) => {
        window.dispatchEvent(new CustomEvent(`shim:${channel}`));
      }, CLOSE_REQUESTED),
    dispose: () => journals.closeAll(),
  };
}

/** Puts the bytes of an export back where they were. */
const unwire = ({ payload, bytes }: Wire): unknown =>
  bytes === null ? payload : { ...(payload as object), content: new Uint8Array(bytes) };

const pageSide = (preload: string): string => `
(() => {
  const exposed = {};
  const heard = new Map();
  const require = (name) => {
    if (name !== 'electron') throw new Error('module not found: ' + name);
    return {
      contextBridge: { exposeInMainWorld: (key, api) => { exposed[key] = api; } },
      ipcRenderer: {
        invoke: (channel, payload) => {
          const bytes = payload && payload.content instanceof Uint8Array ? [...payload.content] : null;
          return window.underberthInvoke(channel, { payload: bytes ? { ...payload, content: null } : payload, bytes });
        },
        on: (channel, listener) => {
          const wrapped = () => listener({ sender: null });
          heard.set(listener, wrapped);
          window.addEventListener('shim:' + channel, wrapped);
        },
        removeListener: (channel, listener) => window.removeEventListener('shim:' + channel, heard.get(listener)),
      },
    };
  };
  const module = { exports: {} };
  ((require, module, exports) => {
${preload}
  })(require, module, module.exports);
  for (const [key, api] of Object.entries(exposed)) {
    Object.defineProperty(window, key, { value: Object.freeze(api), enumerable: true });
  }
})();
`;
