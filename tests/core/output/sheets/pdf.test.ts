import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { line, outline, rectangle, text, wrapped } from '@core/output/sheets/marks';
import { checkLine, framedSheet, type Paper, scaleBar } from '@core/output/sheets/paper';
import { openPress, POINTS_PER_MM } from '@core/output/sheets/pdf';
import { describe, expect, it } from 'vitest';
import { missingTools } from '../../../support/outside-tools.mjs';
import { pagesOf, rawText } from '../../../support/pdf-content';
import { printFonts } from '../../../support/print-fonts';

const press = await openPress(printFonts);
const facts = { title: 'A sheet', subject: 'of lines', made: new Date('2026-11-25T00:00:00Z') };
const fields = {
  boat: 'Marram',
  sheet: 'Trial',
  subject: 'Lines',
  drawnFrom: 'marram.boat.json',
  measured: 'taped',
  practice: 'ISO small craft',
  scale: '1 : 10',
  date: '2026-11-25',
  number: 1,
  of: 1,
};
const PAPERS: readonly Paper[] = (['A4', 'A3', 'letter'] as const).flatMap((size) => [
  { size, landscape: false },
  { size, landscape: true },
]);
const trial = (paper: Paper) => framedSheet(paper, fields, press, [...checkLine([40, 60]), ...scaleBar([40, 90], 10)]);

describe('a sheet as PDF', () => {
  it('has the size of its paper: ISO 216 and 8 1/2 by 11 inches (published)', async () => {
    const { bytes } = await press.print(PAPERS.map(trial), facts);
    const sizes = pagesOf(bytes).map(({ widthMm, heightMm }) => [widthMm, heightMm]);
    const expected = [
      [210, 297],
      [297, 210],
      [297, 420],
      [420, 297],
      [215.9, 279.4],
      [279.4, 215.9],
    ];
    expect(sizes).toHaveLength(expected.length);
    sizes.forEach(([width, height], i) => {
      expect(width).toBeCloseTo(expected[i]?.[0] ?? 0, 5);
      expect(height).toBeCloseTo(expected[i]?.[1] ?? 0, 5);
    });
  });

  it('draws a check line of 100 mm: 283.465 points (derived: 100 x 72 / 25.4)', async () => {
    const { bytes } = await press.print([trial({ size: 'A4', landscape: false })], facts);
    const lines =
      pagesOf(bytes)[0]?.paths.filter(({ points }) => points.every(([, y]) => Math.abs(y - 60) < 1e-6)) ?? [];
    const lengths = lines.map(({ points }) => Math.abs((points[1]?.[0] ?? 0) - (points[0]?.[0] ?? 0)));
    expect(lengths).toHaveLength(1);
    expect(lengths[0]).toBeCloseTo(100, 5);
    expect((lengths[0] ?? 0) * POINTS_PER_MM).toBeCloseTo(283.465, 3);
  });

  it('stays on its paper, with words at least 2.5 mm high and no curve, picture or borrowed font', async () => {
    const { bytes } = await press.print(PAPERS.map(trial), facts);
    for (const page of pagesOf(bytes)) {
      for (const { points } of page.paths)
        for (const [x, y] of points) expect(x >= 0 && x <= page.widthMm && y >= 0 && y <= page.heightMm).toBe(true);
      expect(page.words.length).toBeGreaterThan(20);
      // Capitals of Barlow are 0.7 of the em high: its own OS/2 table.
      expect(Math.min(...page.words.map(({ emMm }) => emMm * 0.7))).toBeGreaterThanOrEqual(2.5 - 1e-6);
    }
    const text = rawText(bytes);
    expect(text).not.toMatch(/\/Subtype \/Image/);
    expect(text.match(/\/FontFile2/g)).toHaveLength(2);
    expect(text).not.toMatch(/Helvetica/);
  });

  it('gives the same bytes for the same input, whenever it is printed', async () => {
    const once = await press.print(PAPERS.map(trial), facts);
    const again = await (await openPress(printFonts)).print(PAPERS.map(trial), facts);
    expect(Buffer.compare(once.bytes, again.bytes)).toBe(0);
    const later = await press.print(PAPERS.map(trial), { ...facts, made: new Date('2027-01-01T00:00:00Z') });
    expect(Buffer.compare(once.bytes, later.bytes)).not.toBe(0);
  });

  it('tells which letters it lacks and prints the others', async () => {
    const sheet = { widthMm: 100, heightMm: 50, marks: [text('Möwe Ø 12 − 3 \u2009 Чайка', [10, 20])] };
    const { missingLetters } = await press.print([sheet], facts);
    expect(missingLetters).toEqual([...'Чайк'].sort());
  });

  it('measures words as it prints them: a box of their width ends where they end', () => {
    const whole = press.width('Draught 1 635', 3.5);
    expect(whole).toBeCloseTo(press.width('Draught 1 635', 7) / 2, 6);
    expect(press.width('', 3.5)).toBe(0);
    expect(wrapped('one two three four', press.width('one two', 2.5) + 0.01, press)).toEqual([
      'one two',
      'three',
      'four',
    ]);
  });

  it('refuses words that nobody could read', () => {
    expect(() => text('small', [0, 0], { sizeMm: 2 })).toThrow(/at least 2.5 mm, got 2/);
  });

  it('keeps lines solid or dashed as they were meant, one after the other', async () => {
    const marks = [
      line(
        [
          [10, 10],
          [60, 10],
        ],
        { dashMm: [4, 2] },
      ),
      outline(rectangle(10, 20, 30, 10)),
    ];
    const [page] = pagesOf((await press.print([{ widthMm: 100, heightMm: 50, marks }], facts)).bytes);
    expect(page?.paths.map(({ dashed, closed }) => ({ dashed, closed }))).toEqual([
      { dashed: true, closed: false },
      { dashed: false, closed: true },
    ]);
  });

  it.runIf(missingTools().every(({ tool }) => tool !== 'pdftoppm'))('is read by another program', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'sheets-'));
    try {
      const file = path.join(folder, 'trial.pdf');
      writeFileSync(file, (await press.print(PAPERS.map(trial), facts)).bytes);
      const told = (command: string, ...words: string[]): string =>
        spawnSync(command, [...words], { encoding: 'utf8' }).stdout;
      expect(
        told('pdffonts', file)
          .split('\n')
          .slice(2)
          .filter(Boolean)
          .every((row) => / yes yes yes /.test(row)),
      ).toBe(true);
      expect(told('pdfimages', '-list', file).trim().split('\n')).toHaveLength(2);
      expect(told('pdfinfo', file)).toMatch(/Title:\s+A sheet[\s\S]*Pages:\s+6/);
      expect(told('pdftotext', '-f', '1', '-l', '1', file, '-')).toMatch(/This line is 100 mm/);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
