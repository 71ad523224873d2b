import type { ToWorker } from './worker/protocol';

/**
 * What begins before the program of the window is read: the worker that judges the boat, and the boat that is most likely opened
 * first. The window may open another one: then this was for nothing, and harms nothing.
 */
export const engineWorker = new Worker(new URL('./worker/worker.ts', import.meta.url), { type: 'module' });

const SAMPLES = 'sample-boats/index.json';

async function foresee(): Promise<void> {
  const list: unknown = await (await fetch(SAMPLES)).json();
  const first: unknown = Array.isArray(list) ? list[0] : null;
  if (typeof first !== 'object' || first === null || !('boat' in first) || typeof first.boat !== 'string') return;
  const answer = await fetch(first.boat);
  if (!answer.ok) return;
  const message: ToWorker = { type: 'foresee', text: await answer.text() };
  engineWorker.postMessage(message);
}

// Whether it comes or not, the window asks again and says what is wrong.
foresee().catch(() => undefined);
