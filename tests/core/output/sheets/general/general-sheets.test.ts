import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { analyze } from '@core/analyze';
import { ENGINE_VERSION } from '@core/base/engine-version';
import { checkBoat, readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import type { PrintContext } from '@core/output/sheets/context';
import { type GeneralInput, generalSheets } from '@core/output/sheets/general/general';
import type { LineMark, Mark, Sheet, TextMark } from '@core/output/sheets/marks';
import { PAPER_SIZES } from '@core/output/sheets/paper-size';
import { openPress } from '@core/output/sheets/pdf';
import { cautionTexts, DEFERENCE } from '@core/output/text/caution-text';
import { isOpen } from '@core/output/text/finding-order';
import { hullSurface } from '@core/shape/hull/surface';
import { deriveLayout } from '@core/shape/layout/derive';
import { describe, expect, it } from 'vitest';
import { inProject } from '../../../../../electron/launch/project.mjs';
import { threeLockers } from '../../../../support/boats';
import { missingTools } from '../../../../support/outside-tools.mjs';
import { pagesOf, rawText } from '../../../../support/pdf-content';
import { printFonts } from '../../../../support/print-fonts';

const press = await openPress(printFonts);
const contextFor = (boat: Boat, more: Partial<PrintContext> = {}): PrintContext => ({
  paper: 'A3',
  lettering: press,
  date: '2026-11-25',
  boatName: boat.name,
  practice: boat.practice,
  fileName: 'boat.json',
  units: 'mm',
  ...more,
});

function inputOf(boat: Boat): GeneralInput {
  const report = analyze(boat);
  const { compartments, panels, newHoleCostM } = boat;
  const newHoles = report.arrangement === null ? {} : (boat.arrangements[report.arrangement]?.newHoles ?? {});
  return {
    boat,
    report,
    layout: deriveLayout({ compartments, panels, newHoles, newHoleCostM }),
    hull: boat.hull ? hullSurface(boat.hull) : null,
  };
}

function sheetsOf(input: GeneralInput, more: Partial<PrintContext> = {}): readonly Sheet[] {
  const made = generalSheets(input, contextFor(input.boat, more));
  if ('problem' in made) throw new Error(made.problem);
  return made.sheets;
}

const read = readBoat(readFileSync(inProject('sample-boats', 'complete', 'sandwort', 'boat.json'), 'utf8'));
if (!read.ok) throw new Error('the sample is unreadable');
const sandwort = inputOf(read.boat);
const sheets = sheetsOf(sandwort);
const [first] = sheets as [Sheet];
const isText = (mark: Mark): mark is TextMark => mark.kind === 'text';
const isLine = (mark: Mark): mark is LineMark => mark.kind === 'line';
const wordsOn = (sheet: Sheet): readonly TextMark[] => sheet.marks.filter(isText);
const said = (all: readonly Sheet[]): string =>
  all
    .flatMap(wordsOn)
    .map(({ words }) => words)
    .join(' ');

/** Rings of one size: the balloons of the drawing and of the parts table. */
const rings = first.marks.filter(
  (mark): mark is LineMark =>
    isLine(mark) && mark.closed && mark.points.length > 12 && Math.abs(widthOf(mark.points) - 5.8) < 0.05,
);
function widthOf(points: LineMark['points']): number {
  const xs = points.map(([x]) => x);
  return Math.max(...xs) - Math.min(...xs);
}
const middleOf = ({ points }: LineMark): readonly [number, number] => [
  (Math.max(...points.map(([x]) => x)) + Math.min(...points.map(([x]) => x))) / 2,
  (Math.max(...points.map(([, y]) => y)) + Math.min(...points.map(([, y]) => y))) / 2,
];

describe('the general arrangement', () => {
  it('has a balloon for every placed part, in two straight rows, none over another', () => {
    const parts = sandwort.report.takeoff.filter(({ group }) => group === 'part').length;
    // Each part has one on the drawing and one in the table.
    expect(rings).toHaveLength(2 * parts);
    const heights = new Map<string, number>();
    for (const ring of rings) {
      const y = middleOf(ring)[1].toFixed(3);
      heights.set(y, (heights.get(y) ?? 0) + 1);
    }
    const inRows = [...heights.values()].filter((count) => count > 1).reduce((sum, count) => sum + count, 0);
    expect([...heights.values()].filter((count) => count > 1)).toHaveLength(2);
    expect(inRows).toBe(parts);
    const middles = rings.map(middleOf);
    middles.forEach(([x, y], i) => {
      for (const [u, v] of middles.slice(i + 1)) expect(Math.hypot(x - u, y - v)).toBeGreaterThan(5.8);
    });
  });

  it('numbers the parts as the list does', () => {
    const numbers = rings.map((ring) => {
      const [x, y] = middleOf(ring);
      return wordsOn(first).find(({ at }) => Math.abs(at[0] - x) < 0.1 && Math.abs(at[1] - y - 1.25) < 0.1)?.words;
    });
    const wanted = sandwort.report.takeoff.flatMap(({ group }, i) => (group === 'part' ? [String(i + 1)] : []));
    expect([...new Set(numbers)].sort()).toEqual([...wanted].sort());
    for (const number of wanted) expect(numbers.filter((one) => one === number)).toHaveLength(2);
  });

  it('draws the boat to its scale: 11.0 m of hull are 220 mm at 1 : 50 (derived)', () => {
    const scale = Number(
      /^1 : (\d+)$/.exec(wordsOn(first).find(({ words }) => /^1 : \d+$/.test(words))?.words ?? '')?.[1],
    );
    const { hull } = sandwort;
    if (!hull) throw new Error('expected a hull');
    const lengthMm = ((hull.forwardM - hull.aftM) * 1000) / scale;
    const outlines = first.marks.filter(isLine).filter(({ closed, widthMm }) => closed && widthMm === 0.5);
    const widths = outlines.map(({ points }) => widthOf(points));
    // Once in profile, once in plan, aligned under each other.
    const whole = outlines.filter(({ points }) => Math.abs(widthOf(points) - lengthMm) < 0.01);
    expect(widths.length).toBeGreaterThan(0);
    expect(whole.length).toBeGreaterThanOrEqual(2);
    const lefts = whole.map(({ points }) => Math.min(...points.map(([x]) => x)));
    for (const left of lefts) expect(left).toBeCloseTo(lefts[0] ?? 0, 6);
  });

  it('prints no words over other words on any sheet', () => {
    for (const sheet of sheets) {
      const boxes = wordsOn(sheet).map((mark) => {
        const width = press.width(mark.words, mark.sizeMm, mark.face);
        const left = mark.at[0] - (mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? width / 2 : width);
        return { words: mark.words, x0: left, x1: left + width, y0: mark.at[1] - mark.sizeMm, y1: mark.at[1] };
      });
      const clashes = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter((b) => a.x0 < b.x1 - 0.05 && b.x0 < a.x1 - 0.05 && a.y0 < b.y1 - 0.05 && b.y0 < a.y1 - 0.05)
          .map((b) => `${a.words} / ${b.words}`),
      );
      expect(clashes).toEqual([]);
    }
  });

  it('says what it reckons with, who made it and the open findings with what to beware of', () => {
    const onFirst = said([first]);
    expect(onFirst).toContain('50 mm made up at each end');
    expect(onFirst).toContain('ISO small craft');
    expect(onFirst).toContain('measured 5 mm, taped 20 mm');
    expect(onFirst).toContain(`Engine ${ENGINE_VERSION}`);
    expect(onFirst.replaceAll('  ', ' ')).toContain(DEFERENCE.slice(0, 20));
    const open = sandwort.report.findings.filter(isOpen);
    expect(open.length).toBeGreaterThan(0);
    expect(onFirst).toContain(`Open findings: ${open.length}`);
    const whole = said(sheets).replaceAll(/\s+/g, ' ');
    for (const hazard of new Set(open.flatMap((finding) => finding.hazards)))
      for (const words of cautionTexts([hazard])) expect(whole).toContain(words);
  });

  it('carries the cautions of what is built, whether or not a finding speaks of it', () => {
    const quiet = sheetsOf({ ...sandwort, report: { ...sandwort.report, findings: [] } });
    const whole = said(quiet);
    // The plan has a pressure side, a battery, drinking water, a through-hull and a pump of 24 kg.
    for (const words of ['about 55 bar', 'thousands of amperes', 'People drink', 'can sink the boat', 'second person'])
      expect(whole).toContain(words);
    const lockers = checkBoat({
      format: 'underberth-boat',
      schemaVersion: 1,
      name: 'Lockers',
      compartments: threeLockers().compartments,
    });
    if (!lockers.ok) throw new Error('expected a boat');
    expect(said(sheetsOf(inputOf(lockers.boat)))).not.toContain('about 55 bar');
  });

  it('lists every row, cut, hole and place of the list on the sheets that follow', () => {
    const whole = said(sheets);
    for (const row of sandwort.report.takeoff) {
      expect(whole).toContain(row.item.split(' ').slice(0, 2).join(' '));
      for (const { pieces } of row.cuts ?? [])
        for (const { name } of pieces) expect(whole).toContain(name.slice(0, 12));
    }
    expect(whole).toContain('What to cut from which length, mm');
    expect(whole).toContain('Holes to drill, mm');
    expect(whole).toContain('Hardware by place');
  });

  it('numbers its sheets through', () => {
    const counts = sheets.map((sheet) => wordsOn(sheet).find(({ words }) => /^\d+ of \d+$/.test(words))?.words);
    expect(counts).toEqual(sheets.map((_, i) => `${i + 1} of ${sheets.length}`));
  });

  it('does not depend on the order of the records', () => {
    const { boat } = sandwort;
    const shuffled = checkBoat({
      ...boat,
      parts: Object.fromEntries(Object.entries(boat.parts).reverse()),
      lines: Object.fromEntries(Object.entries(boat.lines).reverse()),
      fixtures: Object.fromEntries(Object.entries(boat.fixtures).reverse()),
    });
    if (!shuffled.ok) throw new Error('expected a boat');
    expect(sheetsOf({ ...sandwort, boat: shuffled.boat })).toEqual(sheets);
  });

  it('stays within the frame on every paper, at 2.5 mm or more, without a hull too', () => {
    const lockers = checkBoat(threeLockers());
    if (!lockers.ok) throw new Error('expected a boat');
    for (const input of [sandwort, inputOf(lockers.boat)])
      for (const paper of PAPER_SIZES)
        for (const sheet of sheetsOf(input, { paper, units: paper === 'letter' ? 'inch' : 'mm' })) {
          const words = wordsOn(sheet);
          expect(Math.min(...words.map(({ sizeMm }) => sizeMm))).toBeGreaterThanOrEqual(2.5);
          const inner = { x0: 20, x1: sheet.widthMm - 10, y0: 10, y1: sheet.heightMm - 10 };
          for (const mark of sheet.marks) {
            const points = isText(mark) ? [mark.at] : isLine(mark) ? mark.points : mark.rings.flat();
            for (const [x, y] of points)
              expect(x >= inner.x0 - 5.1 && x <= inner.x1 + 5.1 && y >= inner.y0 - 5.1 && y <= inner.y1 + 5.1).toBe(
                true,
              );
          }
          for (const mark of words) {
            const width = press.width(mark.words, mark.sizeMm, mark.face);
            const left = mark.at[0] - (mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? width / 2 : width);
            expect(left >= inner.x0 - 5 && left + width <= inner.x1 + 5, mark.words).toBe(true);
          }
        }
  });

  it('says why there is none of an empty boat', () => {
    const empty = checkBoat({ format: 'underberth-boat', schemaVersion: 1, name: 'Bare' });
    if (!empty.ok) throw new Error('expected a boat');
    expect(generalSheets(inputOf(empty.boat), contextFor(empty.boat))).toEqual({
      problem: 'There is nothing to draw yet: enter a hull, a compartment or a thing first.',
    });
  });
});

