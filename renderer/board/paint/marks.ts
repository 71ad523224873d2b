import type { Vec2 } from '@core/base/vec';
import type { Tokens } from '../../app/tokens';
import type { Mark } from '../../store/findings';
import type { Rect } from '../sheet';
import { type Ctx, FONT, hatchRect, letter } from './pen';

/** A finding on the drawing: its shape says how bad, its number is that of the list. */
export function paintFinding(ctx: Ctx, [x, y]: Vec2, mark: Mark, text: string, colours: Tokens, strong: boolean): void {
  const r = strong ? 11 : 9.5;
  const diamond = () => {
    ctx.beginPath();
    ctx.moveTo(x, y - r);
    ctx.lineTo(x + r, y);
    ctx.lineTo(x, y + r);
    ctx.lineTo(x - r, y);
    ctx.closePath();
  };
  const ring = () => {
    ctx.beginPath();
    ctx.arc(x, y, r - 1.5, 0, 2 * Math.PI);
  };
  const outline = mark === 'advice' || mark === 'cannotTell' ? ring : diamond;
  // Halo first: the mark stands clear of runs below it.
  outline();
  ctx.setLineDash([]);
  ctx.lineWidth = 5;
  ctx.strokeStyle = colours.paper;
  ctx.stroke();
  outline();
  const colour =
    mark === 'danger' || mark === 'fault' ? colours.bad : mark === 'closeCall' ? colours.accl : colours.draw;
  ctx.fillStyle = mark === 'danger' ? colours.bad : mark === 'closeCall' ? colours.wash : colours.paper;
  ctx.fill();
  if (mark === 'cannotTell') ctx.setLineDash([3, 2.5]);
  ctx.lineWidth = strong ? 2.2 : 1.5;
  ctx.strokeStyle = colour;
  ctx.stroke();
  const letters = mark === 'danger' ? colours.paper : mark === 'fault' ? colours.bad : colours.ink;
  letter(ctx, text, [x, y], { font: FONT.balloon, colour: letters });
}

export function paintBalloon(ctx: Ctx, at: Vec2, to: Vec2, number: number, colours: Tokens, selected: boolean): void {
  ctx.setLineDash([]);
  const dx = to[0] - at[0];
  const dy = to[1] - at[1];
  const length = Math.hypot(dx, dy) || 1;
  ctx.beginPath();
  ctx.moveTo(at[0] + (dx / length) * 9, at[1] + (dy / length) * 9);
  ctx.lineTo(to[0], to[1]);
  ctx.lineWidth = selected ? 1 : 0.7;
  ctx.strokeStyle = selected ? colours.accl : colours.draw;
  ctx.stroke();
  ctx.beginPath();
  ctx.arc(to[0], to[1], 1.8, 0, 2 * Math.PI);
  ctx.fillStyle = selected ? colours.accl : colours.draw;
  ctx.fill();
  ctx.beginPath();
  ctx.arc(at[0], at[1], 9, 0, 2 * Math.PI);
  ctx.fillStyle = selected ? colours.wash : colours.paper;
  ctx.fill();
  ctx.lineWidth = selected ? 1.6 : 0.9;
  ctx.stroke();
  letter(ctx, String(number), at, { font: FONT.balloon, colour: colours.ink });
}

/** Brass frame with four handles. */
export function paintSelection(ctx: Ctx, box: Rect, colours: Tokens): void {
  const x = Math.round(box.x - 3.5) + 0.5;
  const y = Math.round(box.y - 3.5) + 0.5;
  const w = Math.round(box.w + 7);
  const h = Math.round(box.h + 7);
  ctx.setLineDash([]);
  ctx.lineWidth = 1.6;
  ctx.strokeStyle = colours.accl;
  ctx.strokeRect(x, y, w, h);
  for (const [cx, cy] of [
    [x, y],
    [x + w, y],
    [x, y + h],
    [x + w, y + h],
  ] as const) {
    ctx.fillStyle = colours.paper;
    ctx.fillRect(cx - 2.5, cy - 2.5, 5, 5);
    ctx.lineWidth = 1.2;
    ctx.strokeRect(cx - 2.5, cy - 2.5, 5, 5);
  }
}

