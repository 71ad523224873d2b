import type { BrowserWindow } from 'electron';
import { CLOSE_REQUESTED } from '../ipc/channels';

/** Holds a window with unsaved edits open until the page has asked the user. */
export interface Closing {
  readonly setUnsaved: (unsaved: boolean) => void;
  readonly confirm: () => void;
}

export function holdUnsaved(window: BrowserWindow): Closing {
  let unsaved = false;
  let asked = false;
  window.on('close', (event) => {
    // Asked once without an answer, the page hangs: the second wish to close wins, and the journal keeps the edits.
    if (!unsaved || asked) return;
    event.preventDefault();
    asked = true;
    window.webContents.send(CLOSE_REQUESTED);
  });
  return {
    setUnsaved: (now) => {
      unsaved = now;
      asked = false;
    },
    confirm: () => {
      unsaved = false;
      window.close();
    },
  };
}
