import type { Boat } from '@core/boat/schema/boat';
import { TASK_VERDICTS, type TaskReport } from '@core/engine/service/service-report';
import { nameOf } from '@core/output/text/names';
import { reasonText } from '@core/output/text/service-text';
import { blockerName, doneWords, taskName, verdictWords } from '@core/output/text/task-words';
import { type JSX, useEffect, useMemo, useRef } from 'react';
import { useApp } from '../../store/app';
import { markOf, thingOf } from '../../store/select';
import { isStaleTask, passesTasks, useService } from '../../store/service';
import { useIsLong } from '../../store/study';
import type { DisplayUnits } from '../../store/types';
import { figure, lengthUnit, wholeLength } from '../format';
import { StudyFault } from '../StudyFault';
import { type Column, Table } from '../Table';
import { MinutesAYear } from './MinutesAYear';
import { markedWords, Verdict } from './TaskMark';

/** Every service task with its verdict, what the plan makes worse first; a row that is picked opens its rehearsal on the board. */
export function TasksTable({ boat }: { readonly boat: Boat }): JSX.Element {
  const { report, isStale, open, filter, view, chosen, progress, fault, want, choose } = useService();
  const units = useApp((state) => state.displayUnits);
  const hover = useApp((state) => state.hover);
  const setHover = useApp((state) => state.setHover);
  useEffect(want, [want]);
  // Another view begins at its head.
  const root = useRef<HTMLDivElement>(null);
  const viewed = useRef(view);
  useEffect(() => {
    if (viewed.current === view) return;
    viewed.current = view;
    const rows = root.current?.closest('.drawer-rows');
    if (rows) rows.scrollTop = 0;
  }, [view]);
  const isLong = useIsLong(progress !== null);
  const rows = useMemo(() => report?.tasks.filter((task) => passesTasks(task, filter)) ?? [], [report, filter]);
  const columns = useMemo(
    () => columnsFor(boat, units, (key) => isStaleTask({ isStale, open }, key)),
    [boat, units, isStale, open],
  );
  if (!report)
    return fault === null ? (
      <p className="empty">
        {progress ? `The tasks are being tried: ${progress.done} of ${progress.of}.` : 'The tasks are being tried.'}
      </p>
    ) : (
      <StudyFault study={{ fault }} />
    );
  if (view === 'minutes')
    return (
      <div ref={root}>
        <MinutesAYear boat={boat} report={report} />
      </div>
    );
  return (
    <div ref={root} className="tasks-table" aria-busy={isStale}>
      <StudyFault study={{ fault }} />
      {isLong && progress ? <progress aria-label="Tasks being tried" max={progress.of} value={progress.done} /> : null}
      <Table
        label="Service tasks"
        rows={rows}
        columns={columns}
        idOf={({ key }) => key}
        selectedId={chosen}
        hoveredId={hover?.kind === 'thing' ? (rows.find(({ thing }) => thing === hover.id)?.key ?? null) : null}
        select={({ key }) => choose(key)}
        hover={(row) => setHover(row ? { kind: 'thing', id: row.thing } : null)}
        open={({ key }) => {
          choose(key);
          useService.setState({ focusWish: true });
        }}
        empty={
          report.tasks.length === 0
            ? 'No part or fixture has a service task yet. Add tasks to a thing in its inspector, stage 3.'
            : 'No task is like that. Choose another verdict, or every one.'
        }
      />
    </div>
  );
}

function columnsFor(boat: Boat, units: DisplayUnits, isOld: (key: string) => boolean): readonly Column<TaskReport>[] {
  return [
    {
      key: 'thing',
      title: 'Thing',
      cell: ({ thing }) => markOf(thing, thingOf(boat, thing)),
      sortBy: ({ thing }) => markOf(thing, thingOf(boat, thing)),
      text: ({ thing, isPart }) => `${nameOf(boat, thing)} ${isPart ? 'part' : 'aboard'}`,
    },
    { key: 'task', title: 'Task', cell: (task) => taskName(boat, task), sortBy: (task) => taskName(boat, task) },
    {
      key: 'verdict',
      title: 'Verdict',
      cell: (task) => <Verdict task={task} isOld={isOld(task.key)} />,
      sortBy: ({ verdict }) => TASK_VERDICTS.indexOf(verdict),
      text: markedWords,
    },
    { key: 'how', title: 'How, or what is in the way', second: true, cell: (task) => howWords(task, boat, units) },
    {
      key: 'before',
      title: 'As bought',
      second: true,
      cell: ({ before, isWorse }) =>
        before === null ? '\u2013' : isWorse ? `${verdictWords(before)}, now worse` : verdictWords(before),
      sortBy: ({ isWorse, before }) =>
        isWorse ? -1 : before === null ? TASK_VERDICTS.length : TASK_VERDICTS.indexOf(before),
    },
    {
      key: 'reach',
      title: `Spare ${lengthUnit(units)}`,
      number: true,
      cell: ({ reach }) => (reach === null ? '\u2013' : wholeLength(reach.marginM, units)),
      sortBy: ({ reach }) => reach?.marginM ?? Number.POSITIVE_INFINITY,
    },
    {
      key: 'minutes',
      title: 'Min each',
      number: true,
      cell: ({ key, minutes }) => (
        <span className={isOld(key) ? 'stale' : undefined}>{figure(minutes.access + minutes.work, 1)}</span>
      ),
      sortBy: ({ minutes }) => minutes.access + minutes.work,
    },
    {
      key: 'year',
      title: 'Min a year',
      number: true,
      cell: ({ minutes }) => (minutes.aYear === null ? '\u2013' : figure(minutes.aYear)),
      sortBy: ({ minutes }) => minutes.aYear ?? -1,
    },
  ];
}

/** `moving Cushion; an arm in, Galley front`; `26 mm short at Fuel tank` */
function howWords(task: TaskReport, boat: Boat, units: DisplayUnits): string {
  const { verdict, blockers, shortByM, enterNext } = task;
  if (verdict === 'notAsked') return enterNext ?? '';
  const [first] = blockers;
  if (verdict !== 'noWayFound' && verdict !== 'notAtAll') return doneWords(task, boat);
  const short = shortByM === null ? '' : `${wholeLength(shortByM, units)} ${lengthUnit(units)} short`;
  // What lies at the thing itself is told by the reason.
  const at = [short, first && first.owner !== task.thing ? `at ${blockerName(boat, first)}` : '']
    .filter((words) => words !== '')
    .join(' ');
  return at === '' ? reasonText(task, boat) : at;
}
