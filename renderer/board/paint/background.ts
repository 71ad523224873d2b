import type { Vec2 } from '@core/base/vec';
import { seaInSection, waterHeight } from '@core/output/views/hull-lines';
import type { Tokens } from '../../app/tokens';
import { type Ground, type View, viewsOf } from '../scene';
import { hullDrawn } from '../shape';
import { type Rect, type Sheet, toPaper, toScreen, ZONE_COLUMNS, ZONE_ROWS } from '../sheet';
import { type Ctx, FONT, letter, paintArea, paintPrimitive } from './pen';

export function paintPaper(ctx: Ctx, { sheet, colours }: Ground): void {
  ctx.fillStyle = colours.film;
  ctx.fillRect(0, 0, sheet.width, sheet.height);
  ctx.fillStyle = colours.paper;
  ctx.fillRect(sheet.outer.x, sheet.outer.y, sheet.outer.w, sheet.outer.h);
}

/** Grid, sea, stations and the hull itself: what furniture stands on. */
export function paintGround(ctx: Ctx, scene: Ground, view: View): void {
  const { colours, hull, layers } = scene;
  if (layers.grid) paintGrid(ctx, scene, view);
  if (view.name === 'section') {
    paintSectionGround(ctx, scene, view);
    return;
  }
  if (layers.stations) paintStations(ctx, scene, view);
  if (!hull) return;
  const drawn = hullDrawn(hull)[view.name];
  for (const p of drawn) if (p.kind === 'area') paintArea(ctx, view.t, p, colours);
  paintCentreLine(ctx, scene, view);
  if (view.name === 'profile') paintLevel(ctx, scene, view);
}

function paintSectionGround(ctx: Ctx, scene: Ground, view: View): void {
  const { colours, hull, layers } = scene;
  const water = (layers.heeled && scene.heeled) || scene.level;
  const low = toPaper(view.t, [view.field.x, view.field.y + view.field.h]);
  const high = toPaper(view.t, [view.field.x + view.field.w, view.field.y]);
  const sea = hull ? seaInSection(hull, water, scene.sectionX, { low, high }) : null;
  if (sea?.kind === 'area') paintArea(ctx, view.t, sea, colours);
  for (const p of scene.section.hull)
    if (p.role === 'hullInside' && p.kind === 'area') paintArea(ctx, view.t, p, colours);
  paintCentreLine(ctx, scene, view);
  if (hull) paintLevel(ctx, scene, view);
}

/** Height of a level on screen at a place across the view. */
function levelAt(scene: Ground, view: View, water: Ground['level'], u: number): Vec2 {
  const v = view.name === 'profile' ? waterHeight(water, u, 0) : waterHeight(water, scene.sectionX, -u);
  return toScreen(view.t, [u, v]);
}

const levelEnds = (view: View): readonly [number, number] => [
  toPaper(view.t, [view.field.x + 18, 0])[0],
  toPaper(view.t, [view.field.x + view.field.w - 12, 0])[0],
];

/** Level of the sea at rest, and in the section that of the heeled boat. */
function paintLevel(ctx: Ctx, scene: Ground, view: View): void {
  const { colours, layers } = scene;
  const [u0, u1] = levelEnds(view);
  const line = (water: Ground['level'], dash: number[], width: number) => {
    const a = levelAt(scene, view, water, u0);
    const b = levelAt(scene, view, water, u1);
    const level = Math.abs(a[1] - b[1]) < 0.3;
    ctx.beginPath();
    ctx.moveTo(a[0], level ? Math.floor(a[1]) + 0.5 : a[1]);
    ctx.lineTo(b[0], level ? Math.floor(a[1]) + 0.5 : b[1]);
    ctx.setLineDash(dash);
    ctx.lineWidth = width;
    ctx.strokeStyle = colours.waterl;
    ctx.stroke();
  };
  line(scene.level, [], 1.2);
  if (view.name === 'section' && layers.heeled && scene.heeled) line(scene.heeled, [10, 3], 1.2);
}

