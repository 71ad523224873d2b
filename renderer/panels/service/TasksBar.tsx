import type { Boat } from '@core/boat/schema/boat';
import { TASK_VERDICTS } from '@core/engine/service/service-report';
import { verdictWords } from '@core/output/text/task-words';
import type { JSX } from 'react';
import { type TaskFilter, useService } from '../../store/service';
import { Segmented } from '../inspector/parts';
import { minutesText } from './minutes';
import { PersonChoice } from './PersonChoice';

/** Above the rows: what of the tasks is shown, whose reach counts, and what they come to in a year. */
export function TasksBar({ boat }: { readonly boat: Boat }): JSX.Element {
  const { report, isStale, filter, view, setView, setFilter } = useService();
  const tasks = report?.tasks ?? [];
  const count = (holds: (task: (typeof tasks)[number]) => boolean): number => tasks.filter(holds).length;
  const worse = count(({ isWorse }) => isWorse);
  return (
    <div className="takeoff-bar">
      <Segmented
        label="Service"
        value={view}
        options={[
          ['tasks', 'Tasks'],
          ['minutes', 'Minutes a year'],
        ]}
        choose={setView}
      />
      {view === 'tasks' ? (
        <>
          {worse > 0 || filter.worseOnly ? (
            <button
              type="button"
              className="filter"
              aria-pressed={filter.worseOnly}
              onClick={() => setFilter({ worseOnly: !filter.worseOnly })}
            >
              {`${worse} worse`}
            </button>
          ) : null}
          <select
            aria-label="Tasks of what"
            value={filter.of ?? ''}
            onChange={(event) => setFilter({ of: OF.find((of) => of === event.target.value) ?? null })}
          >
            <option value="">Parts and fixtures</option>
            <option value="parts">{`Parts (${count(({ isPart }) => isPart)})`}</option>
            <option value="fixtures">{`Fixtures (${count(({ isPart }) => !isPart)})`}</option>
          </select>
          <select
            aria-label="Tasks with which verdict"
            value={filter.verdict ?? ''}
            onChange={(event) =>
              setFilter({ verdict: TASK_VERDICTS.find((verdict) => verdict === event.target.value) ?? null })
            }
          >
            <option value="">Every verdict</option>
            {TASK_VERDICTS.map((verdict) => (
              <option key={verdict} value={verdict}>
                {`${verdictWords(verdict)} (${count((task) => task.verdict === verdict)})`}
              </option>
            ))}
          </select>
        </>
      ) : null}
      <span className="reach-of">
        <span aria-hidden="true">Reach of</span>
        <PersonChoice boat={boat} />
      </span>
      <span className={isStale ? 'summary stale' : 'summary'}>
        {report ? `${minutesText(report.burden.aYear)} a year${leftOut(report.burden.leftOut)}` : ''}
      </span>
    </div>
  );
}

const OF: readonly NonNullable<TaskFilter['of']>[] = ['parts', 'fixtures'];

const leftOut = (count: number): string =>
  count === 0 ? '' : `, ${count} ${count === 1 ? 'task has' : 'tasks have'} no interval`;
