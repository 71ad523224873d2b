import { readBoatFile } from '../bridge/browser';
import { useApp } from '../store/app';
import { documentsNow } from './commands';

/** A file that is dropped anywhere on the window is opened; the browser itself must not go there. */
export function listenToDrops(window: Window): () => void {
  const over = (event: DragEvent): void => event.preventDefault();
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    const file = event.dataTransfer?.files[0];
    if (file) void openDropped(file);
  };
  window.addEventListener('dragover', over);
  window.addEventListener('drop', drop);
  return () => {
    window.removeEventListener('dragover', over);
    window.removeEventListener('drop', drop);
  };
}

async function openDropped(file: File): Promise<void> {
  const read = await readBoatFile(file);
  if (read.outcome === 'opened') await documentsNow()?.openFile(read);
  else useApp.getState().showProblem({ title: 'Not opened.', lines: [read.message] });
}