/** Signs of the water levels at the edges of profile and section: over the drawing, so that no line strikes them out. */
export function paintEdgeMarks(ctx: Ctx, scene: Ground, view: View): void {
  const { colours, layers, hull } = scene;
  if (!hull || view.name === 'plan') return;
  const [u0, u1] = levelEnds(view);
  if (view.name === 'profile') {
    const [x, y] = levelAt(scene, view, scene.level, u0);
    ctx.beginPath();
    ctx.moveTo(x + 3, y - 7);
    ctx.lineTo(x + 13, y - 7);
    ctx.lineTo(x + 8, y - 0.5);
    ctx.closePath();
    ctx.fillStyle = colours.waterl;
    ctx.fill();
    // Looked at closer the word would lie over the boat.
    if (layers.heeled && scene.heeled && scene.camera.scale <= scene.sheet.fit.scale * 1.2)
      paintHeelWord(ctx, scene, view);
  } else if (layers.heeled && scene.heeled) {
    const starboardDown = scene.heeled.up[1] > 0;
    // The name stands on the side that rises out of the water.
    const edge = levelAt(scene, view, scene.heeled, starboardDown ? u0 : u1);
    letter(ctx, `${Math.abs(Math.round(scene.heelDeg))}\u00b0`, [edge[0] + (starboardDown ? 4 : -4), edge[1] + 12], {
      font: FONT.strong,
      colour: colours.watert,
      align: starboardDown ? 'left' : 'right',
    });
  }
}

/** Names the dashed traces on the skin, at the right end of the profile below the level. */
function paintHeelWord(ctx: Ctx, scene: Ground, view: View): void {
  const side = scene.heelDeg > 0 ? 'stbd' : 'port';
  const [, y] = toScreen(view.t, [0, waterHeight(scene.level, scene.extent.high[0], 0)]);
  letter(
    ctx,
    `${Math.abs(Math.round(scene.heelDeg))}\u00b0 heel, ${side} side`,
    [view.field.x + view.field.w - 14, y + 14],
    {
      font: FONT.strong,
      colour: scene.colours.watert,
      halo: scene.colours.paper,
      align: 'right',
    },
  );
}

function paintCentreLine(ctx: Ctx, scene: Ground, view: View): void {
  if (view.name === 'profile') return;
  const { colours } = scene;
  ctx.setLineDash([14, 3, 2, 3]);
  ctx.lineWidth = 0.7;
  ctx.strokeStyle = colours.ink3;
  ctx.beginPath();
  if (view.name === 'plan') {
    const y = Math.floor(toScreen(view.t, [0, 0])[1]) + 0.5;
    ctx.moveTo(Math.max(view.field.x + 20, toScreen(view.t, [scene.extent.low[0], 0])[0]), y);
    ctx.lineTo(toScreen(view.t, [scene.extent.high[0], 0])[0], y);
  } else {
    const x = Math.floor(toScreen(view.t, [0, 0])[0]) + 0.5;
    ctx.moveTo(x, toScreen(view.t, [0, scene.extent.high[2]])[1] - 6);
    ctx.lineTo(x, toScreen(view.t, [0, scene.extent.low[2]])[1]);
  }
  ctx.stroke();
}

/** Whole metres of the boat, faint. */
function paintGrid(ctx: Ctx, scene: Ground, view: View): void {
  const { colours, extent } = scene;
  const low = toPaper(view.t, [view.field.x, view.field.y + view.field.h]);
  const high = toPaper(view.t, [view.field.x + view.field.w, view.field.y]);
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.grid;
  ctx.beginPath();
  const [vLow, vHigh] = view.name === 'plan' ? [extent.low[1], extent.high[1]] : [extent.low[2], extent.high[2]];
  const [uLow, uHigh] = view.name === 'section' ? [-extent.high[1], -extent.low[1]] : [extent.low[0], extent.high[0]];
  const top = Math.max(view.field.y + 20, toScreen(view.t, [0, vHigh])[1]);
  const bottom = Math.min(view.field.y + view.field.h, toScreen(view.t, [0, vLow])[1]);
  const left = toScreen(view.t, [uLow, 0])[0];
  const right = toScreen(view.t, [uHigh, 0])[0];
  const step = view.t.scale > 400 ? 0.1 : view.t.scale > 160 ? 0.5 : 1;
  for (let u = Math.ceil(Math.max(low[0], uLow) / step) * step; u <= Math.min(high[0], uHigh); u += step) {
    const x = Math.floor(toScreen(view.t, [u, 0])[0]) + 0.5;
    ctx.moveTo(x, top);
    ctx.lineTo(x, bottom);
  }
  for (let v = Math.ceil(Math.max(low[1], vLow) / step) * step; v <= Math.min(high[1], vHigh); v += step) {
    const y = Math.floor(toScreen(view.t, [0, v])[1]) + 0.5;
    ctx.moveTo(left, y);
    ctx.lineTo(right, y);
  }
  ctx.stroke();
}

