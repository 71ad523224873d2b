import { readFileSync } from 'node:fs';
import { checkBoat, readBoat } from '@core/boat/read';
import type { Boat, Part } from '@core/boat/schema/boat';
import type { PrintContext } from '@core/output/sheets/context';
import type { Sheet, TextMark } from '@core/output/sheets/marks';
import { nextReadingSheets } from '@core/output/sheets/measure-next';
import { mockUpSheets } from '@core/output/sheets/mock-up/mock-up';
import { openPress } from '@core/output/sheets/pdf';
import { compartmentSheets } from '@core/output/sheets/survey/compartment-sheet';
import { localDatums } from '@core/output/sheets/survey/datums';
import { floatingSheets } from '@core/output/sheets/survey/floating-sheet';
import { surveySheets } from '@core/output/sheets/survey/whole-survey';
import type { NextReading } from '@core/rules/next-reading';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';
import { describe, expect, it } from 'vitest';
import { inProject } from '../../../../../electron/launch/project.mjs';
import { threeLockers } from '../../../../support/boats';
import { pagesOf } from '../../../../support/pdf-content';
import { printFonts } from '../../../../support/print-fonts';

const press = await openPress(printFonts);
const context: PrintContext = {
  paper: 'A4',
  lettering: press,
  date: '2026-11-25',
  boatName: 'Marram',
  practice: 'isoSmallCraft',
  fileName: '',
  units: 'mm',
};
const read = (boat: unknown): Boat => {
  const result = checkBoat(boat);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join('\n'));
  return result.boat;
};
const layoutFor = (boat: Boat) =>
  deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: boat.newHoleCostM });
const wordsOf = (sheets: readonly Sheet[]): readonly TextMark[] =>
  sheets.flatMap(({ marks }) => marks.filter((mark) => mark.kind === 'text'));

const lockers = read(threeLockers());
const layout = layoutFor(lockers);

describe('the survey sheet of a locker', () => {
  const sheets = compartmentSheets(lockers, layout, null, 'middle', context);
  const words = wordsOf(sheets);
  const near = (mark: TextMark, said: string): TextMark | undefined =>
    words.find((other) => other.words === said && Math.abs(other.at[1] - mark.at[1]) < 0.1);

  it('asks for lengths, heights, depths and diagonals, with what the file has now (derived: a box 1 x 1.2 x 0.8 m)', () => {
    const now = (start: string, figure: string): void => {
      const row = words.find((mark) => mark.words.startsWith(start));
      expect(row && near(row, figure)?.words, `${start} ${figure}`).toBe(figure);
    };
    now('Length along the bottom', '1000');
    now('Height at the aft end', '800');
    now('Depth at the top', '1200');
    // sqrt(1.0^2 + 0.8^2) = 1.2806 m
    now('Diagonal of the long side', '1281');
  });

  it('has every letter of its sketch in its rows, and a reason at each reading that others could give', () => {
    const letters = words.filter(({ words: said, face }) => face === 'strong' && /^[A-Z]$/.test(said));
    const inSketch = new Set(letters.filter(({ sizeMm }) => sizeMm === 2.5).map(({ words: said }) => said));
    const inRows = new Set(letters.filter(({ sizeMm }) => sizeMm === 3.5).map(({ words: said }) => said));
    expect(inSketch.size).toBeGreaterThanOrEqual(11);
    expect([...inSketch].filter((letter) => !inRows.has(letter))).toEqual([]);
    expect(words.filter(({ words: said }) => said.startsWith('Check: ')).length).toBeGreaterThanOrEqual(5);
  });

  it('says what each grade counts for on this boat', () => {
    const careful = { ...lockers, accuracy: { measured: 0.003 } };
    const said = wordsOf(compartmentSheets(careful, layout, null, 'middle', context))
      .map((mark) => mark.words)
      .join(' ');
    expect(said).toMatch(/M measured straight, ±3; T taped round a corner, ±20/);
  });

  it('gives an opening its clear width, height and both diagonals (derived: 0.8 x 0.7 m, 1.063 m)', () => {
    const said = wordsOf(compartmentSheets(lockers, layout, null, 'fore', context));
    const row = said.find((mark) => mark.words === 'Fore lid: clear width');
    expect(said.find((mark) => mark.words === '800' && Math.abs(mark.at[1] - (row?.at[1] ?? 0)) < 0.1)).toBeDefined();
    expect(said.filter((mark) => mark.words === '1063')).toHaveLength(2);
  });

  it('asks for the steps of an outline with more corners (derived: an L of 1.2 x 0.8 m, 0.6 x 0.4 m taken out)', () => {
    const draft = threeLockers();
    const middle = draft.compartments?.middle;
    if (!middle) throw new Error('expected a middle locker');
    middle.outline = [
      [-0.6, -0.4],
      [0.6, -0.4],
      [0.6, 0.4],
      [0, 0.4],
      [0, 0],
      [-0.6, 0],
    ];
    const stepped = read(draft);
    const said = wordsOf(compartmentSheets(stepped, layoutFor(stepped), null, 'middle', context));
    const sides = said.filter((mark) => mark.words === 'Side between two corners, in the section');
    const now = sides.map(
      (side) =>
        said.find((mark) => /^\d+$/.test(mark.words) && mark.at[0] > 100 && Math.abs(mark.at[1] - side.at[1]) < 0.1)
          ?.words,
    );
    expect(now).toEqual(['600', '400', '600', '400']);
  });

  it('measures from what the owner named, else from what stands near', () => {
    expect(localDatums(lockers, layout, 'middle')).toEqual([{ axis: 1, name: 'the centreline', atM: 0 }]);
    const named = read({
      ...threeLockers(),
      survey: { datums: { bulkhead: { name: 'the main bulkhead', at: [3.2, 0, 0], axis: 'x' } } },
    });
    expect(localDatums(named, layoutFor(named), 'middle')[0]).toEqual({ axis: 0, name: 'the main bulkhead', atM: 3.2 });
    const said = wordsOf(compartmentSheets(named, layoutFor(named), null, 'middle', context)).map((mark) => mark.words);
    // The locker ends at x = 2.015: 1185 mm aft of the bulkhead.
    expect(said).toContain('From the main bulkhead aft to its forward end');
    expect(said).toContain('1185');
  });
});

