import Papa from 'papaparse';
import { type DecimalSign, isLofted, OFFSET_UNITS, type OffsetUnit } from './cell';

/** The cells of a table as text, with what could be told of how they are written. */
export interface OffsetGrid {
  readonly rows: readonly (readonly string[])[];
  /** Line of the text that each row stands in, counted from 1 as an editor does. */
  readonly lineOf: readonly number[];
  readonly delimiter: string;
  readonly decimal: DecimalSign;
  /** Whether commas parted thousands, as in 1,250 mm; the cells are given without them. */
  readonly hasThousands: boolean;
  /** Told by the cells or the heading; null where only the size of the figures could tell. */
  readonly unit: OffsetUnit | null;
}

const DELIMITERS = ['\t', ';', '|', ','] as const;
const DECIMAL_COMMA = /^[-−+]?\d+,\d+$/;
/** Thousands of millimetres: no boat has a hundred metres of anything across it. */
const GROUPED = /^[-−+]?[1-9]\d?,\d{3}$/;
const DECIMAL_POINT = /^[-−+]?\d*\.\d+$/;

/** Splits pasted or loaded text into cells. The delimiter is the one that makes the most even table. */
export function offsetGrid(text: string): OffsetGrid {
  const plain = text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
  const delimiter = delimiterOf(plain);
  const parsed = Papa.parse<string[]>(plain, { delimiter, skipEmptyLines: false });
  const rows: string[][] = [];
  const lineOf: number[] = [];
  let line = 1;
  for (const row of parsed.data) {
    const cells = row.map((cell) => cell.trim());
    const isEmpty = cells.every((cell) => cell === '');
    if (!isEmpty) {
      rows.push(cells);
      lineOf.push(line);
    }
    // A quoted cell may hold line ends of its own.
    line += 1 + row.reduce((sum, cell) => sum + (cell.match(/\n/g)?.length ?? 0), 0);
  }
  const hasThousands = partsThousands(rows.flat());
  const figures = hasThousands
    ? rows.map((row) => row.map((cell) => (GROUPED.test(cell) ? cell.replace(',', '') : cell)))
    : rows;
  const cells = figures.flat();
  const commas = cells.filter((cell) => DECIMAL_COMMA.test(cell)).length;
  const points = cells.filter((cell) => DECIMAL_POINT.test(cell)).length;
  return {
    rows: figures,
    lineOf,
    delimiter,
    decimal: commas > points ? ',' : '.',
    hasThousands,
    unit: unitTold(cells),
  };
}

/** 1,250 beside 850 is no length of 1.25: where every figure with a comma is so made, the comma parts thousands. */
function partsThousands(cells: readonly string[]): boolean {
  const withComma = cells.filter((cell) => DECIMAL_COMMA.test(cell));
  return (
    withComma.length > 0 &&
    withComma.every((cell) => GROUPED.test(cell)) &&
    cells.some((cell) => /^[-−+]?[1-9]\d{2}$/.test(cell))
  );
}

/** Tabs and semicolons are never part of a figure; a comma may be, so it comes last. Spaces in columns are a table too. */
function delimiterOf(text: string): string {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  for (const delimiter of DELIMITERS) {
    const having = lines.filter((line) => line.includes(delimiter)).length;
    if (having >= Math.max(1, lines.length * 0.6)) return delimiter;
  }
  return ',';
}

function unitTold(cells: readonly string[]): OffsetUnit | null {
  if (cells.some(isLofted)) return 'ft-in-8';
  for (const cell of cells) {
    const told = /(?:\(|\bin\s+|,\s*)(mm|cm|m|millimet(?:re|er)s?|centimet(?:re|er)s?|met(?:re|er)s?)\)?\s*$/i.exec(
      cell,
    );
    const word = told?.[1]?.toLowerCase();
    if (!word) continue;
    const found = OFFSET_UNITS.find((unit) => unit === word);
    if (found) return found;
    return word.startsWith('milli') ? 'mm' : word.startsWith('centi') ? 'cm' : 'm';
  }
  return null;
}

/**
 * The unit that figures of this size must be in: no boat is 20 m wide from its centreline, and none narrower than 5 cm.
 * `greatest`: the greatest figure of a half-breadth or height.
 */
export const unitOfSize = (greatest: number): Exclude<OffsetUnit, 'ft-in-8'> =>
  greatest < 20 ? 'm' : greatest < 550 ? 'cm' : 'mm';
