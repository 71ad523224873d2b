import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import type { Vec2 } from '../../base/vec';
import { intersectionOf, type Ring } from '../views/polygons';
import { LETTERS } from './letters';
import {
  type AreaMark,
  circle,
  DASH,
  type Lettering,
  type LineMark,
  line,
  type Mark,
  outline,
  rectangle,
  type Sheet,
  shortened,
  TEXT,
  type TextMark,
  text,
  WIDTH,
} from './marks';
import { CHECK_LINE_MM, checkLine, type Paper, paperBox } from './paper';

/**
 * A drawing larger than the paper, cut into tiles that overlap: each is printed 1:1, trimmed along the seam and glued over its
 * neighbour by the crosses.
 */

/** Printers leave about so much of the paper white. */
const MARGIN_MM = 10;
/** Below the window: name of the tile, check line, what it belongs to. */
const STRIP_MM = 17;
/** Width in which neighbours show the same. */
export const OVERLAP_MM = 10;
const CROSS_MM = 4;

export interface Tile {
  readonly column: number;
  readonly row: number;
  /** Row letter and column number, as on a map. */
  readonly name: string;
  /** What of the drawing it shows. */
  readonly low: Vec2;
  readonly high: Vec2;
}

export interface Tiling {
  readonly paper: Paper;
  readonly columns: number;
  readonly rows: number;
  /** Tiles with something on them; blank ones are not printed. */
  readonly tiles: readonly Tile[];
}

const windowOf = (paper: Paper): Vec2 => {
  const { widthMm, heightMm } = paperBox(paper);
  return [widthMm - 2 * MARGIN_MM, heightMm - 2 * MARGIN_MM - STRIP_MM];
};

const LEAST_AREA_MM2 = 0.5;

/** How a drawing of this size, whose pieces of paper are `solid`, lies on sheets; null where it would take more rows than can be named. */
export function tilingOf(size: Vec2, solid: readonly Ring[], paper: Paper): Tiling | null {
  const [width, height] = windowOf(paper);
  const columns = Math.max(1, Math.ceil((size[0] - OVERLAP_MM) / (width - OVERLAP_MM)));
  const rows = Math.max(1, Math.ceil((size[1] - OVERLAP_MM) / (height - OVERLAP_MM)));
  if (rows > LETTERS.length || columns > LETTERS.length) return null;
  const stepX = width - OVERLAP_MM;
  const stepY = height - OVERLAP_MM;
  const left = -(columns * stepX + OVERLAP_MM - size[0]) / 2;
  const top = -(rows * stepY + OVERLAP_MM - size[1]) / 2;
  const tiles: Tile[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const low: Vec2 = [left + column * stepX, top + row * stepY];
      // What lies in the overlap alone is on the neighbour too: a tile is for what lies between its seams.
      const own = rectangle(low[0] + OVERLAP_MM / 2, low[1] + OVERLAP_MM / 2, stepX, stepY);
      const covered = intersectionOf(solid, [own]).reduce((sum, ring) => sum + Math.abs(signedArea(ring)), 0);
      if (covered < LEAST_AREA_MM2) continue;
      const name = `${LETTERS.charAt(row)}${column + 1}`;
      tiles.push({ column, row, name, low, high: [low[0] + width, low[1] + height] });
    }
  return { paper, columns, rows, tiles };
}

export interface TileWords {
  /** What the tiles make together, and which sheet of how many each is. */
  readonly title: string;
  readonly first: number;
  readonly of: number;
}

/** One sheet for each tile. Lines and areas are cut at its window; words stand on tiles that hold them whole, else on the one of their middle. */
export function tileSheets(tiling: Tiling, marks: readonly Mark[], words: TileWords, lettering: Lettering): Sheet[] {
  const { widthMm, heightMm } = paperBox(tiling.paper);
  return tiling.tiles.map((tile, index) => ({
    widthMm,
    heightMm,
    marks: [
      ...marks.flatMap((mark) => shown(mark, tile, tiling, lettering)).map((mark) => moved(mark, tile)),
      ...seams(tile, tiling).map((mark) => moved(mark, tile)),
      ...strip(tile, tiling, words, index, lettering),
    ],
  }));
}

