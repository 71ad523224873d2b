import type { Vec2 } from '../../base/vec';
import { LETTERS } from './letters';
import {
  area,
  type Lettering,
  line,
  type Mark,
  outline,
  rectangle,
  type Sheet,
  shortened,
  TEXT,
  text,
  WIDTH,
} from './marks';
import { type PaperSize, paperWords } from './paper-size';

export interface Paper {
  readonly size: PaperSize;
  readonly landscape: boolean;
}

/** Short and long side, millimetres: ISO 216 for A4 and A3; letter is 8 1/2 by 11 inches of 25.4 mm. */
const SIDES: Readonly<Record<PaperSize, readonly [number, number]>> = {
  A4: [210, 297],
  A3: [297, 420],
  letter: [8.5 * 25.4, 11 * 25.4],
};

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export function paperBox({ size, landscape }: Paper): Box {
  const [short, long] = SIDES[size];
  return landscape ? { x: 0, y: 0, widthMm: long, heightMm: short } : { x: 0, y: 0, widthMm: short, heightMm: long };
}

/** Borders of ISO 5457 (quoted, not read): 20 mm to file by at the left, 10 mm elsewhere, zones in a strip of 5 mm. */
const FILING_MM = 20;
const BORDER_MM = 10;
const ZONE_STRIP_MM = 5;
const ZONE_MM = 50;
const CENTRING_REACH_MM = 5;

/** Inside of the drawing frame. */
export function frameBox(paper: Paper): Box {
  const { widthMm, heightMm } = paperBox(paper);
  return {
    x: FILING_MM,
    y: BORDER_MM,
    widthMm: widthMm - FILING_MM - BORDER_MM,
    heightMm: heightMm - 2 * BORDER_MM,
  };
}

/** Drawing frame, zones and centring marks. */
export function frame(paper: Paper): Mark[] {
  const sheet = paperBox(paper);
  const inner = frameBox(paper);
  const outer: Box = {
    x: inner.x - ZONE_STRIP_MM,
    y: inner.y - ZONE_STRIP_MM,
    widthMm: inner.widthMm + 2 * ZONE_STRIP_MM,
    heightMm: inner.heightMm + 2 * ZONE_STRIP_MM,
  };
  const thin = { widthMm: WIDTH.joinery };
  const marks: Mark[] = [
    outline(rectangle(outer.x, outer.y, outer.widthMm, outer.heightMm), thin),
    outline(rectangle(inner.x, inner.y, inner.widthMm, inner.heightMm), { widthMm: WIDTH.frame }),
  ];
  const right = inner.x + inner.widthMm;
  const bottom = inner.y + inner.heightMm;
  const base = (ZONE_STRIP_MM + TEXT.body) / 2;
  // Zones are counted from the middle of the trimmed sheet, so that folded sheets agree.
  const columns = zoneEdges(sheet.widthMm / 2, inner.x, right);
  columns.forEach((from, i) => {
    const to = columns[i + 1] ?? right;
    for (const y of [outer.y, bottom]) {
      if (i > 0) marks.push(line(vertical(from, y, y + ZONE_STRIP_MM), thin));
      marks.push(text(String(i + 1), [(from + to) / 2, y + base], { anchor: 'middle' }));
    }
  });
  const rows = zoneEdges(sheet.heightMm / 2, inner.y, bottom);
  rows.forEach((from, i) => {
    const to = rows[i + 1] ?? bottom;
    for (const x of [outer.x, right]) {
      if (i > 0) marks.push(line(horizontal(from, x, x + ZONE_STRIP_MM), thin));
      marks.push(text(LETTERS.charAt(i), [x + ZONE_STRIP_MM / 2, (from + to + TEXT.body) / 2], { anchor: 'middle' }));
    }
  });
  const mark = { widthMm: WIDTH.frame };
  marks.push(
    line(vertical(sheet.widthMm / 2, outer.y, inner.y + CENTRING_REACH_MM), mark),
    line(vertical(sheet.widthMm / 2, bottom - CENTRING_REACH_MM, bottom + ZONE_STRIP_MM), mark),
    line(horizontal(sheet.heightMm / 2, outer.x, inner.x + CENTRING_REACH_MM), mark),
    line(horizontal(sheet.heightMm / 2, right - CENTRING_REACH_MM, right + ZONE_STRIP_MM), mark),
  );
  return marks;
}

/** Where zones begin, from the first edge on; a remainder shorter than half a zone joins its neighbour. */
function zoneEdges(middle: number, from: number, to: number): number[] {
  const edges = [from];
  const first = Math.ceil((from - middle) / ZONE_MM) * ZONE_MM + middle;
  for (let at = first; at < to - ZONE_MM / 2; at += ZONE_MM) if (at > from + ZONE_MM / 2) edges.push(at);
  return edges;
}

const horizontal = (y: number, x0: number, x1: number): Vec2[] => [
  [x0, y],
  [x1, y],
];
const vertical = (x: number, y0: number, y1: number): Vec2[] => [
  [x, y0],
  [x, y1],
];

export const TITLE_BLOCK = { widthMm: 180, heightMm: 36 } as const;

/** Entries of a title block; what is not known is left out and its field stays empty. */
export interface TitleFields {
  readonly boat: string;
  readonly sheet: string;
  /** What the sheet is about: an arrangement, a compartment, a part. */
  readonly subject: string;
  /** The file and what was changed in it. */
  readonly drawnFrom: string;
  readonly measured: string;
  readonly practice: string;
  readonly scale: string;
  readonly date: string;
  readonly number: number;
  readonly of: number;
}

