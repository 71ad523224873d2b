import { distanceToSegment } from '@core/base/segment';
import type { Vec2 } from '@core/base/vec';
import type { PortAt } from '@core/boat/joins';
import { project } from '@core/output/views/drawing';
import { openingLines } from '@core/output/views/openings';
import { canPull, heldOf } from '../store/pulled';
import { chosenOf, lineInHand, sameSelection } from '../store/select';
import type { FieldView, Selection, Stage } from '../store/types';
import type { Target } from '../tools/gesture';
import { gripAt } from '../tools/grips';
import type { Annotations } from './annotate';
import { type LookingOn, lookingOn } from './drawing/looking';
import { panelUnder } from './drawing/marking';
import type { Focus } from './focus';
import { detailTransform } from './focus';
import { handleUnder, portMeant } from './joining/ports';
import { cutMarkPlaces } from './paint/overlay';
import { surveyPointAt } from './paint/survey-marks';
import { type PickArea, type Pickable, POINT_PX, pick, pickCompartment } from './pick';
import {
  clipsIn,
  crossingsIn,
  detailScene,
  type Live,
  runsIn,
  type Scene,
  type Tinting,
  thingsIn,
  type View,
  viewsOf,
} from './scene';
import { compartmentsDrawn } from './shape';
import { fieldAt, type Transform, toPaper, toScreen } from './sheet';
import { linesOfThing } from './things';
import { standingIn, surfaceRing, surfacesIn, waysIn } from './ways';

/** How far from a cut mark or its line a press takes it, pixels. */
const CUT_MARK_PX = 14;

export interface Under {
  readonly view: FieldView;
  readonly target: Target;
  readonly selection: Selection | null;
}

/** What the pointer is on. Null outside the four fields. */
export function under(
  scene: Scene,
  live: Live,
  notes: Annotations,
  focus: Focus | null,
  at: Vec2,
  interiorFirst = false,
  adding = false,
): Under | null {
  const view = fieldAt(scene.sheet, at);
  if (!view) return null;
  if (view !== 'detail' && view !== 'section' && onCutMark(scene, at))
    return { view, target: { kind: 'cutMark' }, selection: null };
  const looking = view === 'detail' ? detailView(scene, focus) : viewsOf(scene).find((v) => v.name === view);
  const on = lookingOn(scene, view, focus);
  // Who adds to what is picked means another one: what is in hand does not stand before it.
  if (scene.tinting && looking) return amongPlaces(scene, scene.tinting, live, notes, looking, view, at);
  const grip = on && !adding ? shapingUnder(scene, on, at) : null;
  if (grip) return { view, target: grip, selection: scene.selection };
  const handle = looking && !adding ? handleUnder(scene, looking, at) : null;
  if (handle)
    return { view, target: { kind: 'port', port: handle, under: scene.selection }, selection: scene.selection };
  if (!looking) return { view, target: { kind: 'ground', under: null }, selection: null };
  const picked =
    surveyPointAt(scene, looking, at) ??
    pick(at, pickable(scene, live, notes, looking, view), adding ? null : scene.selection);
  // Runs are thick under the hand: where one draws compartments, what bounds these comes before them.
  const isFirst = interiorFirst && (picked === null || picked.kind === 'line');
  const bound = on && (isFirst || picked === null) ? boundUnder(scene, on, looking, at) : null;
  const selection = bound ?? picked;
  if (selection) {
    const movable = isMovable(scene, selection);
    const isAmong = scene.alsoSelected.length > 0 && chosenOf(scene).some((one) => sameSelection(one, selection));
    return { view, target: { kind: 'selectable', selection, movable, isAmong }, selection };
  }
  const rings = compartmentRings(scene, looking, view);
  return { view, target: { kind: 'ground', under: pickCompartment(at, rings) }, selection: null };
}

