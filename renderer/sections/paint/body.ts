import type { Vec2 } from '@core/base/vec';
import { digits } from '@core/output/text/quantity-text';
import { waterHeight } from '@core/output/views/hull-lines';
import { levelsEvery } from '@core/output/views/lines-plan';
import { type Ctx, FONT, inField, letter, trace } from '../../board/paint/pen';
import { type Rect, type Transform, toPaper, toScreen } from '../../board/sheet';
import { lengthFigure } from '../../panels/format';
import type { DisplayUnits } from '../../store/types';
import type { SectionScene } from '../scene';
import { bodyTransform, onBodyPlan } from '../sheet';
import { moveWords, turnsWords } from '../words';

const HALF_MM_M = 0.0005;
/** Teeth longer than this would leave the sheet. */
const LONGEST_TOOTH_M = 0.6;
/** Every so many teeth are drawn; the envelope runs through all. */
const TOOTH_STEP = 2;

/** What lies under the body plan and does not move with a point: grid, scales, water. */
export function paintBodyGround(ctx: Ctx, scene: SectionScene): void {
  const { sheet, colours, camera } = scene;
  inField(ctx, sheet.body, () => paintGrid(ctx, scene, bodyTransform(sheet.body, camera)));
  const caption = { font: FONT.caption, colour: colours.ink, align: 'left' as const };
  letter(ctx, 'Body plan', [sheet.inner.x + 14, sheet.inner.y + 14], caption);
}

/** The body plan: stations laid over each other, and the active one with comb, weights, sizes and marks. */
export function paintBody(ctx: Ctx, scene: SectionScene): void {
  const { sheet, camera } = scene;
  const t = bodyTransform(sheet.body, camera);
  inField(ctx, sheet.body, () => {
    paintStations(ctx, scene, t);
    paintMirror(ctx, scene, t);
    paintComb(ctx, scene, t);
    paintActive(ctx, scene, t);
    paintSizes(ctx, scene, t);
    paintMarks(ctx, scene, t);
  });
}

/** Distances of the scales on the paper: round in what is shown. */
const stepOf = (units: DisplayUnits, scale: number): number => {
  const steps = units === 'mm' ? [0.05, 0.1, 0.3, 0.5, 1] : [1, 3, 6, 12, 24, 48].map((inches) => inches * 0.0254);
  return steps.find((step) => step * scale >= 34) ?? steps.at(-1) ?? 1;
};

const rounded = (metres: number, units: DisplayUnits): string =>
  units === 'mm' ? digits(metres * 1000, 0) : lengthFigure(metres, units);

const signed = (metres: number, units: DisplayUnits): string =>
  metres > HALF_MM_M ? `+${rounded(metres, units)}` : rounded(metres, units);

function paintGrid(ctx: Ctx, scene: SectionScene, t: Transform): void {
  const { sheet, colours, units, level, active } = scene;
  const field = sheet.body;
  const step = stepOf(units, t.scale);
  const [low, high] = visible(t, field);
  const us = levelsEvery(step, low[0], high[0]);
  const vs = levelsEvery(step, low[1], high[1]);
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.grid;
  ctx.beginPath();
  for (const u of us) line(ctx, [sharp(toScreen(t, [u, 0])[0]), field.y + 30], [0, field.h - 56]);
  for (const v of vs) line(ctx, [field.x + 46, sharp(toScreen(t, [0, v])[1])], [field.w - 76, 0]);
  ctx.stroke();

  const water = waterHeight(level, active.line.xM, 0);
  ctx.lineWidth = 1.2;
  ctx.strokeStyle = colours.waterl;
  ctx.beginPath();
  line(ctx, [field.x + 46, sharp(toScreen(t, [0, water])[1])], [field.w - 76, 0]);
  ctx.stroke();

  ctx.lineWidth = 0.8;
  ctx.strokeStyle = colours.ink3;
  ctx.setLineDash([14, 3, 2, 3]);
  ctx.beginPath();
  line(ctx, [sharp(t.x), field.y + 30], [0, field.h - 56]);
  ctx.stroke();
  ctx.setLineDash([]);

  const figures = { font: FONT.drawing, colour: colours.ink3 };
  for (const u of us) {
    const [x] = toScreen(t, [u, 0]);
    if (Math.abs(u) > 1e-9 && x > field.x + 60 && x < field.x + field.w - 20)
      letter(ctx, rounded(Math.abs(u), units), [x, field.y + field.h - 14], figures);
  }
  for (const v of vs) {
    const [, y] = toScreen(t, [0, v]);
    if (y < field.y + 36 || y > field.y + field.h - 32) continue;
    const isWater = Math.abs(v - water) < step / 3;
    letter(ctx, signed(v, units), [field.x + 42, y], {
      ...figures,
      align: 'right',
      colour: isWater ? colours.watert : colours.ink3,
    });
  }
  const foot = { font: FONT.drawing, colour: colours.ink2, halo: colours.paper };
  const { body } = scene;
  const split = body.findIndex(({ end }) => end === 'forward');
  if (split > 0) letter(ctx, `aft, ${range(0, split - 1)}`, [field.x + 60, field.y + 34], { ...foot, align: 'left' });
  if (split >= 0)
    letter(ctx, `forward, ${range(split, body.length - 1)}`, [field.x + field.w - 16, field.y + 34], {
      ...foot,
      align: 'right',
    });
}

