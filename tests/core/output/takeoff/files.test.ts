import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { clipboardOf, takeoffCsv } from '@core/output/takeoff/csv';
import { asText } from '@core/output/takeoff/plain-text';
import type { TakeoffRow } from '@core/output/takeoff/row';
import { bagsTable, cutsTable, holesTable, listTable } from '@core/output/takeoff/tables';
import { takeoffWorkbook } from '@core/output/workbook/workbook';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { pythonWithOpenpyxl } from '../../../support/outside-tools.mjs';

const BAD = '=HYPERLINK("http://x"),"Bögen"\nzwei';
const rows: readonly TakeoffRow[] = [
  {
    key: 'line|suction',
    group: 'hose',
    item: BAD,
    kind: '+1',
    quantity: 2.13,
    unit: 'm',
    buy: 2.5,
    leastM: 1.9302,
    greatestM: 2.323,
    place: '@here',
    from: ['raw-1', 'raw-2'],
    note: '-2+3',
    spread: [{ place: '\t=1+1', quantity: 1, from: 'raw-1', what: '|calc' }],
    cuts: [
      {
        lengthM: 2.5,
        supplied: false,
        name: '',
        pieces: [
          { lineId: 'raw-1', name: 'Intake', lengthM: 1.3 },
          { lineId: 'raw-2', name: '=A1', lengthM: 0.8302 },
        ],
        wasteM: 0.3698,
      },
    ],
    unitPrice: 8.4,
    price: 21,
  },
  {
    key: 'hole|cut',
    group: 'hole',
    item: 'Hole 27 mm',
    kind: 'cut',
    quantity: 1,
    unit: 'piece',
    buy: 0,
    place: 'Bulkhead',
    from: ['raw-1'],
    note: '',
    spread: [{ place: 'Aft locker', quantity: 1, from: 'raw-1', what: 'Bulkhead' }],
    hole: {
      panelId: 'aft|middle',
      panel: 'Bulkhead',
      diameterM: 0.027,
      thicknessM: 0.018,
      at: [1.0075, -0.1, -0.2],
      drillFrom: 'Aft locker',
      edges: [
        { side: 'port', distanceM: 0.12 },
        { side: 'bottom', distanceM: 0.06 },
      ],
    },
  },
];

describe('text that a spreadsheet could take for a formula', () => {
  it.each(['=1', '+1', '-1', '@a', '|a', '%a', ' =1', '\t=1', '\u00a0=1', '\u200b=1', '\uff1d1', '\ufeff=1'])(
    'is marked: %j',
    (words) => {
      expect(asText(words).startsWith("'")).toBe(true);
    },
  );
  it.each(['a=1', '19 mm', 'Bögen', "'quoted", ''])('is left as it is where it could not: %j', (words) => {
    expect(asText(words)).toBe(words);
  });
  it('loses what no file can hold', () => {
    expect(asText('a\u0000b\u001fc\ud800d\uffff')).toBe('abcd');
  });
});

describe('the list as comma-separated values', () => {
  it('reads back cell by cell, numbers as they are and negative ones too', () => {
    const parsed = Papa.parse<Record<string, string>>(takeoffCsv(rows).trimEnd(), { header: true });
    expect(parsed.errors).toEqual([]);
    const table = listTable(rows);
    expect(parsed.meta.fields).toEqual(table.columns.map(({ title }) => title));
    expect(parsed.data[0]).toMatchObject({
      'No.': '1',
      Quantity: '2.13',
      'Least (m)': '1.9302',
      Price: '21',
      Group: 'Hose',
    });
    for (const [i, line] of table.rows.entries())
      for (const [k, value] of line.entries())
        if (typeof value === 'number') expect(Number(parsed.data[i]?.[table.columns[k]?.title ?? ''])).toBe(value);
  });

  it('lets no name act as a formula, keeps commas, quotes, new lines and umlauts, and ends its lines with CR LF', () => {
    const text = takeoffCsv(rows);
    const cells = Papa.parse<string[]>(text.trimEnd(), { newline: '\r\n' }).data.flat();
    expect(cells.filter((cell) => /^[=+\-@|\t]/.test(cell))).toEqual([]);
    expect(cells).toContain(`'${BAD}`);
    expect(text.endsWith('\r\n')).toBe(true);
    // RFC 4180, section 2, rule 7 (published): quotes within quotes are doubled.
    expect(text).toContain(`"'=HYPERLINK(""http://x""),""Bögen""\nzwei"`);
  });

  it('tells what is there and what is still to be bought', () => {
    const stock = { 'line|suction': { have: 0.5, bought: 1 } };
    const parsed = Papa.parse<Record<string, string>>(takeoffCsv(rows, { stock }).trimEnd(), { header: true });
    // Derived: 2.5 - 0.5 - 1.
    expect(parsed.data[0]).toMatchObject({ Have: '0.5', Bought: '1', 'Still to buy': '1' });
  });
});

