import { arrangedIn } from '@core/boat/arranged';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import type { Boat, Line } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { findingText } from '@core/output/text/finding-text';
import { obstacleName } from '@core/output/text/names';
import { type JSX, useMemo, useRef } from 'react';
import { useApp } from '../../store/app';
import { useDrag } from '../../store/drag';
import { findingNumbers, markOfFinding } from '../../store/findings';
import { lineInHand, markOf, thingOf } from '../../store/select';
import { FindingMark } from '../findings/FindingMark';
import { figure, lengthUnit, runFigure, runUnit, wholeLength } from '../format';
import { LineSample } from '../LineSample';
import { blockWords, gapShare, runStatus, STATUS_WORDS } from '../run-words';
import { type Column, Table } from '../Table';
import { MEDIUM_WORDS } from '../words';
import { usePicking } from './picking';

interface Row {
  readonly id: string;
  readonly line: Line;
  readonly run: RunReport | null;
}

/** Pressure from which a hose is drawn cased, bar. */
const HIGH_PRESSURE_BAR = 20;

export function RunsTable({
  boat,
  blockedOnly = false,
}: {
  readonly boat: Boat;
  readonly blockedOnly?: boolean;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const report = useApp((state) => state.report);
  const stale = useApp((state) => state.stale);
  const arrangementId = useApp((state) => state.arrangementId);
  const live = useDrag((state) => state.runs);
  const { goTo } = useApp.getState();
  const picking = usePicking<Row>((row) => ({ kind: 'line', id: row.id }), lineInHand);

  const known = useRef(new Map<string, Row>());
  const all = useMemo((): readonly Row[] => {
    const settled = new Map(report?.runs.map((run) => [run.lineId, run]));
    const here = arrangedIn(boat, arrangementId);
    return Object.entries(boat.lines)
      .filter(([id]) => here.hasLine(id))
      .map(([id, line]): Row => {
        const run = live[id] ?? settled.get(id) ?? null;
        const old = known.current.get(id);
        // The same row again, so that only rows whose run changed are drawn during a drag.
        if (old && old.line === line && old.run === run) return old;
        const row = { id, line, run };
        known.current.set(id, row);
        return row;
      })
      .sort((a, b) => markOf(a.id, a.line).localeCompare(markOf(b.id, b.line), 'en', { numeric: true }));
  }, [boat, arrangementId, report, live]);

  const rows = useMemo(
    () => (blockedOnly ? all.filter(({ run }) => run?.status === 'blocked') : all),
    [all, blockedOnly],
  );

  const columns = useMemo((): readonly Column<Row>[] => {
    const numbers = findingNumbers(report);
    const open = (report?.findings ?? []).filter((finding) => numbers.has(finding.key));
    const first = (id: string) =>
      open
        .filter((finding) => finding.subject === id)
        .sort((a, b) => (numbers.get(a.key) ?? 0) - (numbers.get(b.key) ?? 0))[0];
    const value = (text: string): JSX.Element => <span className={stale ? 'stale' : undefined}>{text}</span>;
    const routed = (row: Row): RunReport | null => (row.run?.status === 'routed' ? row.run : null);
    return [
      {
        key: 'run',
        title: 'Run',
        cell: (row) => <b>{markOf(row.id, row.line)}</b>,
        sortBy: (row) => markOf(row.id, row.line),
        text: (row) =>
          `${markOf(row.id, row.line)} ${row.line.name} ${lineKindOf(boat.lineKinds, row.line.kind)?.name ?? ''}`,
      },
      {
        key: 'status',
        title: 'State',
        cell: (row) => {
          const status = runStatus(boat, arrangementId, row.id, row.run);
          return <span className={`run-status ${status}`}>{STATUS_WORDS[status]}</span>;
        },
        sortBy: (row) => STATUS_WORDS[runStatus(boat, arrangementId, row.id, row.run)],
      },
      {
        key: 'content',
        title: 'Content',
        cell: (row) => {
          const pressure = lineKindOf(boat.lineKinds, row.line.kind)?.pressureBar ?? 0;
          const cased = row.line.medium === 'seaWater' && pressure >= HIGH_PRESSURE_BAR;
          return (
            <span className="with-mark">
              <LineSample medium={row.line.medium} cased={cased} />
              {`${MEDIUM_WORDS[row.line.medium]}${cased ? ', high pressure' : ''}`}
            </span>
          );
        },
        sortBy: (row) => MEDIUM_WORDS[row.line.medium],
      },
      {
        key: 'ends',
        title: 'From, to',
        cell: (row) =>
          [row.line.from, row.line.to].map((end) => markOf(end.thing, thingOf(boat, end.thing))).join(' to '),
      },
      {
        key: 'length',
        title: `Length ${runUnit(units)}`,
        number: true,
        cell: (row) => {
          const length = routed(row)?.lengthM ?? null;
          return length === null ? '\u2013' : value(runFigure(length, units));
        },
        sortBy: (row) => routed(row)?.lengthM ?? Number.POSITIVE_INFINITY,
      },
      {
        key: 'bound',
        title: 'At least',
        number: true,
        second: true,
        cell: (row) => (row.run ? runFigure(row.run.lowerBoundM, units) : '\u2013'),
        sortBy: (row) => row.run?.lowerBoundM ?? 0,
      },
      {
        key: 'gap',
        title: 'Above, %',
        number: true,
        second: true,
        cell: (row) => {
          const share = row.run && gapShare(row.run);
          return share === null ? '\u2013' : figure(share * 100, 1);
        },
        sortBy: (row) => (row.run && gapShare(row.run)) ?? -1,
      },
      {
        key: 'clearance',
        title: `Clear ${lengthUnit(units)}`,
        number: true,
        cell: (row) => {
          const clear = routed(row)?.minClearanceM ?? null;
          return clear === null ? '\u2013' : wholeLength(clear, units);
        },
        sortBy: (row) => routed(row)?.minClearanceM ?? Number.POSITIVE_INFINITY,
      },
      {
        key: 'crossings',
        title: 'Holes',
        cell: (row) => crossingsWords(routed(row)),
        sortBy: (row) => routed(row)?.holes.length ?? -1,
      },
      {
        key: 'cost',
        title: `Cost ${runUnit(units)}`,
        number: true,
        cell: (row) => {
          const cost = routed(row)?.costM;
          return cost === undefined ? '\u2013' : value(runFigure(cost, units));
        },
        sortBy: (row) => routed(row)?.costM ?? Number.POSITIVE_INFINITY,
      },
      {
        key: 'note',
        title: 'Note',
        cell: (row) => {
          const finding = first(row.id);
          const mark = finding ? markOfFinding(finding) : null;
          if (finding && mark) {
            return (
              <span className="with-mark">
                <FindingMark mark={mark} number={numbers.get(finding.key)} />
                {findingText(finding, boat).title}
              </span>
            );
          }
          return row.run?.status === 'blocked' ? blockWords(row.run, (id) => obstacleName(boat, id), units) : '';
        },
        sortBy: (row) => numbers.get(first(row.id)?.key ?? '') ?? Number.MAX_SAFE_INTEGER,
      },
    ];
  }, [boat, arrangementId, report, stale, units]);

  return (
    <Table
      label="Runs"
      rows={rows}
      columns={columns}
      idOf={(row) => row.id}
      {...picking}
      open={(row) => goTo({ kind: 'line', id: row.id }, row.run?.prims[0]?.from ?? row.run?.reason?.at ?? null)}
      empty={
        blockedOnly && all.length > 0
          ? 'No run is blocked.'
          : 'Nothing to route yet. Draw a line from a port to a port.'
      }
    />
  );
}

function crossingsWords(run: RunReport | null): string {
  if (!run) return '\u2013';
  const drill = run.holes.filter((hole) => !hole.existing).length;
  if (run.holes.length === 0) return 'none';
  return drill === 0
    ? String(run.holes.length)
    : drill === run.holes.length
      ? `${drill} to drill`
      : `${run.holes.length}, ${drill} to drill`;
}
