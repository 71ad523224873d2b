import type { Boat } from '@core/boat/schema/boat';
import type { ServiceReport, TaskReport, TaskVerdict } from '@core/engine/service/service-report';
import { TASK_VERDICTS } from '@core/engine/service/service-report';
import { burdenWords, personWords, taskWords } from '@core/output/text/service-text';
import { verdictWords } from '@core/output/text/task-words';
import { wrapped } from './check-text';

const WIDTH = 100;
const INDENT = 2;

/** What a person reads after `service`: counts, then task by task, what the plan makes worse first. */
export function serviceText(report: ServiceReport, boat: Boat, notes: readonly string[]): string {
  const of = report.arrangement === null ? 'no arrangement' : `arrangement ${report.arrangement}`;
  return [
    `${report.boat}, ${of}, service: ${personWords(report)}`,
    counts(report.tasks),
    `${burdenWords(report)}.`,
    ...notes.map((note) => `note: ${note}`),
    ...report.tasks.map((task) => block(task, boat)),
  ].join('\n');
}

function counts(tasks: readonly TaskReport[]): string {
  const count = (verdict: TaskVerdict): number => tasks.filter((task) => task.verdict === verdict).length;
  const worse = tasks.filter(({ isWorse }) => isWorse).length;
  const parts = TASK_VERDICTS.flatMap((verdict) =>
    count(verdict) === 0 ? [] : [`${count(verdict)} ${verdictWords(verdict).toLowerCase()}`],
  );
  return tasks.length === 0
    ? 'No service task is entered.'
    : `${tasks.length} ${tasks.length === 1 ? 'task' : 'tasks'}: ${parts.join(', ')}${worse === 0 ? '' : `; ${worse} worse by the plan`}`;
}

function block(task: TaskReport, boat: Boat): string {
  const words = taskWords(task, boat);
  const lines = [
    words.sentence,
    words.reason,
    words.measures.length === 0 ? '' : `${words.measures.join('; ')}.`,
    words.closeCall,
    ...words.instead,
    words.caution,
    words.enterNext === '' ? '' : `Enter next: ${words.enterNext}`,
    words.minutes,
    words.unverified,
  ].filter((line) => line !== '');
  const body = lines.flatMap((line) => wrapped(line, WIDTH - INDENT)).map((line) => `${' '.repeat(INDENT)}${line}`);
  return [
    '',
    `${words.title}: ${words.verdict.toUpperCase()}${task.isWorse ? ' (worse by the plan)' : ''}`,
    ...body,
  ].join('\n');
}