const range = (from: number, to: number): string => (from === to ? `station ${from}` : `stations ${from} to ${to}`);

function paintStations(ctx: Ctx, scene: SectionScene, t: Transform): void {
  const { body, colours, active } = scene;
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.draw;
  ctx.beginPath();
  for (const { id, end, points } of body) {
    if (id === active.id) continue;
    trace(
      ctx,
      t,
      points.map((point) => onBodyPlan(end, point)),
      false,
    );
  }
  ctx.stroke();
  // The sheer runs across the stations of each half.
  ctx.lineWidth = 0.8;
  ctx.strokeStyle = colours.ink3;
  ctx.setLineDash([5, 3]);
  ctx.beginPath();
  for (const side of ['aft', 'forward'] as const) {
    const tops = body
      .filter(({ end }) => end === side)
      .flatMap(({ points }) => (points.length > 0 ? [points.at(-1) as Vec2] : []));
    trace(
      ctx,
      t,
      tops.map((point) => onBodyPlan(side, point)),
      false,
    );
  }
  ctx.stroke();
  ctx.setLineDash([]);
  const own = active.line.points.at(-1);
  const activeAt: Vec2 = own ? toScreen(t, onBodyPlan(active.line.end, own)) : [Number.NEGATIVE_INFINITY, 0];
  let before: Vec2 = [Number.NEGATIVE_INFINITY, 0];
  for (const { id, number, end, points } of body) {
    const top = points.at(-1);
    if (!top) continue;
    const [x, y] = toScreen(t, onBodyPlan(end, top));
    const isActive = id === active.id;
    // Numbers that would lie over each other: the later one is left out, never the active one.
    if (
      !isActive &&
      Math.min(Math.hypot(x - before[0], y - before[1]), Math.hypot(x - activeAt[0], y - activeAt[1])) < 13
    )
      continue;
    before = [x, y];
    letter(ctx, String(number), [x, y - 10], {
      font: isActive ? FONT.strong : FONT.drawing,
      colour: isActive ? colours.accent : colours.ink2,
      halo: colours.paper,
    });
  }
}

function paintMirror(ctx: Ctx, { active, colours }: SectionScene, t: Transform): void {
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.accl;
  ctx.setLineDash([5, 3]);
  ctx.beginPath();
  const { end, points } = active.line;
  trace(
    ctx,
    t,
    points.map((point) => onBodyPlan(end === 'aft' ? 'forward' : 'aft', point)),
    false,
  );
  ctx.stroke();
  ctx.setLineDash([]);
}

