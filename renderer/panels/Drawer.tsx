import { arrangedIn } from '@core/boat/arranged';
import { type JSX, type KeyboardEvent, lazy, Suspense, useEffect, useMemo, useRef, useState } from 'react';
import { focusTableFilter, TABLE_FILTER_ID } from '../app/focus-fields';
import { ICONS } from '../app/icons';
import { useApp } from '../store/app';
import { layoutOf } from '../store/derived';
import { TABS, type Tab, useDrawer } from '../store/drawer';
import { useService } from '../store/service';
import type { Selection, Stage } from '../store/types';
import { figure, runFigure, runUnit } from './format';
import { RowFilter } from './row-filter';
import { useEntryWish } from './survey/entry-wish';
import { SurveyTable } from './survey/SurveyTable';
import { CompartmentsTable } from './tables/CompartmentsTable';
import { HydrostaticsTable } from './tables/HydrostaticsTable';
import { OpeningsTable } from './tables/OpeningsTable';
import { PanelsTable } from './tables/PanelsTable';
import { PartsTable } from './tables/PartsTable';
import { RunsTable } from './tables/RunsTable';
import { StationsTable } from './tables/StationsTable';
import { TakeoffBar } from './tables/TakeoffBar';
import { TakeoffTable } from './tables/TakeoffTable';
import { UnrolledRun } from './tables/UnrolledRun';

const TasksBar = lazy(() => import('./service/TasksBar').then((bar) => ({ default: bar.TasksBar })));
const TasksTable = lazy(() => import('./service/TasksTable').then((table) => ({ default: table.TasksTable })));

const TAB_OF: Readonly<Record<Stage, Tab | null>> = {
  hull: 'Stations',
  compartments: 'Compartments',
  equipment: 'Parts',
  runs: 'Runs',
  checks: 'Service',
  sheets: 'Take-off',
};

/** The table of what is picked on the drawing; the tables that stay up, since it is in them too. */
const TAB_OF_KIND: Readonly<Partial<Record<Selection['kind'], { readonly tab: Tab; readonly also: readonly Tab[] }>>> =
  {
    line: { tab: 'Runs', also: ['Take-off', 'Unrolled'] },
    clipPoint: { tab: 'Runs', also: ['Take-off', 'Unrolled'] },
    crossing: { tab: 'Runs', also: ['Take-off', 'Unrolled'] },
    reading: { tab: 'Survey', also: [] },
    surveyPoint: { tab: 'Survey', also: [] },
    opening: { tab: 'Openings', also: [] },
    surface: { tab: 'Openings', also: [] },
    standingPlace: { tab: 'Openings', also: [] },
    panel: { tab: 'Panels', also: [] },
    compartment: { tab: 'Compartments', also: [] },
    thing: { tab: 'Parts', also: ['Take-off', 'Runs', 'Service'] },
  };

