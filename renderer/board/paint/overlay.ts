import type { Vec2 } from '@core/base/vec';
import { project } from '@core/output/views/drawing';
import { openingLines } from '@core/output/views/openings';
import type { DrawingState } from '../../store/drawing';
import { markOfFinding } from '../../store/findings';
import { lineInHand, sameSelection } from '../../store/select';
import type { Selection } from '../../store/types';
import type { Annotations } from '../annotate';
import { lookingOn } from '../drawing/looking';
import { detailBox, type Focus } from '../focus';
import { alsoPicked, crossingsIn, type Live, runsIn, type Scene, thingsIn, type View, viewsOf } from '../scene';
import { compartmentsDrawn } from '../shape';
import { toPaper, toScreen } from '../sheet';
import { boxOf, linesOfThing, type Placed } from '../things';
import { surfaceRing } from '../ways';
import { rectOn } from './background';
import { paintDetail, paintDistances } from './detail';
import { paintDrafts } from './drafts';
import { paintFaults } from './faults';
import { paintClips, paintHeldOfRun } from './held-of-run';
import { paintThing } from './interior';
import { paintBalloon, paintCutMark, paintFinding, paintHover, paintSelection } from './marks';
import { type Ctx, hatch, inField, trace } from './pen';
import { paintCrossings, paintRuns } from './runs';
import { paintSurvey } from './survey-marks';

/** What moves: the held thing, its runs, and the detail that follows. */
export function paintMoving(ctx: Ctx, scene: Scene, live: Live, focus: Focus | null): void {
  const { colours, boat, selection } = scene;
  for (const view of viewsOf(scene))
    inField(ctx, view.field, () => {
      const moving = live.moving ? [live.moving, ...live.alongside] : [];
      for (const { placed, start } of moving) paintGhost(ctx, view, { ...placed, pose: start }, colours);
      if (live.paths.length > 0) {
        const strong = (id: string) => lineInHand(selection) === id;
        paintRuns(ctx, view.t, runsIn(boat, live.paths, view), colours, { strong, letters: view.t.scale >= 30 });
        paintCrossings(ctx, view.t, crossingsIn(live.paths, scene.layout, view), colours);
      }
      for (const { placed } of moving.toReversed()) {
        const isHeld = placed.id === live.moving?.placed.id;
        if (thingsIn([placed], view.cut, view.frame, isHeld ? placed.id : null).length === 0) continue;
        paintThing(ctx, view.t, view.frame, placed, colours, isHeld && live.blocked ? 'blocked' : 'dragged');
      }
      paintOverlaps(ctx, scene, live, view);
    });
  paintDetail(ctx, scene, live, focus);
}

