import type { Vec2 } from '@core/base/vec';
import { type BodyPlanLine, bodyPlanExtent } from '@core/output/views/lines-plan';
import { framesOf, type Rect, type Transform } from '../board/sheet';

/** The sheet of the section board: where its fields lie, and how paper lies in them. Pixels from the top left. */
export interface SectionSheet {
  readonly outer: Rect;
  readonly inner: Rect;
  readonly body: Rect;
  /** Right column: the table of the active station above, the curve of areas below. */
  readonly column: Rect;
  readonly areas: Rect;
  readonly profile: Rect;
  readonly plan: Rect;
}

/** The camera of the body plan: the paper point in the middle of its field. */
export interface BodyCamera {
  readonly scale: number;
  readonly at: Vec2;
}

const COLUMN = 256;
const AREAS = 118;
const STRIP_SHARE = 0.27;
const LEAST_STRIP = 116;
const MOST_STRIP = 210;
/** Room for captions and for the scales on two sides. */
const LEFT = 46;
const TOP = 34;
const RIGHT = 34;
const BOTTOM = 30;

export function sectionSheetOf(width: number, height: number): SectionSheet {
  const { outer, inner } = framesOf(width, height);
  const strip = Math.min(MOST_STRIP, Math.max(LEAST_STRIP, inner.h * STRIP_SHARE));
  const top = inner.h - strip;
  const column = { x: inner.x + inner.w - COLUMN, y: inner.y, w: COLUMN, h: top };
  const split = inner.w * 0.5;
  return {
    outer,
    inner,
    body: { x: inner.x, y: inner.y, w: inner.w - COLUMN, h: top },
    column,
    areas: { x: column.x, y: column.y + column.h - AREAS, w: column.w, h: AREAS },
    profile: { x: inner.x, y: inner.y + top, w: split, h: strip },
    plan: { x: inner.x + split, y: inner.y + top, w: inner.w - split, h: strip },
  };
}

/** The whole body plan in its field. */
export function fittedBody(field: Rect, lines: readonly BodyPlanLine[]): BodyCamera {
  const { lowM, highM, halfBreadthM } = bodyPlanExtent(lines);
  const scale = Math.max(
    10,
    Math.min((field.w - LEFT - RIGHT) / (2.12 * halfBreadthM), (field.h - TOP - BOTTOM) / (1.04 * (highM - lowM))),
  );
  return { scale, at: [0, (lowM + highM) / 2] };
}

export const bodyTransform = (field: Rect, { scale, at }: BodyCamera): Transform => ({
  scale,
  x: field.x + LEFT + (field.w - LEFT - RIGHT) / 2 - at[0] * scale,
  y: field.y + TOP + (field.h - TOP - BOTTOM) / 2 + at[1] * scale,
});

/** Something long and low in a strip: whole, with room for its caption. */
export function stripTransform(field: Rect, low: Vec2, high: Vec2): Transform {
  const width = Math.max(0.1, high[0] - low[0]);
  const tall = Math.max(0.1, high[1] - low[1]);
  const scale = Math.min((field.w - 40) / width, (field.h - 46) / tall);
  const middle: Vec2 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  return {
    scale,
    x: field.x + field.w / 2 - middle[0] * scale,
    y: field.y + 24 + (field.h - 38) / 2 + middle[1] * scale,
  };
}

/** Where a point of a station is on the paper of the body plan: aft stations to the left. */
export const onBodyPlan = (end: BodyPlanLine['end'], [y, z]: Vec2): Vec2 => [end === 'aft' ? -y : y, z];

/** A step of the arrow keys on the body plan, as [half-breadth, height]: right is outwards only in the forward half. */
export function nudgeOnBodyPlan(key: string, fine: boolean, end: BodyPlanLine['end']): Vec2 | null {
  const size = fine ? 0.001 : 0.01;
  const outwards = end === 'aft' ? -size : size;
  switch (key) {
    case 'ArrowRight':
      return [outwards, 0];
    case 'ArrowLeft':
      return [-outwards, 0];
    case 'ArrowUp':
      return [0, size];
    case 'ArrowDown':
      return [0, -size];
    default:
      return null;
  }
}
