import type { RunReport } from '@core/engine/report';
import type { Finding } from '@core/rules/finding';
import { create } from 'zustand';
import { useApp } from './app';
import { engineNow } from './connections';
import { placeOf } from './select';
import type { DragStore } from './types';

/** What a drag makes different from what was told before; the pieces add up. */
export interface DragDelta {
  readonly runs: readonly RunReport[];
  readonly findings: readonly Finding[];
  readonly gone: readonly string[];
}

interface Internals {
  /** Number of the first step of this drag: an answer to an earlier one belongs to another drag. */
  readonly first: number;
  answeredStep(seq: number, delta: DragDelta): void;
}

const AT_REST = { thingId: null, start: null, place: null, runs: {}, findings: {} } as const;

/** A drag: start, steps, then one edit or nothing. Sequence numbers never start again, so a late answer is known as late. */
export const useDrag = create<DragStore & Internals>()((set, get) => ({
  ...AT_REST,
  sent: 0,
  answered: 0,
  first: 1,

  startDrag(thingId) {
    const { boat, arrangementId, select } = useApp.getState();
    const start = boat ? placeOf(boat, arrangementId, thingId) : null;
    if (!start) return;
    select({ kind: 'thing', id: thingId });
    set({ ...AT_REST, thingId, start, place: start, first: get().sent + 1 });
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

  answeredStep(seq, delta) {
    const { thingId, first, runs, findings } = get();
    if (thingId === null || seq < first) return;
    // What did not change keeps its identity, so that nothing is drawn again for it.
    const now = delta.runs.length === 0 ? runs : { ...runs };
    for (const run of delta.runs) Object.assign(now, { [run.lineId]: run });
    const verdicts = delta.findings.length + delta.gone.length === 0 ? findings : { ...findings };
    for (const finding of delta.findings) Object.assign(verdicts, { [finding.key]: finding });
    for (const key of delta.gone) Object.assign(verdicts, { [key]: null });
    set({ answered: seq, runs: now, findings: verdicts });
  },
}));

// A settled answer replaces whatever a finished drag left on the drawing.
useApp.subscribe((state, before) => {
  if (state.report !== before.report && useDrag.getState().thingId === null) useDrag.setState(AT_REST);
});
