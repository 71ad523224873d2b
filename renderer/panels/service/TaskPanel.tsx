import type { Boat } from '@core/boat/schema/boat';
import type { Removal, TaskMeasure, TaskReport } from '@core/engine/service/service-report';
import { sourceText } from '@core/output/text/finding-text';
import { nameOf } from '@core/output/text/names';
import { cautionOf, insteadWords, isUnverified, reasonText } from '@core/output/text/service-text';
import { blockerName, measureTitle, stepWords, taskName, verdictSentence } from '@core/output/text/task-words';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { isPart, markOf, thingOf } from '../../store/select';
import { taskInHand, useService } from '../../store/service';
import type { Selection } from '../../store/types';
import { LimitBar } from '../findings/LimitBar';
import { measuredWords } from '../findings/measured-words';
import { figure, lengthUnit, wholeLength } from '../format';
import { Facts, Link, Panel } from '../inspector/parts';
import { StudyFault } from '../StudyFault';
import { TermText } from '../Term';
import { sentence } from '../words';
import { TaskAssumptions } from './Assumptions';
import { DoneByHand } from './DoneByHand';
import { inspect, recordOf } from './leading';
import { minutesText } from './minutes';
import { PersonChoice } from './PersonChoice';
import { TaskMark } from './TaskMark';

/** Beside a rehearsal: the verdict, what it was measured against, what is opened and taken off, what is in the way, and what it costs. */
export function TaskPanel({ boat }: { readonly boat: Boat }): JSX.Element {
  const report = useService((state) => state.report);
  const chosen = useService((state) => state.chosen);
  const isStale = useService((state) => state.isStale);
  const fault = useService((state) => state.fault);
  const choose = useService((state) => state.choose);
  const task = taskInHand({ report, chosen });
  const service = (task && thingOf(boat, task.thing))?.services[task.service];
  if (!task)
    return (
      <Panel
        title="Service task"
        aside={
          <button type="button" className="link" onClick={() => choose(null)}>
            Back to the board
          </button>
        }
      >
        <StudyFault study={{ fault }} />
        <p className="quiet">{report ? 'The boat has no such task any more.' : 'The task is being tried.'}</p>
      </Panel>
    );
  const reason = reasonText(task, boat);
  const tools = [...task.tools, ...(service?.tools ?? [])].filter((tool, i, all) => all.indexOf(tool) === i);
  return (
    <div className={isStale ? 'task-panel stale-rows' : 'task-panel'} aria-busy={isStale}>
      <Panel
        title={taskName(boat, task)}
        aside={
          <Link go={() => inspect({ kind: 'thing', id: task.thing })}>
            {markOf(task.thing, thingOf(boat, task.thing))}
          </Link>
        }
      >
        <p className="sub">
          {[nameOf(boat, task.thing), everyWords(task), ...tools, spillWords(task)]
            .filter((words) => words !== '')
            .join(', ')}
        </p>
        <p className="task-verdict">
          <TaskMark task={task} />
          <TermText>{verdictSentence(task, boat)}</TermText>
        </p>
        {reason === '' ? null : <p className="quiet">{reason}</p>}
        {insteadWords(task, boat).map((words) => (
          <p key={words} className="quiet">
            {words}
          </p>
        ))}
        {cautionOf(task) === '' ? null : <p className="quiet cautions">{cautionOf(task)}</p>}
        {task.enterNext === null ? null : <p className="task-next">{sentence(task.enterNext)}</p>}
        <StudyFault study={{ fault }} />
        <DoneByHand boat={boat} task={task} />
      </Panel>
      <Measures task={task} />
      <Order task={task} boat={boat} />
      <Blockers task={task} boat={boat} />
      <Panel title="Minutes" level={3} aside={yearWords(task)}>
        <Facts
          rows={[
            ['Getting there and back', minutesText(task.minutes.access)],
            ['Work', minutesText(task.minutes.work)],
            ['Each time', minutesText(task.minutes.access + task.minutes.work)],
            ['Times a year', task.minutes.timesAYear === null ? 'no interval' : timesText(task.minutes.timesAYear)],
          ]}
        />
        <TaskAssumptions boat={boat} thing={task.thing} service={task.service} />
        <div className="actions">
          <button type="button" className="button plain" onClick={() => inspect({ kind: 'thing', id: task.thing })}>
            All fields of the task
          </button>
        </div>
      </Panel>
      <Panel title="Rests on" level={3}>
        <dl className="task-sources">
          <dt>Reach</dt>
          <dd>
            <div className="field">
              <PersonChoice boat={boat} />
            </div>
            {report?.person.isInterpolated ? 'Between two tabulated bodies: interpolated.' : null}
          </dd>
          {task.sources.length === 0 ? null : (
            <>
              <dt>Source</dt>
              <dd>{[...new Set(task.sources.map(sourceText))].join('; ')}</dd>
            </>
          )}
          {task.cannotSee.length === 0 ? null : (
            <>
              <dt>Blind to</dt>
              <dd>{task.cannotSee.join(' ')}</dd>
            </>
          )}
          <dt>Tried</dt>
          <dd>{`${figure(task.tried)} ${task.tried === 1 ? 'way' : 'ways'}`}</dd>
        </dl>
      </Panel>
    </div>
  );
}

