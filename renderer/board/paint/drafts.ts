import type { Vec2, Vec3 } from '@core/base/vec';
import { faceOfKey, facesOf } from '@core/boat/interior/faces';
import type { Compartment } from '@core/boat/schema/boat';
import { project, type ViewFrame } from '@core/output/views/drawing';
import { openingLines } from '@core/output/views/openings';
import type { Tokens } from '../../app/tokens';
import { wholeLength } from '../../panels/format';
import type { DrawingState } from '../../store/drawing';
import type { DisplayUnits } from '../../store/types';
import { cornersOf } from '../../tools/drawing';
import type { Shaping } from '../../tools/gesture';
import { cornerGrips, faceGrips } from '../../tools/grips';
import type { SnapOn } from '../../tools/point-snap';
import { heldOnPaper } from '../drawing/hold';
import type { LookingOn } from '../drawing/looking';
import { inView } from '../drawing/make';
import type { Scene } from '../scene';
import { type Transform, toScreen } from '../sheet';
import { surfaceRing } from '../ways';
import { paintContact } from './marks';
import { paintMeasure } from './measures';
import { type Ctx, FONT, letter, trace } from './pen';

/** What is being drawn, held, marked out or measured in one field, and the grips of what is selected. */
export function paintDrafts(
  ctx: Ctx,
  scene: Scene,
  looking: LookingOn,
  drawing: DrawingState,
  drawsNow: boolean,
): void {
  const { colours } = scene;
  if (!drawsNow) paintGrips(ctx, scene, looking, drawing);
  if (drawing.held) paintHeld(ctx, scene, looking, drawing);
  if (drawing.draft && drawing.draft.view === looking.frame.name) paintDraft(ctx, scene, looking, drawing);
  if (drawing.aim && !drawing.marking) paintAim(ctx, scene, looking, drawing.aim);
  if (drawing.marking) paintMarking(ctx, scene, looking, drawing.marking);
  for (const measure of drawing.measures)
    if (measure.view === looking.frame.name) paintMeasure(ctx, looking, measure, colours, scene.units);
}

/** Handles on corners, and the face or corner in hand. */
function paintGrips(ctx: Ctx, scene: Scene, looking: LookingOn, drawing: DrawingState): void {
  const { selection, boat, colours, layout } = scene;
  const { t, frame } = looking;
  if (selection?.kind === 'panel') {
    for (const hole of layout.panels[selection.id]?.holes ?? []) {
      const [x, y] = toScreen(t, project(frame, hole.at));
      ctx.setLineDash(hole.planned ? [2, 2] : []);
      ctx.lineWidth = 1.6;
      ctx.strokeStyle = colours.accl;
      ctx.beginPath();
      ctx.arc(x, y, Math.max(4, (hole.diameterM / 2) * t.scale), 0, 2 * Math.PI);
      ctx.stroke();
    }
    return;
  }
  if (selection?.kind !== 'compartment' || drawing.held) return;
  const own = boat.compartments[selection.id];
  if (!own) return;
  const inHand = (what: Shaping): boolean => JSON.stringify(drawing.grip) === JSON.stringify(what);
  for (const grip of faceGrips(own, frame)) {
    const [a, b] = [toScreen(t, grip.a), toScreen(t, grip.b)];
    const strong = inHand({ kind: 'face', compartment: selection.id, key: grip.key });
    ctx.setLineDash(strong ? [] : [6, 3]);
    ctx.lineWidth = strong ? 3 : 0.9;
    ctx.strokeStyle = colours.accl;
    ctx.beginPath();
    ctx.moveTo(a[0], a[1]);
    ctx.lineTo(b[0], b[1]);
    ctx.stroke();
    handle(ctx, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], colours, strong, 2);
  }
  for (const grip of cornerGrips(own, frame))
    handle(
      ctx,
      toScreen(t, grip.at),
      colours,
      inHand({ kind: 'corner', compartment: selection.id, corner: grip.corner }),
      2.5,
    );
}