/** Words that run beyond the frame of their sheet. */
const overrunning = (sheets: readonly Sheet[]): readonly string[] =>
  sheets.flatMap((sheet) =>
    sheet.marks.flatMap((mark) => {
      if (mark.kind !== 'text') return [];
      const room = press.width(mark.words, mark.sizeMm, mark.face);
      const left = mark.at[0] - (mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? room / 2 : room);
      return left < 10 || left + room > sheet.widthMm - 5 ? [mark.words] : [];
    }),
  );

describe('names as long as the file allows', () => {
  it('are cut, and nothing runs off the sheet', () => {
    const name = 'W'.repeat(120);
    const draft = threeLockers();
    for (const record of [
      ...Object.values(draft.compartments ?? {}),
      ...Object.values(draft.openings ?? {}),
      ...Object.values(draft.parts ?? {}),
    ])
      record.name = name;
    for (const opening of Object.values(draft.openings ?? {})) opening.moveFirst = [name, name];
    const boat = read({ ...draft, name, survey: { datums: { a: { name, at: [5, 0, 0], axis: 'x' } } } });
    const own: PrintContext = { ...context, boatName: name, fileName: `${name}.boat.json`, paper: 'letter' };
    expect(overrunning(surveySheets(boat, layoutFor(boat), null, own))).toEqual([]);
    const made = mockUpSheets(boat.parts.pump as Part, own);
    expect('sheets' in made ? overrunning(made.sheets) : made.problem).toEqual([]);
  });
});

describe('all sheets of a boat', () => {
  const sample = readBoat(readFileSync(inProject('sample-boats/complete/sandwort/boat.json'), 'utf8'));
  if (!sample.ok) throw new Error('expected the sample boat to open');
  const { boat } = sample;
  const hull = boat.hull ? hullSurface(boat.hull) : null;

  it('stay within the frame, at 2.5 mm or more, on every paper and in inches', async () => {
    const few: Boat = { ...boat, compartments: Object.fromEntries(Object.entries(boat.compartments).slice(2, 4)) };
    for (const [paper, units] of [
      ['A4', 'mm'],
      ['A3', 'inch'],
      ['letter', 'inch'],
    ] as const) {
      const sheets = surveySheets(few, layoutFor(few), hull, { ...context, paper, units });
      const { bytes, missingLetters } = await press.print(sheets, { title: 'Survey', subject: '', made: new Date(0) });
      expect(missingLetters).toEqual([]);
      for (const page of pagesOf(bytes)) {
        const out = page.paths.flatMap(({ points }) =>
          points.filter(([x, y]) => x < 14.9 || y < 4.9 || x > page.widthMm - 4.9 || y > page.heightMm - 4.9),
        );
        expect(out).toEqual([]);
        expect(Math.min(...page.words.map(({ emMm }) => emMm * 0.7))).toBeGreaterThanOrEqual(2.5 - 1e-6);
      }
      expect(overrunning(sheets)).toEqual([]);
    }
  });

  it('ask for a fourth and fifth freeboard, which find the one that is misread', () => {
    const bare: Boat = { ...boat, reference: { freeboards: {}, levelMarks: {} } };
    const said = wordsOf(floatingSheets(bare, hull, context))
      .map((mark) => mark.words)
      .join(' ');
    expect(said).toMatch(/Stem head[\s\S]*Amidships, port[\s\S]*Starboard quarter/);
    expect(said).toMatch(/find the one that is misread/);
    expect(wordsOf(floatingSheets(bare, null, context)).length).toBeGreaterThan(20);
  });
});

describe('the page of the next readings', () => {
  const reading = (id: string): NextReading => ({
    id,
    kind: 'openingWidth',
    record: 'lid',
    from: { record: 'lid', side: 'left edge' },
    to: { record: 'lid', side: 'right edge' },
    axis: null,
    paths: ['openings.lid.widthM'],
    present: 0.8,
    unit: 'm',
    grade: 'taped',
    gradeM: 0.02,
    at: null,
    enterNext: null,
    settles: Array.from({ length: 9 }, (_, i) => ({ key: `access/way-in|part${i}`, chance: 0.8, along: [] })),
    value: 3,
  });

  it('takes five with all they would settle on one sheet of the smallest paper', () => {
    const five = ['a', 'b', 'c', 'd', 'e'].map(reading);
    const sheets = nextReadingSheets(lockers, five, [], { ...context, paper: 'letter' });
    expect(sheets).toHaveLength(1);
    const said = wordsOf(sheets).map((mark) => mark.words);
    expect(said.filter((words) => words.startsWith('From: left edge of Fore lid'))).toHaveLength(5);
    expect(said.filter((words) => words.startsWith('Now: 800 mm (taped, ±20 mm)'))).toHaveLength(5);
    expect(said.filter((words) => /^Settles, chance 80 %.*; and \d more$/.test(words))).toHaveLength(5);
    expect(said.filter((words) => words === 'Reading and unit')).toHaveLength(5);
  });

  it('says so where nothing is worth measuring', () => {
    const said = wordsOf(nextReadingSheets(lockers, [], [], context)).map((mark) => mark.words);
    expect(said.join(' ')).toMatch(/nothing to measure/);
  });
});
