import type { Vec2 } from '../../../base/vec';
import type { LineKind } from '../../../boat/schema/boat';
import { DEFERENCE } from '../../text/caution-text';
import { before, type FindingMark, isOpen, markOfFinding } from '../../text/finding-order';
import { findingText } from '../../text/finding-text';
import { digits } from '../../text/quantity-text';
import type { PrintContext } from '../context';
import { area, circle, line, type Mark, outline, shortened, TEXT, text, WIDTH, wrapped } from '../marks';
import type { Box } from '../paper';
import { BALLOON_MM, numberRing } from './balloons';
import { runMarks, runWords } from './line-looks';
import { HEAD_ROWS, ROW_MM, RUN_GAP_MM, RUN_ROW_MM, runColumns } from './places';
import type { DrawnRun, DrawnThing, GeneralScene } from './scene';

interface OnSheet {
  readonly marks: readonly Mark[];
  readonly isWhole: boolean;
  /** Lower edge. */
  readonly endMm: number;
}

const PART_ROW_MM = 2 * BALLOON_MM + 0.4;
const SECOND = 'second' as const;
const level = (x: number, y: number, widthMm: number, weight: number): Mark =>
  line(
    [
      [x, y],
      [x + widthMm, y],
    ],
    { widthMm: weight, ink: SECOND },
  );

/** Numbered parts, as many as there is room for, one column or two. */
export function partsOnSheet(
  parts: readonly DrawnThing[],
  box: Box,
  sharesBox: boolean,
  context: PrintContext,
): OnSheet {
  if (parts.length === 0) return { marks: [], isWhole: true, endMm: box.y };
  const sorted = [...parts].sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
  const room = Math.max(
    0,
    Math.floor((box.heightMm - (sharesBox ? FOR_FINDINGS_MM : ROW_MM)) / PART_ROW_MM) - HEAD_ROWS,
  );
  // Two columns where there is room for two, or where one would not hold them all.
  const columns = box.widthMm >= 2 * LEAST_PARTS_MM + COLUMN_GAP_MM || sorted.length > room ? 2 : 1;
  const widthMm = (box.widthMm - COLUMN_GAP_MM * (columns - 1)) / columns;
  const hasMass = widthMm >= LEAST_PARTS_MM;
  const rows = Math.min(room, Math.ceil(sorted.length / columns));
  const shown = sorted.slice(0, rows * columns);
  const isWhole = shown.length === sorted.length;
  const top = box.y + TEXT.heading;
  const heads = top + ROW_MM + 0.6;
  const marks: Mark[] = [text('Parts', [box.x, top], { sizeMm: TEXT.heading, face: 'strong' })];
  for (let column = 0; column < columns; column += 1) {
    const x = box.x + column * (widthMm + COLUMN_GAP_MM);
    marks.push(
      text('Item', [x, heads], { ink: SECOND }),
      text('Tag', [x + TAG_MM, heads], { ink: SECOND }),
      text('Part', [x + NAME_MM, heads], { ink: SECOND }),
      ...(hasMass ? [text('kg', [x + widthMm, heads], { ink: SECOND, anchor: 'end' })] : []),
      level(x, heads + 1.4, widthMm, WIDTH.wall),
    );
  }
  shown.forEach((part, i) => {
    const x = box.x + Math.floor(i / rows) * (widthMm + COLUMN_GAP_MM);
    const middle = heads + 1.4 + PART_ROW_MM * ((i % rows) + 0.5);
    const base = middle + TEXT.body / 2;
    const { massKg } = part.thing;
    marks.push(
      ...numberRing([x + BALLOON_MM, middle], part.number ?? 0),
      text(shortened(part.tag, NAME_MM - TAG_MM - 1.5, context.lettering, TEXT.body, 'strong'), [x + TAG_MM, base], {
        face: 'strong',
      }),
      text(shortened(part.thing.name, widthMm - NAME_MM - (hasMass ? 11 : 0), context.lettering), [x + NAME_MM, base]),
      ...(massKg > 0 && hasMass ? [text(digits(massKg, 1), [x + widthMm, base], { anchor: 'end' })] : []),
      level(x, middle + PART_ROW_MM / 2, widthMm, WIDTH.hair),
    );
  });
  let endMm = heads + 1.4 + PART_ROW_MM * rows;
  if (!isWhole) {
    endMm += ROW_MM;
    marks.push(text(`${sorted.length - shown.length} more on the next sheet`, [box.x, endMm - 1], { ink: SECOND }));
  }
  return { marks, isWhole, endMm };
}

