import Papa from 'papaparse';
import { GROUP_TEXT, type TakeoffRow } from './row';

const HEADER = [
  'Group',
  'Item',
  'Kind',
  'Quantity',
  'Unit',
  'Buy',
  'Least (m)',
  'Greatest (m)',
  'Place',
  'For',
  'Note',
  'Key',
] as const;

/**
 * The list as comma-separated values, UTF-8 text with CRLF lines (RFC 4180). Texts that a spreadsheet would take for a
 * formula are marked as text, since names come from a file that may be anybody's.
 */
export function takeoffCsv(rows: readonly TakeoffRow[]): string {
  const data = rows.map((row) => [
    GROUP_TEXT[row.group],
    row.item,
    row.kind,
    row.quantity,
    row.unit === 'm' ? 'm' : 'pc',
    row.buy,
    row.leastM ?? '',
    row.greatestM ?? '',
    row.place,
    row.from.join(' '),
    row.note,
    row.key,
  ]);
  return `${Papa.unparse({ fields: [...HEADER], data }, { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}
