import type { Pose, Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import type { Report, RunReport } from '@core/engine/report';
import { type Cut, isCut, slabBehind } from '@core/output/views/cuts';
import {
  FRAMES,
  PLAN,
  PROFILE,
  type Primitive,
  SECTION,
  type ViewFrame,
  type ViewName,
} from '@core/output/views/drawing';
import { type CrossingMark, crossingMarks, type RunPath } from '@core/output/views/runs';
import type { Finding } from '@core/rules/finding';
import type { HullSurface, WaterPlane } from '@core/shape/hull/types';
import type { Layout } from '@core/shape/layout/types';
import type { Tokens } from '../app/tokens';
import { type ClipPoint, clipPointsOf } from '../store/clip-points';
import type { DisplayUnits, FieldView, Layers, Pulled, Selection } from '../store/types';
import type { Contact, Gap } from '../tools/snap';
import type { Annotations } from './annotate';
import { type CutScene, cutScene } from './cut-scene';
import type { Ctx } from './paint/pen';
import type { DrawnRun } from './paint/runs';
import type { CompartmentDrawn } from './shape';
import { type Camera, type Extent, type Rect, type Sheet, type Transform, transformOf } from './sheet';
import { boxOf, drawnRun, type Placed } from './things';

/** All that the painters read: the boat at rest, how it is looked at, and what is picked. */
export interface Scene {
  readonly boat: Boat;
  readonly arrangementId: string | null;
  readonly hull: HullSurface | null;
  readonly layout: Layout;
  readonly extent: Extent;
  readonly report: Report | null;
  readonly colours: Tokens;
  readonly layers: Layers;
  readonly units: DisplayUnits;
  readonly sheet: Sheet;
  readonly camera: Camera;
  readonly selection: Selection | null;
  readonly alsoSelected: readonly Selection[];
  readonly activeView: FieldView;
  readonly sectionX: number;
  readonly section: CutScene;
  readonly level: WaterPlane;
  readonly heeled: WaterPlane | null;
  readonly heelDeg: number;
  readonly water: Readonly<Record<'profile' | 'plan', readonly Primitive[]>>;
  readonly placed: readonly Placed[];
  readonly paths: readonly RunPath[];
  /** Things and runs that the drag layer draws instead. */
  readonly lifted: { readonly things: ReadonlySet<string>; readonly runs: ReadonlySet<string> };
  /** Counts up when fonts arrive. */
  readonly fonts: number;
  /** While it is asked where parts can go; comes with the first question. */
  readonly tinting: Tinting | null;
}

/** How compartments are drawn while it is asked where parts can go: by what came out for them. */
export interface Tinting {
  /** What is asked about. */
  readonly parts: ReadonlySet<string>;
  /** Words and ranks in place of the usual words and marks. */
  annotate(scene: Scene): Annotations;
  /** Under the lines of the interior. */
  paintGround(ctx: Ctx, scene: Scene, view: View, drawn: readonly CompartmentDrawn[]): void;
  /** Over everything: the places that were found, the one that is looked at, its caption. */
  paintPlaces(ctx: Ctx, scene: Scene, notes: Annotations, chosen: string | null, hovered: string | null): void;
}

/** The part of a scene that neither picking nor moving nor an answer changes: the background is painted from it. */
export type Ground = Omit<
  Scene,
  | 'arrangementId'
  | 'layout'
  | 'report'
  | 'selection'
  | 'alsoSelected'
  | 'activeView'
  | 'placed'
  | 'paths'
  | 'lifted'
  | 'tinting'
>;

export interface Moving {
  readonly placed: Placed;
  readonly start: Pose;
}

/** What a drag changes from frame to frame. */
export interface Live {
  readonly moving: Moving | null;
  /** What goes along with it. */
  readonly alongside: readonly Moving[];
  readonly paths: readonly RunPath[];
  readonly contacts: readonly Contact[];
  readonly gaps: readonly Gap[];
  readonly overlaps: readonly {
    readonly id: string;
    readonly depthM: number;
    readonly low: Vec3;
    readonly high: Vec3;
  }[];
  /** Held through a wall, the skin or another body. It may still be dropped; the finding stays. */
  readonly blocked: boolean;
  /** Findings that the drag changed, by key; null: gone. */
  readonly findings: Readonly<Record<string, Finding | null>>;
  /** A clip point or a crossing that is held, and why its run does not follow. */
  readonly pulled: Pulled | null;
  readonly refused: RunReport | null;
  /** The place on the picked run that its profile points at. */
  readonly marked: Vec3 | null;
  /** Other ways for a run, shown to be compared. */
  readonly ghosts: readonly Ghost[];
  /** The newest step is not answered yet. */
  readonly waiting: boolean;
}
export interface Ghost {
  readonly run: RunPath;
  /** The one that is looked at. */
  readonly isLit: boolean;
}
export const STILL: Live = {
  moving: null,
  alongside: [],
  paths: [],
  contacts: [],
  gaps: [],
  overlaps: [],
  blocked: false,
  findings: {},
  pulled: null,
  refused: null,
  marked: null,
  ghosts: [],
  waiting: false,
};

export interface View {
  readonly name: ViewName;
  readonly frame: ViewFrame;
  readonly t: Transform;
  readonly field: Rect;
  readonly cut: Cut | null;
}

export function viewsOf({ sheet, camera, sectionX }: Pick<Scene, 'sheet' | 'camera' | 'sectionX'>): readonly View[] {
  return (['profile', 'section', 'plan'] as const).map((name) => ({
    name,
    frame: FRAMES[name],
    t: transformOf(sheet, camera, name),
    field: sheet.fields[name],
    cut: name === 'section' ? { frame: SECTION, at: sectionX } : null,
  }));
}

/** How far behind the cut a section shows things, metres. */
export const SECTION_DEEP = 0.5;

/** Things that a view shows, back to front. In a section what is cut lies over what stands behind. */
export function thingsIn(
  placed: readonly Placed[],
  cut: Cut | null,
  frame: ViewFrame,
  always: string | null,
): Placed[] {
  const axis = frame.toViewer[0] !== 0 ? 0 : frame.toViewer[1] !== 0 ? 1 : 2;
  const sign = frame.toViewer[axis] as number;
  const near = (p: Placed) => (sign > 0 ? boxOf(p).high[axis] : -boxOf(p).low[axis]);
  const seen = cut
    ? placed.filter((p) => {
        const box = boxOf(p);
        const [low, high] = slabBehind(cut, SECTION_DEEP);
        return p.id === always || (box.high[axis] >= low && box.low[axis] <= high);
      })
    : [...placed];
  return seen.sort((a, b) => near(a) - near(b) || (a.id < b.id ? -1 : 1));
}

export const isCutBy = (p: Placed, cut: Cut): boolean => {
  const { low, high } = boxOf(p);
  return isCut(low, high, cut);
};

export function runsIn(
  boat: Boat,
  paths: readonly RunPath[],
  view: Pick<View, 'frame' | 'cut'>,
  deepM = SECTION_DEEP,
): DrawnRun[] {
  const slab = view.cut ? slabOf(view.cut, deepM) : null;
  return paths.flatMap((path) => drawnRun(boat, path, view.frame, slab) ?? []);
}

function slabOf(cut: Cut, deepM: number): { low: number; high: number; at: number } {
  const [low, high] = slabBehind(cut, deepM, 0.05);
  return { low, high, at: cut.at };
}

export function crossingsIn(
  paths: readonly RunPath[],
  layout: Layout,
  view: Pick<View, 'frame' | 'cut'>,
): CrossingMark[] {
  const all = paths.flatMap((path) => crossingMarks(path, layout, view.frame));
  if (!view.cut) return all;
  const { low, high } = slabOf(view.cut, SECTION_DEEP);
  const axis = view.frame.toViewer[0] !== 0 ? 0 : view.frame.toViewer[1] !== 0 ? 1 : 2;
  return all.filter((mark) => mark.inBoat[axis] >= low && mark.inBoat[axis] <= high);
}

/** Clip points that a view shows: in a cut those of the slab that it shows runs of. */
export function clipsIn(
  { boat, arrangementId }: Pick<Scene, 'boat' | 'arrangementId'>,
  view: Pick<View, 'frame' | 'cut'>,
): readonly ClipPoint[] {
  const all = clipPointsOf(boat, arrangementId);
  if (!view.cut) return all;
  const { low, high } = slabOf(view.cut, SECTION_DEEP);
  const axis = view.frame.toViewer[0] !== 0 ? 0 : view.frame.toViewer[1] !== 0 ? 1 : 2;
  return all.filter(({ at }) => at[axis] >= low && at[axis] <= high);
}

/** The plane that the detail cuts: that of the field in which one works, through the middle of what is picked. */
export function detailFrame(view: FieldView): ViewFrame {
  return view === 'profile' ? PROFILE : view === 'section' ? SECTION : PLAN;
}

/** The cut is kept to millimetres, so that a drag within the plane reuses the scene of the cut. */
export function detailScene(scene: Scene, frame: ViewFrame, at: Vec3): CutScene {
  const axis = frame.toViewer[0] !== 0 ? 0 : frame.toViewer[1] !== 0 ? 1 : 2;
  return cutScene(scene.boat, scene.hull, scene.layout, { frame, at: Math.round(at[axis] * 1000) / 1000 });
}

/** What is picked beside the thing in the inspector, by kind. */
export function alsoPicked({ alsoSelected }: Pick<Scene, 'alsoSelected'>): {
  readonly things: ReadonlySet<string>;
  readonly lines: ReadonlySet<string>;
  readonly compartments: ReadonlySet<string>;
} {
  const ids = (kind: Selection['kind']): ReadonlySet<string> =>
    new Set(alsoSelected.flatMap((one) => (one.kind === kind ? [one.id] : [])));
  return { things: ids('thing'), lines: ids('line'), compartments: ids('compartment') };
}

/** The compartment that the picked thing stands in: washed, so that the eye finds its walls. */
export function contextOf(scene: Scene): string | null {
  const { selection, placed, layout } = scene;
  if (selection?.kind !== 'thing') return null;
  const here = placed.find((p) => p.id === selection.id);
  return here ? layout.compartmentAt(here.pose.at) : null;
}
