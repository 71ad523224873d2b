import { analyze } from '@core/analyze';
import { checkBoat, readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { takeoffCsv } from '@core/output/takeoff/csv';
import { checkText } from '@electron/cli/check-text';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { filesUnder, textOf } from '../../architecture/sources';
import { threeLockers } from '../../support/boats';

// Derived: a name is anybody's text, and must stay text wherever it comes out.
const HOSTILE = [
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  "=cmd|' /C calc'!A0",
  '+1+1',
  '-2+3',
  '@SUM(A1)',
  '\t=1+1',
  '\r=1+1',
  '\u001b[2J\u001b]0;owned\u0007',
  '\u009b31mred',
  '\u202egnp.taob',
  '../../etc/passwd',
  'C:\\CON',
  'NUL',
  'file:///etc/passwd',
  'javascript:alert(1)',
  '%s%n%x',
  '#{1+1}',
  '"; DROP TABLE boats; --',
];

/** The boat with one text in the place of every name. */
function called(name: string): Boat {
  const renamed = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(renamed);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, one]) => [key, key === 'name' || key === 'notes' ? name : renamed(one)]),
    );
  };
  const read = checkBoat(renamed(threeLockers()));
  if (!read.ok) throw new Error(read.problems[0]?.message);
  return read.boat;
}

describe.each(HOSTILE)('a boat in which everything is called %j', (name) => {
  const boat = called(name);
  const report = analyze(boat);

  it('steers no terminal', () => {
    expect(checkText(report, boat, [name])).not.toMatch(/[^\P{C}\n]/u);
  });

  it('calculates nothing in a spreadsheet', () => {
    const { data } = Papa.parse<string[]>(takeoffCsv(report.takeoff).replace(/^\ufeff/, ''));
    const cells = data.flat();
    expect(cells.length).toBeGreaterThan(10);
    expect(cells.filter((cell) => /^[=+@\t\r]/.test(cell) || (/^-/.test(cell) && Number.isNaN(Number(cell))))).toEqual(
      [],
    );
  });
});

describe('the window', () => {
  it('never takes a text for markup or code: no source can', () => {
    const ways =
      /dangerouslySetInnerHTML|\.(inner|outer)HTML\b|insertAdjacentHTML|document\.write|\beval\(|new Function\(|srcdoc|createContextualFragment/;
    const sources = ['renderer', 'core', 'electron']
      .flatMap(filesUnder)
      .filter((file) => /\.(ts|tsx|html)$/.test(file));
    expect(sources.length).toBeGreaterThan(100);
    expect(sources.filter((file) => ways.test(textOf(file)))).toEqual([]);
  });

  it('takes the name of a picture for a name and nothing else', () => {
    for (const file of ['../a.png', 'a/b.png', 'a\\b.png', '..', '/etc/passwd', 'file:///etc/a.png']) {
      const read = readBoat(JSON.stringify({ ...threeLockers(), pictures: { one: { file } } }));
      expect([file, read.ok]).toEqual([file, false]);
    }
  });
});
