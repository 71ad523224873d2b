import type { RunReport } from '@core/engine/report';
import type { Finding } from '@core/rules/finding';
import { create } from 'zustand';
import { useApp } from './app';
import { engineNow } from './connections';
import { placeOf } from './select';
import type { DragStore } from './types';

/** What a what-if step changed against the settled report. */
export interface DragDelta {
  readonly seq: number;
  readonly runs: readonly RunReport[];
  /** By key; null: the finding is gone. */
  readonly findings: Readonly<Record<string, Finding | null>>;
}

interface Internals {
  answeredStep(delta: DragDelta): void;
}

const AT_REST = { thingId: null, start: null, place: null, runs: {}, findings: {} } as const;

/** A drag: start, steps, then one edit or nothing. Sequence numbers never start again, so a late answer is known as late. */
export const useDrag = create<DragStore & Internals>()((set, get) => ({
  ...AT_REST,
  sent: 0,
  answered: 0,

  startDrag(thingId) {
    const { boat, arrangementId, select } = useApp.getState();
    const start = boat ? placeOf(boat, arrangementId, thingId) : null;
    if (!start) return;
    select({ kind: 'thing', id: thingId });
    set({ ...AT_REST, thingId, start, place: start });
  },

  updateDrag(place) {
    const { thingId, sent } = get();
    if (thingId === null) return;
    const seq = sent + 1;
    set({ place, sent: seq });
    engineNow().whatIf(seq, { [thingId]: place });
  },

  endDrag(how) {
    const { thingId, start, place } = get();
    if (thingId === null) return;
    engineNow().endWhatIf();
    const moved = start !== null && place !== null && place !== start;
    if (how === 'cancel' || !moved) {
      set(AT_REST);
      return;
    }
    // The runs stay as last drawn until the settled answer comes, so that nothing jumps back for a moment.
    set({ thingId: null, start: null, place: null });
    useApp.getState().placeThing(thingId, place);
  },

  answeredStep(delta) {
    const { thingId, sent, answered, runs, findings } = get();
    if (thingId === null || delta.seq !== sent || delta.seq < answered) return;
    const changed = Object.fromEntries(delta.runs.map((run) => [run.lineId, run]));
    set({ answered: delta.seq, runs: { ...runs, ...changed }, findings: { ...findings, ...delta.findings } });
  },
}));

// A settled answer replaces whatever a finished drag left on the drawing.
useApp.subscribe((state, before) => {
  if (state.report !== before.report && useDrag.getState().thingId === null) useDrag.setState(AT_REST);
});