function paintComb(ctx: Ctx, { active, colours }: SectionScene, t: Transform): void {
  const { comb, combScaleM, line: own } = active;
  if (comb.length < 2) return;
  const ends = comb.map(({ at, outward, curvature }): Vec2 => {
    const size = Math.max(-LONGEST_TOOTH_M, Math.min(LONGEST_TOOTH_M, curvature * combScaleM));
    return onBodyPlan(own.end, [at[0] + outward[0] * size, at[1] + outward[1] * size]);
  });
  ctx.strokeStyle = colours.accl;
  ctx.lineWidth = 0.6;
  ctx.setLineDash([]);
  ctx.beginPath();
  comb.forEach(({ at }, i) => {
    if (i % TOOTH_STEP > 0) return;
    const from = toScreen(t, onBodyPlan(own.end, at));
    const to = toScreen(t, ends[i] as Vec2);
    ctx.moveTo(from[0], from[1]);
    ctx.lineTo(to[0], to[1]);
  });
  ctx.stroke();
  ctx.lineWidth = 1;
  ctx.beginPath();
  let last = Number.NEGATIVE_INFINITY;
  comb.forEach(({ along }, i) => {
    const [x, y] = toScreen(t, ends[i] as Vec2);
    // A knuckle ends one comb and begins another.
    const broken = along <= last;
    if (i === 0 || broken) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
    last = along;
  });
  ctx.stroke();
}

function paintActive(ctx: Ctx, scene: SectionScene, t: Transform): void {
  const { active, colours } = scene;
  const { line: own, points, knuckles, point: picked } = active;
  ctx.lineWidth = 2;
  ctx.strokeStyle = colours.accl;
  ctx.setLineDash([]);
  ctx.beginPath();
  trace(
    ctx,
    t,
    own.points.map((point) => onBodyPlan(own.end, point)),
    false,
  );
  ctx.stroke();
  const side = own.end === 'aft' ? -1 : 1;
  points.forEach((point, index) => {
    const at = toScreen(t, onBodyPlan(own.end, point));
    const away = outwardOnScreen(points, index, side);
    paintWeight(ctx, at, away, {
      edge: index === picked ? colours.accl : colours.draw,
      fill: index === picked ? colours.accl : colours.paper,
    });
    ctx.fillStyle = index === picked ? colours.accl : colours.draw;
    ctx.beginPath();
    if (knuckles.includes(index)) ctx.rect(at[0] - 3.5, at[1] - 3.5, 7, 7);
    else ctx.arc(at[0], at[1], 2.6, 0, 2 * Math.PI);
    ctx.fill();
  });
}

/** Outward from the curve at a point, on screen. */
export function outwardOnScreen(points: readonly Vec2[], index: number, side: 1 | -1): Vec2 {
  const before = points[Math.max(0, index - 1)] as Vec2;
  const after = points[Math.min(points.length - 1, index + 1)] as Vec2;
  const along = Math.hypot(after[0] - before[0], after[1] - before[1]) || 1;
  return [(side * (after[1] - before[1])) / along, (after[0] - before[0]) / along];
}

/** A spline weight as it lies on the lofting floor: its beak on the batten, its body outside the curve. */
function paintWeight(
  ctx: Ctx,
  [x, y]: Vec2,
  [ax, ay]: Vec2,
  { edge, fill }: { readonly edge: string; readonly fill: string },
): void {
  const across: Vec2 = [-ay, ax];
  const put = (out: number, off: number): Vec2 => [x + ax * out + across[0] * off, y + ay * out + across[1] * off];
  const tip = put(2, 0);
  const end = put(21, 0);
  ctx.beginPath();
  ctx.moveTo(tip[0], tip[1]);
  ctx.bezierCurveTo(...put(10, 1), ...put(12, 6.5), ...put(17, 5.5));
  ctx.bezierCurveTo(...put(21, 4.5), ...end, ...end);
  ctx.bezierCurveTo(...end, ...put(21, -4.5), ...put(17, -5.5));
  ctx.bezierCurveTo(...put(12, -6.5), ...put(10, -1), tip[0], tip[1]);
  ctx.closePath();
  ctx.fillStyle = fill;
  ctx.fill();
  ctx.lineWidth = 1.1;
  ctx.strokeStyle = edge;
  ctx.stroke();
}

