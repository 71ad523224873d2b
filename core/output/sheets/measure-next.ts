import type { Boat } from '../../boat/schema/boat';
import type { Finding } from '../../rules/finding';
import type { NextReading } from '../../rules/next-reading';
import { findingText, percentBand } from '../text/finding-text';
import { readingText } from '../text/reading-text';
import type { PrintContext } from './context';
import { type Block, flowSheets, flowWidth } from './flow';
import { blank, gradeLegend, heading, paragraph, rule, tickBoxes } from './form';
import { type Mark, type Sheet, TEXT, text, WIDTH, wrapped } from './marks';

/** Verdicts named beneath a reading: as many as leave all readings on one sheet. The others are counted. */
const VERDICTS = [3, 2, 1] as const;

/** The readings that would settle most verdicts, on a page to take aboard and fill in. Best first. */
export function nextReadingSheets(
  boat: Boat,
  readings: readonly NextReading[],
  findings: readonly Finding[],
  context: PrintContext,
): Sheet[] {
  let made: Sheet[] = [];
  for (const most of VERDICTS) {
    made = readingSheets(boat, readings, findings, most, context);
    if (made.length === 1) break;
  }
  return made;
}

function readingSheets(
  boat: Boat,
  readings: readonly NextReading[],
  findings: readonly Finding[],
  most: number,
  context: PrintContext,
): Sheet[] {
  const width = flowWidth(context);
  const titleOf = new Map(findings.map((finding) => [finding.key, findingText(finding, boat).title]));
  const blocks: Block[] = [
    heading('Measure this next', width, context.lettering, TEXT.title),
    paragraph(
      readings.length === 0
        ? 'No verdict hangs on a reading: nothing to measure.'
        : 'Each reading may settle the verdicts beneath it. Lay the rule or the tape straight; read it twice. Enter the figure where the sheet says.',
      width,
      context.lettering,
    ),
    paragraph(gradeLegend(boat, context), width, context.lettering),
    ...readings.map((reading, i) =>
      readingBlock(boat, reading, { number: i + 1, most, titleOf, widthMm: width }, context),
    ),
  ];
  return flowSheets(
    blocks,
    {
      sheet: 'Measure this next',
      subject: `The best ${readings.length} readings`,
      measured: 'to be measured',
      scale: 'none',
    },
    context,
  );
}

const LEADING_MM = 4.4;
const NUMBER_MM = 9;
const BLANK_ROW_MM = 9.5;
const AFTER_MM = 1;

function readingBlock(
  boat: Boat,
  reading: NextReading,
  {
    number,
    most,
    titleOf,
    widthMm,
  }: {
    readonly number: number;
    readonly most: number;
    readonly titleOf: ReadonlyMap<string, string>;
    readonly widthMm: number;
  },
  context: PrintContext,
): Block {
  const words = readingText(reading, boat);
  const room = widthMm - NUMBER_MM;
  const lines = (said: string): string[] => (said === '' ? [] : wrapped(said, room, context.lettering));
  const title = wrapped(words.title, room, context.lettering, TEXT.heading, 'strong');
  const told = [
    ...lines(words.from === '' || words.from === words.to ? '' : `From: ${words.from}. To: ${words.to}.`),
    ...lines(`${words.present === '' ? 'Nothing is entered yet.' : `Now: ${words.present}.`} ${words.how}`),
  ];
  const named = reading.settles.slice(0, most);
  const others = reading.settles.length - named.length;
  const settles = named.flatMap(({ key, chance, along }, i) => {
    const share = percentBand([chance, chance]);
    const company = along.length === 0 ? '' : ` together with ${along.length} more`;
    const rest = others > 0 && i === named.length - 1 ? `; and ${others} more` : '';
    return lines(`Settles${company}, chance ${share}: ${titleOf.get(key) ?? key}${rest}`);
  });
  const titleMm = title.length * (LEADING_MM + 1.4);
  const wordsMm = (told.length + settles.length) * LEADING_MM;
  return {
    heightMm: titleMm + wordsMm + BLANK_ROW_MM + AFTER_MM + 3,
    draw: ([x, y]) => {
      const marks: Mark[] = [
        rule(x, y, widthMm, WIDTH.wall),
        text(String(number), [x, y + 7.5], { sizeMm: TEXT.title, face: 'strong' }),
      ];
      const left = x + NUMBER_MM;
      let base = y + 2.5 + TEXT.heading;
      for (const row of title) {
        marks.push(text(row, [left, base], { sizeMm: TEXT.heading, face: 'strong' }));
        base += LEADING_MM + 1.4;
      }
      for (const row of told) {
        marks.push(text(row, [left, base]));
        base += LEADING_MM;
      }
      for (const row of settles) {
        marks.push(text(row, [left, base], { ink: 'second' }));
        base += LEADING_MM;
      }
      const foot = base + BLANK_ROW_MM - LEADING_MM;
      marks.push(
        text('Reading and unit', [left, foot], { ink: 'second' }),
        blank(left + 27, foot + 1, 48),
        ...tickBoxes([left + 84, foot]),
      );
      return marks;
    },
  };
}
