import * as portable from '../../base/portable';
import { degrees, radians, type Vec2 } from '../../base/vec';
import type { Opening, Shape } from '../../boat/schema/boat';

/** Clear opening, metres. A round one is an ellipse: what passes is shown by the circle within it, what can't by the one around it. */
export type OpeningSize = Pick<Opening, 'widthM' | 'heightM' | 'shape'>;

/** Room behind an opening, measured from its plane, metres. */
export interface RoomBehind {
  /** Straight in, for the section that is to pass, where the opening leaves it most. */
  readonly depthM: number;
  /** Sideways from the middle: towards both sides of the width, then towards both sides of the height. */
  readonly sidesM?: readonly [number, number, number, number];
  /** Greatest distance between two points of the room. */
  readonly diagonalM?: number;
}

export type Passage =
  | {
      readonly outcome: 'passes';
      /** straight: along its own length; tilted: along its own length, but slanting to the opening's axis. */
      readonly how: 'straight' | 'tilted';
      /** Both sides that pass the opening could be greater by this; through a round one the diagonal of them. */
      readonly spareM: number;
      /** Sides in the plane of the opening, and the one along the way. */
      readonly leadingM: Vec2;
      readonly alongM: number;
      /** Turn of the longer leading side from the longer side of the opening. */
      readonly turnedDeg: number;
      readonly tiltDeg: number;
    }
  | {
      readonly outcome: 'cannot';
      /** side, diagonal: no turn of it passes the opening; length: the room behind is shorter than it in every direction. */
      readonly proof: 'side' | 'diagonal' | 'length';
      /** Negative: what is missing in the best position tried. */
      readonly spareM: number;
    }
  | {
      readonly outcome: 'cannotTell';
      /** Negative: what is missing for the best straight way through the opening; positive when only the room behind is short. */
      readonly spareM: number;
      /** Length that does not go in straight, 0 when the opening itself is what stops it. */
      readonly outsideM: number;
      readonly tried: readonly ('straight' | 'turnedInPlane' | 'tilted')[];
    };

interface Position {
  readonly leadingM: Vec2;
  readonly alongM: number;
  readonly spareM: number;
  readonly turnedDeg: number;
  /** Both leading sides are one diameter. */
  readonly isDisc: boolean;
}

/**
 * Whether a box or cylinder goes through an opening, in any of its positions and turned in the plane, straight or slanting.
 *
 * Passing is shown by a position; impossibility by theorems: at some moment the opening's plane holds the middle of the thing,
 * and any section there holds an ellipse at least as wide and long as its two smallest sides a <= b. That ellipse fits a
 * rectangle w <= h only if a <= w and a2 + b2 <= w2 + h2, and a circle only if b is no more than the diameter. Through the middle of a
 * box every section meets two opposite edges of four parallel ones, so it is at least as long as the diagonal of the two smallest sides:
 * through a circle a box goes straight or not at all. Between the two there is no answer: a thing that fits in no straight position may
 * still be wriggled in.
 */
export function passOpening(shape: Shape, opening: OpeningSize, room?: RoomBehind): Passage {
  const [a, b, c] = sortedSides(shape);
  const positions = positionsOf(shape, opening).sort((p, q) => q.spareM - p.spareM || p.alongM - q.alongM);
  const best = positions[0] as Position;
  const proof = proofAgainst(shape, a, b, opening);
  if (proof) return { outcome: 'cannot', proof, spareM: best.spareM };
  if (room?.diagonalM !== undefined && c > room.diagonalM)
    return { outcome: 'cannot', proof: 'length', spareM: room.diagonalM - c };

  const through = positions.filter((p) => p.spareM >= 0);
  if (through.length === 0)
    return { outcome: 'cannotTell', spareM: best.spareM, outsideM: 0, tried: ['straight', 'turnedInPlane'] };
  const straight = through.find((p) => room === undefined || p.alongM <= room.depthM);
  if (straight) {
    const { leadingM, alongM, spareM, turnedDeg } = straight;
    return { outcome: 'passes', how: 'straight', spareM, leadingM, alongM, turnedDeg, tiltDeg: 0 };
  }
  const tilted = through
    .flatMap((p) => tiltedWays(p, opening, room as RoomBehind))
    .sort((p, q) => q.spareM - p.spareM)[0];
  if (tilted) return tilted;
  const shortest = Math.min(...through.map((p) => p.alongM));
  return {
    outcome: 'cannotTell',
    spareM: best.spareM,
    outsideM: shortest - (room as RoomBehind).depthM,
    tried: ['straight', 'turnedInPlane', 'tilted'],
  };
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
    return { leadingM: [p, q], alongM, isDisc: false, ...fit };
  };
  if (shape.type === 'box') {
    const [x, y, z] = shape.sizeM;
    return [rectangle(x, y, z), rectangle(y, z, x), rectangle(z, x, y)];
  }
  const { diameterM: d, lengthM } = shape;
  const least = Math.min(opening.widthM, opening.heightM);
  return [
    { leadingM: [d, d], alongM: lengthM, spareM: least - d, turnedDeg: 0, isDisc: true },
    rectangle(d, lengthM, d),
  ];
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

/**
 * Ways in along the thing's own length but slanting, so far that its whole length is inside: the opening must be as high as
 * the slanting section is, the room as deep and as wide to one side as the slanting length is.
 */
function tiltedWays(
  position: Position,
  opening: OpeningSize,
  room: RoomBehind,
): Extract<Passage, { outcome: 'passes' }>[] {
  const sides = room.sidesM;
  if (!sides || opening.shape === 'round') return [];
  const { leadingM, alongM } = position;
  const planes = [
    { tilting: opening.widthM, other: opening.heightM, side: Math.max(sides[0], sides[1]) },
    { tilting: opening.heightM, other: opening.widthM, side: Math.max(sides[2], sides[3]) },
  ];
  return planes.flatMap((plane) =>
    ([leadingM, [leadingM[1], leadingM[0]]] as const).flatMap(([q, p]) => {
      const tilt = leastTilt(alongM, q, room.depthM);
      if (tilt === null) return [];
      const spareM = Math.min(plane.other - p, plane.tilting * portable.cos(tilt) - q);
      const reach = alongM * portable.sin(tilt) + (q / 2) * portable.cos(tilt);
      if (spareM < 0 || reach > plane.side) return [];
      return [
        {
          outcome: 'passes' as const,
          how: 'tilted' as const,
          spareM,
          leadingM,
          alongM,
          turnedDeg: 0,
          tiltDeg: degrees(tilt),
        },
      ];
    }),
  );
}

/** Least slant at which a rectangle of this length and thickness is no deeper than the room; null when none does. */
function leastTilt(length: number, thickness: number, depth: number): number | null {
  const deep = (t: number): number => length * portable.cos(t) + thickness * portable.sin(t);
  let low = portable.atan2(thickness, length);
  let high = radians(90);
  if (deep(high) > depth) return null;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (deep(middle) > depth) low = middle;
    else high = middle;
  }
  return high;
}
