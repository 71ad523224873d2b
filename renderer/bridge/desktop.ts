import type { UnderberthDesktop } from '@electron/ipc/contract';
import { browserPictures } from './browser-pictures';
import type { PictureRead, PictureShelf, Refused, Storage } from './storage';

/** Files through the desktop: dialogs, crash-safe saves and journal are in the main process. */
export function desktopStorage(desktop: UnderberthDesktop, databases: IDBFactory | undefined): Storage {
  return {
    kind: 'desktop',
    keepsPlace: true,
    open: () => desktop.openBoat(),
    save: ({ token, suggestedName, text }) => desktop.saveBoat({ token, suggestedName, text }),
    exportFile: ({ suggestedName, content }) => desktop.exportFile({ suggestedName, content }),
    journal: {
      async start({ documentId, name, token, text }) {
        const result = await desktop.startJournal({ documentId, name, token, baseText: text });
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
    pictures: desktopPictures(desktop, databases),
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