const LEAST_PARTS_MM = 78;
const COLUMN_GAP_MM = 8;
const TAG_MM = 9;
const NAME_MM = 22;
const FOR_FINDINGS_MM = 34;

/** Runs with a sample of their line, from and to, and the length as it lies; left out where there is no room for all. */
export function runsOnSheet(
  runs: readonly DrawnRun[],
  { boat }: GeneralScene,
  box: Box,
  { lettering }: PrintContext,
): Pick<OnSheet, 'marks' | 'isWhole'> {
  if (runs.length === 0) return { marks: [], isWhole: true };
  const { columns, rows } = runColumns(box);
  if (columns * rows < runs.length) return { marks: [], isWhole: false };
  const used = Math.min(columns, runs.length);
  const perColumn = Math.ceil(runs.length / used);
  const widthMm = (box.widthMm - RUN_GAP_MM * (used - 1)) / used;
  const top = box.y + TEXT.heading;
  const key =
    'S sea water, B brine, F fresh water; cased: pressure; double: DC; dots: signal, gauge. sizes in mm; lengths in m as they lie';
  const marks: Mark[] = [
    text('Runs', [box.x, top], { sizeMm: TEXT.heading, face: 'strong' }),
    text(shortened(key, box.widthMm - 16, lettering), [box.x + box.widthMm, top], { anchor: 'end', ink: SECOND }),
  ];
  const first = top + 1.6;
  const mark = (thing: string): string => (boat.parts[thing] ?? boat.fixtures[thing])?.tag ?? thing;
  for (let column = 0; column < used; column += 1)
    marks.push(level(box.x + column * (widthMm + RUN_GAP_MM), first, widthMm, WIDTH.wall));
  runs.forEach(({ tag, style, line: wish, kind, report }, i) => {
    const x = box.x + Math.floor(i / perColumn) * (widthMm + RUN_GAP_MM);
    const foot = first + RUN_ROW_MM * ((i % perColumn) + 1);
    const base = foot - 1.2;
    const sample: Vec2[] = [
      [x + 11, base - 1],
      [x + 20, base - 1],
    ];
    const ends = `${mark(wish.from.thing)} to ${mark(wish.to.thing)}`;
    const endsAt = x + widthMm - 31;
    const sizeRoom = endsAt - x - 23.5;
    marks.push(
      text(shortened(runWords(tag, style), 10.5, lettering, TEXT.body, 'strong'), [x, base], { face: 'strong' }),
      ...runMarks(sample, style),
      ...(sizeRoom < LEAST_WORDS_MM
        ? []
        : [text(shortened(kind ? sizeText(kind) : wish.kind, sizeRoom, lettering), [x + 22, base])]),
      text(shortened(ends, 20, lettering), [endsAt, base]),
      text(report.lengthM === null ? 'no way' : digits(report.lengthM, 2), [x + widthMm, base], { anchor: 'end' }),
      level(x, foot, widthMm, WIDTH.hair),
    );
  });
  return { marks, isWhole: true };
}

const inMillimetres = (metres: number): string =>
  digits(metres * 1000, Number.isInteger(Math.round(metres * 1e5) / 100) ? 0 : 1);

