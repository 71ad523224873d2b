import type { Vec3 } from '@core/base/vec';
import type { BoatRecipe } from '@core/boat/edits';
import type { Boat, Place } from '@core/boat/schema/boat';
import type { Report, RunReport } from '@core/engine/report';
import type { Finding } from '@core/rules/finding';

/** What the window knows. The worker owns the boat; `boat` here is its mirror, shared structure kept from edit to edit. */

export const STAGES = ['hull', 'compartments', 'equipment', 'runs', 'checks', 'sheets'] as const;
export type Stage = (typeof STAGES)[number];

/** What a press on the drawing does: pick and move; move the sheet; take the section plane there; draw and measure. */
export const TOOLS = [
  'select',
  'pan',
  'section',
  'rectangle',
  'polygon',
  'split',
  'opening',
  'surface',
  'hole',
  'standing',
  'join',
  'measure',
] as const;
export type Tool = (typeof TOOLS)[number];

export type FieldView = 'profile' | 'plan' | 'section' | 'detail';
export type Theme = 'light' | 'dark';
export type ThemeChoice = Theme | 'system';
/** Units on screen only; the boat is SI. */
export type DisplayUnits = 'mm' | 'inch';

/** `thing` is a part or a fixture: their ids never meet. `finding` goes by its key, `panel` by the id of the derived panel. */
export type Selection =
  | {
      readonly kind:
        | 'thing'
        | 'line'
        | 'compartment'
        | 'panel'
        | 'opening'
        | 'surface'
        | 'standingPlace'
        | 'station'
        | 'surveyPoint'
        | 'reading'
        | 'finding';
      readonly id: string;
    }
  | { readonly kind: 'clipPoint'; readonly id: string; readonly line: string }
  /** Where the run of a line passes a panel: `id` counts its crossings from 0. */
  | { readonly kind: 'crossing'; readonly id: string; readonly line: string };

/** A clip point or a crossing of a run that is held, at its place now. */
export type Pulled =
  | {
      readonly kind: 'clip';
      readonly line: string;
      readonly id: string;
      /** Its place among the clip points of the line. */
      readonly order: number;
      readonly isNew: boolean;
      readonly start: Vec3;
      readonly at: Vec3;
    }
  | {
      readonly kind: 'crossing';
      readonly line: string;
      readonly index: number;
      readonly panelId: string;
      readonly diameterM: number;
      readonly start: Vec3;
      readonly at: Vec3;
      /** What keeps it from going further: the edge of its panel, another hole. */
      readonly stoppedBy: 'edge' | 'hole' | null;
    };

/** What the drawing shows; the board reads these, the View menu and the find field switch them. */
export interface Layers {
  readonly names: boolean;
  readonly balloons: boolean;
  readonly stations: boolean;
  readonly service: boolean;
  readonly sweeps: boolean;
  readonly heeled: boolean;
  readonly grid: boolean;
}

export interface DocumentState {
  /** Name to show: the file's, or the sample's. */
  readonly fileName: string;
  /** Where a save goes without asking; null: nowhere yet (new, sample, browser without file access). */
  readonly token: string | null;
  /** Names the state of the boat: every edit makes a new one, undo brings an earlier one back. */
  readonly revision: number;
  /** The state that is on the disk; unsaved edits exist where it differs from `revision`. */
  readonly savedRevision: number;
  /** Time of day `HH:MM` of the last save. */
  readonly savedAt: string | null;
  /** It came with the program, to look around in. */
  readonly isSample: boolean;
}

/** An error banner: the open boat stays as it is. */
export interface Problem {
  readonly title: string;
  /** One line each: path, value and limit. */
  readonly lines: readonly string[];
}

/** Takes the view to a place; a new `count` is a new wish, also for the same place. */
export interface Glide {
  readonly at: Vec3;
  readonly count: number;
}

export interface AppState {
  readonly boat: Boat | null;
  /** The arrangement that is judged and edited: boat.currentArrangement, else the first by id. */
  readonly arrangementId: string | null;
  readonly document: DocumentState;

  readonly stage: Stage;
  readonly tool: Tool;
  readonly selection: Selection | null;
  /** What is picked beside it, in the order of picking; moved, turned, copied and deleted with it. */
  readonly alsoSelected: readonly Selection[];
  /** List rows and marks on the drawing answer each other. */
  readonly hover: Selection | null;
  /** What a row of the list comes from beside that. */
  readonly alsoHovered: readonly Selection[];
  /** Field that the keyboard moves in: arrow keys follow its two axes. */
  readonly activeView: FieldView;
  /** Place of the section plane, metres. */
  readonly sectionX: number;
  /** Run-state whose heel the drawing shows. + to starboard. */
  readonly shownHeelDeg: number;
  readonly layers: Layers;
  readonly themeChoice: ThemeChoice;
  /** What the choice comes to. */
  readonly theme: Theme;
  readonly displayUnits: DisplayUnits;
  readonly glide: Glide | null;