describe('the list on the clipboard', () => {
  it('is one line a row with tabs, and a table without markup of its own', () => {
    const { text, html } = clipboardOf(listTable(rows));
    const lines = text.trimEnd().split('\r\n');
    expect(lines).toHaveLength(3);
    expect(new Set(lines.map((line) => line.split('\t').length))).toEqual(new Set([listTable(rows).columns.length]));
    expect(lines.flatMap((line) => line.split('\t')).filter((cell) => /^[=+@|]/.test(cell))).toEqual([]);
    expect(html).not.toContain('"http');
    expect(clipboardOf({ name: '', columns: [], rows: [['<img src=x onerror=y>']] }).html).not.toContain('<img');
  });
});

const READ = `
import json, sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
print(json.dumps({s.title: {
  'cells': [[[c.data_type, c.value] for c in row] for row in s.iter_rows()],
  'frozen': s.freeze_panes,
  'widths': [s.column_dimensions[c].width for c in sorted(s.column_dimensions)],
  'pictures': len(s._images)} for s in book}))
`;
type Read = Record<
  string,
  { cells: [string, string | number | null][][]; frozen: string; widths: number[]; pictures: number }
>;

function readBack(bytes: Uint8Array, python: string): Read {
  const folder = mkdtempSync(path.join(tmpdir(), 'underberth-list-'));
  try {
    const file = path.join(folder, 'list.xlsx');
    writeFileSync(file, bytes);
    const { stdout, stderr, status } = spawnSync(python, ['-W', 'ignore', '-c', READ, file], { encoding: 'utf8' });
    expect([status, stderr]).toEqual([0, '']);
    return JSON.parse(stdout) as Read;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const python = pythonWithOpenpyxl();
describe.skipIf(python === null && process.env.CI !== 'true')('the list as a workbook, read by openpyxl', () => {
  it('holds every value of every table: numbers as numbers, text as text, no formula, no picture', async () => {
    const book = readBack(await takeoffWorkbook(rows), python ?? '');
    const tables = [listTable(rows), cutsTable(rows), holesTable(rows), bagsTable(rows)];
    expect(Object.keys(book)).toEqual(['List', 'Cuts', 'Holes', 'Bags']);
    for (const { name, columns, rows: lines } of tables) {
      const sheet = book[name];
      const wanted = lines.map((line) =>
        line.map((value) => (typeof value === 'string' ? asText(value) || null : value)),
      );
      expect(sheet?.cells.slice(1).map((line) => line.map(([, value]) => value))).toEqual(wanted);
      expect(sheet?.cells[0]?.map(([, value]) => value)).toEqual(columns.map(({ title }) => title));
      for (const line of sheet?.cells.slice(1) ?? [])
        line.forEach(([type, value], i) => {
          if (value !== null) expect(type).toBe(columns[i]?.isNumber ? 'n' : 's');
        });
      expect(sheet).toMatchObject({ frozen: 'A2', pictures: 0 });
      expect(sheet?.widths.length).toBeGreaterThan(0);
    }
  });

  it('holds the sheets of an empty list with their headings', async () => {
    const book = readBack(await takeoffWorkbook([]), python ?? '');
    expect(book.List?.cells).toHaveLength(1);
  });
});
