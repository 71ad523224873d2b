import { applied } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import type { Progress } from '@core/engine/in-slices';
import type { CompartmentAnswer, PlaceReport } from '@core/engine/placement/place-report';
import { listed } from '@core/output/text/names';
import { create } from 'zustand';
import { useApp } from './app';
import { chosenThings } from './chosen';
import { studiesNow } from './connections';
import { EMPTY_HISTORY } from './history';
import { compartmentName, isPart, markOf, placeOf, sameSelection, thingOf } from './select';
import { useService } from './service';
import { keepTyped, placePath } from './typed';
import type { Stage } from './types';

/** After an edit so long a pause before the question is asked anew: who nudges a part gives several at once. */
export const PAUSE_MS = 300;

/** Where some parts can go: asked of the studies' worker, so that neither the checks nor a drag wait for it. */
interface PlacingState {
  /** Parts that are asked about, the first of them leads; none: the question is not open. */
  readonly parts: readonly string[];
  /** Newest question; 0: none yet. */
  readonly ask: number;
  readonly progress: Progress | null;
  readonly report: PlaceReport | null;
  /** The boat that the report is about. */
  readonly of: Boat | null;
  /** What the work threw: a fault of the program. */
  readonly fault: string | null;
  /** The user stopped the work: it begins again only when asked. */
  readonly isStopped: boolean;
  /** Compartment whose place is looked at. */
  readonly chosen: string | null;
  open(parts: readonly string[]): void;
  close(): void;
  stop(): void;
  again(): void;
  choose(compartment: string | null): void;
}

const CLOSED = {
  parts: [],
  progress: null,
  report: null,
  of: null,
  fault: null,
  isStopped: false,
  chosen: null,
} as const;

const NOTHING_ASKED = (): void => {};
let takeBack = NOTHING_ASKED;
let waiting: ReturnType<typeof setTimeout> | undefined;

/** Nothing that was asked comes back any more. */
function drop(): void {
  clearTimeout(waiting);
  clearTimeout(shown?.timer);
  shown = null;
  takeBack();
  takeBack = NOTHING_ASKED;
}

export const usePlacing = create<PlacingState>()((set, get) => ({
  ...CLOSED,
  ask: 0,

  open(parts) {
    drop();
    set({ ...CLOSED, parts, ask: get().ask + 1 });
    if (parts.length > 0) askNow();
  },
  close() {
    drop();
    if (get().parts.length > 0) set({ ...CLOSED, ask: get().ask + 1 });
  },
  stop() {
    drop();
    set({ ask: get().ask + 1, progress: null, isStopped: true });
  },
  again() {
    drop();
    set({ isStopped: false });
    askNow();
  },
  choose(compartment) {
    if (compartment === get().chosen) return;
    set({ chosen: compartment });
    // The section goes where the part would stand.
    const pose = Object.values(answerOf(get().report, compartment)?.best?.poses ?? {})[0];
    if (pose) useApp.getState().setSectionX(pose.at[0]);
  },
}));

function askNow(): void {
  const { boat } = useApp.getState();
  const { parts } = usePlacing.getState();
  if (!boat) return;
  const ask = usePlacing.getState().ask + 1;
  const isNewest = (): boolean => usePlacing.getState().ask === ask;
  usePlacing.setState({ ask, progress: { done: 0, of: 1 }, fault: null });
  takeBack = studiesNow().study(
    'places',
    { boat, parts },
    (told) => {
      if (!isNewest()) return;
      takeBack = NOTHING_ASKED;
      if (told.ok) take(told.gives, boat, null);
      else usePlacing.setState({ fault: told.message, progress: null });
    },
    (progress, partial) => {
      if (!isNewest()) return;
      usePlacing.setState({ progress });
      if (partial) takeSoon(partial, boat);
    },
  );
}

/** The drawing shows so many answers a second at most while they come in, milliseconds. */
const SHOWN_EVERY_MS = 250;
let shown: { timer: ReturnType<typeof setTimeout>; next: (() => void) | null } | null = null;

