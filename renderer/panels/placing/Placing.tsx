import type { Boat } from '@core/boat/schema/boat';
import { type CompartmentAnswer, PLACE_TESTS, type PlaceReport } from '@core/engine/placement/place-report';
import { PLACE_TEST_TITLE } from '@core/output/text/place-text';
import { type JSX, type KeyboardEvent, useEffect, useMemo, useRef } from 'react';
import { useApp } from '../../store/app';
import { useDrag } from '../../store/drag';
import {
  answerOf,
  askedWords,
  isOldAnswer,
  moveWords,
  noMove,
  placeThere,
  THERE_NOW,
  usePlacing,
} from '../../store/placing';
import { markOf, thingOf } from '../../store/select';
import { figure, sizesText } from '../format';
import { envelopeOf } from '../inspector/envelope';
import { StudyFault } from '../StudyFault';
import { DemandSwitches } from './DemandSwitches';
import { PlaceRow, rowId } from './PlaceRow';
import { OutcomeBar } from './TestBars';
import { OUTCOME_WORDS, TEST_HEADS, tallyWords } from './words';
import '../../app/styles/placing.css';

/** Where the parts that are picked can go: the question, what is demanded, the compartments ranked, and the move itself. */
export function Placing(): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const parts = usePlacing((state) => state.parts);
  const report = usePlacing((state) => state.report);
  const fault = usePlacing((state) => state.fault);
  const title = useRef<HTMLHeadingElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const hasRows = report !== null && report.compartments.length > 0;
  // The keys go to the question when it opens, and to the list once there is one.
  useEffect(() => title.current?.focus({ preventScroll: true }), []);
  useEffect(() => {
    if (hasRows && document.activeElement === title.current) list.current?.focus({ preventScroll: true });
  }, [hasRows]);
  if (!boat || parts.length === 0) return null;
  return (
    <section className="placing-panel" aria-labelledby="placing-title" onKeyDown={onPanelKey}>
      <header className="placing-head">
        <h2 id="placing-title" ref={title} tabIndex={-1}>
          Where can it go?
        </h2>
        <Asked boat={boat} parts={parts} />
        <DemandSwitches boat={boat} parts={parts} />
      </header>
      <Standing boat={boat} />
      <StudyFault study={{ fault }} />
      {report === null ? null : hasRows ? (
        <Ranked boat={boat} report={report} listRef={list} />
      ) : (
        <p className="placing-none">No compartments are drawn. Draw one in stage 2: it needs somewhere to go.</p>
      )}
      <Foot boat={boat} />
    </section>
  );
}

const toBoard = (): void => document.getElementById('board-list')?.focus({ preventScroll: true });

function leave(): void {
  usePlacing.getState().close();
  toBoard();
}

function onPanelKey(event: KeyboardEvent): void {
  if (event.key !== 'Escape' || event.defaultPrevented) return;
  event.preventDefault();
  event.stopPropagation();
  leave();
}

/** `PM-1 Pump module, 420 × 270 × 260, with R5, R6`. */
function Asked({ boat, parts }: { readonly boat: Boat; readonly parts: readonly string[] }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const lines = Object.entries(boat.lines)
    .filter(([, { from, to }]) => parts.includes(from.thing) || parts.includes(to.thing))
    .map(([id, line]) => markOf(id, line));
  return (
    <p className="sub">
      {parts.map((id, index) => {
        const thing = thingOf(boat, id);
        return (
          <span key={id}>
            {index > 0 ? '; ' : ''}
            <b>{markOf(id, thing)}</b>
            {thing ? ` ${thing.name}, ${sizesText(envelopeOf(thing), units)}` : ''}
          </span>
        );
      })}
      {lines.length === 0 ? '' : `, with ${lines.join(', ')}`}
    </p>
  );
}

/** How far the work is, told once at each milestone; Stop while it goes on. */
function Standing({ boat }: { readonly boat: Boat }): JSX.Element {
  const { progress, report, isStopped, fault } = usePlacing();
  const isOld = usePlacing((state) => isOldAnswer(state, boat));
  const { stop, again } = usePlacing.getState();
  const isWorking = progress !== null;
  const said =
    fault !== null
      ? 'Not judged'
      : isStopped
        ? 'Stopped'
        : report === null
          ? 'Compartments are being judged'
          : isOld
            ? 'Judged again after the change'
            : report.stage === 'first'
              ? 'First bounds stand: each is being judged'
              : tallyWords(report);
  return (
    <div className="placing-standing">
      <output aria-live="polite">{said}</output>
      {isWorking ? (
        <>
          <span className="figures" aria-hidden="true">
            {progress.of > 1 ? `${figure(progress.done)} of ${figure(progress.of)}` : ''}
          </span>
          <button type="button" className="button plain small" onClick={stop}>
            Stop
          </button>
          <progress aria-label="Compartments judged" max={progress.of} value={progress.done} />
        </>
      ) : isStopped || fault !== null ? (
        <button type="button" className="button plain small" onClick={again}>
          Judge again
        </button>
      ) : null}
    </div>
  );
}

