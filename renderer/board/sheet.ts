import type { Vec2, Vec3 } from '@core/base/vec';
import type { ViewName } from '@core/output/views/drawing';

/** The board as a drawing sheet: frames, zones, four fields, and where the boat lies on them. Pixels from the top left. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Paper to screen: right is u * scale + x, down is y - v * scale. */
export interface Transform {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

/** Bounds of all that a board shows, boat frame, metres. */
export interface Extent {
  readonly low: Vec3;
  readonly high: Vec3;
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly outer: Rect;
  readonly inner: Rect;
  readonly fields: Readonly<Record<ViewName | 'detail', Rect>>;
  /** Height of the ruler on the lower frame line. */
  readonly rulerY: number;
  readonly fit: Camera;
}

/** One camera for all three views: the boat point that lies at the middle of each field, so that the views stay aligned. */
export interface Camera {
  readonly scale: number;
  readonly at: Vec3;
}

/** Space about the outer frame line, and between it and the inner one: the zones stand there. Pixels. */
const FRAME_GAP = 5;
const ZONE_BAND = 12;
const CAPTION = 20;
const STATIONS = 20;
const RULER = 26;
const BALLOONS = 28;
const PAD = 28;
const GUTTER = 26;
export const ZONE_COLUMNS = 8;
export const ZONE_ROWS = ['A', 'B', 'C', 'D', 'E'] as const;

/** Outer and inner frame line of a board. */
export function framesOf(width: number, height: number): { readonly outer: Rect; readonly inner: Rect } {
  const inset = (gap: number): Rect => ({
    x: gap,
    y: gap,
    w: Math.max(1, width - 2 * gap),
    h: Math.max(1, height - 2 * gap),
  });
  return { outer: inset(FRAME_GAP), inner: inset(FRAME_GAP + ZONE_BAND) };
}

export function sheetOf(width: number, height: number, extent: Extent): Sheet {
  const { outer, inner } = framesOf(width, height);

  const length = extent.high[0] - extent.low[0];
  const breadth = extent.high[1] - extent.low[1];
  const tall = extent.high[2] - extent.low[2];
  const availableW = inner.w - 2 * PAD - GUTTER;
  const availableH = inner.h - STATIONS - 2 * CAPTION - RULER - 2 * BALLOONS;
  const scale = Math.max(4, Math.min(availableW / (length + breadth), availableH / (tall + breadth)));

  const spareW = Math.max(0, availableW - scale * (length + breadth));
  const spareH = Math.max(0, availableH - scale * (tall + breadth));
  // Half of what is left over goes to the right column: the detail grows with it.
  const rightW = scale * breadth + PAD + GUTTER / 2 + spareW * 0.5;
  const leftW = inner.w - rightW;
  const topH = STATIONS + CAPTION + scale * tall + BALLOONS / 2 + spareH * 0.45;
  const left = inner.x + leftW;
  const top = inner.y + topH;
  const bottomH = inner.h - topH - RULER;
  const fields = {
    profile: { x: inner.x, y: inner.y + STATIONS, w: leftW, h: topH - STATIONS },
    section: { x: left, y: inner.y + STATIONS, w: rightW, h: topH - STATIONS },
    plan: { x: inner.x, y: top, w: leftW, h: bottomH },
    detail: { x: left, y: top, w: rightW, h: bottomH },
  };
  const middle: Vec3 = [
    (extent.low[0] + extent.high[0]) / 2,
    (extent.low[1] + extent.high[1]) / 2,
    (extent.low[2] + extent.high[2]) / 2,
  ];
  return { width, height, outer, inner, fields, rulerY: inner.y + inner.h, fit: { scale, at: middle } };
}

/** The middle of what a field draws, below its caption. */
const middleOf = (field: Rect): Vec2 => [field.x + field.w / 2, field.y + CAPTION / 2 + field.h / 2];

export function transformOf(sheet: Sheet, camera: Camera, view: ViewName): Transform {
  const { fields } = sheet;
  const [acrossX] = middleOf(fields.profile);
  const [, profileY] = middleOf(fields.profile);
  const [, planY] = middleOf(fields.plan);
  const [sectionX] = middleOf(fields.section);
  const { scale, at } = camera;
  switch (view) {
    case 'profile':
      return { scale, x: acrossX - at[0] * scale, y: profileY + at[2] * scale };
    case 'plan':
      return { scale, x: acrossX - at[0] * scale, y: planY + at[1] * scale };
    case 'section':
      // Paper's right is starboard: u = -y.
      return { scale, x: sectionX + at[1] * scale, y: profileY + at[2] * scale };
  }
}

export const toScreen = (t: Transform, [u, v]: Vec2): Vec2 => [t.x + u * t.scale, t.y - v * t.scale];
export const toPaper = (t: Transform, [x, y]: Vec2): Vec2 => [(x - t.x) / t.scale, (t.y - y) / t.scale];

export const within = (r: Rect, [x, y]: Vec2): boolean => x >= r.x && x <= r.x + r.w && y >= r.y && y <= r.y + r.h;

/** The field under a point of the screen. */
export function fieldAt(sheet: Sheet, point: Vec2): ViewName | 'detail' | null {
  for (const name of ['profile', 'section', 'plan', 'detail'] as const)
    if (within(sheet.fields[name], point)) return name;
  return null;
}

/** Zone of the sheet, columns 1 to 8 from the left, rows A to E from the top (ISO 5457): `B3`. */
export function zoneAt(sheet: Sheet, [x, y]: Vec2): string {
  const { inner } = sheet;
  const share = (value: number, from: number, size: number, count: number) =>
    Math.min(count - 1, Math.max(0, Math.floor(((value - from) / size) * count)));
  const column = share(x, inner.x, inner.w, ZONE_COLUMNS) + 1;
  const row = ZONE_ROWS[share(y, inner.y, inner.h, ZONE_ROWS.length)] ?? 'A';
  return `${row}${column}`;
}

/** CSS pixels in a metre of real paper at 96 to the inch: what `1 : n` is counted from. */
const PIXELS_PER_PAPER_METRE = 96 / 0.0254;
export const pixelsPerMetreOf = (ratio: number): number => PIXELS_PER_PAPER_METRE / ratio;
