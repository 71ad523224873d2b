import type { Vec2 } from '@core/base/vec';
import type { ViewFrame } from '@core/output/views/drawing';
import type { Tokens } from '../../app/tokens';
import type { CutScene } from '../cut-scene';
import { type Candidate, placeLabels, RANK } from '../labels';
import { type Rect, type Transform, toScreen, within } from '../sheet';
import { linesOfThing, type Placed } from '../things';
import { rectOn } from './background';
import { type Ctx, FONT, hatch, letter, paintArea, paintPrimitive, trace, widthOf } from './pen';

/** The boat itself in a cut: its inside, compartments, walls hatched, and the hull. `context`: the compartment that is washed. */
export function paintCut(
  ctx: Ctx,
  t: Transform,
  box: Rect,
  cut: CutScene,
  context: string | null,
  colours: Tokens,
): void {
  for (const p of cut.hull) if (p.role === 'hullInside' && p.kind === 'area') paintArea(ctx, t, p, colours);
  for (const { id, rings } of cut.compartments) {
    ctx.beginPath();
    for (const ring of rings) trace(ctx, t, ring, true);
    if (id === context) {
      ctx.fillStyle = colours.wash2;
      ctx.fill('evenodd');
    }
    ctx.setLineDash([]);
    ctx.lineWidth = 0.8;
    ctx.strokeStyle = colours.draw;
    ctx.stroke();
  }
  for (const wall of cut.walls) {
    if (wall.kind !== 'area') continue;
    ctx.save();
    ctx.beginPath();
    for (const ring of wall.rings) trace(ctx, t, ring, true);
    ctx.fillStyle = colours.paper;
    ctx.fill();
    ctx.clip();
    hatch(ctx, box, 4.5, colours.ink3, 0.7);
    ctx.restore();
    paintArea(ctx, t, wall, colours, { width: 1 });
  }
  for (const p of cut.hull) if (p.role !== 'hullInside') paintPrimitive(ctx, t, p, colours);
}

/** Tags and place names clear of the subject, of runs and of each other. */
export function paintCutWords(
  ctx: Ctx,
  colours: Tokens,
  t: Transform,
  box: Rect,
  compartments: CutScene['compartments'],
  near: readonly Placed[],
  selected: string | null,
  frame: ViewFrame,
  spots: readonly Rect[],
): void {
  const candidates: Candidate[] = [];
  const taken: Rect[] = [...spots];
  const said = new Map<string, { text: string; font: string }>();
  const hold = (p: Vec2, width: number): Vec2 => [
    Math.min(Math.max(p[0], box.x + width / 2 + 5), box.x + box.w - width / 2 - 5),
    Math.min(Math.max(p[1], box.y + 12), box.y + box.h - 10),
  ];
  for (const p of near) {
    const { bounds } = linesOfThing(p, frame);
    const rect = rectOn({ t }, bounds.low, bounds.high);
    if (p.id === selected) taken.push({ x: rect.x - 60, y: rect.y - 30, w: rect.w + 120, h: rect.h + 60 });
    const width = widthOf(p.tag, FONT.drawing) + 4;
    const at: Vec2 = [rect.x + rect.w / 2, rect.y + rect.h / 2];
    if (p.id === selected || !p.thing.tag || rect.w < width || !within(box, at)) continue;
    said.set(p.id, { text: p.tag, font: FONT.drawing });
    candidates.push({ id: p.id, rank: RANK.partTag, width, height: 13, places: [at] });
  }
  for (const { id, name, label } of compartments) {
    if (!label) continue;
    const width = widthOf(name, FONT.place) + 4;
    const [x, y] = toScreen(t, label.at);
    const w = label.widthM * t.scale;
    const h = label.heightM * t.scale;
    const inside = (p: Vec2) => Math.abs(p[0] - x) <= (w - width) / 2 + 1 && Math.abs(p[1] - y) <= h / 2 - 6;
    const places: Vec2[] = [];
    for (const dy of [0, 0.4, -0.4, 0.8, -0.8])
      for (const dx of [0, 0.5, -0.5, 0.95, -0.95])
        places.push(hold([x + (dx * (w - width)) / 2, y + (dy * h) / 2], width));
    for (const corner of [1, -1]) places.push(hold([x, y + corner * 1e4], width));
    said.set(`place/${id}`, { text: name, font: FONT.place });
    candidates.push({ id: `place/${id}`, rank: RANK.placeName, width, height: 14, places: places.filter(inside) });
  }
  for (const [id, at] of placeLabels(candidates, taken)) {
    const word = said.get(id);
    if (word) letter(ctx, word.text, at, { font: word.font, colour: colours.ink2, halo: colours.shade });
  }
}