/** While it is asked where parts can go: these themselves, and compartments. */
function amongPlaces(
  scene: Scene,
  { parts }: Tinting,
  live: Live,
  notes: Annotations,
  looking: Looking,
  view: FieldView,
  at: Vec2,
): Under {
  const { things, ...rest } = pickable(scene, live, notes, looking, view);
  const own = {
    ...rest,
    marks: [],
    points: [],
    crossings: [],
    runs: [],
    things: things.filter(({ id }) => parts.has(id)),
  };
  const selection = pick(at, own, scene.selection);
  if (selection) {
    const isAmong = scene.alsoSelected.length > 0;
    return { view, target: { kind: 'selectable', selection, movable: true, isAmong }, selection };
  }
  const ground = pickCompartment(at, compartmentRings(scene, looking, view));
  return { view, target: { kind: 'ground', under: ground }, selection: null };
}

/** What hangs on a face, else a panel seen edge on. */
function boundUnder(scene: Scene, on: LookingOn, looking: Looking, at: Vec2): Selection | null {
  const hanging = wayUnder(scene, on, looking, at);
  if (hanging) return hanging;
  const panel = panelUnder(scene, on, toPaper(on.t, at), false);
  return panel ? { kind: 'panel', id: panel.panel.id } : null;
}

/** Faces and corners of the selected compartment, holes of the selected panel. */
function shapingUnder(scene: Scene, looking: LookingOn, at: Vec2): Target | null {
  const { selection, boat, layout } = scene;
  const paper = toPaper(looking.t, at);
  if (selection?.kind === 'compartment') {
    const own = boat.compartments[selection.id];
    const grip = own ? gripAt(own, looking.frame, paper, looking.scale) : null;
    if (!grip) return null;
    const panel = panelUnder(scene, looking, paper, false)?.panel ?? null;
    const under: Selection | null = panel ? { kind: 'panel', id: panel.id } : null;
    const what =
      grip.kind === 'face'
        ? ({ kind: 'face', compartment: selection.id, key: grip.key } as const)
        : ({ kind: 'corner', compartment: selection.id, corner: grip.corner } as const);
    return { kind: 'grip', what, under };
  }
  if (selection?.kind !== 'panel') return null;
  for (const hole of layout.panels[selection.id]?.holes ?? []) {
    const [x, y] = toScreen(looking.t, project(looking.frame, hole.at));
    const reach = Math.max(POINT_PX / 2 - 4, (hole.diameterM / 2) * looking.scale);
    if (hole.planned || Math.hypot(x - at[0], y - at[1]) > reach) continue;
    return { kind: 'grip', what: { kind: 'hole', panel: selection.id, hole: hole.id }, under: null };
  }
  return null;
}

/** Openings, mounting surfaces and standing places by what is drawn of them. */
function wayUnder(scene: Scene, on: LookingOn, view: Pick<View, 'frame' | 'cut'>, at: Vec2): Selection | null {
  const near = (points: readonly Vec2[]): boolean => {
    const screen = points.map((p) => toScreen(on.t, p));
    return screen.some((p, i) => distanceToSegment(at, p, screen[(i + 1) % screen.length] as Vec2) <= WAY_PX);
  };
  for (const [id, place] of standingIn(scene, view)) {
    const [x, y] = toScreen(on.t, project(on.frame, place.at));
    if (Math.hypot(x - at[0], y - at[1]) <= POINT_PX / 2) return { kind: 'standingPlace', id };
  }
  for (const [id, opening] of waysIn(scene, view)) {
    const rim = openingLines(id, opening, on.frame)[0];
    if (rim?.kind === 'stroke' && near(rim.points)) return { kind: 'opening', id };
  }
  for (const [id, surface] of surfacesIn(scene, view))
    if (near(surfaceRing(surface).map((p) => project(on.frame, p)))) return { kind: 'surface', id };
  return null;
}

/** A rim is taken from this far, pixels. */
const WAY_PX = 6;

/** Compartments of a field, on screen. */
export function areasOf(scene: Scene, view: FieldView, focus: Focus | null): readonly PickArea[] {
  const looking = view === 'detail' ? detailView(scene, focus) : viewsOf(scene).find((v) => v.name === view);
  const on = lookingOn(scene, view, focus);
  if (!looking || !on) return [];
  return compartmentRings(scene, looking, view).map(({ id, rings }) => ({
    id,
    rings: rings.map((ring) => ring.map((p) => toPaper(on.t, p))),
  }));
}

const MOVABLE: readonly Selection['kind'][] = ['thing', 'clipPoint', 'opening', 'surface', 'standingPlace'];

