import type { Vec2, Vec3 } from '@core/base/vec';
import { FRAMES, project, type ViewName } from '@core/output/views/drawing';
import { type Camera, type Extent, framesOf, type Rect, type Sheet, type Transform } from '../sheet';

/** Paper between frame and fields, between fields, and about the scene in each, pixels. */
const EDGE = 12;
const GUTTER = 16;
const CAPTION = 20;
const PAD = 14;
/** The fourth field needs no scale, but room for its words. */
const EYE_H = 96;
/** Columns and rows take their share by the scene, within these. */
const LEAST_SHARE = 0.34;
const MOST_SHARE = 0.66;
/** Plan under profile is given up where a row of three shows the scene so much larger. */
const MUCH_LARGER = 1.15;

type Fields = Sheet['fields'];

/**
 * The sheet of a rehearsal: profile and section side by side, all of the scene in each and to one scale. The plan lies under the profile,
 * or, since people are taller than boats are wide, beside the section, with what the eye sees below it.
 */
export function rehearsalSheet(width: number, height: number, extent: Extent): Sheet {
  const { outer, inner } = framesOf(width, height);
  const size = sizeOf(extent);
  const paper = {
    x: inner.x + EDGE,
    y: inner.y + EDGE / 2,
    w: inner.w - 2 * EDGE,
    h: inner.h - (3 * EDGE) / 2,
  };
  const [square, row] = [inSquare(paper, size), inRow(paper, size)];
  const fields = scaleIn(row, size) > MUCH_LARGER * scaleIn(square, size) ? row : square;
  const at: Vec3 = [
    (extent.low[0] + extent.high[0]) / 2,
    (extent.low[1] + extent.high[1]) / 2,
    (extent.low[2] + extent.high[2]) / 2,
  ];
  return { width, height, outer, inner, fields, rulerY: inner.y + inner.h, fit: { scale: scaleIn(fields, size), at } };
}

/** Two by two, as on the board. */
function inSquare({ x, y, w, h }: Rect, [dx, dy, dz]: Vec3): Fields {
  const leftW = (w - GUTTER) * share(dx, dy);
  const topH = (h - GUTTER / 2) * share(dz, dy);
  const right = { x: x + leftW + GUTTER, w: w - GUTTER - leftW };
  const below = { y: y + topH + GUTTER / 2, h: h - GUTTER / 2 - topH };
  return {
    profile: { x, y, w: leftW, h: topH },
    section: { ...right, y, h: topH },
    plan: { x, w: leftW, ...below },
    detail: { ...right, ...below },
  };
}

/** Three columns; the third has the plan and below it what the eye sees. */
function inRow({ x, y, w, h }: Rect, [dx, dy]: Vec3): Fields {
  const free = w - 2 * GUTTER - 6 * PAD;
  const of = (part: number): number => 2 * PAD + (free * part) / (2 * dx + dy);
  const [profileW, sectionW] = [of(dx), of(dy)];
  const x2 = x + profileW + GUTTER;
  const x3 = x2 + sectionW + GUTTER;
  const third = { x: x3, w: of(dx) };
  const eyeH = CAPTION + EYE_H;
  return {
    profile: { x, y, w: profileW, h },
    section: { x: x2, y, w: sectionW, h },
    plan: { ...third, y, h: h - eyeH - GUTTER / 2 },
    detail: { ...third, y: y + h - eyeH, h: eyeH },
  };
}

/** Pixels a metre at which the scene fits every field. */
function scaleIn({ profile, section, plan }: Fields, [dx, dy, dz]: Vec3): number {
  const inside = (size: number): number => Math.max(20, size - 2 * PAD);
  const [a, b, c] = [boxIn(profile), boxIn(section), boxIn(plan)];
  return Math.max(
    4,
    Math.min(
      inside(a.w) / dx,
      inside(a.h) / dz,
      inside(b.w) / dy,
      inside(b.h) / dz,
      inside(c.w) / dx,
      inside(c.h) / dy,
    ),
  );
}

const LEAST_SIZE_M = 0.4;
const sizeOf = ({ low, high }: Extent): Vec3 => [
  Math.max(LEAST_SIZE_M, high[0] - low[0]),
  Math.max(LEAST_SIZE_M, high[1] - low[1]),
  Math.max(LEAST_SIZE_M, high[2] - low[2]),
];
const share = (a: number, b: number): number => Math.min(MOST_SHARE, Math.max(LEAST_SHARE, a / (a + b)));

/** Frame of a field, below its caption. */
export const boxIn = ({ x, y, w, h }: Rect): Rect => ({ x, y: y + CAPTION, w, h: Math.max(20, h - CAPTION) });

/** The place that the camera looks at lies in the middle of each field. */
export function transformIn(sheet: Sheet, { scale, at }: Camera, name: ViewName): Transform {
  const { x, y, w, h } = boxIn(sheet.fields[name]);
  const [u, v]: Vec2 = project(FRAMES[name], at);
  return { scale, x: x + w / 2 - u * scale, y: y + h / 2 + v * scale };
}