/** Title block in the lower right corner of the frame, 180 by 36 mm. */
function titleBlock(paper: Paper, fields: TitleFields, lettering: Lettering): Mark[] {
  const inner = frameBox(paper);
  const x = inner.x + inner.widthMm - TITLE_BLOCK.widthMm;
  const y = inner.y + inner.heightMm - TITLE_BLOCK.heightMm;
  const row = TITLE_BLOCK.heightMm / 3;
  const cells: readonly (readonly [label: string, value: string, column: number, widthMm: number, row: number])[] = [
    ['Boat', fields.boat, 0, 78, 0],
    ['Sheet', fields.sheet, 78, 102, 0],
    ['Subject', fields.subject, 0, 78, 1],
    ['Drawn from', fields.drawnFrom, 78, 50, 1],
    ['Scale', fields.scale, 128, 26, 1],
    ['Sheet', `${fields.number} of ${fields.of}`, 154, 26, 1],
    ['Measured', fields.measured, 0, 78, 2],
    ['Practice', fields.practice, 78, 50, 2],
    ['Date', fields.date, 128, 26, 2],
    ['Paper', paperWords(paper.size), 154, 26, 2],
  ];
  const marks: Mark[] = [
    area([rectangle(x, y, TITLE_BLOCK.widthMm, TITLE_BLOCK.heightMm)], 'paper'),
    outline(rectangle(x, y, TITLE_BLOCK.widthMm, TITLE_BLOCK.heightMm), { widthMm: WIDTH.frame }),
  ];
  for (const [label, value, column, widthMm, at] of cells) {
    const top = y + at * row;
    if (column > 0) marks.push(line(vertical(x + column, top, top + row), { widthMm: WIDTH.joinery }));
    const sizeMm = at === 0 ? TEXT.heading : 3;
    const face = at === 0 ? ('strong' as const) : ('plain' as const);
    marks.push(
      text(label, [x + column + 2, top + 4.2], { ink: 'second' }),
      text(shortened(value, widthMm - 4, lettering, sizeMm, face), [x + column + 2, top + 10], { sizeMm, face }),
    );
  }
  for (const at of [1, 2])
    marks.push(line(horizontal(y + at * row, x, x + TITLE_BLOCK.widthMm), { widthMm: WIDTH.joinery }));
  return marks;
}

/** Length of the line by which a reader sees whether the printer has scaled the sheet, millimetres. */
export const CHECK_LINE_MM = 100;

/** The check line from `at` to the right, with its words above it. */
export function checkLine([x, y]: Vec2): Mark[] {
  const tick = (at: number): Mark => line(vertical(at, y - 2, y + 2), { widthMm: WIDTH.dimension });
  return [
    line(horizontal(y, x, x + CHECK_LINE_MM), { widthMm: WIDTH.joinery }),
    tick(x),
    tick(x + CHECK_LINE_MM),
    text('This line is 100 mm. If it is not, the printer has scaled the sheet.', [x + CHECK_LINE_MM / 2, y - 2.4], {
      anchor: 'middle',
    }),
  ];
}

/** Scales that drawings are printed in (ISO 5455, quoted, not read), as so many millimetres of boat on one of paper. */
const SCALES = [1, 2, 5, 10, 20, 50, 100] as const;

/** The largest standard scale at which a drawing of this size in metres fits the room. */
export function scaleFor(sizeM: Vec2, room: { readonly widthMm: number; readonly heightMm: number }): number {
  const fits = SCALES.find((n) => (sizeM[0] * 1000) / n <= room.widthMm && (sizeM[1] * 1000) / n <= room.heightMm);
  return fits ?? (SCALES[SCALES.length - 1] as number);
}

/** A scale bar of four parts from `at` to the right, about 80 mm long, for a drawing at 1:`scale`. */
export function scaleBar([x, y]: Vec2, scale: number): Mark[] {
  const stepM = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2].find((m) => (m * 1000) / scale >= 15) ?? 5;
  const step = (stepM * 1000) / scale;
  const inMetres = stepM >= 0.5;
  const marks: Mark[] = [];
  for (let i = 0; i < 4; i++) {
    const box = rectangle(x + i * step, y, step, 1.6);
    if (i % 2 === 0) marks.push(area([box]));
    marks.push(outline(box, { widthMm: WIDTH.dimension }));
  }
  for (let i = 0; i <= 4; i++) {
    const value = stepM * i * (inMetres ? 1 : 1000);
    marks.push(text(String(Math.round(value * 10) / 10), [x + i * step, y - 1.4], { anchor: 'middle' }));
  }
  marks.push(text(`1 : ${scale}, ${inMetres ? 'metres' : 'millimetres'}`, [x + 4 * step + 6, y + 1.8]));
  return marks;
}

/** A sheet of paper with its frame, its title block and what is drawn on it. */
export function framedSheet(paper: Paper, fields: TitleFields, lettering: Lettering, marks: readonly Mark[]): Sheet {
  const { widthMm, heightMm } = paperBox(paper);
  return { widthMm, heightMm, marks: [...frame(paper), ...marks, ...titleBlock(paper, fields, lettering)] };
}