function everyWords({ minutes: { timesAYear } }: TaskReport): string {
  if (timesAYear === null || timesAYear <= 0) return '';
  if (timesAYear >= 0.95 && timesAYear < 1.05) return 'once a year';
  return timesAYear > 1 ? `${timesText(timesAYear)} times a year` : `every ${figure(1 / timesAYear, 1)} years`;
}

const timesText = (times: number): string =>
  figure(times, times >= 10 || Number.isInteger(Math.round(times * 10) / 10) ? 0 : 1);

const spillWords = ({ spillL }: TaskReport): string => (spillL > 0 ? `${figure(spillL, 1)} L spilled` : '');

const yearWords = ({ minutes: { aYear } }: TaskReport): string =>
  aYear === null ? '' : `${minutesText(aYear)} a year`;

function Measures({ task }: { readonly task: TaskReport }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  if (task.measures.length === 0) return null;
  const count = (what: TaskMeasure['what']): number => task.measures.filter((one) => one.what === what).length;
  return (
    <Panel title="Measured against" level={3} aside={lengthUnit(units)}>
      <ul className="task-measures">
        {tightest(task.measures).map((measure) => (
          <Measure key={measure.what} measure={measure} of={count(measure.what)} />
        ))}
      </ul>
    </Panel>
  );
}

/** What is left to the limit; negative where it is not met. */
const leftTo = ({ value, limit, bound }: TaskMeasure): number => (bound === 'atLeast' ? value - limit : limit - value);

/** Of what is measured more than once, for each hand and tool, the tightest. */
function tightest(measures: readonly TaskMeasure[]): readonly TaskMeasure[] {
  const least = new Map<TaskMeasure['what'], TaskMeasure>();
  for (const measure of measures) {
    const before = least.get(measure.what);
    if (!before || leftTo(measure) < leftTo(before)) least.set(measure.what, measure);
  }
  return [...least.values()];
}

/** Angles in whole degrees, unless that would hide on which side of the limit they are. */
function rounded({ value, limit, unit }: TaskMeasure): number {
  const whole = unit === 'deg' ? Math.round(value) : value;
  return whole === limit ? value : whole;
}

/** `of`: how many such measures there are; the tightest is shown. */
function Measure({ measure, of }: { readonly measure: TaskMeasure; readonly of: number }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const { limit, bound, unit, met, closeCall } = measure;
  const value = rounded(measure);
  const words = measuredWords({ value, unit }, { value: limit, unit, bound }, closeCall ?? undefined, units);
  return (
    <li>
      <span className="label">
        {measureTitle(measure)}
        {of > 1 ? <span className="quiet">{`, tightest of ${of}`}</span> : null}
      </span>
      <span className="bar-row">
        <LimitBar
          measured={{ value, unit }}
          limit={{ value: limit, unit, bound }}
          uncertainty={unit === 'm' ? (closeCall?.gradeM ?? null) : null}
          tone={closeCall ? 'accl' : met ? 'ink2' : 'bad'}
        />
        <span className="words">
          <b>{words.measured}</b>
          {`, ${words.limit}`}
          {isUnverified(measure) ? <span className="quiet">, unverified default</span> : null}
        </span>
      </span>
    </li>
  );
}

