import type { Boat } from '@core/boat/schema/boat';
import { taskName } from '@core/output/text/task-words';
import type { JSX } from 'react';
import { isStaleTask, useService } from '../../store/service';
import { Panel } from '../inspector/parts';
import { StudyFault } from '../StudyFault';
import { Verdict } from './TaskMark';

/** In the inspector of a thing: its service tasks with their verdicts. They are tried once somebody asks, and after each edit from then on. */
export function ThingTasks({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element {
  const { isWanted, report, isStale, open, fault, want, choose } = useService();
  const tasks = report?.tasks.filter(({ thing }) => thing === id) ?? [];
  return (
    <Panel title="Can it be serviced?" level={3}>
      <StudyFault study={{ fault }} />
      {!isWanted ? (
        <div className="actions">
          <button type="button" className="button" onClick={want}>
            Try its tasks
          </button>
        </div>
      ) : report === null && fault === null ? (
        <p className="quiet">The tasks are being tried.</p>
      ) : (
        <div aria-busy={isStale}>
          {tasks.map((task) => (
            <button
              key={task.key}
              type="button"
              className="task-row"
              title="Rehearse it on the board"
              onClick={() => choose(task.key)}
            >
              <span>{taskName(boat, task)}</span>
              <Verdict task={task} isOld={isStaleTask({ isStale, open }, task.key)} />
            </button>
          ))}
          {report && tasks.length === 0 && !isStale ? (
            <p className="quiet">It is not placed, or not in this arrangement.</p>
          ) : null}
        </div>
      )}
    </Panel>
  );
}
