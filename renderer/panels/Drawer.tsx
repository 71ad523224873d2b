import { type JSX, type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { ICONS } from '../app/icons';
import { useApp } from '../store/app';
import { layoutOf } from '../store/derived';
import type { Stage } from '../store/types';
import { figure, runFigure, runUnit } from './format';
import { useEntryWish } from './survey/entry-wish';
import { SurveyTable } from './survey/SurveyTable';
import { CompartmentsTable } from './tables/CompartmentsTable';
import { HydrostaticsTable } from './tables/HydrostaticsTable';
import { OpeningsTable } from './tables/OpeningsTable';
import { PanelsTable } from './tables/PanelsTable';
import { PartsTable } from './tables/PartsTable';
import { RunsTable } from './tables/RunsTable';
import { StationsTable } from './tables/StationsTable';
import { TakeoffTable } from './tables/TakeoffTable';
import { UnrolledRun } from './tables/UnrolledRun';

const TABS = [
  'Parts',
  'Runs',
  'Unrolled',
  'Compartments',
  'Panels',
  'Openings',
  'Stations',
  'Hydrostatics',
  'Survey',
  'Take-off',
] as const;
type Tab = (typeof TABS)[number];

const TAB_OF: Readonly<Record<Stage, Tab | null>> = {
  hull: 'Stations',
  compartments: 'Compartments',
  equipment: 'Parts',
  runs: 'Runs',
  checks: null,
  sheets: 'Take-off',
};

type Height = 'closed' | 'usual' | 'tall';

/** Everything that the drawing shows, as tables: the stage chooses which one is up, a click another. */
export function Drawer(): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const stage = useApp((state) => state.stage);
  const arrangementId = useApp((state) => state.arrangementId);
  const report = useApp((state) => state.report);
  const units = useApp((state) => state.displayUnits);
  const selectedKind = useApp((state) => state.selection?.kind);
  const [tab, setTab] = useState<Tab>('Parts');
  const [height, setHeight] = useState<Height>(() => (window.innerWidth < 1280 ? 'closed' : 'usual'));
  const [blockedOnly, setBlockedOnly] = useState(false);
  const blocked = report?.summary.blocked ?? 0;
  const filters = tab === 'Runs' && (blocked > 0 || blockedOnly);
  const entryWishes = useEntryWish((state) => state.count);
  const list = useRef<HTMLDivElement>(null);

  useEffect(() => {
    const wanted = TAB_OF[stage];
    if (wanted) setTab(wanted);
  }, [stage]);

  // A run picked on the drawing brings its table up; what stays in its own table does not turn the page.
  useEffect(() => {
    if (selectedKind === 'line' || selectedKind === 'clipPoint' || selectedKind === 'crossing')
      setTab((now) => (now === 'Take-off' || now === 'Unrolled' ? now : 'Runs'));
    if (selectedKind === 'reading' || selectedKind === 'surveyPoint') setTab('Survey');
    if (selectedKind === 'opening' || selectedKind === 'surface' || selectedKind === 'standingPlace')
      setTab('Openings');
    if (selectedKind === 'panel') setTab('Panels');
    if (selectedKind === 'compartment') setTab('Compartments');
    if (selectedKind === 'thing') setTab((now) => (now === 'Take-off' || now === 'Runs' ? now : 'Parts'));
  }, [selectedKind]);

  useEffect(() => {
    if (entryWishes === 0) return;
    setTab('Survey');
    setHeight((now) => (now === 'closed' ? 'usual' : now));
  }, [entryWishes]);

  if (!boat) return null;
  const counts: Readonly<Record<Tab, number | null>> = {
    Parts: Object.keys(boat.parts).length + Object.keys(boat.fixtures).length,
    Runs: Object.keys(boat.lines).length,
    Unrolled: null,
    Compartments: Object.keys(boat.compartments).length,
    Panels: Object.keys(layoutOf(boat, arrangementId).panels).length,
    Openings: Object.keys(boat.openings).length,
    Hydrostatics: null,
    Stations: Object.keys(boat.hull?.stations ?? {}).length,
    Survey: Object.keys(boat.survey?.readings ?? {}).length,
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
              onClick={() => {
                setTab(name);
                if (height === 'closed') setHeight('usual');
              }}
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
      <div className="drawer-rows" id="drawer-rows" role="tabpanel" aria-labelledby={`tab-${tab}`}>
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
        ) : (
          <TakeoffTable boat={boat} />
        )}
      </div>
    </section>
  );
}
