import * as portable from '../../base/portable';
import { degrees } from '../../base/vec';
import type { Opening, Shape } from '../../boat/schema/boat';

/** Clear opening, metres. A round one is an ellipse: what passes is shown by the circle within it, what can't by the one around it. */
export type OpeningSize = Pick<Opening, 'widthM' | 'heightM' | 'shape'>;

export type Passage =
  | {
      readonly outcome: 'passes';
      /** Both sides that pass the opening could be greater by this; through a round one the diagonal of them. */
      readonly spareM: number;
      /** Turn of the longer side in the plane of the opening from the longer side of the opening. */
      readonly turnedDeg: number;
    }
  | {
      readonly outcome: 'cannot';
      /** No turn of it passes the opening. */
      readonly proof: 'side' | 'diagonal';
      /** Negative: what is missing in the best position tried. */
      readonly spareM: number;
    }
  | {
      readonly outcome: 'cannotTell';
      /** Negative: what is missing for the best straight way through the opening. */
      readonly spareM: number;
    };

interface Position {
  readonly alongM: number;
  readonly spareM: number;
  readonly turnedDeg: number;
}

/**
 * Whether a box or cylinder goes straight through an opening, in any of its positions and turned in the plane.
 *
 * Passing is shown by a position; impossibility by theorems: at some moment the opening's plane holds the middle of the thing,
 * and any section there holds an ellipse at least as wide and long as its two smallest sides a <= b. That ellipse fits a
 * rectangle w <= h only if a <= w and a2 + b2 <= w2 + h2, and a circle only if b is no more than the diameter. Through the middle of a
 * box every section meets two opposite edges of four parallel ones, so it is at least as long as the diagonal of the two smallest sides:
 * through a circle a box goes straight or not at all. Between the two there is no answer: a thing that fits in no straight position may
 * still be wriggled in.
 */
export function passOpening(shape: Shape, opening: OpeningSize): Passage {
  const [a, b] = sortedSides(shape);
  const positions = positionsOf(shape, opening).sort((p, q) => q.spareM - p.spareM || p.alongM - q.alongM);
  const { spareM, turnedDeg } = positions[0] as Position;
  const proof = proofAgainst(shape, a, b, opening);
  if (proof) return { outcome: 'cannot', proof, spareM };
  return spareM >= 0 ? { outcome: 'passes', spareM, turnedDeg } : { outcome: 'cannotTell', spareM };
}

/** Sizes are entered in whole millimetres: what is alike but for rounding passes. */
const SAME_M = 1e-9;

function sortedSides(shape: Shape): readonly [number, number, number] {
  const sides = shape.type === 'box' ? [...shape.sizeM] : [shape.diameterM, shape.diameterM, shape.lengthM];
  sides.sort((p, q) => p - q);
  return sides as [number, number, number];
}

function positionsOf(shape: Shape, opening: OpeningSize): Position[] {
  const rectangle = (p: number, q: number, alongM: number): Position => {
    const fit = rectangleFit(p, q, opening);
    return { alongM, ...fit };
  };
  if (shape.type === 'box') {
    const [x, y, z] = shape.sizeM;
    return [rectangle(x, y, z), rectangle(y, z, x), rectangle(z, x, y)];
  }
  const { diameterM: d, lengthM } = shape;
  const least = Math.min(opening.widthM, opening.heightM);
  return [{ alongM: lengthM, spareM: least - d, turnedDeg: 0 }, rectangle(d, lengthM, d)];
}

function proofAgainst(shape: Shape, a: number, b: number, opening: OpeningSize): 'side' | 'diagonal' | null {
  if (opening.shape === 'round') {
    const aroundM = Math.max(opening.widthM, opening.heightM);
    if (b > aroundM) return 'side';
    return shape.type === 'box' && portable.hypot(a, b) > aroundM + SAME_M ? 'diagonal' : null;
  }
  const { widthM, heightM } = opening;
  if (a > Math.min(widthM, heightM)) return 'side';
  return a * a + b * b > widthM * widthM + heightM * heightM ? 'diagonal' : null;
}

/** How much both sides of a rectangle may grow and still pass, and its turn; negative when it must shrink. */
function rectangleFit(p: number, q: number, opening: OpeningSize): { spareM: number; turnedDeg: number } {
  if (opening.shape === 'round') {
    return { spareM: Math.min(opening.widthM, opening.heightM) - portable.hypot(p, q), turnedDeg: 0 };
  }
  const long = Math.max(opening.widthM, opening.heightM);
  const short = Math.min(opening.widthM, opening.heightM);
  const [longer, shorter] = [Math.max(p, q), Math.min(p, q)];
  const upright = Math.min(long - longer, short - shorter);
  // Turning helps only a rectangle that is longer than the opening; growth that still passes is found by halving.
  let low = Math.max(upright, -shorter);
  let high = short - shorter;
  if (high <= low || !rectangleInRectangle(longer + low, shorter + low, long, short))
    return { spareM: upright, turnedDeg: 0 };
  while (high - low > 1e-7) {
    const middle = (low + high) / 2;
    if (rectangleInRectangle(longer + middle, shorter + middle, long, short)) low = middle;
    else high = middle;
  }
  if (low - upright < 1e-6) return { spareM: upright, turnedDeg: 0 };
  return { spareM: low, turnedDeg: turnThatFits(longer + low, shorter + low, long) };
}

/**
 * A rectangle p >= q fits a rectangle a >= b if p <= a and q <= b, or turned if p > a, q <= b and
 * b >= (2 p q a + (p2 - q2) sqrt(p2 + q2 - a2)) / (p2 + q2).
 * Carver, American Mathematical Monthly 64 (1957), 114; Wetzel, Mathematics Magazine 73 (2000), 204 (quoted, not read).
 */
export function rectangleInRectangle(p: number, q: number, a: number, b: number): boolean {
  if (p <= a) return q <= b;
  if (q > b) return false;
  const squares = p * p + q * q;
  return b >= (2 * p * q * a + (p * p - q * q) * Math.sqrt(Math.max(0, squares - a * a))) / squares;
}

/** Turn at which the rectangle p >= q, grown until it sticks, touches the opening's long side: p cos t + q sin t = a. */
const turnThatFits = (p: number, q: number, a: number): number =>
  degrees(portable.atan2(q, p) + portable.acos(Math.min(1, a / portable.hypot(p, q))));
