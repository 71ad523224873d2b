import type { Vec2 } from '@core/base/vec';
import { project } from '@core/output/views/drawing';
import type { FieldView, Selection } from '../store/types';
import type { Target } from '../tools/gesture';
import type { Annotations } from './annotate';
import type { Focus } from './focus';
import { detailTransform } from './focus';
import { cutMarkPlaces } from './paint/overlay';
import { type Pickable, pick, pickCompartment } from './pick';
import { clipsIn, detailScene, type Live, runsIn, type Scene, thingsIn, type View, viewsOf } from './scene';
import { compartmentsDrawn } from './shape';
import { fieldAt, type Transform, toScreen } from './sheet';
import { linesOfThing } from './things';

/** How far from a cut mark or its line a press takes it, pixels. */
const CUT_MARK_PX = 14;

export interface Under {
  readonly view: FieldView;
  readonly target: Target;
  readonly selection: Selection | null;
}

/** What the pointer is on. Null outside the four fields. */
export function under(scene: Scene, live: Live, notes: Annotations, focus: Focus | null, at: Vec2): Under | null {
  const view = fieldAt(scene.sheet, at);
  if (!view) return null;
  if (view !== 'detail' && view !== 'section' && onCutMark(scene, at))
    return { view, target: { kind: 'cutMark' }, selection: null };
  const looking = view === 'detail' ? detailView(scene, focus) : viewsOf(scene).find((v) => v.name === view);
  if (!looking) return { view, target: { kind: 'ground', under: null }, selection: null };
  const selection = pick(at, pickable(scene, live, notes, looking, view), scene.selection);
  if (selection) return { view, target: { kind: 'selectable', selection, movable: isMovable(selection) }, selection };
  const rings = compartmentRings(scene, looking, view);
  return { view, target: { kind: 'ground', under: pickCompartment(at, rings) }, selection: null };
}

const isMovable = ({ kind }: Selection): boolean => kind === 'thing' || kind === 'clipPoint';

type Looking = Pick<View, 'frame' | 't' | 'cut'>;

function detailView(scene: Scene, focus: Focus | null): Looking | undefined {
  if (!focus) return undefined;
  const { t } = detailTransform(scene.sheet.fields.detail, focus);
  return { frame: focus.frame, t, cut: detailScene(scene, focus.frame, focus.at).cut };
}

function pickable(scene: Scene, live: Live, notes: Annotations, { frame, t, cut }: Looking, view: FieldView): Pickable {
  const screen = (points: readonly Vec2[]) => points.map((p) => toScreen(t, p));
  const selected = scene.selection?.kind === 'thing' ? scene.selection.id : null;
  const lifted = new Set(live.paths.map((p) => p.id));
  const paths = [...scene.paths.filter((p) => !lifted.has(p.id)), ...live.paths];
  return {
    marks:
      view === 'detail'
        ? []
        : notes.findings.filter((f) => f.view === view).map((f) => ({ key: f.key, at: toScreen(t, f.at) })),
    points: clipsIn(scene, { frame, cut }).map(({ id, line, at }) => ({
      id,
      line,
      at: toScreen(t, project(frame, at)),
    })),
    things: thingsIn(scene.placed, cut, frame, selected).map((p) => ({
      id: p.id,
      envelope: screen(linesOfThing(p, frame).envelope),
    })),
    runs: runsIn(scene.boat, paths, { frame, cut }).map((run) => ({ id: run.id, pieces: run.pieces.map(screen) })),
    compartments: [],
  };
}

function compartmentRings(scene: Scene, { frame, t, cut }: Looking, view: FieldView) {
  const drawn = cut
    ? view === 'section'
      ? scene.section.compartments
      : detailScene(scene, frame, [cut.at, cut.at, cut.at]).compartments
    : compartmentsDrawn(scene.boat, scene.layout, scene.hull, frame);
  return drawn.map(({ id, rings }) => ({ id, rings: rings.map((ring) => ring.map((p) => toScreen(t, p))) }));
}

function onCutMark(scene: Scene, [x, y]: Vec2): boolean {
  const mark = cutMarkPlaces(scene);
  if (Math.abs(x - mark.x) > CUT_MARK_PX) return false;
  return Math.abs(y - mark.top) <= CUT_MARK_PX || Math.abs(y - mark.bottom) <= CUT_MARK_PX;
}

/** Scale of a field, to turn pixels of a drag into metres. */
export function scaleOf(scene: Scene, view: FieldView, focus: Focus | null): number {
  return view === 'detail' && focus ? detailTransform(scene.sheet.fields.detail, focus).t.scale : scene.camera.scale;
}

export const transformOfView = (scene: Scene, view: FieldView, focus: Focus | null): Transform | null =>
  view === 'detail'
    ? focus
      ? detailTransform(scene.sheet.fields.detail, focus).t
      : null
    : (viewsOf(scene).find((v) => v.name === view)?.t ?? null);
