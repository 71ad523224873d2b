import { turned } from '@core/base/turning';
import { add, type Pose, type Vec3 } from '@core/base/vec';
import { applied, edit as edited, type Patch, placed } from '@core/boat/edits';
import { drawnBounds } from '@core/boat/interior/placing';
import { quantised } from '@core/boat/quantise';
import { typedAfter } from '@core/boat/record/typed';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { create } from 'zustand';
import { engineNow, journalNow } from './connections';
import { EMPTY_HISTORY, FIRST_REVISION, type History, jumpTo, redone, sealed, undone, withStep } from './history';
import { readPreferences, writePreferences } from './preferences';
import { arrangementIdOf, arrangementOf, chosenOf, markOf, placeOf, sameSelection, thingOf } from './select';
import { keepTyped, placePath, typedInHand } from './typed';
import type { AppStore, Selection, Theme, ThemeChoice } from './types';

interface Internals {
  readonly history: History;
  /** Next free name of a state of the boat. */
  readonly nextRevision: number;
  /** Counts what was sent to the worker, so that an old answer is known as old. */
  readonly sent: number;

  /** Puts a boat on the board: opened, new, recovered. The history starts afresh. */
  open(boat: Boat, file: OpenedFile): void;
  /** The file now holds the state that `revision` names. */
  saved(file: { fileName: string; token: string | null; at: string; revision: number }): void;
  /** The file is gone: what is on the board is nowhere else. */
  lostFile(): void;
  /** A settled answer; ignored when it answers an older state. */
  answered(sent: number, report: Report): void;
  /** Nothing more comes for that state. */
  rests(sent: number): void;
  systemTheme(theme: Theme): void;
}

interface OpenedFile {
  readonly fileName: string;
  readonly token: string | null;
  readonly saved: boolean;
  readonly isSample?: boolean;
  readonly notes?: readonly string[];
}

export type App = AppStore & Internals;

const quantisedPoint = (at: Vec3): [number, number, number] => [quantised(at[0]), quantised(at[1]), quantised(at[2])];

/** The same list each time, so that nothing is drawn again for it. */
const NOTHING_ELSE: readonly Selection[] = [];

/** Names no state: nothing on the disk is what is on the board. */
const NOWHERE = -1;

const themeOf = (choice: ThemeChoice, system: Theme): Theme => (choice === 'system' ? system : choice);
const preferences = readPreferences();
let systemTheme: Theme = 'light';