/** Half-breadth and height of the picked point, as one would measure them. */
function paintSizes(ctx: Ctx, scene: SectionScene, t: Transform): void {
  const { active, colours, units } = scene;
  const point = active.point === null ? undefined : active.points[active.point];
  if (!point) return;
  const at = toScreen(t, onBodyPlan(active.line.end, point));
  const side = active.line.end === 'aft' ? -1 : 1;
  const level = toScreen(t, [0, 0])[1];
  const right = at[0] + side * 46;
  ctx.lineWidth = 0.9;
  ctx.strokeStyle = colours.accl;
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.moveTo(t.x, at[1]);
  ctx.lineTo(at[0] - side * 4, at[1]);
  if (Math.abs(at[1] - level) > 14) {
    ctx.moveTo(at[0] + side * 4, at[1]);
    ctx.lineTo(right + side * 4, at[1]);
    ctx.moveTo(right, at[1]);
    ctx.lineTo(right, level);
  }
  ctx.stroke();
  const words = { font: FONT.strong, colour: colours.accent, halo: colours.paper };
  if (Math.abs(at[0] - t.x) > 30) letter(ctx, lengthFigure(point[0], units), [(t.x + at[0]) / 2, at[1]], words);
  if (Math.abs(at[1] - level) > 14) letter(ctx, signed(point[1], units), [right, (at[1] + level) / 2], words);
}

/** Unfair points and crossings where they are, numbered as in the list beside. */
function paintMarks(ctx: Ctx, scene: SectionScene, t: Transform): void {
  const { active, colours, units, sheet, isHeld } = scene;
  const side = active.line.end === 'aft' ? -1 : 1;
  active.unfair.forEach((unfair, i) => {
    const point = active.points[unfair.index];
    if (!point) return;
    const at = toScreen(t, onBodyPlan(active.line.end, point));
    const away = outwardOnScreen(active.points, unfair.index, side);
    const mark: Vec2 = [at[0] + away[0] * 44 + side * 8, at[1] + away[1] * 44 + 10];
    ctx.lineWidth = 0.7;
    ctx.strokeStyle = colours.accl;
    ctx.beginPath();
    ctx.moveTo(at[0], at[1]);
    ctx.lineTo(mark[0], mark[1]);
    ctx.stroke();
    diamond(ctx, mark, colours.wash, colours.accl);
    letter(ctx, String(i + 1), mark, { font: FONT.strong, colour: colours.ink });
    if (isHeld) return;
    // Beside the mark where there is room, else under it along the edge of the field: never across the section.
    const edge = side > 0 ? sheet.body.x + sheet.body.w - 8 : sheet.body.x + 8;
    const isBeside = Math.abs(edge - mark[0]) > 190;
    const x = isBeside ? mark[0] + side * 14 : edge;
    const y = isBeside ? mark[1] - 6 : mark[1] + 20;
    const words = { halo: colours.paper, align: isBeside === side > 0 ? ('left' as const) : ('right' as const) };
    letter(ctx, turnsWords(unfair, units), [x, y], { ...words, font: FONT.strong, colour: colours.accent });
    letter(ctx, moveWords(unfair, point, units), [x, y + 13], { ...words, font: FONT.drawing, colour: colours.ink2 });
  });
  for (const { at } of active.crossings) {
    const [x, y] = toScreen(t, onBodyPlan(active.line.end, at));
    ctx.lineWidth = 1.8;
    ctx.strokeStyle = colours.bad;
    ctx.beginPath();
    ctx.moveTo(x - 6, y - 6);
    ctx.lineTo(x + 6, y + 6);
    ctx.moveTo(x + 6, y - 6);
    ctx.lineTo(x - 6, y + 6);
    ctx.stroke();
  }
}

function diamond(ctx: Ctx, [x, y]: Vec2, fill: string, edge: string): void {
  ctx.beginPath();
  ctx.moveTo(x, y - 10);
  ctx.lineTo(x + 10, y);
  ctx.lineTo(x, y + 10);
  ctx.lineTo(x - 10, y);
  ctx.closePath();
  ctx.fillStyle = fill;
  ctx.fill();
  ctx.lineWidth = 1.2;
  ctx.strokeStyle = edge;
  ctx.stroke();
}

const sharp = (v: number): number => Math.floor(v) + 0.5;
const line = (ctx: Ctx, [x, y]: Vec2, [dx, dy]: Vec2): void => {
  ctx.moveTo(x, y);
  ctx.lineTo(x + dx, y + dy);
};
const visible = (t: Transform, field: Rect): readonly [Vec2, Vec2] => {
  const low = toPaper(t, [field.x, field.y + field.h]);
  const high = toPaper(t, [field.x + field.w, field.y]);
  return [low, high];
};