  /** Latest settled answer, kept while a newer one is worked out. */
  readonly report: Report | null;
  /** `report` is older than `boat`: draw values as stale. */
  readonly stale: boolean;
  /** The report may still get better without an edit: longer searches go on, closer bounds are worked out. */
  readonly searching: boolean;
  readonly problem: Problem | null;
  /** What is to be known of the file that was opened: fields that are kept and not judged, unknown ones. */
  readonly notes: readonly string[];
  /** One spoken line for the live region: `Moved PM-1 to the quarter berth void. Undo: Ctrl Z`. */
  readonly notice: string | null;
  readonly canUndo: string | null;
  readonly canRedo: string | null;
}

export interface AppActions {
  /** Picks one thing, with what is to be picked beside it; nothing else stays picked. */
  select(selection: Selection | null, also?: readonly Selection[]): void;
  /** Adds things to what is picked, the last of them in front; takes them away where all of them were picked. */
  toggleSelected(selections: readonly Selection[]): void;
  setHover(selection: Selection | null, also?: readonly Selection[]): void;
  setTool(tool: Tool): void;
  setStage(stage: Stage): void;
  setActiveView(view: FieldView): void;
  /** Clamped to the ends of the hull. */
  setSectionX(xM: number): void;
  setShownHeel(deg: number): void;
  setLayer(layer: keyof Layers, on: boolean): void;
  setTheme(choice: ThemeChoice): void;
  setDisplayUnits(units: DisplayUnits): void;
  glideTo(at: Vec3): void;
  /** Selects, moves the section to the place and takes the view there. */
  goTo(selection: Selection, at: Vec3 | null): void;

  /**
   * One edit, one undo step, one set of patches to the worker. The recipe changes a draft (core/boat/edits.ts has many).
   * False: refused, since the file could not be read afterwards; the banner says why and the boat stands as it was.
   * `merge`: edits in a row with the same word become one undo step (nudging by keyboard).
   */
  edit(label: string, recipe: BoatRecipe, merge?: string): boolean;
  /** Places a part or a fixture; lengths rounded to the micrometre. `typed` is kept beside the coordinate that it gave. */
  placeThing(
    thingId: string,
    place: Place,
    merge?: string,
    typed?: { readonly axis: 0 | 1 | 2; readonly text: string },
  ): void;
  /** Places several in one undo step; without a label it is called a move. */
  placeThings(places: Readonly<Record<string, Place>>, label?: string, merge?: string): void;
  /** Moves by a step, metres: keyboard nudges. */
  nudge(thingId: string, by: Vec3): void;
  /** Turns by degrees about the boat's axis; quarter turns stay exact. */
  turn(thingId: string, axis: 'x' | 'y' | 'z', deg: number): void;
  undo(): void;
  redo(): void;
  /** To the state after the step of that index among all steps, done and undone, from the first on; -1: before all of them. */
  goToStep(index: number): void;
  showProblem(problem: Problem): void;
  dismissProblem(): void;
  dismissNotes(): void;
  notify(notice: string): void;
}

export type AppStore = AppState & AppActions;

/**
 * The transient store of a drag, apart from the other so that a drag step wakes only what moves.
 * updateDrag sends a what-if to the worker; only the answer to the latest step is kept.
 */
export interface DragState {
  readonly thingId: string | null;
  readonly start: Place | null;
  readonly place: Place | null;
  /** What goes along with the held thing, at its places before and now. */
  readonly along: Readonly<Record<string, { readonly start: Place; readonly place: Place }>>;
  /** What is held of a run instead of a thing. */
  readonly pulled: Pulled | null;
  /** Let go of, and looked at in the worker before it becomes an edit. */
  readonly judging: boolean;
  /** Why the pulled run is not there: the newest answer, if it is blocked. */
  readonly refused: RunReport | null;
  /** Steps sent and the newest step answered. */
  readonly sent: number;
  readonly answered: number;
  /** Runs that the drag changed, newest answer; draw these in place of the report's. */
  readonly runs: Readonly<Record<string, RunReport>>;
  /** Findings that the drag changed, by key; null: gone. The list keeps its order until release. */
  readonly findings: Readonly<Record<string, Finding | null>>;
}

export interface DragActions {
  /** `along`: things that go along with the held one. */
  startDrag(thingId: string, along?: readonly string[]): void;
  updateDrag(place: Place): void;
  startPull(pulled: Pulled): void;
  pullTo(at: Vec3, stoppedBy?: 'edge' | 'hole' | null): void;
  endDrag(how: 'commit' | 'cancel'): void;
}

export type DragStore = DragState & DragActions;

/** Where the pointer is, boat frame; a coordinate that the view does not know is null. */
export interface CursorState {
  readonly at: readonly [number | null, number | null, number | null] | null;
  /** Drawn scale, pixels a metre, for the title block. */
  readonly pixelsPerMetre: number;
  setCursor(at: readonly [number | null, number | null, number | null] | null): void;
  setPixelsPerMetre(scale: number): void;
}