function handle(ctx: Ctx, [x, y]: Vec2, colours: Tokens, strong: boolean, half: number): void {
  ctx.setLineDash([]);
  ctx.lineWidth = 1.2;
  ctx.fillStyle = strong ? colours.accl : colours.paper;
  ctx.strokeStyle = colours.accl;
  ctx.fillRect(x - half, y - half, 2 * half, 2 * half);
  ctx.strokeRect(x - half, y - half, 2 * half, 2 * half);
}

/** Compartments as they would be, in brass over what they are; sizes beside them. */
function paintHeld(ctx: Ctx, scene: Scene, looking: LookingOn, { held }: DrawingState): void {
  if (!held) return;
  const { colours, boat, units } = scene;
  const { t, frame } = looking;
  for (const shape of Object.values(held.shapes)) {
    ctx.setLineDash([]);
    ctx.lineWidth = 1.8;
    ctx.strokeStyle = colours.accl;
    for (const face of facesOf(shape)) {
      ctx.beginPath();
      trace(
        ctx,
        t,
        face.polygon.map((p) => project(frame, p)),
        true,
      );
      ctx.stroke();
    }
  }
  if (held.view === looking.view) {
    paintSnaps(ctx, t, held.on, colours);
    const { what } = held;
    const shape = 'compartment' in what ? held.shapes[what.compartment] : undefined;
    if (shape) paintSizes(ctx, t, frame, shape, colours, units);
  }
  const at = heldOnPaper(held, frame);
  if (!at || !held.at) return;
  const { what } = held;
  if (what.kind === 'opening') {
    const opening = boat.openings[what.id];
    const rim = opening ? openingLines(what.id, { ...opening, at: [...held.at] }, frame)[0] : undefined;
    if (rim?.kind === 'stroke') strokeRing(ctx, t, rim.points, colours.accl, 1.8);
  } else if (what.kind === 'surface') {
    const surface = boat.mountingSurfaces[what.id];
    if (surface) strokeRing(ctx, t, ringOn(frame, surfaceRing({ ...surface, at: [...held.at] })), colours.accl, 2.4);
  } else {
    const [x, y] = toScreen(t, at);
    ctx.setLineDash([]);
    ctx.lineWidth = 1.8;
    ctx.strokeStyle = colours.accl;
    ctx.beginPath();
    ctx.arc(x, y, 7, 0, 2 * Math.PI);
    ctx.stroke();
  }
}

const ringOn = (frame: ViewFrame, ring: readonly Vec3[]): Vec2[] => ring.map((p) => project(frame, p));

function strokeRing(ctx: Ctx, t: Transform, ring: readonly Vec2[], colour: string, width: number): void {
  ctx.beginPath();
  trace(ctx, t, ring, true);
  ctx.setLineDash([]);
  ctx.lineWidth = width;
  ctx.strokeStyle = colour;
  ctx.stroke();
}

/** Length and breadth of a compartment in the view in which one of its faces is held. */
function paintSizes(
  ctx: Ctx,
  t: Transform,
  frame: ViewFrame,
  shape: Compartment,
  colours: Tokens,
  units: DisplayUnits,
): void {
  const points = facesOf(shape).flatMap((face) => face.polygon.map((p) => project(frame, p)));
  const us = points.map((p) => p[0]);
  const vs = points.map((p) => p[1]);
  const low: Vec2 = [Math.min(...us), Math.min(...vs)];
  const high: Vec2 = [Math.max(...us), Math.max(...vs)];
  sizesAround(ctx, t, low, high, colours, units);
}

function sizesAround(ctx: Ctx, t: Transform, low: Vec2, high: Vec2, colours: Tokens, units: DisplayUnits): void {
  const [x0, y0] = toScreen(t, low);
  const [x1, y1] = toScreen(t, high);
  const style = { font: FONT.strong, colour: colours.accent, halo: colours.paper };
  letter(ctx, wholeLength(high[0] - low[0], units), [(x0 + x1) / 2, y1 - 10], style);
  letter(ctx, wholeLength(high[1] - low[1], units), [x1 + 8, (y0 + y1) / 2], { ...style, align: 'left' });
}