export const useApp = create<App>()((set, get) => {
  /** Sends patches to the worker and the journal and shows the boat that they make. */
  const show = (boat: Boat, revision: number, patches: readonly Patch[], history: History): void => {
    const sent = get().sent + 1;
    const state = get();
    const kept = chosenOf(state).filter((one) => isThere(boat, one));
    const selection = kept.find((one) => sameSelection(one, state.selection)) ?? kept.at(-1) ?? null;
    const also = kept.filter((one) => one !== selection);
    set({
      boat,
      history,
      sent,
      stale: true,
      searching: true,
      selection,
      alsoSelected: also.length === state.alsoSelected.length ? state.alsoSelected : also,
      arrangementId: arrangementIdOf(boat),
      document: { ...state.document, revision },
      canUndo: history.done.at(-1)?.label ?? null,
      canRedo: history.undone.at(-1)?.label ?? null,
    });
    engineNow().edit(sent, patches);
    journalNow().append(patches);
  };

  const step = (kind: 'undo' | 'redo'): void => {
    const { boat, history } = get();
    const next = kind === 'undo' ? undone(history) : redone(history);
    if (!boat || !next) return;
    const patches = kind === 'undo' ? next.step.inverse : next.step.patches;
    const revision = kind === 'undo' ? (next.history.done.at(-1)?.revision ?? next.history.before) : next.step.revision;
    show(applied(boat, patches), revision, patches, next.history);
    set({ notice: `${kind === 'undo' ? 'Undone' : 'Done again'}: ${next.step.label}` });
  };

  return {
    boat: null,
    arrangementId: null,
    document: { fileName: '', token: null, revision: 0, savedRevision: 0, savedAt: null, isSample: false },
    stage: 'equipment',
    tool: 'select',
    selection: null,
    alsoSelected: NOTHING_ELSE,
    hover: null,
    alsoHovered: NOTHING_ELSE,
    activeView: 'plan',
    sectionX: 0,
    shownHeelDeg: 20,
    layers: preferences.layers,
    themeChoice: preferences.theme,
    theme: themeOf(preferences.theme, systemTheme),
    displayUnits: preferences.units,
    glide: null,
    report: null,
    stale: false,
    searching: false,
    problem: null,
    notes: [],
    notice: null,
    canUndo: null,
    canRedo: null,
    history: EMPTY_HISTORY,
    nextRevision: FIRST_REVISION + 1,
    sent: 0,

    select(selection, also = NOTHING_ELSE) {
      const alsoSelected = also.filter(
        (one, i) => !sameSelection(one, selection) && also.findIndex((two) => sameSelection(one, two)) === i,
      );
      set({
        selection,
        alsoSelected: alsoSelected.length === 0 ? NOTHING_ELSE : alsoSelected,
        history: sealed(get().history),
      });
    },
    toggleSelected(selections) {
      const chosen = chosenOf(get());
      const isIn = (list: readonly Selection[], one: Selection): boolean => list.some((two) => sameSelection(one, two));
      const rest = chosen.filter((one) => !isIn(selections, one));
      const next = selections.every((one) => isIn(chosen, one)) ? rest : [...rest, ...selections];
      get().select(next.at(-1) ?? null, next);
    },
    setHover: (hover, alsoHovered = NOTHING_ELSE) => set({ hover, alsoHovered }),
    setTool: (tool) => set({ tool }),
    setStage: (stage) => set({ stage }),
    setActiveView: (activeView) => set({ activeView }),
    setSectionX(xM) {
      const ends = hullEnds(get().boat);
      set({ sectionX: Math.min(ends[1], Math.max(ends[0], xM)) });
    },
    setShownHeel: (shownHeelDeg) => set({ shownHeelDeg }),
    setLayer(layer, on) {
      const layers = { ...get().layers, [layer]: on };
      set({ layers });
      writePreferences({ layers });
    },
    setTheme(themeChoice) {
      set({ themeChoice, theme: themeOf(themeChoice, systemTheme) });
      writePreferences({ theme: themeChoice });
    },
    setDisplayUnits(displayUnits) {
      set({ displayUnits });
      writePreferences({ units: displayUnits });
    },
    glideTo: (at) => set({ glide: { at, count: (get().glide?.count ?? 0) + 1 } }),
    goTo(selection, at) {
      get().select(selection);
      if (!at) return;
      get().setSectionX(at[0]);
      get().glideTo(at);
    },

    edit(label, recipe, merge) {
      const { boat, nextRevision, history } = get();
      if (!boat) return false;
      const first = edited(boat, recipe);
      const follow = first.ok ? typedAfter(boat, first.boat, first.patches, typedInHand()) : null;
      const result = follow
        ? edited(boat, (draft) => {
            recipe(draft);
            follow(draft);
          })
        : first;
      if (!result.ok) {
        set({ problem: { title: `Not done: ${label}`, lines: result.problems.map((found) => found.message) } });
        return false;
      }
      const { patches, inverse } = result;
      if (patches.length === 0) return true;
      set({ nextRevision: nextRevision + 1, problem: null });
      const step = { label, revision: nextRevision, patches, inverse, merge: merge ?? null };
      show(result.boat, nextRevision, patches, withStep(history, step));
      return true;
    },

    placeThing(thingId, place, merge, typed) {
      const { boat, arrangementId, edit } = get();
      const thing = boat ? thingOf(boat, thingId) : null;
      if (!boat || !thing) return;
      const mark = markOf(thingId, thing);
      const at = quantisedPoint(place.at);
      const before = placeOf(boat, arrangementId, thingId)?.at;
      const done = edit(
        `Move ${mark}`,
        (draft) => {
          placed(arrangementId ?? '', thingId, { ...place, at })(draft);
          for (const axis of [0, 1, 2] as const) {
            // A coordinate that changed is no longer what was typed for it before.
            if (before?.[axis] === at[axis] && typed?.axis !== axis) continue;
            const text = typed?.axis === axis ? typed.text : '';
            keepTyped(draft, placePath(draft, arrangementId, thingId, axis), text);
          }
        },
        merge,
      );
      if (done) set({ notice: `Moved ${mark} to ${spokenPoint(at)}. Undo: Ctrl Z` });
    },

    placeThings(places, label, merge) {
      const { boat, arrangementId, edit } = get();
      if (!boat) return;
      const moved = Object.entries(places).map(([id, place]) => ({ id, place, at: quantisedPoint(place.at) }));
      const words = label ?? `Move ${moved.length} things`;
      const done = edit(
        words,
        (draft) => {
          for (const { id, place, at } of moved) {
            const before = placeOf(boat, arrangementId, id)?.at;
            placed(arrangementId ?? '', id, { ...place, at })(draft);
            for (const axis of [0, 1, 2] as const)
              if (before?.[axis] !== at[axis]) keepTyped(draft, placePath(draft, arrangementId, id, axis), '');
          }
        },
        merge,
      );
      if (done) set({ notice: `${words}: done. Undo: Ctrl Z` });
    },

    nudge(thingId, by) {
      const { boat, arrangementId, placeThing } = get();
      const place = boat ? placeOf(boat, arrangementId, thingId) : null;
      if (place) placeThing(thingId, { ...place, at: quantisedPoint(add(place.at, by)) }, `nudge ${thingId}`);
    },

    turn(thingId, axis, deg) {
      const { boat, arrangementId, placeThing } = get();
      const place = boat ? placeOf(boat, arrangementId, thingId) : null;
      if (!place) return;
      const pose: Pose = turned(place, axis, deg);
      placeThing(thingId, { ...place, ...pose, at: quantisedPoint(pose.at) });
    },

    undo: () => step('undo'),
    redo: () => step('redo'),
    goToStep(index) {
      const { boat, history } = get();
      const { patches, revision, history: there } = jumpTo(history, index);
      if (!boat || patches.length === 0) return;
      show(applied(boat, patches), revision, patches, there);
      set({ notice: `The boat is as after: ${there.done.at(-1)?.label ?? 'opening'}` });
    },
    showProblem: (problem) => set({ problem }),
    dismissProblem: () => set({ problem: null }),
    dismissNotes: () => set({ notes: [] }),
    notify: (notice) => set({ notice }),

    open(boat, file) {
      const sent = get().sent + 1;
      const ends = hullEnds(boat);
      const { nextRevision } = get();
      set({
        boat,
        arrangementId: arrangementIdOf(boat),
        document: {
          fileName: file.fileName,
          token: file.token,
          revision: FIRST_REVISION,
          savedRevision: file.saved ? FIRST_REVISION : nextRevision,
          savedAt: null,
          isSample: file.isSample ?? false,
        },
        nextRevision: nextRevision + 1,
        history: EMPTY_HISTORY,
        canUndo: null,
        canRedo: null,
        selection: null,
        alsoSelected: NOTHING_ELSE,
        hover: null,
        alsoHovered: NOTHING_ELSE,
        sectionX: (ends[0] + ends[1]) / 2,
        shownHeelDeg: boat.greatestHeelDeg,
        report: null,
        stale: true,
        searching: true,
        problem: null,
        notes: file.notes ?? [],
        sent,
        notice: `Opened ${boat.name}`,
      });
      engineNow().open(sent, boat);
    },
    saved({ fileName, token, at, revision }) {
      set({
        document: { ...get().document, fileName, token, savedAt: at, savedRevision: revision, isSample: false },
        // What comes after joins no step from before: undo can come back to just this state.
        history: sealed(get().history),
        notice: `Saved ${fileName}`,
      });
    },
    lostFile: () => set({ document: { ...get().document, savedRevision: NOWHERE } }),
    answered(sent, report) {
      if (sent !== get().sent) return;
      const { selection } = get();
      const gone = selection?.kind === 'finding' && !report.findings.some(({ key }) => key === selection.id);
      set(gone ? { report, stale: false, selection: null, alsoSelected: NOTHING_ELSE } : { report, stale: false });
    },
    rests(sent) {
      if (sent === get().sent) set({ searching: false });
    },
    systemTheme(theme) {
      systemTheme = theme;
      set({ theme: themeOf(get().themeChoice, theme) });
    },
  };
});

