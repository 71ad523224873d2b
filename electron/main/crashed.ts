import type { BrowserWindow } from 'electron';

/** A page that crashes again and again is not loaded for ever. */
const MOST_RELOADS = 3;

/** Loads the page anew when its process has gone: it then finds its own journal and offers the edits. */
export function reloadWhenGone(window: BrowserWindow): void {
  let reloads = 0;
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason === 'clean-exit' || reloads === MOST_RELOADS) return;
    reloads += 1;
    window.webContents.reload();
  });
}