/** What is moved, opened and taken off, in the order in which it is done. */
function Order({ task, boat }: { readonly task: TaskReport; readonly boat: Boat }): JSX.Element | null {
  const before = task.removals.filter(({ kind }) => kind === 'loose');
  const apart = task.removals.filter(({ kind }) => kind === 'thing' || kind === 'line');
  const isNamed = (id: string): boolean => task.removals.some(({ what, kind }) => kind === 'opening' && what === id);
  const count = before.length + task.openings.length + apart.length;
  if (count === 0 && task.standing === null) return null;
  return (
    <Panel title={count === 0 ? 'Where from' : 'Open first, in this order'} level={3}>
      {task.standing === null ? null : (
        <p className="sub">
          From{' '}
          <Link go={() => inspect({ kind: 'standingPlace', id: task.standing ?? '' })}>
            {boat.standingPlaces[task.standing]?.name ?? task.standing}
          </Link>
        </p>
      )}
      {count === 0 ? null : (
        <ol className="task-order">
          {before.map((removal) => (
            <Step
              key={`move ${removal.what}`}
              removal={removal}
              words={stepWords({ kind: 'move', subject: removal.what }, boat)}
              to={null}
            />
          ))}
          {task.openings.map((id) => (
            <li key={id}>
              <Link go={() => inspect({ kind: 'opening', id }, boat.openings[id]?.at ?? null)}>
                {stepWords({ kind: 'open', subject: id }, boat)}
              </Link>
              <OpeningSize boat={boat} id={id} isTakenApart={isNamed(id)} />
            </li>
          ))}
          {apart.map((removal) => (
            <Step
              key={`off ${removal.what}`}
              removal={removal}
              words={stepWords({ kind: 'takeOff', subject: removal.what }, boat)}
              to={recordOf(boat, removal.what)}
            />
          ))}
        </ol>
      )}
    </Panel>
  );
}

function Step({
  removal,
  words,
  to,
}: {
  readonly removal: Removal;
  readonly words: string;
  readonly to: Selection | null;
}): JSX.Element {
  return (
    <li>
      {to ? <Link go={() => inspect(to)}>{words}</Link> : words}
      <span className="quiet">{` ${minutesText(removal.minutes)}`}</span>
    </li>
  );
}

function OpeningSize({
  boat,
  id,
  isTakenApart,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly isTakenApart: boolean;
}): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const opening = boat.openings[id];
  if (!opening) return null;
  return (
    <span className="quiet">
      {` ${wholeLength(opening.widthM, units)} \u00d7 ${wholeLength(opening.heightM, units)}${isTakenApart ? ', with a tool' : ''}`}
    </span>
  );
}

function Blockers({ task, boat }: { readonly task: TaskReport; readonly boat: Boat }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const setHover = useApp((state) => state.setHover);
  if (task.blockers.length === 0) return null;
  return (
    <Panel title="In the way" level={3} aside={`short, ${lengthUnit(units)}`}>
      <ul className="task-blockers">
        {task.blockers.map((blocker) => {
          const record = recordOf(boat, blocker.owner);
          const name = sentence(blockerName(boat, blocker));
          return (
            <li
              key={`${blocker.owner} ${blocker.label}`}
              onMouseEnter={() => setHover(record)}
              onMouseLeave={() => setHover(null)}
            >
              <span>{record ? <Link go={() => inspect(record)}>{name}</Link> : name}</span>
              <b>{blocker.shortByM === null ? '\u2013' : wholeLength(blocker.shortByM, units)}</b>
            </li>
          );
        })}
      </ul>
      {isPart(boat, task.thing) ? (
        <p className="quiet">
          Move the part, or what is in its way, by what is missing: the task is tried again at once.
        </p>
      ) : null}
    </Panel>
  );
}
