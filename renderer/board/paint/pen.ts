import type { Vec2 } from '@core/base/vec';
import { digits } from '@core/output/text/quantity-text';
import type { Area, Primitive, Role, Stroke } from '@core/output/views/drawing';
import type { TokenName, Tokens } from '../../app/tokens';
import type { Rect, Transform } from '../sheet';

export type Ctx = CanvasRenderingContext2D;

/** Thin, dash and colour of each role on screen. Weights do not grow with zoom. */
interface Style {
  readonly width: number;
  readonly colour: TokenName;
  readonly dash?: readonly number[];
  readonly fill?: TokenName;
}

export const STYLES: Readonly<Record<Role, Style>> = {
  hullOutline: { width: 1.7, colour: 'draw' },
  sheer: { width: 0.9, colour: 'draw' },
  innerSkin: { width: 0.9, colour: 'draw' },
  poche: { width: 0, colour: 'draw', fill: 'poche' },
  hullInside: { width: 0, colour: 'draw', fill: 'shade' },
  station: { width: 0.8, colour: 'line', dash: [1, 3] },
  centreLine: { width: 0.6, colour: 'ink3', dash: [14, 3, 2, 3] },
  waterline: { width: 1.2, colour: 'waterl' },
  waterlineHull: { width: 0.8, colour: 'waterl', dash: [3, 3] },
  heeledNear: { width: 1.2, colour: 'waterl', dash: [10, 3] },
  heeledFar: { width: 1, colour: 'waterl', dash: [3, 3] },
  sea: { width: 0, colour: 'waterl', fill: 'water' },
  compartment: { width: 0.8, colour: 'ink3' },
  compartmentCut: { width: 0.9, colour: 'draw' },
  panelCut: { width: 0.9, colour: 'draw' },
  opening: { width: 1, colour: 'accl', dash: [5, 3] },
  openingSwing: { width: 0.8, colour: 'accl', dash: [2, 3] },
  fixture: { width: 1.1, colour: 'draw', fill: 'shade' },
  part: { width: 1.1, colour: 'draw', fill: 'paper' },
  joinery: { width: 0.8, colour: 'ink3', fill: 'shade' },
  symbol: { width: 1, colour: 'draw' },
  symbolThin: { width: 0.7, colour: 'ink3' },
  symbolPlus: { width: 1.4, colour: 'plus' },
  symbolSolid: { width: 1.4, colour: 'draw' },
  sweep: { width: 0.8, colour: 'ink3', dash: [5, 3] },
  service: { width: 0.8, colour: 'ink2', dash: [5, 3] },
  run: { width: 1.8, colour: 'sea' },
  runCut: { width: 1.1, colour: 'draw', fill: 'paper' },
  runMissing: { width: 1.8, colour: 'bad', dash: [0.1, 4.4] },
  holeExisting: { width: 1.1, colour: 'draw' },
  holeNew: { width: 1.1, colour: 'accl', dash: [2, 2] },
  cutMark: { width: 1.6, colour: 'draw' },
  person: { width: 1.1, colour: 'draw', fill: 'paper' },
  personOver: { width: 0.9, colour: 'draw', dash: [4, 3] },
  personEye: { width: 0, colour: 'draw', fill: 'draw' },
  arm: { width: 1.2, colour: 'draw', fill: 'wash' },
  armLink: { width: 1.4, colour: 'accl', dash: [5, 3] },
  armJoint: { width: 1.2, colour: 'accl', fill: 'paper' },
  ray: { width: 0.8, colour: 'accl' },
  rayStopped: { width: 0.9, colour: 'bad' },
  sweptSpace: { width: 0.9, colour: 'accl', dash: [4, 3], fill: 'wash2' },
  dripWay: { width: 1.4, colour: 'sea', dash: [1.5, 3.5] },
};

/** Straight upright and level lines lie on the middle of a pixel, else they smear over two. */
const half = (v: number): number => Math.floor(v) + 0.5;