/** Of runs only the picked one is pulled, so that no drag across the drawing takes one along unasked. */
function isMovable({ boat, arrangementId, selection }: Scene, target: Selection): boolean {
  if (target.kind === 'line') return lineInHand(selection) === target.id && canPull(boat, arrangementId, target.id);
  if (target.kind === 'crossing') return heldOf(boat, arrangementId, target) !== null;
  return MOVABLE.includes(target.kind);
}

/** The port that a line would be led to. */
export function portUnder(scene: Scene, live: Live, notes: Annotations, focus: Focus | null, at: Vec2): PortAt | null {
  const view = fieldAt(scene.sheet, at);
  const looking = view === 'detail' ? detailView(scene, focus) : viewsOf(scene).find((v) => v.name === view);
  if (!view || !looking) return null;
  const { things } = pickable(scene, live, notes, looking, view);
  const none = { marks: [], points: [], crossings: [], runs: [], compartments: [] };
  const body = pick(at, { ...none, things }, null);
  return portMeant(scene, looking, at, body?.kind === 'thing' ? body.id : null);
}

/** What lies wholly within a box on screen: things; where one draws compartments these, and at the runs these too. */
export function inBox(scene: Scene, a: Vec2, b: Vec2, stage: Stage): readonly Selection[] {
  const view = viewsOf(scene).find(({ name }) => name === fieldAt(scene.sheet, a));
  if (!view) return [];
  const [x0, x1] = [Math.min(a[0], b[0]), Math.max(a[0], b[0])];
  const [y0, y1] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])];
  const isWithin = (points: readonly Vec2[]): boolean =>
    points.length > 0 &&
    points.every((p) => {
      const [x, y] = toScreen(view.t, p);
      return x >= x0 && x <= x1 && y >= y0 && y <= y1;
    });
  if (stage === 'compartments')
    return drawnIn(scene, view, view.name).flatMap(({ id, rings }) =>
      rings.length > 0 && rings.every(isWithin) ? [{ kind: 'compartment', id } as const] : [],
    );
  const things = thingsIn(scene.placed, view.cut, view.frame, null).flatMap((p) =>
    isWithin(linesOfThing(p, view.frame).envelope) ? [{ kind: 'thing', id: p.id } as const] : [],
  );
  if (stage !== 'runs') return things;
  const runs = runsIn(scene.boat, scene.paths, view).flatMap((run) =>
    run.pieces.length > 0 && run.pieces.every(isWithin) ? [{ kind: 'line', id: run.id } as const] : [],
  );
  return [...things, ...runs];
}

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
        : notes.findings.filter((f) => f.view === view && f.atRest).map((f) => ({ key: f.key, at: toScreen(t, f.at) })),
    points: clipsIn(scene, { frame, cut }).map(({ id, line, at }) => ({
      id,
      line,
      at: toScreen(t, project(frame, at)),
    })),
    crossings: crossingsIn(
      paths.filter(({ id }) => id === lineInHand(scene.selection)),
      scene.layout,
      { frame, cut },
    ).map((mark) => ({ id: String(mark.index), line: mark.line, at: toScreen(t, mark.at) })),
    things: thingsIn(scene.placed, cut, frame, selected).map((p) => ({
      id: p.id,
      envelope: screen(linesOfThing(p, frame).envelope),
    })),
    runs: runsIn(scene.boat, paths, { frame, cut }).map((run) => ({ id: run.id, pieces: run.pieces.map(screen) })),
    compartments: [],
  };
}

/** Compartments as a field shows them, on paper. */
function drawnIn(scene: Scene, { frame, cut }: Pick<Looking, 'frame' | 'cut'>, view: FieldView) {
  if (!cut) return compartmentsDrawn(scene.boat, scene.layout, scene.hull, frame);
  if (view === 'section') return scene.section.compartments;
  return detailScene(scene, frame, [cut.at, cut.at, cut.at]).compartments;
}

function compartmentRings(scene: Scene, { frame, t, cut }: Looking, view: FieldView) {
  return drawnIn(scene, { frame, cut }, view).map(({ id, rings }) => ({
    id,
    rings: rings.map((ring) => ring.map((p) => toScreen(t, p))),
  }));
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
