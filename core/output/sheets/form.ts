import type { Vec2 } from '../../base/vec';
import { gradeM } from '../../boat/accuracy';
import type { Boat, Grade } from '../../boat/schema/boat';
import { GRADES } from '../../boat/schema/quantities';
import { lengthFigure, type PrintContext, unitWords } from './context';
import type { Block } from './flow';
import { type Lettering, line, type Mark, outline, rectangle, shortened, TEXT, text, WIDTH, wrapped } from './marks';

/** Pages to fill in with a pencil: rows with a blank, and boxes to tick for how a reading was taken. */

export interface FormRow {
  readonly letter: string;
  readonly words: string;
  /** What the boat file has now, as it is written; empty where it has nothing. */
  readonly now: string;
  /** Why a reading that could be worked out from others is worth its minute. */
  readonly why?: string;
}

const LEADING_MM = 4.4;
/** Room for a pencilled figure. */
const ROW_MM = 7.6;
const BLANK_MM = 30;
const NOW_MM = 17;
const BOX_MM = 3.2;
const BOXES_MM = 23;
const LETTER_MM = 7;

const GRADE_LETTERS: Readonly<Record<Grade, string>> = { measured: 'M', taped: 'T', scaled: 'S', guessed: 'G' };
/** What the boxes stand for, at more length than `gradeText`: a pencil meets them before the program does. */
const HOW_TAKEN: Readonly<Record<Grade, string>> = {
  measured: 'measured straight',
  taped: 'taped round a corner',
  scaled: 'scaled from a picture',
  guessed: 'guessed',
};

/** `M measured straight, 5 mm; T ...`: what the boxes mean, with what each counts for on this boat. */
export const gradeLegend = (boat: Pick<Boat, 'accuracy'>, context: PrintContext): string =>
  `Tick how: ${GRADES.map(
    (grade) => `${GRADE_LETTERS[grade]} ${HOW_TAKEN[grade]}, ±${lengthFigure(gradeM(boat, grade), context)}`,
  ).join('; ')} ${unitWords(context)}.`;

export function heading(words: string, widthMm: number, lettering: Lettering, sizeMm: number = TEXT.heading): Block {
  const shown = shortened(words, widthMm, lettering, sizeMm, 'strong');
  return {
    heightMm: sizeMm + 6.5,
    withNext: true,
    draw: ([x, y]) => [text(shown, [x, y + sizeMm + 3.5], { sizeMm, face: 'strong' })],
  };
}

export function paragraph(words: string, widthMm: number, lettering: Lettering): Block {
  const rows = wrapped(words, widthMm, lettering);
  return {
    heightMm: rows.length * LEADING_MM + 1.5,
    draw: ([x, y]) => rows.map((row, i) => text(row, [x, y + TEXT.body + i * LEADING_MM])),
  };
}

/** The head of a form, then a block for each row, so that a long form goes over to the next sheet. */
export function formRows(rows: readonly FormRow[], widthMm: number, context: PrintContext): Block[] {
  const unit = unitWords(context);
  const blankAt = widthMm - BOXES_MM - BLANK_MM - 2;
  const nowAt = blankAt - NOW_MM;
  const head: Block = {
    heightMm: 6,
    withNext: true,
    draw: ([x, y]) => [
      text('Measure', [x + LETTER_MM, y + 3.5], { ink: 'second' }),
      text(`Now, ${unit}`, [x + nowAt, y + 3.5], { ink: 'second' }),
      text(`Reading, ${unit}`, [x + blankAt, y + 3.5], { ink: 'second' }),
      ...GRADES.map((grade, i) =>
        text(GRADE_LETTERS[grade], [x + boxAt(widthMm, i) + BOX_MM / 2, y + 3.5], { anchor: 'middle', ink: 'second' }),
      ),
      rule(x, y + 5.2, widthMm, WIDTH.wall),
    ],
  };
  return [head, ...rows.map((row) => formRow(row, widthMm, nowAt, blankAt, context.lettering))];
}

const boxAt = (widthMm: number, index: number): number => widthMm - BOXES_MM + (BOXES_MM / GRADES.length) * index + 1;

function formRow(row: FormRow, widthMm: number, nowAt: number, blankAt: number, lettering: Lettering): Block {
  const room = nowAt - LETTER_MM - 2;
  const words = wrapped(row.words, room, lettering);
  const why = row.why === undefined ? [] : wrapped(`Check: ${row.why}`, room, lettering);
  const height = Math.max(ROW_MM, (words.length + why.length) * LEADING_MM + 3.2);
  return {
    heightMm: height,
    draw: ([x, y]) => {
      const base = y + TEXT.body + 2.2;
      return [
        text(row.letter, [x, base], { sizeMm: TEXT.heading, face: 'strong' }),
        ...words.map((line, i) => text(line, [x + LETTER_MM, base + i * LEADING_MM])),
        ...why.map((line, i) => text(line, [x + LETTER_MM, base + (words.length + i) * LEADING_MM], { ink: 'second' })),
        ...(row.now === ''
          ? []
          : [text(shortened(row.now, NOW_MM - 1, lettering), [x + nowAt, base], { ink: 'second' })]),
        blank(x + blankAt, base + 1.2, BLANK_MM - 3),
        ...GRADES.map((_, i) =>
          outline(rectangle(x + boxAt(widthMm, i), base - TEXT.body - 0.2, BOX_MM, BOX_MM), {
            widthMm: WIDTH.dimension,
          }),
        ),
        rule(x, y + height, widthMm, WIDTH.hair),
      ];
    },
  };
}

const TICK_STEP_MM = 13;

/** Boxes to tick with their letters, for a reading that stands by itself. */
export const tickBoxes = ([x, y]: Vec2): Mark[] =>
  GRADES.flatMap((grade, i) => [
    outline(rectangle(x + i * TICK_STEP_MM, y - TEXT.body - 0.2, BOX_MM, BOX_MM), { widthMm: WIDTH.dimension }),
    text(GRADE_LETTERS[grade], [x + i * TICK_STEP_MM + BOX_MM + 1.5, y]),
  ]);

/** A line to write on. */
export const blank = (x: number, y: number, widthMm: number): Mark =>
  line(
    [
      [x, y],
      [x + widthMm, y],
    ],
    { widthMm: WIDTH.dimension },
  );

export const rule = (x: number, y: number, widthMm: number, lineMm: number): Mark =>
  line(
    [
      [x, y],
      [x + widthMm, y],
    ],
    { widthMm: lineMm, ink: 'second' },
  );

/** Lines to write anything on, each with words at its start; they stay together. */
export const notesRows = (labels: readonly string[], widthMm: number, lettering: Lettering): Block => ({
  heightMm: ROW_MM * labels.length,
  draw: ([x, y]) =>
    labels.flatMap((label, i) => [
      text(shortened(label, widthMm, lettering), [x, y + i * ROW_MM + TEXT.body + 2.2], { ink: 'second' }),
      rule(x, y + (i + 1) * ROW_MM, widthMm, WIDTH.dimension),
    ]),
});
