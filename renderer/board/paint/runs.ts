import type { Vec2 } from '@core/base/vec';
import { beside } from '@core/output/views/curves';
import type { CrossingMark, RunStyle } from '@core/output/views/runs';
import { RUN_LETTER } from '@core/output/views/runs';
import type { Tokens } from '../../app/tokens';
import { type Transform, toScreen } from '../sheet';
import { type Ctx, FONT, hatchRect, letter } from './pen';

/** A run of one view on its way to the screen. */
export interface DrawnRun {
  readonly id: string;
  readonly style: RunStyle;
  readonly routed: boolean;
  readonly pieces: readonly (readonly Vec2[])[];
  readonly stopsAt: Vec2 | null;
}

const LETTER_EVERY = 240;
/** The wash under the run that is picked, pixels wide. */
const PICKED_HALO = 11;

const colourOf = (style: RunStyle, colours: Tokens): string =>
  style === 'fresh'
    ? colours.fresh
    : style === 'dc'
      ? colours.plus
      : style === 'signal' || style === 'gauge' || style === 'other'
        ? colours.draw
        : colours.sea;

const DASH: Readonly<Partial<Record<RunStyle, readonly number[]>>> = {
  brine: [9, 3.5, 1.5, 3.5],
  fresh: [13, 2.6],
  signal: [1, 3],
  other: [5, 2.5],
};

function path(ctx: Ctx, points: readonly Vec2[]): void {
  ctx.beginPath();
  for (const [i, [x, y]] of points.entries())
    if (i === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
}

function line(ctx: Ctx, points: readonly Vec2[], width: number, colour: string, dash: readonly number[] = []): void {
  path(ctx, points);
  ctx.lineWidth = width;
  ctx.strokeStyle = colour;
  ctx.setLineDash([...dash]);
  ctx.stroke();
}

/** All runs of a view: halos under each in turn, so that later runs pass over earlier ones and break them. */
export function paintRuns(
  ctx: Ctx,
  t: Transform,
  runs: readonly DrawnRun[],
  colours: Tokens,
  look: { readonly strong: (id: string) => boolean; readonly letters: boolean },
): void {
  ctx.lineJoin = 'round';
  ctx.lineCap = 'butt';
  for (const run of runs) {
    const strong = look.strong(run.id);
    for (const piece of run.pieces) {
      const points = piece.map((p) => toScreen(t, p));
      if (strong) line(ctx, points, PICKED_HALO, colours.wash);
      if (run.routed) paintPiece(ctx, points, run.style, strong, colours, look.letters);
      else paintMissing(ctx, points, run.stopsAt && toScreen(t, run.stopsAt), run.style, strong, colours);
    }
    if (!run.routed && run.stopsAt) cross(ctx, toScreen(t, run.stopsAt), colours);
  }
  ctx.lineJoin = 'miter';
}

function paintPiece(
  ctx: Ctx,
  points: readonly Vec2[],
  style: RunStyle,
  strong: boolean,
  colours: Tokens,
  letters: boolean,
): void {
  const colour = colourOf(style, colours);
  const width = strong ? 3 : 1.8;
  switch (style) {
    case 'dc': {
      const gap = strong ? 2.8 : 2.1;
      line(ctx, points, 2 * gap + 5, colours.paper);
      line(ctx, beside(points, gap), width, colour);
      const minus = beside(points, -gap);
      line(ctx, minus, strong ? 3.2 : 2.6, colours.draw);
      line(ctx, minus, strong ? 1.6 : 1.1, colours.paper);
      return;
    }
    case 'pressure':
      line(ctx, points, width + 6, colours.paper);
      line(ctx, points, strong ? 5.4 : 4.2, colour);
      line(ctx, points, strong ? 2.6 : 2, colours.paper);
      break;
    case 'signal':
    case 'gauge':
      line(ctx, points, 3, colours.paper);
      line(ctx, points, strong ? 1.8 : 1, colour, DASH[style]);
      return;
    default:
      line(ctx, points, width + 3, colours.paper);
      line(ctx, points, width, colour, DASH[style]);
  }
  const mark = RUN_LETTER[style];
  if (mark && letters)
    for (const at of letterPlaces(points)) {
      ctx.fillStyle = colours.paper;
      ctx.fillRect(at[0] - 5.5, at[1] - 6.5, 11, 13);
      letter(ctx, mark, at, { font: FONT.strong, colour });
    }
}

/** In the middle of the longest straight stretch, and again every 240 px; none on runs too short to be broken. */
export function letterPlaces(points: readonly Vec2[]): Vec2[] {
  let total = 0;
  let longest = 0;
  let middleAt = 0;
  const lengths: number[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const a = points[i] as Vec2;
    const b = points[i + 1] as Vec2;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length > longest) {
      longest = length;
      middleAt = total + length / 2;
    }
    lengths.push(length);
    total += length;
  }
  if (longest < 26) return [];
  const wanted: number[] = [middleAt];
  for (let s = middleAt + LETTER_EVERY; s < total - 20; s += LETTER_EVERY) wanted.push(s);
  for (let s = middleAt - LETTER_EVERY; s > 20; s -= LETTER_EVERY) wanted.push(s);
  return wanted.map((s) => alongPath(points, lengths, s));
}