/** Compartments, the best first; those where it cannot go under a head of their own. One list for the keys. */
function Ranked({
  boat,
  report,
  listRef,
}: {
  readonly boat: Boat;
  readonly report: PlaceReport;
  readonly listRef: React.RefObject<HTMLDivElement | null>;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const hovered = useApp((state) => (state.hover?.kind === 'compartment' ? state.hover.id : null));
  const chosen = usePlacing((state) => state.chosen);
  const isHeld = useDrag((state) => state.thingId !== null);
  const isOld = usePlacing((state) => isOldAnswer(state, boat)) || isHeld;
  const { ranked, others } = useMemo(() => parted(report), [report]);
  const all = useMemo(() => [...ranked, ...others], [ranked, others]);
  const onKeyDown = (event: KeyboardEvent): void => {
    const now = all.findIndex(({ compartment }) => compartment === chosen);
    const to = { ArrowDown: now + 1, ArrowUp: Math.max(0, now - 1), Home: 0, End: all.length - 1 }[event.key];
    if (to !== undefined) {
      const next = all[Math.min(all.length - 1, to)];
      if (next) usePlacing.getState().choose(next.compartment);
    } else if (event.key === 'Enter' && chosen !== null) placeThere();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const row = (answer: CompartmentAnswer, rank: number | null): JSX.Element => (
    <PlaceRow
      key={answer.compartment}
      boat={boat}
      units={units}
      answer={answer}
      rank={rank}
      isChosen={answer.compartment === chosen}
      isHovered={answer.compartment === hovered}
      isOld={isOld}
    />
  );
  return (
    <div className="placing-list">
      <Heads />
      <div
        ref={listRef}
        role="listbox"
        tabIndex={0}
        aria-label="Compartments, the best first. Enter moves it there"
        aria-activedescendant={chosen !== null && answerOf(report, chosen) ? rowId(chosen) : undefined}
        onKeyDown={onKeyDown}
        onClick={({ target }) => {
          const id = rowUnder(target);
          if (id !== null) usePlacing.getState().choose(id);
        }}
        onPointerOver={({ target }) => pointAt(rowUnder(target))}
        onPointerLeave={() => pointAt(null)}
      >
        {ranked.map((answer, index) => row(answer, report.stage === 'settled' ? index + 1 : null))}
        {others.length === 0 ? null : (
          <fieldset className="not-here">
            <legend>
              <b>Not here</b>
              <span>{`${others.length} ${others.length === 1 ? 'compartment' : 'compartments'}`}</span>
            </legend>
            {others.map((answer) => row(answer, null))}
          </fieldset>
        )}
      </div>
      <Legend />
    </div>
  );
}

/** The compartment of the row that the pointer is on. */
const rowUnder = (target: EventTarget): string | null =>
  target instanceof Element ? (target.closest<HTMLElement>('[data-compartment]')?.dataset.compartment ?? null) : null;

/** The drawing answers to the row that is pointed at. */
const pointAt = (id: string | null): void =>
  useApp.getState().setHover(id === null ? null : { kind: 'compartment', id });

/** Those where it can or may go in their order, and those where it cannot. */
export function parted({ compartments }: PlaceReport): {
  readonly ranked: readonly CompartmentAnswer[];
  readonly others: readonly CompartmentAnswer[];
} {
  return {
    ranked: compartments.filter(({ verdict }) => verdict !== 'no'),
    others: compartments.filter(({ verdict }) => verdict === 'no'),
  };
}

function Heads(): JSX.Element {
  return (
    <div className="test-heads" aria-hidden="true">
      {PLACE_TESTS.map((test) => (
        <span key={test} title={PLACE_TEST_TITLE[test]}>
          {TEST_HEADS[test]}
        </span>
      ))}
    </div>
  );
}

function Legend(): JSX.Element {
  return (
    <ul className="bar-legend" aria-label="Signs of the tests">
      {(['pass', 'close', 'cannotTell', 'fail', 'notJudged'] as const).map((outcome) => (
        <li key={outcome}>
          <OutcomeBar outcome={outcome} />
          {OUTCOME_WORDS[outcome]}
        </li>
      ))}
    </ul>
  );
}

/** The move itself, at the foot of the panel. */
function Foot({ boat }: { readonly boat: Boat }): JSX.Element {
  const parts = usePlacing((state) => state.parts);
  const answer = usePlacing((state) => answerOf(state.report, state.chosen));
  const why = usePlacing((state) => (answer ? noMove(state, boat, answer) : 'Choose a compartment'));
  const words = answer ? moveWords(boat, parts, answer) : `Move ${askedWords(boat, parts)}`;
  return (
    <footer className="placing-foot">
      <button
        type="button"
        className="button lead"
        disabled={why !== null}
        title={why ?? `${words} (Enter)`}
        onClick={() => placeThere()}
      >
        {why === THERE_NOW ? 'It is here now' : words}
      </button>
      <button type="button" className="button plain" title="Close the question (Esc)" onClick={leave}>
        Close
      </button>
    </footer>
  );
}