const moved = (mark: Mark, tile: Tile): Mark => {
  const move = ([x, y]: Vec2): Vec2 => [x - tile.low[0] + MARGIN_MM, y - tile.low[1] + MARGIN_MM];
  if (mark.kind === 'text') return { ...mark, at: move(mark.at) };
  if (mark.kind === 'area') return { ...mark, rings: mark.rings.map((ring) => ring.map(move)) };
  return { ...mark, points: mark.points.map(move) };
};

function shown(mark: Mark, tile: Tile, tiling: Tiling, lettering: Lettering): Mark[] {
  if (mark.kind === 'line') return clippedLine(mark, tile);
  if (mark.kind === 'area') return clippedArea(mark, tile);
  return shownText(mark, tile, tiling, lettering);
}

/** A line within a window: as it is where it lies inside, else in open pieces. */
function clippedLine(mark: LineMark, { low, high }: Tile): LineMark[] {
  const inside = ([x, y]: Vec2): boolean => x >= low[0] && x <= high[0] && y >= low[1] && y <= high[1];
  if (mark.points.every(inside)) return [mark];
  const points = mark.closed ? [...mark.points, mark.points[0] as Vec2] : mark.points;
  const pieces: Vec2[][] = [];
  let open: Vec2[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    const piece = clippedSegment(points[i] as Vec2, points[i + 1] as Vec2, low, high);
    if (!piece) continue;
    const last = open[open.length - 1];
    if (last && portable.hypot(last[0] - piece[0][0], last[1] - piece[0][1]) < 1e-9) open.push(piece[1]);
    else {
      if (open.length > 1) pieces.push(open);
      open = [piece[0], piece[1]];
    }
  }
  if (open.length > 1) pieces.push(open);
  return pieces.map((piece) => ({ ...mark, points: piece, closed: false }));
}

