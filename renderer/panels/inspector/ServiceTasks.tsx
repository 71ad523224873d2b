import { taskOn, usualTasks } from '@core/boat/catalogue/usual-tasks';
import { freeId } from '@core/boat/edits';
import { recordDuplicated, recordRemoved } from '@core/boat/record/edits';
import { schemaAt } from '@core/boat/record/fields';
import { freeRecordId } from '@core/boat/record/starters';
import { boatSchema, type Service } from '@core/boat/schema/boat';
import { SERVICE_TASKS } from '@core/boat/schema/services';
import { taskText } from '@core/output/text/schema-words';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { isPart } from '../../store/select';
import { Disclosure } from '../record/Disclosure';
import { Subject, useRecordEdits } from '../record/edit';
import { RecordFields } from '../record/RecordFields';
import { OWN_WAY_WORDS, WAYS, type Way, wayOf } from '../record/words';
import { sentence } from '../words';
import { envelopeOf } from './envelope';
import { Choice, Labelled, Panel } from './parts';
import { needsWords } from './service-words';
import { type ThingProps, useChange } from './ThingData';

const TASK_OPTIONS = SERVICE_TASKS.map((task) => [task, sentence(taskText(task))] as const);

/** What must be done to it: each task opens for its fields, can be duplicated and removed; new ones begin as usual for their kind. */
export function ServiceTasks(props: ThingProps): JSX.Element {
  const { id, thing } = props;
  const change = useChange(props);
  const [kind, setKind] = useState<Service['task']>('other');
  /** The task that was just added stands open. */
  const [added, setAdded] = useState<string | null>(null);
  const tasks = Object.entries<Service>(thing.services);
  const usual = Object.entries(usualTasks(thing));
  const add = (): void => {
    const key = freeId(thing.services, kind);
    if (change('Add a service task', (own) => Object.assign(own.services, { [key]: taskOn(thing, kind) })))
      setAdded(key);
  };
  return (
    <Panel title="Service tasks" level={3} aside={tasks.length === 0 ? 'none' : String(tasks.length)}>
      {tasks.map(([key, task], index) => (
        <Task key={key} {...props} task={task} taskId={key} number={index + 1} open={key === added} />
      ))}
      <div className="add-row">
        <Choice<Service['task']> label="Task to add" value={kind} options={TASK_OPTIONS} choose={setKind} />
        <button type="button" className="button" onClick={add}>
          Add a task
        </button>
      </div>
      {usual.length === 0 ? null : (
        <div className="actions">
          <button
            type="button"
            className="button plain"
            aria-describedby={`usual-tasks-${id}`}
            onClick={() =>
              change('Add the usual tasks', (own) =>
                Object.assign(own.services, structuredClone(Object.fromEntries(usual))),
              )
            }
          >
            {usual.length === 1 ? 'Add its usual task' : `Add its ${usual.length} usual tasks`}
          </button>
          <span className="quiet" id={`usual-tasks-${id}`}>
            {sentence(usual.map(([, { name, task }]) => (name ?? taskText(task)).toLowerCase()).join(', '))}
          </span>
        </div>
      )}
    </Panel>
  );
}

/** Said above the other fields. */
const TOLD: ReadonlySet<string> = new Set(['task', 'direction']);

function Task({
  boat,
  id,
  thing,
  task,
  taskId,
  number,
  open,
}: ThingProps & {
  readonly task: Service;
  readonly taskId: string;
  readonly number: number;
  readonly open: boolean;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const group = isPart(boat, id) ? 'parts' : 'fixtures';
  const list = [group, id, 'services'];
  const path = [...list, taskId];
  const schema = schemaAt(boatSchema, boat, path);
  const words = task.name ?? sentence(taskText(task.task));
  return (
    <Disclosure
      title={`${number}. ${words}`}
      aside={task.name === undefined ? undefined : taskText(task.task)}
      open={open}
    >
      <Subject.Provider value={`${words}, ${thing.name}`}>
        <TaskFields boat={boat} id={id} thing={thing} task={task} taskId={taskId} number={number} />
        <p className="quiet" data-testid={`task-needs-${number}`}>
          {needsWords(task, units)}
        </p>
        {schema ? <RecordFields boat={boat} path={path} schema={schema} value={task} skip={TOLD} /> : null}
      </Subject.Provider>
      <Subject.Provider value={thing.name}>
        <TaskActs list={list} taskId={taskId} words={words} records={thing.services} />
      </Subject.Provider>
    </Disclosure>
  );
}

/** What is done, and to which side. */
function TaskFields({
  task,
  taskId,
  number,
  thing,
  ...of
}: ThingProps & {
  readonly task: Service;
  readonly taskId: string;
  readonly number: number;
}): JSX.Element {
  const change = useChange({ thing, boat: of.boat, id: of.id });
  const set = (values: Partial<Service>): boolean =>
    change('Service task', (own) => {
      const mine = own.services[taskId];
      if (mine) Object.assign(mine, values);
    });
  /** The work begins where the way leaves the envelope. */
  const leave = (way: Way): void => {
    const size = envelopeOf(thing);
    const direction = WAYS[way];
    const at = direction.map((d, k) => (d * (size[k] ?? 0)) / 2) as [number, number, number];
    set({ direction: [...direction], at });
  };
  return (
    <>
      <Labelled label="Task">
        <Choice
          label={`What is done in task ${number}`}
          value={task.task}
          options={TASK_OPTIONS}
          choose={(kind) => set({ task: kind })}
        />
      </Labelled>
      <Labelled label="Towards">
        <Choice
          label={`Direction of task ${number}`}
          value={wayOf(task.direction)}
          options={(Object.keys(OWN_WAY_WORDS) as (Way | 'other')[])
            .filter((way) => way !== 'other' || wayOf(task.direction) === 'other')
            .map((way) => [way, OWN_WAY_WORDS[way]] as const)}
          choose={(way) => {
            if (way !== 'other') leave(way);
          }}
        />
      </Labelled>
    </>
  );
}

function TaskActs({
  list,
  taskId,
  words,
  records,
}: {
  readonly list: readonly string[];
  readonly taskId: string;
  readonly words: string;
  readonly records: Readonly<Record<string, Service>>;
}): JSX.Element {
  const edits = useRecordEdits();
  return (
    <div className="actions">
      <button
        type="button"
        className="button plain"
        aria-label={`Duplicate the task ${words}`}
        onClick={() =>
          edits.make(
            `Duplicate ${words}`,
            recordDuplicated(list, taskId, freeRecordId(records, [...list.slice(0, -1), taskId])),
          )
        }
      >
        Duplicate
      </button>
      <button
        type="button"
        className="button plain"
        aria-label={`Remove the task ${words}`}
        onClick={() => edits.make(`Remove ${words}`, recordRemoved(list, taskId))}
      >
        Remove
      </button>
    </div>
  );
}
