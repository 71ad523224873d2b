import { asText } from './plain-text';
import type { TakeoffRow } from './row';
import { type ListOptions, type ListTable, listTable, type Value } from './tables';

/**
 * The list as comma-separated values, UTF-8 text with CRLF lines (RFC 4180). Numbers stay numbers, negative ones too; texts that
 * a spreadsheet would take for a formula are marked as text.
 */
export function takeoffCsv(rows: readonly TakeoffRow[], options: ListOptions = {}): string {
  const { columns, rows: lines } = listTable(rows, options);
  return [columns.map(({ title }) => title), ...lines].map((line) => `${line.map(cell).join(',')}\r\n`).join('');
}

function cell(value: Value): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const text = asText(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A table for the clipboard: tabs between cells, and the same as HTML. */
export function clipboardOf({ columns, rows }: ListTable): { readonly text: string; readonly html: string } {
  const lines = [columns.map(({ title }) => title), ...rows];
  const plain = (value: Value): string =>
    value === null ? '' : typeof value === 'number' ? String(value) : asText(value.replace(/[\t\r\n]+/g, ' '));
  const markup = (value: Value): string => plain(value).replace(/[&<>"']/g, (letter) => `&#${letter.charCodeAt(0)};`);
  const line = (cells: readonly Value[], tag: 'th' | 'td'): string =>
    `<tr>${cells.map((value) => `<${tag}>${markup(value)}</${tag}>`).join('')}</tr>`;
  return {
    text: lines.map((cells) => `${cells.map(plain).join('\t')}\r\n`).join(''),
    html: `<table>${lines.map((cells, i) => line(cells, i === 0 ? 'th' : 'td')).join('')}</table>`,
  };
}