/** Everything that the drawing shows, as tables: the stage chooses which one is up, a click another. */
export function Drawer(): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const stage = useApp((state) => state.stage);
  const arrangementId = useApp((state) => state.arrangementId);
  const report = useApp((state) => state.report);
  const units = useApp((state) => state.displayUnits);
  const selectedKind = useApp((state) => state.selection?.kind);
  const tab = useDrawer((state) => state.tab);
  const height = useDrawer((state) => state.height);
  const { setTab, setHeight, show } = useDrawer.getState();
  const [blockedOnly, setBlockedOnly] = useState(false);
  const blocked = report?.summary.blocked ?? 0;
  const filters = tab === 'Runs' && (blocked > 0 || blockedOnly);
  const tasks = useService((state) => state.report?.tasks.length ?? null);
  const entryWishes = useEntryWish((state) => state.count);
  const list = useRef<HTMLDivElement>(null);
  const searching = useDrawer((state) => state.searching);
  const words = useDrawer((state) => state.filter);
  const [found, setFound] = useState({ shown: 0, all: 0 });
  const asked = useMemo(() => ({ words, counted: (shown: number, all: number) => setFound({ shown, all }) }), [words]);

  useEffect(() => {
    const wanted = TAB_OF[stage];
    if (wanted) useDrawer.getState().setTab(wanted);
  }, [stage]);

  // A run picked on the drawing brings its table up; what stays in its own table does not turn the page.
  useEffect(() => {
    const { tab: now, setTab: turnTo } = useDrawer.getState();
    const wanted = selectedKind === undefined ? undefined : TAB_OF_KIND[selectedKind];
    if (wanted !== undefined && !wanted.also.includes(now)) turnTo(wanted.tab);
  }, [selectedKind]);

  // The tab that is shown is seen whole, with its count.
  useEffect(() => {
    list.current?.querySelector(`[data-tab="${tab}"]`)?.scrollIntoView?.({ block: 'nearest', inline: 'nearest' });
  }, [tab]);

  useEffect(() => {
    if (entryWishes > 0) useDrawer.getState().show('Survey');
  }, [entryWishes]);

  if (!boat) return null;
  const counts: Readonly<Record<Tab, number | null>> = {
    Parts: Object.keys(boat.parts).length + Object.keys(boat.fixtures).length,
    Runs: Object.keys(boat.lines).filter(arrangedIn(boat, arrangementId).hasLine).length,
    Unrolled: null,
    Compartments: Object.keys(boat.compartments).length,
    Panels: Object.keys(layoutOf(boat, arrangementId).panels).length,
    Openings: Object.keys(boat.openings).length,
    Hydrostatics: null,
    Stations: Object.keys(boat.hull?.stations ?? {}).length,
    Survey: Object.keys(boat.survey?.readings ?? {}).length,
    Service: tasks,
    'Take-off': report?.takeoff.length ?? null,
  };

  const onKeyDown = (event: KeyboardEvent): void => {
    const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    if (step === 0) return;
    event.preventDefault();
    const next = TABS[(TABS.indexOf(tab) + step + TABS.length) % TABS.length] ?? tab;
    setTab(next);
    list.current?.querySelector<HTMLElement>(`[data-tab="${next}"]`)?.focus();
  };

  return (
    <section className={`drawer ${height}${tab === 'Unrolled' ? ' drawing' : ''}`} aria-label="Tables">
      <div className="tabs">
        <div role="tablist" aria-label="Tables" ref={list} onKeyDown={onKeyDown}>
          {TABS.map((name) => (
            <button
              key={name}
              type="button"
              role="tab"
              id={`tab-${name}`}
              data-tab={name}
              aria-selected={tab === name}
              aria-controls="drawer-rows"
              tabIndex={tab === name ? 0 : -1}
              onClick={() => show(name)}
            >
              {name}
              <span className="count">{counts[name] === null ? '' : figure(counts[name] ?? 0)}</span>
            </button>
          ))}
        </div>
        {filters ? (
          <button
            type="button"
            className="filter"
            aria-pressed={blockedOnly}
            title="Show only runs that are blocked"
            onClick={() => setBlockedOnly(!blockedOnly)}
          >
            {`${blocked} blocked`}
          </button>
        ) : null}
        <span className="summary">
          {report && !filters
            ? `${runFigure(report.summary.hoseM, units)} ${runUnit(units)} hose, tube and cable, ${report.summary.newHoles} holes to drill`
            : ''}
        </span>
        {tab === 'Unrolled' ? null : (
          <button
            type="button"
            className="icon-button small drawer-size"
            aria-label="Find rows in the table"
            title="Find rows in the table (Ctrl F)"
            aria-expanded={searching}
            onClick={() => {
              if (searching) closeFilter();
              else focusTableFilter();
            }}
          >
            {ICONS.find}
          </button>
        )}
        <button
          type="button"
          className="icon-button small drawer-size"
          aria-label={height === 'tall' ? 'Make the tables lower' : 'Make the tables taller'}
          onClick={() => setHeight(height === 'closed' ? 'usual' : height === 'usual' ? 'tall' : 'usual')}
        >
          {height === 'tall' ? ICONS.down : ICONS.up}
        </button>
        <button
          type="button"
          className="icon-button small drawer-size"
          aria-label="Close the tables"
          disabled={height === 'closed'}
          onClick={() => setHeight('closed')}
        >
          {ICONS.close}
        </button>
      </div>
      {searching && height !== 'closed' && tab !== 'Unrolled' ? <RowSearch tab={tab} counts={found} /> : null}
      {tab === 'Take-off' && height !== 'closed' ? <TakeoffBar boat={boat} /> : null}
      {tab === 'Service' && height !== 'closed' ? (
        <Suspense fallback={null}>
          <TasksBar boat={boat} />
        </Suspense>
      ) : null}
      <div className="drawer-rows" id="drawer-rows" role="tabpanel" aria-labelledby={`tab-${tab}`}>
        <RowFilter.Provider value={asked}>
          {height === 'closed' ? null : tab === 'Parts' ? (
            <PartsTable boat={boat} />
          ) : tab === 'Runs' ? (
            <RunsTable boat={boat} blockedOnly={blockedOnly} />
          ) : tab === 'Unrolled' ? (
            <UnrolledRun boat={boat} />
          ) : tab === 'Compartments' ? (
            <CompartmentsTable boat={boat} />
          ) : tab === 'Panels' ? (
            <PanelsTable boat={boat} />
          ) : tab === 'Openings' ? (
            <OpeningsTable boat={boat} />
          ) : tab === 'Stations' ? (
            <StationsTable boat={boat} />
          ) : tab === 'Hydrostatics' ? (
            <HydrostaticsTable boat={boat} />
          ) : tab === 'Survey' ? (
            <SurveyTable boat={boat} />
          ) : tab === 'Service' ? (
            <Suspense fallback={null}>
              <TasksTable boat={boat} />
            </Suspense>
          ) : (
            <TakeoffTable boat={boat} />
          )}
        </RowFilter.Provider>
      </div>
    </section>
  );
}

function closeFilter(): void {
  useDrawer.getState().setSearching(false);
  document.querySelector<HTMLElement>('#drawer-rows .row-name[tabindex="0"]')?.focus();
}

/** A field over the rows: by name, mark, kind, place, whatever they hold. */
function RowSearch({
  tab,
  counts: { shown, all },
}: {
  readonly tab: Tab;
  readonly counts: { readonly shown: number; readonly all: number };
}): JSX.Element {
  const filter = useDrawer((state) => state.filter);
  const { setFilter } = useDrawer.getState();
  return (
    <search className="row-search">
      <div className="field">
        <input
          id={TABLE_FILTER_ID}
          type="search"
          aria-label={`Find rows in ${tab}`}
          placeholder="Name, mark, kind, place"
          autoComplete="off"
          spellCheck={false}
          value={filter}
          onChange={(event) => setFilter(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Escape' && event.key !== 'ArrowDown' && event.key !== 'Enter') return;
            event.preventDefault();
            event.stopPropagation();
            if (event.key === 'Escape') closeFilter();
            else document.querySelector<HTMLElement>('#drawer-rows .row-name')?.focus();
          }}
        />
      </div>
      <output className="quiet">{filter.trim() === '' ? '' : `${shown} of ${all}`}</output>
      <button type="button" className="button plain small" onClick={closeFilter}>
        Show all
      </button>
    </search>
  );
}
