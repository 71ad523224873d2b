import type { TaskReport, TaskVerdict } from '@core/engine/service/service-report';
import { taskVerdictWords } from '@core/output/text/task-words';
import type { JSX } from 'react';

/**
 * The shape of a task's verdict, 20 px; the word stands beside it. What goes bears a tick, what has to be moved first a ring, what does not
 * go a crimson diamond: broken where no way was found and none disproved, which is nearer to no than to yes.
 */
export function TaskMark({ task }: { readonly task: Pick<TaskReport, 'verdict' | 'closeCall'> }): JSX.Element {
  return (
    <svg className="task-mark" width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
      {task.closeCall && TICKED.has(task.verdict) ? (
        <path d={DIAMOND} fill="var(--wash)" stroke="var(--accl)" strokeWidth="1.4" />
      ) : null}
      {SHAPES[task.verdict]}
    </svg>
  );
}

/** `By hand, a close call` */
export const markedWords = (task: Pick<TaskReport, 'verdict' | 'closeCall' | 'reason'>): string =>
  `${taskVerdictWords(task)}${task.closeCall ? ', a close call' : ''}`;

/** Shape and word together, as rows and headings show a verdict. */
export function Verdict({
  task,
  isOld = false,
}: {
  readonly task: Pick<TaskReport, 'verdict' | 'closeCall' | 'reason'>;
  /** Being judged anew. */
  readonly isOld?: boolean;
}): JSX.Element {
  return (
    <span className="with-mark">
      <TaskMark task={task} />
      <span className={isOld ? 'stale' : undefined}>{markedWords(task)}</span>
    </span>
  );
}

const TICKED: ReadonlySet<TaskVerdict> = new Set(['byHand', 'withTools', 'withMirror']);
const DIAMOND = 'M10 1 19 10 10 19 1 10z';
const line = { fill: 'none', stroke: 'var(--ink2)', strokeWidth: 1.5 } as const;
const crimson = { fill: 'var(--paper)', stroke: 'var(--bad)', strokeWidth: 1.4 } as const;

const SHAPES: Readonly<Record<TaskVerdict, JSX.Element>> = {
  byHand: <path d="m5.5 10.2 3 3.6 6-7.6" {...line} />,
  // The tick stands on a tool.
  withTools: (
    <g {...line}>
      <path d="m5.5 8 3 3.4 6-7.2" />
      <path d="M4.5 15.2h8.2M12.7 13.4v3.6M15.6 13.4h-2.9M15.6 17h-2.9" strokeWidth="1.3" />
    </g>
  ),
  // The tick and its image.
  withMirror: (
    <g {...line}>
      <path d="m2.8 10.4 2.2 3 3.2-6.6" />
      <path d="M10 4v12.5" strokeWidth="1" />
      <path d="m17.2 10.4-2.2 3-3.2-6.6" strokeWidth="1.1" strokeDasharray="2 1.6" />
    </g>
  ),
  afterMoving: (
    <g {...line}>
      <circle cx="10" cy="10" r="8" strokeWidth="1.1" fill="var(--paper)" />
      <path d="M5.8 10h8M10.6 6.8l3.4 3.2-3.4 3.2" strokeWidth="1.3" />
    </g>
  ),
  noWayFound: (
    <g {...crimson}>
      <path d={DIAMOND} strokeDasharray="3.4 2.4" />
      <path d="M6 10h6.2M12.2 6.6v6.8" strokeWidth="1.5" />
    </g>
  ),
  byDismantling: (
    <g {...crimson}>
      <path d={DIAMOND} />
      <circle cx="10" cy="10" r="3.8" strokeWidth="1.2" />
      <path d="m7.6 12.4 4.8-4.8" strokeWidth="1.2" />
    </g>
  ),
  notAtAll: (
    <g>
      <path d={DIAMOND} fill="var(--bad)" />
      <path d="m6.8 6.8 6.4 6.4m0-6.4-6.4 6.4" stroke="var(--paper)" strokeWidth="1.6" />
    </g>
  ),
  notAsked: (
    <circle cx="10" cy="10" r="8" fill="var(--paper)" stroke="var(--ink)" strokeWidth="1.2" strokeDasharray="3 2.2" />
  ),
};
