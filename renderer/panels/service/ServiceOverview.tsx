import type { Boat } from '@core/boat/schema/boat';
import { TASK_VERDICTS } from '@core/engine/service/service-report';
import { verdictWords } from '@core/output/text/task-words';
import { type JSX, useEffect } from 'react';
import { useDialogs } from '../../app/dialogs';
import { useDrawer } from '../../store/drawer';
import { NO_TASK_FILTER, useService } from '../../store/service';
import { figure } from '../format';
import { Link, Panel } from '../inspector/parts';
import { StudyFault } from '../StudyFault';
import { minutesText } from './minutes';
import { TaskMark } from './TaskMark';

/** How many service tasks go, and how: each line leads to those rows of the table. */
export function ServiceOverview({ boat }: { readonly boat: Boat }): JSX.Element {
  const { report, isStale, fault, progress, filter, want, setFilter, setView } = useService();
  const show = useDrawer((state) => state.show);
  const openDialog = useDialogs((state) => state.show);
  useEffect(want, [want]);
  const tasks = report?.tasks ?? [];
  const lead = (part: Parameters<typeof setFilter>[0]): void => {
    setView('tasks');
    setFilter({ ...NO_TASK_FILTER, ...part });
    show('Service');
  };
  const worse = tasks.filter(({ isWorse }) => isWorse).length;
  return (
    <Panel title="Service" aside={report ? `${figure(tasks.length)} tasks` : undefined}>
      <StudyFault study={{ fault }} />
      {report === null ? (
        fault === null ? (
          <p className="quiet">
            {progress ? `The tasks are being tried: ${progress.done} of ${progress.of}.` : 'The tasks are being tried.'}
          </p>
        ) : null
      ) : tasks.length === 0 ? (
        <p className="quiet">No thing has a service task yet.</p>
      ) : (
        <>
          <ul className={isStale ? 'verdict-tally stale-rows' : 'verdict-tally'}>
            {TASK_VERDICTS.map((verdict) => {
              const count = tasks.filter((task) => task.verdict === verdict).length;
              return count === 0 ? null : (
                <li key={verdict}>
                  <button
                    type="button"
                    aria-pressed={filter.verdict === verdict}
                    onClick={() => lead({ verdict: filter.verdict === verdict ? null : verdict })}
                  >
                    <TaskMark task={{ verdict, closeCall: null }} />
                    <span>{verdictWords(verdict)}</span>
                    <span className="figures">{figure(count)}</span>
                  </button>
                </li>
              );
            })}
          </ul>
          <p className="sub">
            {worse === 0 ? null : (
              <>
                <Link go={() => lead({ worseOnly: true })}>
                  {worse === 1 ? 'The plan makes one task worse.' : `The plan makes ${figure(worse)} tasks worse.`}
                </Link>{' '}
              </>
            )}
            {minutesText(report.burden.aYear)} a year.{' '}
            <Link
              go={() => {
                setView('minutes');
                show('Service');
              }}
            >
              Minutes by thing
            </Link>
            {Object.keys(boat.people ?? {}).length === 0 ? (
              <>
                {'. '}
                <Link go={() => openDialog('allData')}>Enter people</Link>
              </>
            ) : null}
          </p>
        </>
      )}
    </Panel>
  );
}
