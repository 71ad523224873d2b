import type { UnderberthDesktop } from '@electron/ipc/contract';
import type { Storage } from './storage';

/** Files through the desktop: dialogs, crash-safe saves and journal are in the main process. */
export function desktopStorage(desktop: UnderberthDesktop): Storage {
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
    setUnsaved: (unsaved) => void desktop.setUnsaved({ unsaved }),
    onCloseRequest: (listener) => desktop.onCloseRequest(listener),
    confirmClose: () => void desktop.confirmClose(),
  };
}