function alongPath(points: readonly Vec2[], lengths: readonly number[], s: number): Vec2 {
  let rest = s;
  for (let i = 0; i < lengths.length; i++) {
    const length = lengths[i] as number;
    if (rest <= length) {
      const a = points[i] as Vec2;
      const b = points[i + 1] as Vec2;
      const t = length > 0 ? rest / length : 0;
      return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    }
    rest -= length;
  }
  return points[points.length - 1] as Vec2;
}

/** The wish up to the cross as a hair line of its content, and crimson dots from the cross on. */
function paintMissing(
  ctx: Ctx,
  all: readonly Vec2[],
  stop: Vec2 | null,
  style: RunStyle,
  strong: boolean,
  colours: Tokens,
): void {
  const at = stop ? all.findIndex(([x, y]) => Math.hypot(x - stop[0], y - stop[1]) < 0.5) : -1;
  const points = at > 0 && at < all.length - 1 ? all.slice(at) : all;
  if (points !== all) {
    line(ctx, all.slice(0, at + 1), 4, colours.paper);
    line(ctx, all.slice(0, at + 1), strong ? 1.8 : 1, colourOf(style, colours));
  }
  line(ctx, points, 4.5, colours.paper);
  ctx.lineCap = 'round';
  line(ctx, points, strong ? 2.8 : 1.9, colours.bad, [0.1, 4.6]);
  ctx.lineCap = 'butt';
}

function cross(ctx: Ctx, [x, y]: Vec2, colours: Tokens): void {
  for (const [width, colour] of [
    [5, colours.paper],
    [2.2, colours.bad],
  ] as const) {
    ctx.beginPath();
    ctx.moveTo(x - 4.5, y - 4.5);
    ctx.lineTo(x + 4.5, y + 4.5);
    ctx.moveTo(x - 4.5, y + 4.5);
    ctx.lineTo(x + 4.5, y - 4.5);
    ctx.setLineDash([]);
    ctx.lineWidth = width;
    ctx.strokeStyle = colour;
    ctx.stroke();
  }
}

/** Crossings: a piece of hatched panel with a ring, dashed where the hole is still to be drilled. */
export function paintCrossings(ctx: Ctx, t: Transform, marks: readonly CrossingMark[], colours: Tokens): void {
  for (const mark of marks) {
    const [x, y] = toScreen(t, mark.at);
    const r = Math.max(3, (mark.diameterM / 2) * t.scale);
    if (mark.edge && Math.abs(mark.edge[0] * mark.edge[1]) < 0.02) {
      const upright = Math.abs(mark.edge[1]) > 0.5;
      const long = r + 5;
      const rect = upright
        ? { x: x - 2, y: y - long, w: 4, h: 2 * long }
        : { x: x - long, y: y - 2, w: 2 * long, h: 4 };
      ctx.fillStyle = colours.paper;
      ctx.fillRect(rect.x, rect.y, rect.w, rect.h);
      hatchRect(ctx, rect, 3, colours.ink2);
    }
    ctx.beginPath();
    ctx.arc(x, y, r, 0, 2 * Math.PI);
    ctx.fillStyle = colours.paper;
    ctx.fill();
    ctx.setLineDash(mark.existing ? [] : [2, 2]);
    ctx.lineWidth = 1.1;
    ctx.strokeStyle = mark.existing ? colours.draw : colours.accl;
    ctx.stroke();
  }
}