export function stationsOf(scene: Ground): { name: string; x: number }[] {
  const stations = scene.boat.hull ? Object.values(scene.boat.hull.stations) : [];
  return stations
    .map((s) => s.xM)
    .sort((a, b) => a - b)
    .map((x, i) => ({ name: String(i), x }));
}

function paintStations(ctx: Ctx, scene: Ground, view: View): void {
  ctx.setLineDash([1, 3]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = scene.colours.line;
  ctx.beginPath();
  for (const { x } of stationsOf(scene)) {
    const sx = Math.floor(toScreen(view.t, [x, 0])[0]) + 0.5;
    ctx.moveTo(sx, view.field.y + (view.name === 'profile' ? 2 : 20));
    ctx.lineTo(sx, view.field.y + view.field.h);
  }
  ctx.stroke();
}

export function paintFrames(ctx: Ctx, scene: Ground): void {
  const { sheet, colours } = scene;
  paintZones(ctx, sheet, colours);
  paintRuler(ctx, scene);
  paintInnerFrame(ctx, sheet, colours);
}

/** Zone band of a sheet: ticks, figures and letters between its two frames. */
export function paintZones(ctx: Ctx, { outer, inner }: Pick<Sheet, 'outer' | 'inner'>, colours: Tokens): void {
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.line;
  ctx.strokeRect(outer.x + 0.5, outer.y + 0.5, outer.w - 1, outer.h - 1);
  ctx.beginPath();
  for (let c = 1; c < ZONE_COLUMNS; c++) {
    const x = Math.round(inner.x + (inner.w * c) / ZONE_COLUMNS) + 0.5;
    ctx.moveTo(x, outer.y);
    ctx.lineTo(x, inner.y);
    ctx.moveTo(x, inner.y + inner.h);
    ctx.lineTo(x, outer.y + outer.h);
  }
  for (let r = 1; r < ZONE_ROWS.length; r++) {
    const y = Math.round(inner.y + (inner.h * r) / ZONE_ROWS.length) + 0.5;
    ctx.moveTo(outer.x, y);
    ctx.lineTo(inner.x, y);
    ctx.moveTo(inner.x + inner.w, y);
    ctx.lineTo(outer.x + outer.w, y);
  }
  ctx.stroke();
  const zone = { font: FONT.zone, colour: colours.ink3 };
  for (let c = 0; c < ZONE_COLUMNS; c++) {
    const x = inner.x + (inner.w * (c + 0.5)) / ZONE_COLUMNS;
    letter(ctx, String(c + 1), [x, (outer.y + inner.y) / 2], zone);
    letter(ctx, String(c + 1), [x, (outer.y + outer.h + inner.y + inner.h) / 2], zone);
  }
  for (const [r, name] of ZONE_ROWS.entries()) {
    const y = inner.y + (inner.h * (r + 0.5)) / ZONE_ROWS.length;
    letter(ctx, name, [(outer.x + inner.x) / 2, y], zone);
    letter(ctx, name, [(outer.x + outer.w + inner.x + inner.w) / 2, y], zone);
  }
}

export function paintInnerFrame(ctx: Ctx, { inner }: Pick<Sheet, 'inner'>, colours: Tokens): void {
  ctx.setLineDash([]);
  ctx.lineWidth = 1.6;
  ctx.strokeStyle = colours.draw;
  ctx.strokeRect(inner.x, inner.y, inner.w, inner.h);
}

/** The lower frame line is the metre ruler of profile and plan. */
function paintRuler(ctx: Ctx, scene: Ground): void {
  const { sheet, colours, extent } = scene;
  const plan = viewsOf(scene).find((view) => view.name === 'plan');
  if (!plan) return;
  const { t, field } = plan;
  const y = sheet.rulerY;
  const step = t.scale > 600 ? 0.01 : t.scale > 160 ? 0.05 : 0.1;
  const word = t.scale > 600 ? 0.1 : t.scale > 160 ? 0.5 : 1;
  const first = Math.max(toPaper(t, [field.x + 4, 0])[0], Math.min(0, extent.low[0]));
  const last = Math.min(toPaper(t, [field.x + field.w - 16, 0])[0], Math.ceil(extent.high[0]));
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.draw;
  ctx.beginPath();
  const near = (u: number, of: number) => Math.abs(u / of - Math.round(u / of)) < 1e-6;
  for (let i = Math.ceil(first / step); i * step <= last + 1e-9; i++) {
    const u = i * step;
    const x = Math.floor(toScreen(t, [u, 0])[0]) + 0.5;
    ctx.moveTo(x, y);
    ctx.lineTo(x, y - (near(u, word) ? 9 : near(u, word / 2) ? 6 : 3.5));
  }
  ctx.stroke();
  for (let i = Math.ceil(first / word); i * word <= last + 1e-9; i++) {
    const u = i * word;
    const x = toScreen(t, [u, 0])[0];
    const end = (i + 1) * word > last + 1e-9;
    const text = word < 1 ? u.toFixed(1) : String(Math.round(u));
    letter(ctx, end ? `${text} m` : text, [x + 4, y - 13], { font: FONT.drawing, colour: colours.ink2, align: 'left' });
  }
}

/** Once one looks closer than the whole sheet, the fields cut the boat off: a rule says where. */
export function paintDividers(ctx: Ctx, scene: Ground): void {
  const { sheet, camera, colours } = scene;
  if (camera.scale <= sheet.fit.scale * 1.05) return;
  const { section, plan } = sheet.fields;
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.line;
  ctx.beginPath();
  const x = Math.floor(section.x) + 0.5;
  const y = Math.floor(plan.y) + 0.5;
  ctx.moveTo(x, section.y);
  ctx.lineTo(x, plan.y + plan.h);
  ctx.moveTo(plan.x, y);
  ctx.lineTo(section.x + section.w, y);
  ctx.stroke();
}

/** Names of the fields and numbers of the stations: over the drawing. */
export function paintCaptions(ctx: Ctx, scene: Ground): void {
  const { sheet, colours, layers } = scene;
  const { profile, section, plan } = sheet.fields;
  const left = sheet.inner.x + 14;
  const caption = { font: FONT.caption, colour: colours.ink, align: 'left' as const };
  if (layers.stations) {
    const y = sheet.inner.y + 11;
    const view = viewsOf(scene)[0] as View;
    let free = left - 10;
    for (const { name, x } of stationsOf(scene)) {
      const sx = toScreen(view.t, [x, 0])[0];
      if (sx < free || sx > profile.x + profile.w - 6) continue;
      letter(ctx, name, [sx, y], { font: FONT.drawing, colour: colours.ink2 });
      // The first one says what the row is.
      if (free === left - 10 && sx > left + 44)
        letter(ctx, 'Station', [sx - 8, y], { font: FONT.drawing, colour: colours.ink3, align: 'right' });
      free = sx + 16;
    }
  }
  letter(ctx, 'Profile', [left, profile.y + 10], { ...caption, halo: colours.paper });
  letter(ctx, 'Plan below deck', [left, plan.y + 10], { ...caption, halo: colours.paper });
  letter(ctx, `Section A at ${scene.sectionX.toFixed(2)} m, looking forward`, [section.x + 8, section.y + 10], {
    ...caption,
    halo: colours.paper,
  });
}

/** Lines of hull and water over the fills: drawn with the interior, so that furniture does not hide them. */
export function paintHullLines(ctx: Ctx, scene: Ground, view: View): void {
  const { colours, hull, layers } = scene;
  if (view.name === 'section') {
    for (const p of scene.section.hull) if (p.role !== 'hullInside') paintPrimitive(ctx, view.t, p, colours);
    return;
  }
  for (const p of scene.water[view.name]) {
    const heeled = p.role === 'heeledNear' || p.role === 'heeledFar';
    if (p.kind === 'stroke' && (!heeled || layers.heeled)) paintPrimitive(ctx, view.t, p, colours);
  }
  if (hull)
    for (const p of hullDrawn(hull)[view.name]) if (p.kind === 'stroke') paintPrimitive(ctx, view.t, p, colours);
}

export const rectOn = (view: Pick<View, 't'>, low: Vec2, high: Vec2): Rect => {
  const a = toScreen(view.t, low);
  const b = toScreen(view.t, high);
  return { x: Math.min(a[0], b[0]), y: Math.min(a[1], b[1]), w: Math.abs(b[0] - a[0]), h: Math.abs(b[1] - a[1]) };
};
