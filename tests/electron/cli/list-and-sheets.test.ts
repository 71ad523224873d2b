import { lstatSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { analyze } from '@core/analyze';
import { checkBoat } from '@core/boat/read';
import { takeoffCsv } from '@core/output/takeoff/csv';
import { describe, expect, it } from 'vitest';
import { commandOf } from '../../../electron/cli/arguments';
import { listed } from '../../../electron/cli/list';
import { freeName, writeSheets } from '../../../electron/cli/sheets';
import { threeLockers } from '../../support/boats';
import { pagesOf } from '../../support/pdf-content';
import { temporaryFolder } from '../../support/temporary-folder';

const folder = temporaryFolder();
const at = (...parts: string[]): string => path.join(folder, ...parts);

const boatOf = () => {
  const read = checkBoat(threeLockers());
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return { boat: read.boat, report: analyze(read.boat) };
};

describe('the words of list and sheets', () => {
  it('name what is wrong', () => {
    expect(commandOf(['sheets', 'boat.json'])).toEqual({ wrong: 'sheets needs --out DIR' });
    expect(commandOf(['sheets', 'boat.json', '--out', 'x', '--paper', 'A5'])).toEqual({
      wrong: '--paper is A5; known are A4, A3, letter',
    });
    expect(commandOf(['list', 'boat.json', '--xlsx'])).toEqual({ wrong: '--xlsx needs a value' });
  });
  it('take both files of the list, and paper in any case', () => {
    expect(commandOf(['list', 'b', '--csv', 'o.csv', '--xlsx=o.xlsx'])).toMatchObject({
      csvFile: 'o.csv',
      xlsxFile: 'o.xlsx',
    });
    expect(commandOf(['sheets', 'b', '--out', 'o', '--paper', 'a4'])).toMatchObject({ folder: 'o', paper: 'A4' });
    expect(commandOf(['sheets', 'b', '--out', 'o'])).toMatchObject({ paper: 'A3' });
  });
});

describe('underberth list', () => {
  const { boat, report } = boatOf();
  const asked = { verb: 'list', file: 'b', arrangement: null, csvFile: null, xlsxFile: null } as const;

  it('prints CSV without a file, and writes CSV and a workbook where it is told', async () => {
    expect(await listed(report, boat, asked)).toEqual({ output: takeoffCsv(report.takeoff) });
    const done = await listed(report, boat, { ...asked, csvFile: at('list.csv'), xlsxFile: at('list.xlsx') });
    expect(done).toEqual({ output: '' });
    expect(readFileSync(at('list.csv'), 'utf8')).toBe(takeoffCsv(report.takeoff));
    // A workbook is a ZIP archive: its first bytes (published: APPNOTE 4.3.7).
    expect([...readFileSync(at('list.xlsx')).subarray(0, 4)]).toEqual([0x50, 0x4b, 3, 4]);
  });

  it('names the file that could not be written', async () => {
    const missing = at('nowhere', 'list.csv');
    expect(await listed(report, boat, { ...asked, csvFile: missing })).toEqual({
      problems: [`${missing} can't be written (ENOENT)`],
    });
  });
});

describe('underberth sheets', () => {
  /** One locker with two things to put into it: what is judged here is what is written where. */
  const box = (name: string) => ({ name, kind: 'other', shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] } });
  const small = (names: readonly string[]) => {
    const read = checkBoat({
      format: 'underberth-boat',
      schemaVersion: 1,
      name: 'Small',
      compartments: {
        locker: {
          name: 'Locker',
          view: 'plan',
          outline: [
            [0, 0],
            [1, 0],
            [1, 1],
            [0, 1],
          ],
          rangeM: [0, 0.5],
        },
      },
      parts: Object.fromEntries(names.map((name, i) => [`part${i}`, box(name)])),
      arrangements: { only: { name: 'Only', places: { part0: { at: [0.5, 0.5, 0.1] } } } },
    });
    if (!read.ok) throw new Error('expected a boat');
    return { boat: read.boat, report: analyze(read.boat) };
  };
  const written = (name: string, names: readonly string[] = ['Pump', 'Filter']) =>
    writeSheets({
      ...small(names),
      fileName: 'boat.json',
      paper: 'A4',
      folder: at(name),
      today: new Date('2026-11-25T12:00:00Z'),
    });

  it('writes every document with a clear name, into a folder that it makes', async () => {
    const { files, problems } = await written('new/sheets');
    expect(problems).toEqual([]);
    const names = files.map((file) => path.relative(at('new/sheets'), file));
    expect(names).toContain('General arrangement and list.pdf');
    expect(names).toContain('Survey.pdf');
    expect(names.filter((name) => name.startsWith('Mock-up ')).length).toBeGreaterThan(0);
    expect(readdirSync(at('new/sheets')).sort()).toEqual([...names].sort());
    for (const file of files) expect(pagesOf(readFileSync(file)).length).toBeGreaterThan(0);
  });

  it('writes nothing outside its folder, whatever things are called and whatever lies there', async () => {
    mkdirSync(at('trap'));
    writeFileSync(at('victim.pdf'), 'kept');
    symlinkSync(at('victim.pdf'), at('trap', 'Survey.pdf'));
    const { files, problems } = await written('trap', ['../../../../etc/passwd', '..\\..\\x']);
    expect(problems).toEqual([]);
    for (const file of files) expect(path.dirname(file)).toBe(at('trap'));
    expect(new Set(files).size).toBe(files.length);
    expect(readFileSync(at('victim.pdf'), 'utf8')).toBe('kept');
    expect(lstatSync(at('trap', 'Survey.pdf')).isSymbolicLink()).toBe(false);
    expect(readdirSync(at('trap')).filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  it('says which folder cannot be made', async () => {
    writeFileSync(at('file'), '');
    const { files, problems } = await written('file/sheets');
    expect([files, problems]).toEqual([[], [`${at('file/sheets')} can't be written (ENOTDIR)`]]);
  });

  it('gives names that no other document has, and never an empty one', () => {
    const used = new Set<string>();
    expect([
      freeName('Mock-up A', used),
      freeName('mock-up a', used),
      freeName('///', used),
      freeName('..', used),
    ]).toEqual(['Mock-up A', 'mock-up a 2', 'Sheet', 'Sheet 2']);
    expect(freeName('x'.repeat(300), used).length).toBeLessThanOrEqual(80);
  });
});
