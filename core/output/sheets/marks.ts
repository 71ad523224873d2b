import * as portable from '../../base/portable';
import type { Vec2 } from '../../base/vec';
import { chordsFor } from '../views/curves';

/**
 * What is printed: marks in millimetres of paper, x to the right and y down from the upper left corner, as on a screen.
 * A sheet is true to scale whatever draws it.
 */
export interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly Mark[];
}

/** Colour stands for contents and findings alone; letters and dashes carry it in grey. */
export type Ink = 'ink' | 'second' | 'paper' | 'tint' | 'sea' | 'fresh' | 'bad' | 'accent';

/** Upright for things, sloped for places; `strong` for headings. */
export type Face = 'plain' | 'strong' | 'place';

export type Mark = LineMark | AreaMark | TextMark;

export interface LineMark {
  readonly kind: 'line';
  readonly points: readonly Vec2[];
  readonly closed: boolean;
  readonly widthMm: number;
  /** Lengths of dashes and gaps in turn, millimetres; empty is solid. */
  readonly dashMm: readonly number[];
  readonly ink: Ink;
}

/** Filled by the even-odd rule. */
export interface AreaMark {
  readonly kind: 'area';
  readonly rings: readonly (readonly Vec2[])[];
  readonly ink: Ink;
}

export interface TextMark {
  readonly kind: 'text';
  readonly words: string;
  /** Point on the base line at which the words start, are centred or end. */
  readonly at: Vec2;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Height of capitals, the nominal size of ISO 3098, millimetres. */
  readonly sizeMm: number;
  readonly face: Face;
  readonly ink: Ink;
  /** Degrees clockwise about `at`; words that go along an upright line have -90. */
  readonly turnDeg: number;
  /** Lays a white box under the words: halos turn into odd fonts on paper. */
  readonly boxed: boolean;
}

/** Least height of capitals that is printed, millimetres: readable at arm's length in a locker. */
const LEAST_TEXT_MM = 2.5;

/** Heights of capitals, millimetres, from the series of ISO 3098 (quoted, not read). */
export const TEXT = { body: 2.5, heading: 3.5, title: 5, large: 7 } as const;

/** Line widths, millimetres. */
export const WIDTH = { frame: 0.7, outline: 0.5, wall: 0.35, joinery: 0.25, dimension: 0.18, hair: 0.13 } as const;

export const DASH = { fold: [4, 1.6], hidden: [2, 1.2], centre: [8, 1.6, 1.2, 1.6], dots: [0.4, 1.2] } as const;

interface LineOptions {
  readonly widthMm?: number;
  readonly dashMm?: readonly number[];
  readonly ink?: Ink;
}

export const line = (points: readonly Vec2[], options: LineOptions = {}): LineMark => ({
  kind: 'line',
  points,
  closed: false,
  widthMm: options.widthMm ?? WIDTH.wall,
  dashMm: options.dashMm ?? [],
  ink: options.ink ?? 'ink',
});

export const outline = (points: readonly Vec2[], options: LineOptions = {}): LineMark => ({
  ...line(points, options),
  closed: true,
});

export const rectangle = (x: number, y: number, widthMm: number, heightMm: number): Vec2[] => [
  [x, y],
  [x + widthMm, y],
  [x + widthMm, y + heightMm],
  [x, y + heightMm],
];

/** Furthest that a drawn chord leaves its arc on paper, millimetres: a tenth of the thinnest line. */
const ROUNDNESS_MM = 0.013;

/** Points of an arc from one angle to another, degrees clockwise on paper from the x direction. */
export function arc(centre: Vec2, radiusMm: number, fromDeg: number, toDeg: number): Vec2[] {
  const sweep = ((toDeg - fromDeg) * Math.PI) / 180;
  const n = chordsFor(radiusMm, Math.abs(sweep), ROUNDNESS_MM);
  return Array.from({ length: n + 1 }, (_, i): Vec2 => {
    const t = (fromDeg * Math.PI) / 180 + (sweep * i) / n;
    return [centre[0] + radiusMm * portable.cos(t), centre[1] + radiusMm * portable.sin(t)];
  });
}

/** A circle as a ring; its first point is not said twice. */
export const circle = (centre: Vec2, radiusMm: number): Vec2[] => arc(centre, radiusMm, 0, 360).slice(0, -1);

const HEAD_MM = 3.5;
const HEAD_HALF_ANGLE = Math.PI / 10;