function paintDraft(ctx: Ctx, scene: Scene, looking: LookingOn, { draft, on }: DrawingState): void {
  if (!draft) return;
  const { t } = looking;
  const { colours, units } = scene;
  const points = [...draft.points, draft.to];
  if (draft.tool === 'measure') {
    paintMeasure(ctx, looking, { points: points.map((p) => inView(scene, draft.view, p)) }, colours, units);
  } else if (draft.tool === 'split') {
    const [a, b] = points.map((p) => toScreen(t, p)) as [Vec2, Vec2];
    ctx.setLineDash([14, 3, 2, 3]);
    ctx.lineWidth = 1.8;
    ctx.strokeStyle = colours.accl;
    ctx.beginPath();
    ctx.moveTo(a[0], a[1]);
    ctx.lineTo(b[0], b[1]);
    ctx.stroke();
  } else {
    const ring = draft.tool === 'rectangle' ? cornersOf({ tool: 'rectangle', points }) : points;
    ctx.beginPath();
    trace(ctx, t, ring, true);
    ctx.fillStyle = colours.wash2;
    ctx.fill();
    ctx.setLineDash([]);
    ctx.lineWidth = 1.8;
    ctx.strokeStyle = colours.accl;
    ctx.beginPath();
    trace(ctx, t, ring, draft.tool === 'rectangle');
    ctx.stroke();
    if (draft.tool === 'rectangle') {
      const [low, , high] = ring as readonly [Vec2, Vec2, Vec2];
      sizesAround(ctx, t, low, high, colours, units);
    } else {
      for (const p of draft.points) handle(ctx, toScreen(t, p), colours, false, 2.5);
      const [a, b] = points.slice(-2) as [Vec2, Vec2];
      lengthBeside(ctx, t, a, b, colours, units);
    }
  }
  paintSnaps(ctx, t, on, colours);
}

function lengthBeside(ctx: Ctx, t: Transform, a: Vec2, b: Vec2, colours: Tokens, units: DisplayUnits): void {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length * t.scale < 8) return;
  const middle = toScreen(t, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
  letter(ctx, wholeLength(length, units), [middle[0], middle[1] - 9], {
    font: FONT.strong,
    colour: colours.accent,
    halo: colours.paper,
  });
}

/** What the point lies on: a brass line, hatched on its solid side; a ring on a corner. */
function paintSnaps(ctx: Ctx, t: Transform, on: readonly SnapOn[], colours: Tokens): void {
  for (const { a, b, solid, kind } of on) {
    const [p, q] = [toScreen(t, a), toScreen(t, b)];
    paintContact(ctx, p, q, solid && kind !== 'hull' ? [solid[0], -solid[1]] : [0, 0], colours);
  }
}

/** The face that a press would take. */
function paintAim(
  ctx: Ctx,
  { boat, colours }: Scene,
  { t, frame }: LookingOn,
  { compartment, key }: NonNullable<DrawingState['aim']>,
): void {
  const own = boat.compartments[compartment];
  const face = own ? faceOfKey(own, key) : null;
  if (face) strokeRing(ctx, t, ringOn(frame, face.polygon), colours.accl, 1.8);
}

/** An opening or surface that is being marked out, with its size. */
function paintMarking(
  ctx: Ctx,
  scene: Scene,
  { t, frame, view }: LookingOn,
  marking: NonNullable<DrawingState['marking']>,
): void {
  const { colours, boat, units } = scene;
  const own = boat.compartments[marking.compartment];
  const face = own ? facesOf(own).find(({ key }) => key === marking.key) : undefined;
  if (!face) return;
  strokeRing(ctx, t, ringOn(frame, face.polygon), colours.accl, 0.9);
  const ring = ringOn(frame, surfaceRing({ ...marking.marked, at: [...marking.marked.at], normal: [...face.normal] }));
  strokeRing(ctx, t, ring, colours.accl, 2.4);
  if (marking.view !== view) return;
  const ys = ring.map((p) => toScreen(t, p));
  const top = Math.min(...ys.map((p) => p[1]));
  const middle = (Math.min(...ys.map((p) => p[0])) + Math.max(...ys.map((p) => p[0]))) / 2;
  const { widthM, heightM } = marking.marked;
  letter(ctx, `${wholeLength(widthM, units)} \u00d7 ${wholeLength(heightM, units)}`, [middle, top - 10], {
    font: FONT.strong,
    colour: colours.accent,
    halo: colours.paper,
  });
}