/** `16 × 22 hose`, `6.4 tube`, `2 × 16 mm²`: what tells one hose from another at a glance. */
function sizeText({ what, boreM, outsideM, conductors, areaMm2 }: LineKind): string {
  if (what === 'cable' && areaMm2 !== undefined)
    return `${conductors ?? 1} × ${digits(areaMm2, Number.isInteger(areaMm2) ? 0 : 1)} mm²`;
  const bore = what === 'hose' && boreM !== undefined ? `${inMillimetres(boreM)} × ` : '';
  return `${bore}${inMillimetres(outsideM)} ${what}`;
}

/** Less room says nothing. */
const LEAST_WORDS_MM = 9;

const FINDING_LEADING_MM = 3.9;
const MARK_MM = 2.6;

/** Open findings by weight, as many as there is room for, with where the rest and their cautions stand. */
export function findingsOnSheet({ boat, report }: GeneralScene, box: Box, { lettering }: PrintContext): Mark[] {
  const open = report.findings.filter(isOpen).sort(before);
  const top = box.y + 4 + TEXT.heading;
  const foot = box.y + box.heightMm;
  if (top + 2 * ROW_MM > foot) return [];
  const x = box.x + 9;
  const widthMm = box.widthMm - 9;
  const marks: Mark[] = [
    text(`Open findings: ${open.length === 0 ? 'none' : open.length}`, [box.x, top], {
      sizeMm: TEXT.heading,
      face: 'strong',
    }),
    level(box.x, top + 1.6, box.widthMm, WIDTH.wall),
  ];
  const closing = wrapped(
    open.length === 0 ? DEFERENCE : `All of them, and what to beware of, stand on the sheets that follow. ${DEFERENCE}`,
    box.widthMm,
    lettering,
  );
  const last = foot - closing.length * FINDING_LEADING_MM;
  let y = top + 1.6;
  for (const [i, finding] of open.entries()) {
    const { title, measured } = findingText(finding, boat);
    const rows = wrapped(measured === '' ? title : `${title}: ${measured}`, widthMm, lettering);
    const height = rows.length * FINDING_LEADING_MM + 1.8;
    if (y + height > last) break;
    marks.push(
      ...findingMark([box.x + MARK_MM + 0.4, y + 1 + FINDING_LEADING_MM / 2], markOfFinding(finding) ?? 'pass', i + 1),
    );
    rows.forEach((words, k) => {
      marks.push(text(words, [x, y + 0.6 + (k + 1) * FINDING_LEADING_MM - 0.6]));
    });
    y += height;
  }
  closing.forEach((words, k) => {
    marks.push(text(words, [box.x, Math.min(y + 1, last) + (k + 1) * FINDING_LEADING_MM - 0.4], { ink: SECOND }));
  });
  return marks;
}

/** Danger a solid diamond, fault a hollow one, a close call in brass, advice a ring, cannot tell a broken ring. */
export function findingMark([x, y]: Vec2, mark: FindingMark, number: number): Mark[] {
  const diamond: Vec2[] = [
    [x, y - MARK_MM],
    [x + MARK_MM, y],
    [x, y + MARK_MM],
    [x - MARK_MM, y],
  ];
  const words = (ink: 'paper' | 'ink'): Mark =>
    text(String(number), [x, y + TEXT.body / 2], { anchor: 'middle', ink, face: 'strong' });
  const width = { widthMm: WIDTH.wall };
  switch (mark) {
    case 'danger':
      return [area([diamond], 'bad'), words('paper')];
    case 'fault':
      return [outline(diamond, { ...width, ink: 'bad' }), words('ink')];
    case 'closeCall':
      return [outline(diamond, { ...width, ink: 'accent' }), words('ink')];
    case 'cannotTell':
      return [outline(circle([x, y], MARK_MM), { ...width, dashMm: [1.4, 1] }), words('ink')];
    case 'advice':
    case 'pass':
      return [outline(circle([x, y], MARK_MM), width), words('ink')];
  }
}
