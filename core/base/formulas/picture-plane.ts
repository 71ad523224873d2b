import { Matrix, solve } from 'ml-matrix';
import * as portable from '../portable';
import type { Vec2 } from '../vec';

/**
 * From the pixels of a picture to a plane of the boat, through marks whose place in that plane is known.
 *
 * Pixels are [right, down], places [right, up] in metres. The map is p = (h11 x + h12 y + h13, h21 x + h22 y + h23) /
 * (h31 x + h32 y + h33), with as many freedoms as the marks settle:
 *   two marks    a similarity: one scale and one turn. Of the two that fit (turned, or turned and mirrored) the one is taken in
 *                which up in the picture is up in the boat: a profile may show the bow on the left.
 *   three marks  an affinity: the picture may be skewed or stretched, h31 = h32 = 0.
 *   four marks   a homography: what a camera makes of a plane that it looks at aslant (all eight). Two equations a mark,
 *                x h11 + y h12 + h13 - u x h31 - u y h32 = u and likewise for v, are solved as they stand.
 * Source: projective geometry of a plane, derived here. It leaves out the bend of a wide lens.
 */
export interface PictureMark {
  readonly pixel: Vec2;
  /** Where it is in the plane, metres. */
  readonly place: Vec2;
}

export interface PicturePlane {
  /** Place of a pixel, metres; null on the horizon of the plane and beyond it. */
  toPlace(pixel: Vec2): Vec2 | null;
  toPixel(place: Vec2): Vec2 | null;
  /** Metres that one pixel covers at the middle of the marks. */
  readonly metresPerPixel: number;
}

export type PicturePlaneProblem =
  | { readonly kind: 'tooFew' }
  /** Marks, counted from 0, that are the same pixel or the same place. */
  | { readonly kind: 'samePixel' | 'samePlace'; readonly marks: readonly [number, number] }
  /** Three marks in one line cannot straighten. */
  | { readonly kind: 'inLine'; readonly marks: readonly [number, number, number] }
  /** The sides between the four marks cross, or turn in another way than in the boat. */
  | { readonly kind: 'crossing' };

export type PicturePlaneFound =
  | { readonly ok: true; readonly plane: PicturePlane }
  | { readonly ok: false; readonly problem: PicturePlaneProblem };

/** Marks nearer than this are one: no hand clicks better. */
const SAME_PIXEL = 4;
const SAME_PLACE_M = 0.001;
/** Sine of the least angle in a triangle of marks. */
const LEAST_ANGLE = 0.03;

/** Rows of the map; scaled so that the last row is positive where the marks are: negative is beyond the horizon. */
type Coefficients = readonly [number, number, number, number, number, number, number, number, number];

/** The map through two, three or four marks; of more the first four count. */
export function picturePlane(all: readonly PictureMark[]): PicturePlaneFound {
  const marks = all.slice(0, 4);
  const problem = problemOf(marks);
  if (problem) return { ok: false, problem };
  const h = marks.length === 2 ? similarity(marks) : marks.length === 3 ? affinity(marks) : homography(marks);
  const back = inverted(h, marks);
  const middle: Vec2 = [mean(marks.map(({ pixel }) => pixel[0])), mean(marks.map(({ pixel }) => pixel[1]))];
  const here = mapped(h, middle);
  const beside = mapped(h, [middle[0] + 1, middle[1]]);
  return {
    ok: true,
    plane: {
      toPlace: (pixel) => mapped(h, pixel),
      toPixel: (place) => mapped(back, place),
      metresPerPixel: here && beside ? portable.hypot(beside[0] - here[0], beside[1] - here[1]) : 0,
    },
  };
}

function problemOf(marks: readonly PictureMark[]): PicturePlaneProblem | null {
  if (marks.length < 2) return { kind: 'tooFew' };
  for (let i = 0; i < marks.length; i += 1)
    for (let j = i + 1; j < marks.length; j += 1) {
      const [a, b] = [marks[i] as PictureMark, marks[j] as PictureMark];
      if (apart(a.pixel, b.pixel) < SAME_PIXEL) return { kind: 'samePixel', marks: [i, j] };
      if (apart(a.place, b.place) < SAME_PLACE_M) return { kind: 'samePlace', marks: [i, j] };
    }
  const triples = marks.length === 3 ? [[0, 1, 2] as const] : marks.length === 4 ? TRIPLES : [];
  for (const triple of triples) {
    const own = triple.map((i) => marks[i] as PictureMark);
    const [a, b, c] = own as [PictureMark, PictureMark, PictureMark];
    if (
      Math.abs(bend(a.pixel, b.pixel, c.pixel)) < LEAST_ANGLE ||
      Math.abs(bend(a.place, b.place, c.place)) < LEAST_ANGLE
    )
      return { kind: 'inLine', marks: [...triple] as [number, number, number] };
  }
  if (marks.length === 4) {
    // A camera in front of the plane keeps the sense of every triangle, or turns all of them when the picture is mirrored.
    const senses = TRIPLES.map(([i, j, k]) => {
      const [a, b, c] = [marks[i], marks[j], marks[k]] as [PictureMark, PictureMark, PictureMark];
      return Math.sign(bend(a.pixel, b.pixel, c.pixel)) * Math.sign(bend(a.place, b.place, c.place));
    });
    if (senses.some((sense) => sense !== senses[0])) return { kind: 'crossing' };
  }
  return null;
}

