import type { Vec2 } from '@core/base/vec';
import { project, type ViewFrame } from '@core/output/views/drawing';
import { openingLines } from '@core/output/views/openings';
import { clearanceLines } from '@core/output/views/things';
import type { Tokens } from '../../app/tokens';
import { lineInHand } from '../../store/select';
import type { Annotations } from '../annotate';
import { alsoPicked, contextOf, crossingsIn, isCutBy, runsIn, type Scene, thingsIn, type View } from '../scene';
import { compartmentsDrawn } from '../shape';
import { type Transform, toScreen } from '../sheet';
import { linesOfThing, type Placed } from '../things';
import { standingIn, surfaceRing, surfacesIn, waysIn } from '../ways';
import { paintHullLines } from './background';
import { paintBalloon } from './marks';
import { type Ctx, FONT, letter, paintArea, paintPrimitive, paintStroke, trace } from './pen';
import { paintCrossings, paintRuns } from './runs';

/** A thing shows its symbol from this size on, pixels; smaller ones only their envelope. */
const SYMBOL_FROM_PX = 12;

export type ThingLook = 'rest' | 'hover' | 'selected' | 'dragged' | 'blocked' | 'behind' | 'ghost';

export function paintThing(
  ctx: Ctx,
  t: Transform,
  frame: ViewFrame,
  placed: Placed,
  colours: Tokens,
  look: ThingLook,
): void {
  const lines = linesOfThing(placed, frame);
  const width = (lines.bounds.high[0] - lines.bounds.low[0]) * t.scale;
  const height = (lines.bounds.high[1] - lines.bounds.low[1]) * t.scale;
  const symbols = Math.min(width, height) >= SYMBOL_FROM_PX * 0.5 && Math.max(width, height) >= SYMBOL_FROM_PX;
  for (const p of lines.strokes) {
    if (p.kind === 'area') {
      switch (look) {
        case 'ghost':
          paintArea(ctx, t, p, colours, { width: 1, colour: 'ink3', dash: [4, 3] });
          ctx.setLineDash([]);
          return;
        case 'behind':
          paintArea(ctx, t, p, colours, { width: 0.7, colour: 'ink3', fill: 'shade' });
          break;
        case 'selected':
        case 'dragged':
          paintArea(ctx, t, p, colours, { width: 1.8, fill: 'wash' });
          break;
        case 'blocked':
          paintArea(ctx, t, p, colours, { width: 1.8, fill: 'wash', colour: 'bad' });
          break;
        case 'hover':
          paintArea(ctx, t, p, colours, { width: 1.8 });
          break;
        case 'rest':
          paintArea(ctx, t, p, colours);
      }
    } else if (symbols) paintStroke(ctx, t, p, colours, look === 'behind' ? { width: 0.6, colour: 'ink3' } : undefined);
  }
}

/** Furniture, things, runs and words of one field at rest, without what a drag holds. */
export function paintField(ctx: Ctx, scene: Scene, view: View, notes: Annotations): void {
  paintView(ctx, scene, view);
  paintWords(ctx, scene, view, notes);
}

/** Text is the dear part of a drawing, so it lies here, where a drag does not repaint it. */
function paintWords(ctx: Ctx, scene: Scene, view: View, notes: Annotations): void {
  const { colours, selection, lifted } = scene;
  for (const word of notes.words) {
    if (word.view !== view.name || (word.kind === 'tag' && lifted.things.has(word.subject))) continue;
    letter(ctx, word.text, toScreen(view.t, word.at), {
      font: word.kind === 'place' ? FONT.place : word.strong ? FONT.strong : FONT.drawing,
      colour: word.strong ? colours.ink : colours.ink2,
      halo: word.strong ? colours.wash2 : colours.shade,
    });
  }
  for (const balloon of notes.balloons) {
    if (balloon.view !== view.name || (selection?.kind === 'thing' && selection.id === balloon.thing)) continue;
    paintBalloon(ctx, toScreen(view.t, balloon.at), toScreen(view.t, balloon.to), balloon.number, colours, false);
  }
}

function paintView(ctx: Ctx, scene: Scene, view: View): void {
  const { colours, selection, lifted, boat } = scene;
  paintCompartments(ctx, scene, view);
  paintHullLines(ctx, scene, view);
  paintOpenings(ctx, scene, view);
  const selectedThing = selection?.kind === 'thing' ? selection.id : null;
  const also = alsoPicked(scene);
  const still = scene.placed.filter((p) => !lifted.things.has(p.id));
  for (const placed of thingsIn(still, view.cut, view.frame, selectedThing)) {
    const behind = view.cut !== null && !isCutBy(placed, view.cut);
    if (scene.layers.sweeps || placed.id === selectedThing)
      paintClearances(ctx, scene, view, placed, placed.id === selectedThing);
    paintThing(
      ctx,
      view.t,
      view.frame,
      placed,
      colours,
      placed.id === selectedThing || also.things.has(placed.id) ? 'selected' : behind ? 'behind' : 'rest',
    );
  }
  const paths = scene.paths.filter((path) => !lifted.runs.has(path.id) && isShown(scene, path.id));
  const strong = (id: string) => lineInHand(selection) === id || also.lines.has(id);
  paintRuns(ctx, view.t, runsIn(boat, paths, view), colours, { strong, letters: view.t.scale >= 30 });
  paintCrossings(ctx, view.t, crossingsIn(paths, scene.layout, view), colours);
}

