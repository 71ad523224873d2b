import type { UnderberthDesktop } from '@electron/ipc/contract';
import { browserPictures } from './browser-pictures';
import type { PictureRead, PictureShelf, Refused, Storage } from './storage';

/** Files through the desktop: dialogs, crash-safe saves and journal are in the main process. */
export function desktopStorage(desktop: UnderberthDesktop, window: Window): Storage {
  let isChoosing = false;
  return {
    kind: 'desktop',
    keepsPlace: true,
    async open() {
      // One dialog at a time: a second wish would stand behind the first.
      if (isChoosing) return { outcome: 'cancelled' };
      isChoosing = true;
      try {
        return await desktop.openBoat();
      } finally {
        isChoosing = false;
      }
    },
    save: (request) => desktop.saveBoat(request),
    look: (token) => desktop.lookAtBoat({ token }),
    async versions({ token }) {
      const answer = token === null ? null : await desktop.boatVersions({ token });
      return answer?.outcome === 'listed' ? answer.versions : [];
    },
    onMaybeChanged(listener) {
      window.addEventListener('focus', listener);
      return () => window.removeEventListener('focus', listener);
    },
    // The desktop has one window, and a second start of the program brings that one to the front.
    onAlsoOpen: () => () => {},
    exportFile: ({ suggestedName, content }) => desktop.exportFile({ suggestedName, content }),
    journal: {
      async start({ documentId, name, token, text, isSaved }) {
        const result = await desktop.startJournal({ documentId, name, token, baseText: text, isSaved });
        if (result.outcome === 'problem') throw new Error(result.message);
      },
      async append(documentId, entry) {
        const result = await desktop.appendJournal({ documentId, entry });
        if (result.outcome === 'problem') throw new Error(result.message);
      },
      async left() {
        return desktop.readJournals();
      },
      async clear(documentId) {
        await desktop.clearJournal({ documentId });
      },
    },
    pictures: desktopPictures(desktop, window.indexedDB),
    setUnsaved: (unsaved) => void desktop.setUnsaved({ unsaved }),
    onCloseRequest: (listener) => desktop.onCloseRequest(listener),
    confirmClose: () => void desktop.confirmClose(),
  };
}

/** Beside the boat file; what belongs to a boat without a place waits in the window's own database, where a crash leaves it. */
function desktopPictures(desktop: UnderberthDesktop, databases: IDBFactory | undefined): PictureShelf {
  const waiting = browserPictures(databases);
  return {
    besideTheBoat: true,
    keep: (token, name, content) =>
      token === null ? waiting.keep(null, name, content) : desktop.keepPicture({ token, name, content }),
    async read(token, name): Promise<PictureRead | Refused> {
      if (token === null) return waiting.read(null, name);
      const beside = await desktop.readPicture({ token, name });
      if (beside.outcome === 'read') return { outcome: 'read', content: new Uint8Array(beside.content) };
      const left = await waiting.read(null, name);
      return left.outcome === 'read' ? left : beside;
    },
  };
}