/** False for what an edit or an undo took out of the boat. Findings and derived panels answer for themselves. */
function isThere(boat: Boat, selection: Selection | null): boolean {
  switch (selection?.kind) {
    case 'thing':
      return thingOf(boat, selection.id) !== null;
    case 'line':
      return boat.lines[selection.id] !== undefined;
    case 'compartment':
      return boat.compartments[selection.id] !== undefined;
    case 'opening':
      return boat.openings[selection.id] !== undefined;
    case 'surface':
      return boat.mountingSurfaces[selection.id] !== undefined;
    case 'surveyPoint':
      return (
        boat.survey?.points?.[selection.id] !== undefined ||
        Object.values(boat.survey?.readings ?? {}).some(({ from, to }) => from === selection.id || to === selection.id)
      );
    case 'reading':
      return boat.survey?.readings?.[selection.id] !== undefined;
    case 'standingPlace':
      return boat.standingPlaces[selection.id] !== undefined;
    case 'clipPoint':
      return arrangementOf(boat, arrangementIdOf(boat))?.clipPoints[selection.line]?.[selection.id] !== undefined;
    default:
      return true;
  }
}

/** Spoken in millimetres, whatever the screen shows. */
const spokenPoint = (at: Vec3): string =>
  `x ${Math.round(at[0] * 1000)}, y ${Math.round(at[1] * 1000)}, z ${Math.round(at[2] * 1000)} mm`;

/** Where a boat without a hull may be drawn, metres along x, as long as nothing is. */
const EMPTY_ENDS = [0, 10] as const;
/** Room beyond what is drawn, metres, where no hull ends it. */
const BEYOND_M = 1;

/** Ends of the boat along x, metres: of the hull, else of what is drawn and some room beyond. */
export function hullEnds(boat: Boat | null): readonly [number, number] {
  const stations = Object.values(boat?.hull?.stations ?? {}).map((station) => station.xM);
  if (stations.length > 0) return [Math.min(...stations), Math.max(...stations)];
  const xs = Object.values(boat?.compartments ?? {}).flatMap((compartment) => {
    const [low, high] = drawnBounds(compartment);
    return [low[0], high[0]];
  });
  return xs.length === 0 ? EMPTY_ENDS : [Math.min(...xs) - BEYOND_M, Math.max(...xs) + BEYOND_M];
}

export const hasUnsaved = (state: App): boolean =>
  state.boat !== null && state.document.revision !== state.document.savedRevision;