/** A partial answer: the first at once, of those that follow closely the last. */
function takeSoon(report: PlaceReport, of: Boat): void {
  const { ask } = usePlacing.getState();
  const show = (): void => {
    const state = usePlacing.getState();
    // The whole answer, or another question, was quicker.
    if (state.ask === ask && state.progress) take(report, of, state.progress);
  };
  if (shown) {
    shown.next = show;
    return;
  }
  show();
  const rest = (): void => {
    const next = shown?.next ?? null;
    shown = next ? { timer: setTimeout(rest, SHOWN_EVERY_MS), next: null } : null;
    next?.();
  };
  shown = { timer: setTimeout(rest, SHOWN_EVERY_MS), next: null };
}

/** A newer answer. Until the user has looked at one, the best place is looked at. */
function take(report: PlaceReport, of: Boat, progress: Progress | null): void {
  usePlacing.setState({ report, of, progress });
  const { chosen, choose } = usePlacing.getState();
  if (chosen !== null && answerOf(report, chosen)) return;
  const { compartments } = report;
  const best = compartments.find(mayMove) ?? compartments.find(({ verdict }) => verdict !== 'no');
  choose(report.stage === 'settled' ? (best?.compartment ?? null) : null);
}

export const answerOf = (report: PlaceReport | null, compartment: string | null): CompartmentAnswer | null =>
  report?.compartments.find((one) => one.compartment === compartment) ?? null;

/** Those where the part can go, or may as far as it can be told, and is not yet. */
const mayMove = ({ best, isNow, verdict }: CompartmentAnswer): boolean =>
  best !== null && !isNow && verdict !== 'no' && verdict !== 'notYet';

/** The answer is older than the boat. */
export const isOldAnswer = ({ of }: Pick<PlacingState, 'of'>, boat: Boat | null): boolean => of !== null && of !== boat;

/** So many are named one by one. */
const NAMED = 3;

/** What is asked about, in words: `PM-1`, `FL-1 and FL-2`, `PM-1 and 4 more`. */
export function askedWords(boat: Boat, parts: readonly string[]): string {
  const marks = parts.map((id) => markOf(id, thingOf(boat, id)));
  return parts.length <= NAMED ? listed(marks) : `${marks[0] ?? ''} and ${parts.length - 1} more`;
}

/** Why the question cannot be asked of what is picked; null: it can. */
export function noPlaceQuestion(): string | null {
  const { boat, arrangementId } = useApp.getState();
  if (boat === null) return 'Open a boat first';
  const things = chosenThings();
  if (things.length === 0) return 'Select a part first';
  const parts = things.filter((id) => isPart(boat, id));
  if (parts.length === 0) return 'That is aboard already: select a part of the set';
  const waiting = parts.find((id) => placeOf(boat, arrangementId, id) === null);
  return parts.length > 1 && waiting !== undefined
    ? `Place ${markOf(waiting, thingOf(boat, waiting))} first: parts that are asked about together stay as they stand to each other`
    : null;
}

const ON_BOARD: readonly Stage[] = ['compartments', 'equipment', 'runs'];

/** Opens the question about the parts that are picked, the one of the inspector first. */
export function askWhere(): void {
  const { boat, stage, setStage, setTool, tool, notify } = useApp.getState();
  const parts = boat
    ? chosenThings()
        .filter((id) => isPart(boat, id))
        .toReversed()
    : [];
  if (!boat || parts.length === 0) return;
  if (!ON_BOARD.includes(stage)) setStage('equipment');
  if (tool !== 'select') setTool('select');
  // A rehearsal has the board to itself.
  const { chosen, choose } = useService.getState();
  if (chosen !== null) choose(null);
  usePlacing.getState().open(parts);
  notify(`Where can ${askedWords(boat, parts)} go? Compartments are being judged.`);
}

