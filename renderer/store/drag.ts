import { add, subtract, type Vec3 } from '@core/base/vec';
import type { Place } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import type { Finding } from '@core/rules/finding';
import { create } from 'zustand';
import type { PulledRuns } from '../worker/protocol';
import { useApp } from './app';
import { clipsWith } from './clip-points';
import { engineNow } from './connections';
import { type Judged, judgedEdit } from './judged-edit';
import { pulledEdit } from './pulled';
import { placeOf } from './select';
import type { DragStore, Pulled } from './types';

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

const AT_REST = {
  thingId: null,
  start: null,
  place: null,
  along: {},
  pulled: null,
  judging: false,
  refused: null,
  runs: {},
  findings: {},
} as const;

/** A drag: start, steps, then one edit or nothing. Sequence numbers never start again, so a late answer is known as late. */
export const useDrag = create<DragStore & Internals>()((set, get) => ({
  ...AT_REST,
  sent: 0,
  answered: 0,
  first: 1,

  startDrag(thingId, others = []) {
    const { boat, arrangementId, select } = useApp.getState();
    const start = boat ? placeOf(boat, arrangementId, thingId) : null;
    if (!boat || !start) return;
    const along = Object.fromEntries(
      others.flatMap((id) => {
        const place = id === thingId ? null : placeOf(boat, arrangementId, id);
        return place ? [[id, { start: place, place }] as const] : [];
      }),
    );
    select(
      { kind: 'thing', id: thingId },
      Object.keys(along).map((id) => ({ kind: 'thing', id })),
    );
    set({ ...AT_REST, thingId, start, place: start, along, first: get().sent + 1 });
  },

  updateDrag(place) {
    const { thingId, start, sent, along } = get();
    if (thingId === null || !start) return;
    const seq = sent + 1;
    const by = subtract(place.at, start.at);
    const moved = Object.fromEntries(
      Object.entries(along).map(([id, other]) => [
        id,
        { start: other.start, place: { ...other.start, at: pointOf(add(other.start.at, by)) } },
      ]),
    );
    set({ place, along: moved, sent: seq });
    engineNow().whatIf(seq, placesOf(thingId, place, moved));
  },

  startPull(pulled) {
    if (get().judging) return;
    set({ ...AT_REST, pulled, first: get().sent + 1 });
  },

  pullTo(at, stoppedBy = null) {
    const { pulled, judging, sent } = get();
    if (!pulled || judging) return;
    const seq = sent + 1;
    const now: Pulled = pulled.kind === 'clip' ? { ...pulled, at } : { ...pulled, at, stoppedBy };
    set({ pulled: now, sent: seq });
    engineNow().whatIf(seq, {}, triedOf(now));
  },

  endDrag(how) {
    const { thingId, start, place, along, pulled, judging } = get();
    if (pulled) {
      if (judging) return;
      engineNow().endWhatIf();
      const moved = pulled.at.some((value, axis) => value !== pulled.start[axis]);
      if (how === 'cancel' || !moved) {
        set(AT_REST);
        return;
      }
      set({ judging: true });
      judgedEdit({ ...pulledEdit(pulled), done: (judged) => letGo(judged, pulled) });
      return;
    }
    if (thingId === null) return;
    engineNow().endWhatIf();
    const moved = start !== null && place !== null && place !== start;
    if (how === 'cancel' || !moved) {
      set(AT_REST);
      return;
    }
    // The runs stay as last drawn until the settled answer comes, so that nothing jumps back for a moment.
    set({ thingId: null, start: null, place: null, along: {} });
    const { placeThing, placeThings } = useApp.getState();
    if (Object.keys(along).length === 0) placeThing(thingId, place);
    else placeThings(placesOf(thingId, place, along));
  },

  answeredStep(seq, delta) {
    const { thingId, pulled, judging, first, runs, findings } = get();
    if ((thingId === null && (pulled === null || judging)) || seq < first) return;
    const { shown, refused } = pulled ? lastGood(delta.runs, pulled.line, get().refused) : AS_TOLD(delta.runs);
    // What did not change keeps its identity, so that nothing is drawn again for it.
    const now = shown.length === 0 ? runs : { ...runs };
    for (const run of shown) Object.assign(now, { [run.lineId]: run });
    const verdicts = delta.findings.length + delta.gone.length === 0 ? findings : { ...findings };
    for (const finding of delta.findings) Object.assign(verdicts, { [finding.key]: finding });
    for (const key of delta.gone) Object.assign(verdicts, { [key]: null });
    set({ answered: seq, runs: now, findings: verdicts, refused });
  },
}));

const pointOf = (at: Vec3): [number, number, number] => [at[0], at[1], at[2]];

const placesOf = (thingId: string, place: Place, along: DragStore['along']): Readonly<Record<string, Place>> => ({
  ...Object.fromEntries(Object.entries(along).map(([id, other]) => [id, other.place])),
  [thingId]: place,
});

const AS_TOLD = (runs: readonly RunReport[]) => ({ shown: runs, refused: null });

/** A pulled run stays drawn as it was last possible; why it is not possible now is told beside it. */
function lastGood(runs: readonly RunReport[], line: string, before: RunReport | null) {
  const own = runs.find(({ lineId }) => lineId === line);
  const refused = own === undefined ? before : own.status === 'blocked' ? own : null;
  return { shown: refused && own ? runs.filter((run) => run !== own) : runs, refused };
}

/** What the worker is to try. */
function triedOf(pulled: Pulled): PulledRuns {
  if (pulled.kind === 'crossing') {
    const { line, index, at, diameterM } = pulled;
    return { slid: { [line]: { index, at, diameterM } } };
  }
  const { boat, arrangementId } = useApp.getState();
  return boat ? { clips: { [pulled.line]: clipsWith(boat, arrangementId, pulled) } } : {};
}

/** A made edit keeps the runs as last drawn until the settled answer comes; a refused one leaves all as it was. */
function letGo(judged: Judged, pulled: Pulled): void {
  if (judged === 'made') {
    useDrag.setState({ pulled: null, judging: false, refused: null });
    const { select } = useApp.getState();
    const { line } = pulled;
    if (pulled.kind === 'clip') select({ kind: 'clipPoint', id: pulled.id, line });
    else select({ kind: 'crossing', id: String(pulled.index), line });
  } else useDrag.setState(AT_REST);
}

// A settled answer replaces whatever a finished drag left on the drawing.
useApp.subscribe((state, before) => {
  const { thingId, pulled } = useDrag.getState();
  if (state.report !== before.report && thingId === null && pulled === null) useDrag.setState(AT_REST);
});
