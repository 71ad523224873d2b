import type { CellObject } from 'write-excel-file/universal';
import { asText } from '../takeoff/plain-text';
import type { TakeoffRow } from '../takeoff/row';
import {
  bagsTable,
  type Column,
  cutsTable,
  holesTable,
  type ListOptions,
  type ListTable,
  listTable,
  type Value,
} from '../takeoff/tables';

/** Longest text that a cell of a workbook can hold (ECMA-376 as its readers keep it; quoted, not read). */
const LONGEST = 32_767;

/**
 * The list as a workbook (XLSX): sheets List, Cuts, Holes and Bags, numbers as numbers, units in the headings, the heading row
 * kept in sight. No text can act as a formula. What writes it is loaded only now.
 */
export async function takeoffWorkbook(
  rows: readonly TakeoffRow[],
  options: ListOptions = {},
): Promise<Uint8Array<ArrayBuffer>> {
  const { default: writeExcelFile } = await import('write-excel-file/universal');
  const tables = [listTable(rows, options), cutsTable(rows), holesTable(rows), bagsTable(rows)];
  const blob = await writeExcelFile(tables.map(sheetOf)).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}

const sheetOf = ({ name, columns, rows }: ListTable) => ({
  sheet: name,
  stickyRowsCount: 1,
  columns: columns.map(({ width }) => ({ width })),
  data: [
    columns.map(
      (column): CellObject => ({
        value: column.title,
        type: String,
        fontWeight: 'bold',
        align: column.isNumber ? 'right' : 'left',
      }),
    ),
    ...rows.map((row) => row.map((value, i) => cellOf(value, columns[i]))),
  ],
});

function cellOf(value: Value, column: Column | undefined): CellObject | null {
  if (value === null || value === '') return null;
  if (typeof value === 'number') {
    const decimals = Number.isInteger(value) ? 0 : (column?.decimals ?? 0);
    return { value, type: Number, format: decimals === 0 ? '0' : `0.${'0'.repeat(decimals)}`, alignVertical: 'top' };
  }
  return { value: asText(value).slice(0, LONGEST), type: String, alignVertical: 'top' };
}