/** Adds a polyline to the current path. */
export function trace(ctx: Ctx, t: Transform, points: readonly Vec2[], closed: boolean): void {
  const n = points.length;
  if (n < 2) return;
  const few = n <= 12;
  for (let i = 0; i < n; i++) {
    const p = points[i] as Vec2;
    let x = t.x + p[0] * t.scale;
    let y = t.y - p[1] * t.scale;
    if (few) {
      const before = points[i - 1] ?? (closed ? points[n - 1] : undefined);
      const after = points[i + 1] ?? (closed ? points[0] : undefined);
      if ((before && Math.abs(before[0] - p[0]) < 1e-6) || (after && Math.abs(after[0] - p[0]) < 1e-6)) x = half(x);
      if ((before && Math.abs(before[1] - p[1]) < 1e-6) || (after && Math.abs(after[1] - p[1]) < 1e-6)) y = half(y);
    }
    if (i === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  }
  if (closed) ctx.closePath();
}

export function paintStroke(ctx: Ctx, t: Transform, s: Stroke, colours: Tokens, override?: Partial<Style>): void {
  const style = { ...STYLES[s.role], ...override };
  ctx.beginPath();
  trace(ctx, t, s.points, s.closed);
  ctx.lineWidth = style.width;
  ctx.strokeStyle = colours[style.colour];
  ctx.setLineDash(style.dash ? [...style.dash] : []);
  ctx.stroke();
}

export function paintArea(ctx: Ctx, t: Transform, a: Area, colours: Tokens, override?: Partial<Style>): void {
  const style = { ...STYLES[a.role], ...override };
  ctx.beginPath();
  for (const ring of a.rings) trace(ctx, t, ring, true);
  if (style.fill) {
    ctx.fillStyle = colours[style.fill];
    ctx.fill('evenodd');
  }
  if (style.width > 0) {
    ctx.lineWidth = style.width;
    ctx.strokeStyle = colours[style.colour];
    ctx.setLineDash(style.dash ? [...style.dash] : []);
    ctx.stroke();
  }
}

export const paintPrimitive = (
  ctx: Ctx,
  t: Transform,
  p: Primitive,
  colours: Tokens,
  override?: Partial<Style>,
): void => (p.kind === 'stroke' ? paintStroke(ctx, t, p, colours, override) : paintArea(ctx, t, p, colours, override));

/** Parallel strokes at 45 degrees over the current clip. */
export function hatch(ctx: Ctx, rect: Rect, spacing: number, colour: string, width = 0.8): void {
  ctx.beginPath();
  const start = Math.floor((rect.x - rect.h) / spacing) * spacing;
  for (let x = start; x < rect.x + rect.w; x += spacing) {
    ctx.moveTo(x, rect.y + rect.h);
    ctx.lineTo(x + rect.h, rect.y);
  }
  ctx.setLineDash([]);
  ctx.lineWidth = width;
  ctx.strokeStyle = colour;
  ctx.stroke();
}

export function hatchRect(ctx: Ctx, rect: Rect, spacing: number, colour: string): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(rect.x, rect.y, rect.w, rect.h);
  ctx.clip();
  hatch(ctx, rect, spacing, colour);
  ctx.restore();
}

export function inField(ctx: Ctx, field: Rect, paint: () => void): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(field.x, field.y, field.w, field.h);
  ctx.clip();
  paint();
  ctx.restore();
}

/** Fonts of the drawing. Sloped is a place, upright a thing. */
export const FONT = {
  place: 'italic 500 11px "Barlow Semi Condensed", sans-serif',
  drawing: '500 11px "Barlow Semi Condensed", sans-serif',
  strong: '600 11px "Barlow Semi Condensed", sans-serif',
  caption: '600 12px "Barlow Semi Condensed", sans-serif',
  zone: '400 10px "Barlow Semi Condensed", sans-serif',
  balloon: '600 11px "Barlow Semi Condensed", sans-serif',
} as const;

export interface Lettering {
  readonly font: string;
  readonly colour: string;
  /** Colour of the ground, for the halo; none without. */
  readonly halo?: string;
  readonly align?: CanvasTextAlign;
}

export function letter(ctx: Ctx, text: string, [x, y]: Vec2, { font, colour, halo, align }: Lettering): void {
  ctx.font = font;
  ctx.textAlign = align ?? 'center';
  ctx.textBaseline = 'middle';
  if (halo) {
    ctx.setLineDash([]);
    ctx.lineJoin = 'round';
    ctx.lineWidth = 3.5;
    ctx.strokeStyle = halo;
    ctx.strokeText(text, x, y + 0.5);
    ctx.lineJoin = 'miter';
  }
  ctx.fillStyle = colour;
  ctx.fillText(text, x, y + 0.5);
}

let measuring: CanvasRenderingContext2D | null = null;
const widths = new Map<string, number>();

/** Width of a word, pixels. Forgotten when fonts arrive. */
export function widthOf(text: string, font: string): number {
  const key = `${font}|${text}`;
  const known = widths.get(key);
  if (known !== undefined) return known;
  measuring ??= document.createElement('canvas').getContext('2d');
  if (!measuring) return text.length * 6;
  measuring.font = font;
  const width = measuring.measureText(text).width;
  widths.set(key, width);
  return width;
}
export const forgetWidths = (): void => widths.clear();

/** Millimetres as the drawing writes them. */
export const millimetres = (metres: number): string => digits(metres * 1000, 0);
