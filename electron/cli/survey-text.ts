import type { SurveyReport } from '@core/engine/survey-report';

const millimetres = (metres: number | null): string =>
  metres === null ? '-' : (metres * 1000).toFixed(1).replace(/^-0\.0$/, '0.0');
const COLUMNS: readonly {
  readonly head: string;
  readonly left?: true;
  readonly value: (row: SurveyReport['residuals'][number]) => string;
}[] = [
  { head: 'reading', left: true, value: ({ reading, suspect }) => `${suspect ? '* ' : ''}${reading}` },
  { head: 'from', left: true, value: ({ from }) => from },
  { head: 'to', left: true, value: ({ to }) => to },
  { head: 'kind', left: true, value: ({ kind }) => kind },
  { head: 'read mm', value: ({ readingM }) => millimetres(readingM) },
  { head: 'residual mm', value: ({ residualM }) => millimetres(residualM) },
  { head: 'w', value: ({ standardised }) => standardised.toFixed(1) },
  { head: 'redundancy', value: ({ redundancy }) => redundancy.toFixed(2) },
  { head: 'least slip mm', value: ({ leastFoundM }) => millimetres(leastFoundM) },
];

/** A residual beyond so many of its own standard deviations has a chance of one in a thousand. */
const MISFIT = 3.29;

/** What a person reads after `survey`: suspects first, then each reading, what is loose, and what to measure next. */
export function surveyText(report: SurveyReport, notes: readonly string[], boatName: string): string {
  const { residuals, suspects, nextReadings } = report;
  const verdict =
    residuals.length === 0
      ? 'No reading to adjust.'
      : suspects.length === 0
        ? residuals.some(({ standardised }) => Math.abs(standardised) > MISFIT)
          ? `${residuals.length} readings, which do not fit together; none stands out as the one that is off.`
          : `${residuals.length} readings, none stands out.`
        : `${residuals.length} readings; what does not belong:`;
  return [
    `${boatName}, survey`,
    verdict,
    ...suspects.map(({ words }) => `  ${words}`),
    ...(residuals.length === 0 ? [] : ['', ...table(residuals)]),
    ...(notes.length === 0 ? [] : ['', ...notes]),
    ...(nextReadings.length === 0 ? [] : ['', 'Measure next:', ...nextReadings.map(({ words }) => `  ${words}`)]),
  ].join('\n');
}

function table(rows: SurveyReport['residuals']): readonly string[] {
  const cells = [COLUMNS.map(({ head }) => head), ...rows.map((row) => COLUMNS.map(({ value }) => value(row)))];
  const widths = COLUMNS.map((_, column) => Math.max(...cells.map((row) => (row[column] ?? '').length)));
  return cells.map((row) =>
    row
      .map((cell, column) =>
        COLUMNS[column]?.left ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0),
      )
      .join('  ')
      .trimEnd(),
  );
}