/** While it is asked where parts can go, their own lines are drawn and no others. */
function isShown({ tinting, boat }: Scene, lineId: string): boolean {
  const line = boat.lines[lineId];
  return tinting === null || (line !== undefined && [line.from, line.to].some(({ thing }) => tinting.parts.has(thing)));
}

/** Ways into the compartment that one works in, and whichever is picked: all of them at once would hide the boat. */
function paintOpenings(ctx: Ctx, scene: Scene, view: View): void {
  const { selection, colours } = scene;
  for (const [id, opening] of waysIn(scene, view)) {
    const chosen = selection?.kind === 'opening' && selection.id === id;
    for (const line of openingLines(id, opening, view.frame))
      paintPrimitive(ctx, view.t, line, colours, chosen ? { width: 1.8, colour: 'accl', dash: [] } : undefined);
  }
  for (const [id, surface] of surfacesIn(scene, view)) {
    const chosen = selection?.kind === 'surface' && selection.id === id;
    const ring = surfaceRing(surface).map((p) => project(view.frame, p));
    ctx.beginPath();
    trace(ctx, view.t, ring, true);
    ctx.setLineDash([]);
    ctx.lineWidth = chosen ? 2.4 : 1.6;
    ctx.strokeStyle = chosen ? colours.accl : colours.ink2;
    ctx.stroke();
  }
  for (const [id, place] of standingIn(scene, view)) {
    const chosen = selection?.kind === 'standingPlace' && selection.id === id;
    paintStanding(ctx, toScreen(view.t, project(view.frame, place.at)), colours, chosen);
  }
}

/** Where a person is: two feet. */
function paintStanding(ctx: Ctx, [x, y]: Vec2, colours: Tokens, strong: boolean): void {
  ctx.setLineDash([]);
  ctx.lineWidth = strong ? 1.8 : 1.1;
  ctx.strokeStyle = strong ? colours.accl : colours.draw;
  ctx.fillStyle = colours.paper;
  for (const side of [-4.5, 4.5]) {
    ctx.beginPath();
    ctx.ellipse(x + side, y, 2.6, 5.5, 0, 0, 2 * Math.PI);
    ctx.fill();
    ctx.stroke();
  }
}

function paintClearances(ctx: Ctx, scene: Scene, view: View, placed: Placed, selected: boolean): void {
  for (const p of clearanceLines(placed.id, placed.thing, placed.pose, view.frame)) {
    const wanted = p.role === 'sweep' ? scene.layers.sweeps || selected : scene.layers.service && selected;
    if (wanted) paintPrimitive(ctx, view.t, p, scene.colours);
  }
}

function paintCompartments(ctx: Ctx, scene: Scene, view: View): void {
  const { colours, boat, layout, hull, selection } = scene;
  const drawn = view.cut ? scene.section.compartments : compartmentsDrawn(boat, layout, hull, view.frame);
  const chosen = selection?.kind === 'compartment' ? selection.id : null;
  const context = contextOf(scene);
  scene.tinting?.paintGround(ctx, scene, view, drawn);
  for (const { id, rings } of scene.tinting ? [] : drawn) {
    if (id !== context && id !== chosen) continue;
    ctx.beginPath();
    for (const ring of rings) trace(ctx, view.t, ring, true);
    ctx.fillStyle = id === chosen ? colours.wash : colours.wash2;
    ctx.fill('evenodd');
  }
  for (const primary of [false, true]) {
    ctx.beginPath();
    for (const one of drawn) if (one.primary === primary) for (const ring of one.rings) trace(ctx, view.t, ring, true);
    ctx.setLineDash([]);
    ctx.lineWidth = primary ? 0.9 : 0.5;
    ctx.strokeStyle = view.cut ? colours.draw : primary ? colours.ink2 : colours.ink3;
    ctx.stroke();
  }
  if (view.cut)
    for (const wall of scene.section.walls)
      if (wall.kind === 'area') paintArea(ctx, view.t, wall, colours, { width: 0.7, fill: 'poche' });
  const { compartments: also } = alsoPicked(scene);
  if (chosen || also.size > 0) {
    ctx.beginPath();
    for (const { id, rings } of drawn)
      if (id === chosen || also.has(id)) for (const ring of rings) trace(ctx, view.t, ring, true);
    ctx.lineWidth = 1.8;
    ctx.strokeStyle = colours.accl;
    ctx.stroke();
  }
}