export function paintHover(ctx: Ctx, box: Rect, colours: Tokens): void {
  ctx.setLineDash([]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = colours.accl;
  ctx.strokeRect(
    Math.round(box.x - 3) + 0.5,
    Math.round(box.y - 3) + 0.5,
    Math.round(box.w + 6),
    Math.round(box.h + 6),
  );
}

/** Heavy dash, arrow and letter of a section cut; the arrow points the way one looks. */
export function paintCutMark(
  ctx: Ctx,
  x: number,
  y: number,
  end: 'top' | 'bottom',
  colours: Tokens,
  active: boolean,
): void {
  const colour = active ? colours.accl : colours.draw;
  ctx.setLineDash([]);
  ctx.lineWidth = 2;
  ctx.strokeStyle = colour;
  ctx.beginPath();
  ctx.moveTo(x, y - 7);
  ctx.lineTo(x, y + 7);
  ctx.stroke();
  ctx.lineWidth = 1;
  ctx.beginPath();
  ctx.moveTo(x, y);
  ctx.lineTo(x + 12, y);
  ctx.stroke();
  ctx.beginPath();
  ctx.moveTo(x + 12, y);
  ctx.lineTo(x + 6, y - 2.5);
  ctx.lineTo(x + 6, y + 2.5);
  ctx.closePath();
  ctx.fillStyle = colour;
  ctx.fill();
  letter(ctx, 'A', [x - 8, y + (end === 'top' ? 0 : 0)], {
    font: FONT.strong,
    colour: active ? colours.accent : colours.ink,
    halo: colours.paper,
  });
}

/** A clip: a small arch over the run that it holds. */
export function paintClip(ctx: Ctx, [x, y]: Vec2, colours: Tokens, strong: boolean): void {
  const r = strong ? 6 : 4.5;
  const arch = () => {
    ctx.beginPath();
    ctx.moveTo(x - r, y + 4);
    ctx.arc(x, y, r, Math.PI, 0);
    ctx.lineTo(x + r, y + 4);
  };
  ctx.setLineDash([]);
  arch();
  ctx.lineWidth = strong ? 5 : 4;
  ctx.strokeStyle = colours.paper;
  ctx.stroke();
  arch();
  ctx.lineWidth = strong ? 2 : 1.3;
  ctx.strokeStyle = strong ? colours.accl : colours.draw;
  ctx.stroke();
  if (!strong) return;
  ctx.fillStyle = colours.paper;
  ctx.fillRect(x - 2.5, y - 2.5, 5, 5);
  ctx.lineWidth = 1.2;
  ctx.strokeRect(x - 2.5, y - 2.5, 5, 5);
}

/** A level or upright dimension between two points, with its text in the middle, or beside it when the gap is small. */
export function paintDimension(
  ctx: Ctx,
  a: Vec2,
  b: Vec2,
  text: string,
  colours: Tokens,
  { kind, level, way }: { readonly kind: 'plain' | 'touch' | 'through'; readonly level: boolean; readonly way: number },
  ground: string,
  within?: Rect,
): void {
  const length = level ? b[0] - a[0] : b[1] - a[1];
  const size = Math.abs(length);
  const line = kind === 'through' ? colours.bad : colours.accl;
  const colour = kind === 'through' ? colours.bad : colours.accent;
  ctx.setLineDash([]);
  ctx.lineWidth = 0.9;
  ctx.strokeStyle = line;
  ctx.fillStyle = line;
  const roomy = size >= 34;
  if (size >= 3) {
    const from = roomy ? 0 : -12;
    ctx.beginPath();
    move(ctx, a, level, from * way, 0, 'move');
    move(ctx, a, level, roomy ? length : length + 12 * way, 0, 'line');
    ctx.stroke();
    arrow(ctx, a, level, roomy ? way : -way);
    arrow(ctx, b, level, roomy ? -way : way);
  }
  const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const at: Vec2 = roomy ? middle : level ? [b[0] + way * 24, b[1]] : [b[0], b[1] + way * 18];
  letter(ctx, text, within ? heldIn(at, within) : at, { font: FONT.strong, colour, halo: ground });
}

/** A text whose place lies beyond the frame stays readable at its edge. */
const heldIn = ([x, y]: Vec2, r: Rect): Vec2 => [
  Math.min(r.x + r.w - 14, Math.max(r.x + 14, x)),
  Math.min(r.y + r.h - 9, Math.max(r.y + 9, y)),
];

function move(ctx: Ctx, [x, y]: Vec2, level: boolean, s: number, across: number, how: 'move' | 'line'): void {
  const px = level ? x + s : x + across;
  const py = level ? y + across : y + s;
  if (how === 'move') ctx.moveTo(px, py);
  else ctx.lineTo(px, py);
}

/** 7 px long, 18 degrees wide, tip on the point. */
function arrow(ctx: Ctx, tip: Vec2, level: boolean, way: number): void {
  const half = 7 * Math.tan((9 * Math.PI) / 180);
  ctx.beginPath();
  move(ctx, tip, level, 0, 0, 'move');
  move(ctx, tip, level, 7 * way, half, 'line');
  move(ctx, tip, level, 7 * way, -half, 'line');
  ctx.closePath();
  ctx.fill();
}

/** Brass line on a face that something snapped to, with a strip of hatching on its solid side. */
export function paintContact(ctx: Ctx, a: Vec2, b: Vec2, solid: Vec2, colours: Tokens): void {
  ctx.setLineDash([]);
  ctx.lineWidth = 1.6;
  ctx.strokeStyle = colours.accl;
  ctx.beginPath();
  ctx.moveTo(a[0], a[1]);
  ctx.lineTo(b[0], b[1]);
  ctx.stroke();
  const x0 = Math.min(a[0], b[0], a[0] + solid[0] * 7);
  const y0 = Math.min(a[1], b[1], a[1] + solid[1] * 7);
  const x1 = Math.max(a[0], b[0], a[0] + solid[0] * 7);
  const y1 = Math.max(a[1], b[1], a[1] + solid[1] * 7);
  hatchRect(ctx, { x: x0, y: y0, w: x1 - x0, h: y1 - y0 }, 4, colours.accl);
}