/** An arrow from a point along a unit direction. */
export function arrow([x, y]: Vec2, [dx, dy]: Vec2, lengthMm: number): Mark[] {
  const tip: Vec2 = [x + dx * lengthMm, y + dy * lengthMm];
  const wing = (sign: number): Vec2 => {
    const c = portable.cos(HEAD_HALF_ANGLE);
    const s = portable.sin(HEAD_HALF_ANGLE) * sign;
    return [tip[0] - HEAD_MM * (dx * c - dy * s), tip[1] - HEAD_MM * (dx * s + dy * c)];
  };
  return [
    line([[x, y], tip], { widthMm: WIDTH.dimension }),
    line([wing(1), tip, wing(-1)], { widthMm: WIDTH.joinery }),
  ];
}

export const area = (rings: readonly (readonly Vec2[])[], ink: Ink = 'ink'): AreaMark => ({ kind: 'area', rings, ink });

export interface TextOptions {
  readonly anchor?: TextMark['anchor'];
  readonly sizeMm?: number;
  readonly face?: Face;
  readonly ink?: Ink;
  readonly turnDeg?: number;
  readonly boxed?: boolean;
}

export function text(words: string, at: Vec2, options: TextOptions = {}): TextMark {
  const sizeMm = options.sizeMm ?? TEXT.body;
  if (sizeMm < LEAST_TEXT_MM)
    throw new Error(`text: expected at least ${LEAST_TEXT_MM} mm, got ${sizeMm} ("${words}")`);
  return {
    kind: 'text',
    words,
    at,
    anchor: options.anchor ?? 'start',
    sizeMm,
    face: options.face ?? 'plain',
    ink: options.ink ?? 'ink',
    turnDeg: options.turnDeg ?? 0,
    boxed: options.boxed ?? false,
  };
}

/** What fits words to room: the true widths of the letters, millimetres. */
export interface Lettering {
  width(words: string, sizeMm: number, face?: Face): number;
}

/** Kerning about a blank moves a line by less than this share of its width: beyond it the sum of the words decides. */
const KERNED_SHARE = 0.02;

/** Words broken into lines no wider than `roomMm`; a single longer word is cut. */
export function wrapped(
  words: string,
  roomMm: number,
  lettering: Lettering,
  sizeMm: number = TEXT.body,
  face: Face = 'plain',
): string[] {
  const lines: string[] = [];
  const width = (said: string): number => lettering.width(said, sizeMm, face);
  const blankMm = width('n n') - width('nn');
  let open = '';
  let openMm = 0;
  for (const whole of words.split(/\s+/).filter((w) => w !== '')) {
    const word = shortened(whole, roomMm, lettering, sizeMm, face);
    const longer = open === '' ? word : `${open} ${word}`;
    // Words come again and again, lines do not, and measuring is slow: a line is measured where it is close.
    let longerMm = open === '' ? width(word) : openMm + blankMm + width(word);
    if (open !== '' && Math.abs(longerMm - roomMm) < KERNED_SHARE * roomMm) longerMm = width(longer);
    if (open !== '' && longerMm > roomMm) {
      lines.push(open);
      open = word;
      openMm = width(word);
    } else {
      open = longer;
      openMm = longerMm;
    }
  }
  if (open !== '') lines.push(open);
  return lines;
}

/** Words cut to `roomMm` with three dots, for fields of one line. */
export function shortened(
  words: string,
  roomMm: number,
  lettering: Lettering,
  sizeMm: number = TEXT.body,
  face: Face = 'plain',
): string {
  if (lettering.width(words, sizeMm, face) <= roomMm) return words;
  const letters = [...words];
  const cut = (count: number): string => `${letters.slice(0, count).join('').trimEnd()}...`;
  // The longest beginning that fits, by halving.
  let fits = 1;
  let tooLong = letters.length;
  while (tooLong - fits > 1) {
    const middle = (fits + tooLong) >> 1;
    if (lettering.width(cut(middle), sizeMm, face) <= roomMm) fits = middle;
    else tooLong = middle;
  }
  return cut(fits);
}

/** The ink colours of paper, as #rrggbb: light tokens with ink black and paper white. */
export const INK_COLOURS: Readonly<Record<Ink, string>> = {
  ink: '#000000',
  second: '#3F5159',
  paper: '#FFFFFF',
  tint: '#E4E9E7',
  sea: '#0A7650',
  fresh: '#1560B4',
  bad: '#A3123F',
  accent: '#855400',
};