/** The part of a segment in a window (Liang and Barsky's parametric clipping). */
function clippedSegment(a: Vec2, b: Vec2, low: Vec2, high: Vec2): readonly [Vec2, Vec2] | null {
  let from = 0;
  let to = 1;
  for (const axis of [0, 1] as const) {
    const step = b[axis] - a[axis];
    if (step === 0) {
      if (a[axis] < low[axis] || a[axis] > high[axis]) return null;
      continue;
    }
    const t0 = (low[axis] - a[axis]) / step;
    const t1 = (high[axis] - a[axis]) / step;
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
  }
  if (from >= to) return null;
  const at = (t: number): Vec2 => (t === 1 ? b : [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
  return [at(from), at(to)];
}

function clippedArea(mark: AreaMark, { low, high }: Tile): AreaMark[] {
  const rings = intersectionOf(mark.rings, [rectangle(low[0], low[1], high[0] - low[0], high[1] - low[1])]);
  return rings.length === 0 ? [] : [{ ...mark, rings }];
}

/** Room that words take, level ones only: nothing on tiles is turned. */
function boxOf(mark: TextMark, lettering: Lettering): { readonly low: Vec2; readonly high: Vec2 } {
  const width = lettering.width(mark.words, mark.sizeMm, mark.face);
  const left = mark.at[0] - (mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? width / 2 : width);
  return { low: [left, mark.at[1] - mark.sizeMm], high: [left + width, mark.at[1] + mark.sizeMm * 0.35] };
}

/** Whether some tile shows the whole of a box. */
export const onOneTile = (tiling: Tiling, low: Vec2, high: Vec2): boolean =>
  tiling.tiles.some((tile) => holds(tile, low, high));

const holds = (tile: Tile, low: Vec2, high: Vec2): boolean =>
  low[0] >= tile.low[0] && low[1] >= tile.low[1] && high[0] <= tile.high[0] && high[1] <= tile.high[1];

function shownText(mark: TextMark, tile: Tile, tiling: Tiling, lettering: Lettering): TextMark[] {
  const { low, high } = boxOf(mark, lettering);
  if (holds(tile, low, high)) return [mark];
  if (onOneTile(tiling, low, high)) return [];
  const middle: Vec2 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const nearest = tiling.tiles.reduce((best, other) => (farFrom(other, middle) < farFrom(best, middle) ? other : best));
  if (nearest !== tile) return [];
  const into = (axis: 0 | 1): number =>
    Math.max(0, tile.low[axis] - low[axis]) - Math.max(0, high[axis] - tile.high[axis]);
  return [{ ...mark, at: [mark.at[0] + into(0), mark.at[1] + into(1)] }];
}

const farFrom = ({ low, high }: Tile, [x, y]: Vec2): number =>
  portable.hypot(x - (low[0] + high[0]) / 2, y - (low[1] + high[1]) / 2);

/** Crosses and seams towards the neighbours that are printed; both of a pair show the same. */
function seams(tile: Tile, tiling: Tiling): Mark[] {
  const neighbour = (columns: number, rows: number): Tile | undefined =>
    tiling.tiles.find(({ column, row }) => column === tile.column + columns && row === tile.row + rows);
  const { low, high } = tile;
  const half = OVERLAP_MM / 2;
  const marks: Mark[] = [];
  const thin = { widthMm: WIDTH.hair, dashMm: DASH.dots, ink: 'second' } as const;
  const third = (axis: 0 | 1, k: 1 | 2): number => low[axis] + ((high[axis] - low[axis]) * k) / 3;
  const sides = [
    { other: neighbour(-1, 0), axis: 0, at: low[0] + half },
    { other: neighbour(1, 0), axis: 0, at: high[0] - half },
    { other: neighbour(0, -1), axis: 1, at: low[1] + half },
    { other: neighbour(0, 1), axis: 1, at: high[1] - half },
  ] as const;
  for (const { other, axis, at } of sides) {
    if (!other) continue;
    const along = axis === 0 ? 1 : 0;
    const point = (value: number): Vec2 => (axis === 0 ? [at, value] : [value, at]);
    marks.push(line([point(low[along]), point(high[along])], thin));
    for (const k of [1, 2] as const) marks.push(...cross(point(third(along, k))));
    // The name of the neighbour stands on this side of the seam.
    const inward = axis === 0 ? (at < (low[0] + high[0]) / 2 ? 1 : -1) : at < (low[1] + high[1]) / 2 ? 1 : -1;
    const middle = (low[along] + high[along]) / 2;
    marks.push(
      axis === 0
        ? text(other.name, [at + inward * 2, middle], { anchor: inward > 0 ? 'start' : 'end', ink: 'second' })
        : text(other.name, [middle, at + inward * 2 + (inward > 0 ? TEXT.body : 0)], {
            anchor: 'middle',
            ink: 'second',
          }),
    );
  }
  return marks;
}

const cross = ([x, y]: Vec2): Mark[] => [
  line(
    [
      [x - CROSS_MM, y],
      [x + CROSS_MM, y],
    ],
    { widthMm: WIDTH.hair },
  ),
  line(
    [
      [x, y - CROSS_MM],
      [x, y + CROSS_MM],
    ],
    { widthMm: WIDTH.hair },
  ),
  outline(circle([x, y], CROSS_MM / 2), { widthMm: WIDTH.hair }),
];

function strip(tile: Tile, tiling: Tiling, words: TileWords, index: number, lettering: Lettering): Mark[] {
  const { widthMm, heightMm } = paperBox(tiling.paper);
  const top = heightMm - MARGIN_MM - STRIP_MM;
  const base = heightMm - MARGIN_MM - 3;
  const right = widthMm - MARGIN_MM;
  const checkAt = MARGIN_MM + 24;
  const room = right - checkAt - CHECK_LINE_MM - 6;
  return [
    outline(rectangle(MARGIN_MM, MARGIN_MM, widthMm - 2 * MARGIN_MM, top - MARGIN_MM), {
      widthMm: WIDTH.hair,
      ink: 'second',
    }),
    text(tile.name, [MARGIN_MM, base], { sizeMm: TEXT.large, face: 'strong' }),
    ...checkLine([checkAt, base]),
    ...fitted(
      [`${words.title}`, `tile ${tile.name}, sheet ${words.first + index} of ${words.of}`],
      room,
      lettering,
    ).map((row, i) => text(row, [right, base - 4.4 + i * 4.4], { anchor: 'end' })),
  ];
}

/** Rows cut to a width. */
const fitted = (rows: readonly string[], roomMm: number, lettering: Lettering): string[] =>
  rows.map((row) => shortened(row, roomMm, lettering));