const facts = { title: 'General arrangement', subject: 'Sandwort', made: new Date('2026-11-25T00:00:00Z') };

describe('the general arrangement as PDF', () => {
  it('holds a line of 100 mm on every sheet in its own operators, no curve and no picture', async () => {
    const { bytes } = await press.print(sheets, facts);
    const pages = pagesOf(bytes);
    expect(pages).toHaveLength(sheets.length);
    for (const { paths } of pages) {
      const lengths = paths
        .filter(({ points, how }) => how === 'stroke' && points.length === 2)
        .map(({ points: [a, b] }) => Math.hypot((b?.[0] ?? 0) - (a?.[0] ?? 0), (b?.[1] ?? 0) - (a?.[1] ?? 0)));
      expect(lengths.some((length) => Math.abs(length - 100) < 1e-4)).toBe(true);
    }
    expect(rawText(bytes)).not.toMatch(/\/Subtype \/Image/);
  });

  it.skipIf(missingTools().some(({ tool }) => tool === 'pdftoppm') && process.env.CI !== 'true')(
    'is text to other programs, and prints as a page that is not blank (pdftotext, pdftoppm)',
    async () => {
      const folder = mkdtempSync(path.join(tmpdir(), 'underberth-general-'));
      try {
        const file = path.join(folder, 'general.pdf');
        writeFileSync(file, (await press.print(sheets, facts)).bytes);
        const told = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8', maxBuffer: 1e8 });
        expect(told.status).toBe(0);
        expect(told.stdout).toContain('General arrangement');
        for (const row of sandwort.report.takeoff.filter(({ unit }) => unit === 'm')) {
          // The value to buy, as the list has it, on the line of its item.
          const line = told.stdout
            .split('\n')
            .find((text) => text.includes(row.item) && text.includes(row.buy.toFixed(2)));
          expect(line, row.item).toBeDefined();
        }
        const drawn = spawnSync('pdftoppm', [
          '-r',
          '40',
          '-gray',
          '-f',
          '1',
          '-l',
          '1',
          file,
          path.join(folder, 'page'),
        ]);
        expect(drawn.status).toBe(0);
        const page = readdirSync(folder).find((name) => name.endsWith('.pgm')) ?? '';
        const dark = readFileSync(path.join(folder, page))
          .subarray(20)
          .filter((grey) => grey < 128).length;
        expect(dark).toBeGreaterThan(2000);
      } finally {
        rmSync(folder, { recursive: true });
      }
    },
  );
});