function paintGhost(ctx: Ctx, view: View, ghost: Placed, colours: Scene['colours']): void {
  const { low, high } = boxOf(ghost);
  const rect = rectOn(view, project(view.frame, low), project(view.frame, high));
  ctx.setLineDash([4, 3]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.ink3;
  ctx.strokeRect(Math.floor(rect.x) + 0.5, Math.floor(rect.y) + 0.5, Math.round(rect.w), Math.round(rect.h));
}

/** Where it runs into something: hatched, with the depth in crimson. */
function paintOverlaps(ctx: Ctx, scene: Scene, live: Live, view: View): void {
  for (const overlap of live.overlaps) {
    const rect = rectOn(view, project(view.frame, overlap.low), project(view.frame, overlap.high));
    ctx.save();
    ctx.beginPath();
    ctx.rect(rect.x, rect.y, rect.w, rect.h);
    ctx.clip();
    hatch(ctx, rect, 4, scene.colours.bad, 1);
    ctx.restore();
  }
}

/** Marks and frames: over everything, repainted without touching the drawing. */
export function paintOverlay(
  ctx: Ctx,
  scene: Scene,
  live: Live,
  notes: Annotations,
  hover: Selection | null,
  focused: boolean,
  drawing: DrawingState,
  focus: Focus | null,
  drawsNow: boolean,
  showFaults: boolean,
): void {
  const { selection } = scene;
  for (const view of viewsOf(scene)) {
    inField(ctx, view.field, () => {
      if (showFaults) paintFaults(ctx, scene, view);
      paintPickedFace(ctx, scene, view, selection, 2.4);
      if (hover?.kind === 'panel') paintPickedFace(ctx, scene, view, hover, 1.4);
      paintClips(ctx, scene, live, view, hover);
      paintHeldOfRun(ctx, scene, live, view, hover);
      paintSurvey(ctx, scene, view, hover);
      paintPicked(ctx, scene, live, view, hover);
      paintPickedBalloon(ctx, scene, live, view, notes);
      paintFindings(ctx, scene, live, view, notes, hover);
    });
  }
  for (const view of ['profile', 'section', 'plan', 'detail'] as const) {
    const looking = lookingOn(scene, view, focus);
    const field = view === 'detail' ? detailBox(scene.sheet.fields.detail) : scene.sheet.fields[view];
    if (looking) inField(ctx, field, () => paintDrafts(ctx, scene, looking, drawing, drawsNow));
  }
  paintProjections(ctx, scene, live);
  if (drawing.box) paintBox(ctx, drawing.box.from, drawing.box.to, scene.colours);
  paintCutMarks(ctx, scene, hover);
  if (focused) paintFocus(ctx, scene);
}

function paintFindings(
  ctx: Ctx,
  scene: Scene,
  live: Live,
  view: View,
  notes: Annotations,
  hover: Selection | null,
): void {
  const { selection, colours } = scene;
  for (const finding of notes.findings) {
    if (finding.view !== view.name) continue;
    const now = live.findings[finding.key];
    const mark = now ? markOfFinding(now) : now === null ? null : finding.mark;
    if (!mark || mark === 'pass') continue;
    const strong =
      (selection?.kind === 'finding' && selection.id === finding.key) ||
      (hover?.kind === 'finding' && hover.id === finding.key);
    // What a drag changes is news, drawn at rest or not.
    if (!finding.atRest && !strong && now === undefined) continue;
    paintFinding(ctx, toScreen(view.t, finding.at), mark, String(finding.number), colours, strong);
  }
  // What the drag brings has no number yet: it gets one on release.
  if (view.name === 'section') return;
  const known = new Set(notes.findings.map((f) => f.key));
  let fresh = 0;
  for (const finding of Object.values(live.findings)) {
    const mark = finding ? markOfFinding(finding) : null;
    if (!finding?.at || !mark || mark === 'pass' || known.has(finding.key) || view.name !== scene.activeView) continue;
    const [x, y] = toScreen(view.t, project(view.frame, finding.at));
    // Several of them often lie on one place: they stand in a row above it.
    paintFinding(ctx, [x - 30 + (fresh % 6) * 24, y - 34], mark, '+', colours, false);
    fresh++;
  }
}

/** The box that is drawn round what is to be picked. */
function paintBox(ctx: Ctx, a: Vec2, b: Vec2, colours: Scene['colours']): void {
  ctx.setLineDash([4, 3]);
  ctx.lineWidth = 1.2;
  ctx.strokeStyle = colours.accl;
  const [x, y] = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
  ctx.strokeRect(
    Math.round(x) + 0.5,
    Math.round(y) + 0.5,
    Math.round(Math.abs(b[0] - a[0])),
    Math.round(Math.abs(b[1] - a[1])),
  );
}

/** A picked panel by its outline, a picked station by its line. */
function paintPickedFace(ctx: Ctx, scene: Scene, view: View, picked: Selection | null, width: number): void {
  ctx.setLineDash([]);
  ctx.lineWidth = width;
  ctx.strokeStyle = scene.colours.accl;
  ctx.beginPath();
  if (picked?.kind === 'panel') {
    for (const edge of scene.layout.panels[picked.id]?.edges ?? []) {
      const [a, b] = [toScreen(view.t, project(view.frame, edge[0])), toScreen(view.t, project(view.frame, edge[1]))];
      ctx.moveTo(a[0], a[1]);
      ctx.lineTo(b[0], b[1]);
    }
  } else if (picked?.kind === 'station' && view.name !== 'section') {
    const station = scene.boat.hull?.stations[picked.id];
    if (!station) return;
    const x = Math.floor(toScreen(view.t, [station.xM, 0])[0]) + 0.5;
    ctx.moveTo(x, view.field.y + 22);
    ctx.lineTo(x, view.field.y + view.field.h - 4);
  }
  ctx.stroke();
}

/** The balloon of what is picked follows it. */
function paintPickedBalloon(ctx: Ctx, scene: Scene, live: Live, view: View, notes: Annotations): void {
  const { selection, colours } = scene;
  if (selection?.kind !== 'thing') return;
  for (const balloon of notes.balloons) {
    if (balloon.view !== view.name || balloon.thing !== selection.id) continue;
    const held =
      live.moving?.placed.id === balloon.thing ? project(view.frame, live.moving.placed.pose.at) : balloon.to;
    paintBalloon(ctx, toScreen(view.t, balloon.at), toScreen(view.t, held), balloon.number, colours, true);
  }
}

const heldOr = (scene: Scene, live: Live, id: string): Placed | undefined => {
  if (live.moving?.placed.id === id) return live.moving.placed;
  return live.alongside.find(({ placed }) => placed.id === id)?.placed ?? scene.placed.find((p) => p.id === id);
};

/** What a row of the list comes from, beside the one that is hovered: lit up as that is. */
export function paintAlsoHovered(ctx: Ctx, scene: Scene, live: Live, hovered: readonly Selection[]): void {
  if (hovered.length === 0) return;
  for (const view of viewsOf(scene))
    inField(ctx, view.field, () => {
      for (const one of hovered) paintHovered(ctx, scene, live, view, one);
    });
}

function paintHovered(ctx: Ctx, scene: Scene, live: Live, view: View, hover: Selection | null): void {
  const { colours, selection } = scene;
  if (hover?.kind === 'thing' && !(selection?.kind === 'thing' && selection.id === hover.id)) {
    const over = heldOr(scene, live, hover.id);
    if (over && thingsIn([over], view.cut, view.frame, null).length > 0) {
      paintThing(ctx, view.t, view.frame, over, colours, 'hover');
      const { bounds } = linesOfThing(over, view.frame);
      paintHover(ctx, rectOn(view, bounds.low, bounds.high), colours);
    }
  }
  if (hover && !sameSelection(hover, selection)) paintHoverPlace(ctx, scene, view, hover);
  if (hover?.kind === 'line' && !(selection?.kind === 'line' && selection.id === hover.id)) {
    const path = [...live.paths, ...scene.paths].find((p) => p.id === hover.id);
    if (path) paintRuns(ctx, view.t, runsIn(scene.boat, [path], view), colours, { strong: () => true, letters: true });
  }
}

function paintPicked(ctx: Ctx, scene: Scene, live: Live, view: View, hover: Selection | null): void {
  const { colours, selection } = scene;
  paintHovered(ctx, scene, live, view, hover);
  for (const id of alsoPicked(scene).things) {
    const beside = heldOr(scene, live, id);
    if (!beside || thingsIn([beside], view.cut, view.frame, null).length === 0) continue;
    const { bounds } = linesOfThing(beside, view.frame);
    paintHover(ctx, rectOn(view, bounds.low, bounds.high), colours);
  }
  if (selection?.kind !== 'thing') return;
  const picked = heldOr(scene, live, selection.id);
  if (!picked) return;
  const { bounds } = linesOfThing(picked, view.frame);
  paintSelection(ctx, rectOn(view, bounds.low, bounds.high), colours);
  if (live.moving && view.name === scene.activeView) paintDistances(ctx, scene, live, view, view.t, boxOf(picked));
}

/** A compartment or a way into one under the pointer, or named by a row of a table: a brass hairline in every view. */
function paintHoverPlace(ctx: Ctx, scene: Scene, view: View, hover: Selection): void {
  const { boat, layout, hull, section, colours } = scene;
  const rings: (readonly Vec2[])[] = [];
  if (hover.kind === 'compartment') {
    const drawn = view.cut ? section.compartments : compartmentsDrawn(boat, layout, hull, view.frame);
    rings.push(...(drawn.find(({ id }) => id === hover.id)?.rings ?? []));
  } else if (hover.kind === 'opening') {
    const opening = boat.openings[hover.id];
    const rim = opening ? openingLines(hover.id, opening, view.frame)[0] : undefined;
    if (rim?.kind === 'stroke') rings.push(rim.points);
  } else if (hover.kind === 'surface') {
    const surface = boat.mountingSurfaces[hover.id];
    if (surface) rings.push(surfaceRing(surface).map((p) => project(view.frame, p)));
  }
  ctx.setLineDash([]);
  ctx.lineWidth = 1.4;
  ctx.strokeStyle = colours.accl;
  ctx.beginPath();
  for (const ring of rings) trace(ctx, view.t, ring, true);
  ctx.stroke();
}

/** Fine brass lines that tie the three views at the edges of what is picked. */
function paintProjections(ctx: Ctx, scene: Scene, live: Live): void {
  const { selection, colours } = scene;
  if (selection?.kind !== 'thing') return;
  const picked = heldOr(scene, live, selection.id);
  if (!picked) return;
  const [profile, section, plan] = viewsOf(scene) as [View, View, View];
  const inProfile = rectOf(profile, picked);
  const inPlan = rectOf(plan, picked);
  const inSection = rectOf(section, picked);
  ctx.setLineDash([2, 3]);
  ctx.lineWidth = 0.9;
  ctx.strokeStyle = colours.accl;
  ctx.beginPath();
  for (const x of [inProfile.x, inProfile.x + inProfile.w]) {
    const sx = Math.floor(x) + 0.5;
    if (sx < profile.field.x || sx > profile.field.x + profile.field.w) continue;
    ctx.moveTo(sx, clampTo(profile.field.y, profile.field.h, inProfile.y + inProfile.h) + 5);
    ctx.lineTo(sx, clampTo(plan.field.y, plan.field.h, inPlan.y) - 5);
  }
  for (const y of [inProfile.y, inProfile.y + inProfile.h]) {
    const sy = Math.floor(y) + 0.5;
    if (sy < profile.field.y || sy > profile.field.y + profile.field.h) continue;
    ctx.moveTo(clampTo(profile.field.x, profile.field.w, inProfile.x + inProfile.w) + 5, sy);
    ctx.lineTo(clampTo(section.field.x, section.field.w, inSection.x) - 5, sy);
  }
  ctx.stroke();
}

const clampTo = (from: number, size: number, value: number): number => Math.min(from + size, Math.max(from, value));
const rectOf = (view: View, placed: Placed) => {
  const { bounds } = linesOfThing(placed, view.frame);
  return rectOn(view, bounds.low, bounds.high);
};

/** Place of the cut marks on screen: above the profile and below the plan. */
export function cutMarkPlaces(scene: Pick<Scene, 'sheet' | 'camera' | 'sectionX' | 'extent'>): {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  readonly middle: readonly [number, number];
} {
  const [profile, , plan] = viewsOf(scene) as [View, View, View];
  const x = Math.floor(toScreen(profile.t, [scene.sectionX, 0])[0]) + 0.5;
  const top = Math.max(profile.field.y + 30, toScreen(profile.t, [0, scene.extent.high[2]])[1] - 2);
  const bottom = Math.min(plan.field.y + plan.field.h - 10, toScreen(plan.t, [0, scene.extent.low[1]])[1] + 10);
  return { x, top, bottom, middle: [top, bottom] };
}

function paintCutMarks(ctx: Ctx, scene: Scene, hover: Selection | null): void {
  const { sheet, colours } = scene;
  const { x, top, bottom } = cutMarkPlaces(scene);
  const { profile, plan } = sheet.fields;
  if (x < profile.x || x > profile.x + profile.w) return;
  ctx.setLineDash([14, 3, 2, 3]);
  ctx.lineWidth = 0.7;
  ctx.strokeStyle = colours.draw;
  ctx.beginPath();
  ctx.moveTo(x, top + 8);
  ctx.lineTo(x, Math.max(top + 8, profile.y + profile.h - 6));
  ctx.moveTo(x, plan.y + 14);
  ctx.lineTo(x, bottom - 8);
  ctx.stroke();
  const active = hover?.kind === 'station';
  paintCutMark(ctx, x, top, 'top', colours, active);
  paintCutMark(ctx, x, bottom, 'bottom', colours, active);
}

/** 2 px ring round the field in which the keyboard moves. */
function paintFocus(ctx: Ctx, scene: Scene): void {
  const { sheet, colours, activeView } = scene;
  const f = sheet.fields[activeView];
  ctx.setLineDash([]);
  ctx.lineWidth = 2;
  ctx.strokeStyle = colours.accl;
  ctx.strokeRect(f.x + 3, f.y + 1, f.w - 6, f.h - 2);
}

/** Boat point under a point of a view; the coordinate across the view is not known. */
export function pointUnder(view: View, at: Vec2): readonly [number | null, number | null, number | null] {
  const [u, v] = toPaper(view.t, at);
  return view.name === 'profile' ? [u, null, v] : view.name === 'plan' ? [u, v, null] : [null, -u, v];
}