const TRIPLES = [
  [0, 1, 2],
  [1, 2, 3],
  [2, 3, 0],
  [3, 0, 1],
] as const;

function similarity(marks: readonly PictureMark[]): Coefficients {
  const [a, b] = marks as [PictureMark, PictureMark];
  const turned = similarityWith(a, b, 1);
  // The second row says what goes up in the boat: down in the picture must not.
  return turned[4] < 0 ? turned : similarityWith(a, b, -1);
}

/** side 1: turned; -1: turned and mirrored left to right. */
function similarityWith(a: PictureMark, b: PictureMark, side: 1 | -1): Coefficients {
  const p: Vec2 = [side * (b.pixel[0] - a.pixel[0]), -(b.pixel[1] - a.pixel[1])];
  const q: Vec2 = [b.place[0] - a.place[0], b.place[1] - a.place[1]];
  const size = p[0] * p[0] + p[1] * p[1];
  // (q / p) as complex numbers.
  const real = (q[0] * p[0] + q[1] * p[1]) / size;
  const imaginary = (q[1] * p[0] - q[0] * p[1]) / size;
  const h11 = real * side;
  const h12 = imaginary;
  const h21 = imaginary * side;
  const h22 = -real;
  return [
    h11,
    h12,
    a.place[0] - h11 * a.pixel[0] - h12 * a.pixel[1],
    h21,
    h22,
    a.place[1] - h21 * a.pixel[0] - h22 * a.pixel[1],
    0,
    0,
    1,
  ];
}

function affinity(marks: readonly PictureMark[]): Coefficients {
  const left = new Matrix(marks.map(({ pixel: [x, y] }) => [x, y, 1]));
  const found = solve(left, new Matrix(marks.map(({ place }) => [...place])));
  const at = (row: number, column: number): number => found.get(row, column);
  return [at(0, 0), at(1, 0), at(2, 0), at(0, 1), at(1, 1), at(2, 1), 0, 0, 1];
}

function homography(marks: readonly PictureMark[]): Coefficients {
  // Pixels about their middle and by their spread: the equations stay well conditioned.
  const cx = mean(marks.map(({ pixel }) => pixel[0]));
  const cy = mean(marks.map(({ pixel }) => pixel[1]));
  const spread = Math.max(...marks.map(({ pixel }) => portable.hypot(pixel[0] - cx, pixel[1] - cy)));
  const rows: number[][] = [];
  const right: number[][] = [];
  for (const { pixel, place } of marks) {
    const x = (pixel[0] - cx) / spread;
    const y = (pixel[1] - cy) / spread;
    const [u, v] = place;
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]);
    right.push([u], [v]);
  }
  const g = solve(new Matrix(rows), new Matrix(right)).to1DArray();
  const at = (i: number): number => g[i] as number;
  // Back to pixels: x = (X - cx) / spread.
  const row = (i: number, constant: number): [number, number, number] => [
    at(i) / spread,
    at(i + 1) / spread,
    constant - (at(i) * cx + at(i + 1) * cy) / spread,
  ];
  const [a, b, c] = row(0, at(2));
  const [d, e, f] = row(3, at(5));
  const [k, l, m] = row(6, 1);
  return [a, b, c, d, e, f, k, l, m];
}

function mapped([a, b, c, d, e, f, g, h, i]: Coefficients, [x, y]: Vec2): Vec2 | null {
  const w = g * x + h * y + i;
  return w > 1e-12 ? [(a * x + b * y + c) / w, (d * x + e * y + f) / w] : null;
}

/** The map the other way: the adjugate, with the sign that keeps the marks this side of the horizon. */
function inverted([a, b, c, d, e, f, g, h, i]: Coefficients, marks: readonly PictureMark[]): Coefficients {
  const rows = [
    [e * i - f * h, c * h - b * i, b * f - c * e],
    [f * g - d * i, a * i - c * g, c * d - a * f],
    [d * h - e * g, b * g - a * h, a * e - b * d],
  ] as const;
  const [u, v] = marks[0]?.place ?? [0, 0];
  const last = rows[2];
  const sign = Math.sign(last[0] * u + last[1] * v + last[2]) || 1;
  const at = (row: 0 | 1 | 2, column: 0 | 1 | 2): number => sign * rows[row][column];
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)];
}

const apart = (a: Vec2, b: Vec2): number => portable.hypot(b[0] - a[0], b[1] - a[1]);
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
/** Sine of the angle at b. */
const bend = (a: Vec2, b: Vec2, c: Vec2): number =>
  ((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])) / (apart(a, b) * apart(b, c));
