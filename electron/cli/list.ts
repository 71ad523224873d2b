import { writeFile } from 'node:fs/promises';
import type { Boat } from '@core/boat/schema/boat';
import type { Report } from '@core/engine/report';
import { takeoffCsv } from '@core/output/takeoff/csv';
import { takeoffWorkbook } from '@core/output/workbook/workbook';
import type { Command } from './arguments';

/** Writes the list where it was asked for; answers what to print, or what went wrong, one line each. */
export async function listed(
  report: Report,
  { stock }: Pick<Boat, 'stock'>,
  { csvFile, xlsxFile }: Extract<Command, { verb: 'list' }>,
): Promise<{ readonly output: string } | { readonly problems: readonly string[] }> {
  const options = stock === undefined ? {} : { stock };
  if (csvFile === null && xlsxFile === null) return { output: takeoffCsv(report.takeoff, options) };
  const problems: string[] = [];
  const write = async (file: string, content: string | Uint8Array): Promise<void> => {
    try {
      await writeFile(file, content);
    } catch (error) {
      problems.push(notWritten(file, error));
    }
  };
  if (csvFile !== null) await write(csvFile, takeoffCsv(report.takeoff, options));
  if (xlsxFile !== null) await write(xlsxFile, await takeoffWorkbook(report.takeoff, options));
  return problems.length > 0 ? { problems } : { output: '' };
}

export const notWritten = (file: string, error: unknown): string =>
  `${file} can't be written (${error instanceof Error && 'code' in error ? error.code : error})`;