/** Puts the parts into the best place found in a compartment: one undo step. False where there is none, or it is not sure any more. */
export function placeThere(compartment: string | null = usePlacing.getState().chosen): boolean {
  const { boat, arrangementId, edit, notify } = useApp.getState();
  const state = usePlacing.getState();
  const answer = answerOf(state.report, compartment);
  if (!boat || !answer) return false;
  const why = noMove(state, boat, answer);
  if (why !== null || !answer.best) {
    notify(why ?? '');
    return false;
  }
  const { patches, poses } = answer.best;
  const words = moveWords(boat, state.parts, answer);
  const done = edit(words, (draft) => {
    applied(draft as Boat, patches);
    // What was typed for the old place does not speak of the new one.
    for (const id of Object.keys(poses))
      for (const axis of [0, 1, 2] as const) keepTyped(draft, placePath(draft, arrangementId, id, axis), '');
  });
  if (done) {
    usePlacing.getState().choose(answer.compartment);
    notify(`${words.replace('Move', 'Moved')}. Undo: Ctrl Z`);
  }
  return done;
}

/** Looks at the next place of the list, or the one before, and says which. */
export function lookAtPlace(by: 1 | -1): void {
  const { report, chosen, choose } = usePlacing.getState();
  const all = report?.compartments ?? [];
  const now = all.findIndex(({ compartment }) => compartment === chosen);
  const next = all[now < 0 ? (by > 0 ? 0 : all.length - 1) : Math.min(all.length - 1, Math.max(0, now + by))];
  if (!next) return;
  choose(next.compartment);
  useApp.getState().notify(next.name);
}

export const THERE_NOW = 'It is there now';

/** Why the parts cannot be moved there now, in words; null: they can. */
export function noMove(state: Pick<PlacingState, 'of'>, boat: Boat, answer: CompartmentAnswer): string | null {
  if (isOldAnswer(state, boat)) return 'The boat has changed: the places are being judged again';
  if (standsThere(boat, useApp.getState().arrangementId, answer)) return THERE_NOW;
  if (answer.verdict === 'notYet') return 'Still being judged';
  return answer.best === null ? 'No place was found there' : null;
}

/** Nearer than this to the best place, a part need not be moved, metres and degrees. */
const AS_GOOD = 1e-4;

/** The parts stand at the best place of the compartment already. */
export function standsThere(boat: Boat, arrangementId: string | null, { best, isNow }: CompartmentAnswer): boolean {
  if (!isNow || best === null) return isNow;
  return Object.entries(best.poses).every(([id, pose]) => {
    const now = placeOf(boat, arrangementId, id);
    return (
      now !== null &&
      pose.at.every((value, k) => Math.abs(value - (now.at[k] ?? value)) < AS_GOOD) &&
      (['yawDeg', 'pitchDeg', 'rollDeg'] as const).every((key) => Math.abs(pose[key] - now[key]) < AS_GOOD)
    );
  });
}

/** `Move PM-1 to the quarter berth void`; where it is there already, to a better place within. */
export const moveWords = (boat: Boat, parts: readonly string[], { compartment, isNow }: CompartmentAnswer): string =>
  `Move ${askedWords(boat, parts)} ${isNow ? 'within' : 'to'} ${inWords(boat, compartment)}`;

/** `the quarter berth void`: a compartment within a sentence. */
const inWords = (boat: Boat, id: string): string => {
  const name = compartmentName(boat, id);
  return `the ${name.charAt(0).toLowerCase()}${name.slice(1)}`;
};

// An answer holds for the boat that it was asked of: after an edit it is asked anew, another boat ends it.
useApp.subscribe((state, before) => {
  const { parts, close, isStopped } = usePlacing.getState();
  if (parts.length === 0) return;
  const { boat, selection } = state;
  const isOther = boat !== before.boat && state.history === EMPTY_HISTORY;
  if (isOther || !boat || parts.some((id) => boat.parts[id] === undefined) || !ON_BOARD.includes(state.stage)) {
    close();
    return;
  }
  if (state.sent !== before.sent) {
    drop();
    usePlacing.setState({ ask: usePlacing.getState().ask + 1, progress: null });
    if (!isStopped) waiting = setTimeout(askNow, PAUSE_MS);
  }
  if (sameSelection(selection, before.selection) || selection === null) return;
  if (selection.kind === 'compartment') usePlacing.getState().choose(selection.id);
  else if (selection.kind !== 'thing' || !parts.includes(selection.id)) close();
});

useService.subscribe(({ chosen }) => {
  if (chosen !== null) usePlacing.getState().close();
});
