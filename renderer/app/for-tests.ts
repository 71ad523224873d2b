import { useApp } from '../store/app';
import { useDrag } from '../store/drag';

/** With `?e2e` in the address the page tells its state, so that a test can ask instead of reading pixels. It changes nothing. */
export function exposeForTests(window: Window & { __e2e?: object }): void {
  if (!new URLSearchParams(window.location.search).has('e2e')) return;
  window.__e2e = {
    ...window.__e2e,
    state: () => {
      const { boat, arrangementId, document, selection, sectionX, report, stale, problem, stage, canUndo, canRedo } =
        useApp.getState();
      return { boat, arrangementId, document, selection, sectionX, report, stale, problem, stage, canUndo, canRedo };
    },
    drag: () => {
      const { thingId, place, sent, answered, runs } = useDrag.getState();
      return { thingId, place, sent, answered, runs };
    },
  };
}
