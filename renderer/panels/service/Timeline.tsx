import type { Boat } from '@core/boat/schema/boat';
import { stepWords, taskName, verdictWords } from '@core/output/text/task-words';
import { type JSX, type KeyboardEvent, useEffect, useLayoutEffect, useRef } from 'react';
import { ICONS } from '../../app/icons';
import { taskInHand, useService } from '../../store/service';
import { minutesText } from './minutes';

/** A minute of work is shown for so long, within these bounds, milliseconds. */
const MS_A_MINUTE = 900;
const SHORTEST_MS = 1200;
const LONGEST_MS = 4000;
/** No step is narrower than this share of the longest, so that each can be pressed. */
const LEAST_SHARE = 0.12;

/** The strip under a rehearsal: its steps, as long as they take; by mouse, by arrow keys, or playing by itself. */
export function Timeline({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const { report, chosen, rehearsal, step, isPlaying, isStale, focusWish, goToStep, play, choose } = useService();
  const task = taskInHand({ report, chosen });
  const row = useRef<HTMLOListElement>(null);
  const steps = rehearsal?.key === chosen ? rehearsal.steps : [];
  const last = steps.length - 1;
  const now = steps[step];
  const lasts = now?.minutes ?? 0;

  useEffect(() => {
    if (!isPlaying) return;
    const timer = setTimeout(
      () => (step < last ? goToStep(step + 1) : play(false)),
      Math.min(LONGEST_MS, Math.max(SHORTEST_MS, lasts * MS_A_MINUTE)),
    );
    return () => clearTimeout(timer);
  }, [isPlaying, step, last, lasts, goToStep, play]);

  const isThere = steps.length > 0;
  useEffect(() => {
    if (!focusWish || !isThere) return;
    useService.setState({ focusWish: false });
    row.current?.querySelector<HTMLElement>('[aria-current="step"]')?.focus();
  }, [focusWish, isThere]);
  // What has the focus in the strip is the step that is shown.
  useEffect(() => {
    const buttons = row.current?.querySelectorAll('button') ?? [];
    if ([...buttons].some((button) => button === document.activeElement)) buttons[step]?.focus();
  }, [step]);

  // Who leaves by keyboard is back at the row of the task, or on the board.
  const from = useRef<HTMLElement | null>(null);
  useEffect(() => {
    if (chosen !== null) from.current = document.querySelector('.tasks-table [aria-current="true"] .row-name');
  }, [chosen]);
  useLayoutEffect(
    () => () => {
      if (!row.current?.closest('section')?.contains(document.activeElement)) return;
      const back = from.current;
      requestAnimationFrame(() =>
        (back?.isConnected ? back : document.querySelector<HTMLElement>('#board-list'))?.focus(),
      );
    },
    [],
  );

  if (!task) return null;
  const longest = Math.max(...steps.map(({ minutes }) => minutes), 0.1);
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Home' && event.key !== 'End') return;
    event.preventDefault();
    goToStep(event.key === 'Home' ? 0 : last);
  };
  return (
    <section className={isStale ? 'rehearsal-strip stale-rows' : 'rehearsal-strip'} aria-label="Rehearsal">
      <div className="strip-head">
        <button
          type="button"
          className="icon-button small"
          aria-label="Step before"
          title="Step before (Left)"
          disabled={step <= 0}
          onClick={() => goToStep(step - 1)}
        >
          {ICONS.back}
        </button>
        <button
          type="button"
          className="icon-button small"
          aria-label={isPlaying ? 'Pause' : 'Play the steps'}
          title={isPlaying ? 'Pause' : 'Play the steps'}
          disabled={steps.length < 2}
          onClick={() => {
            if (!isPlaying && step >= last) goToStep(0);
            play(!isPlaying);
          }}
        >
          {isPlaying ? ICONS.pause : ICONS.play}
        </button>
        <button
          type="button"
          className="icon-button small"
          aria-label="Next step"
          title="Next step (Right)"
          disabled={step >= last}
          onClick={() => goToStep(step + 1)}
        >
          {ICONS.forth}
        </button>
        <p aria-live="polite">
          {now ? (
            <>
              <b>{`Step ${step + 1} of ${steps.length}: ${stepTitle(boat, task, now)}`}</b>{' '}
              <span className="quiet">{now.minutes > 0 ? minutesText(now.minutes) : ''}</span>
            </>
          ) : (
            'The steps are being worked out.'
          )}
        </p>
        <span className="summary">
          {task.verdict === 'noWayFound' || task.verdict === 'notAtAll'
            ? `${verdictWords(task.verdict)}: shown as far as it goes`
            : `${minutesText(task.minutes.access + task.minutes.work)} each time${
                task.minutes.aYear === null ? '' : `, ${minutesText(task.minutes.aYear)} a year`
              }`}
        </span>
        <button type="button" className="button small" title="Back to the board (Esc)" onClick={() => choose(null)}>
          Back to the board
        </button>
      </div>
      <ol ref={row} className="strip-steps" onKeyDown={onKeyDown}>
        {numbered(steps).map(({ id, one, i }) => (
          <li key={id} style={{ flexGrow: Math.max(LEAST_SHARE * longest, one.minutes) }}>
            <button
              type="button"
              aria-current={i === step ? 'step' : undefined}
              tabIndex={i === step ? 0 : -1}
              title={stepTitle(boat, task, one)}
              onClick={() => {
                play(false);
                goToStep(i);
              }}
            >
              <span className="name">
                <span className="spoken">Step </span>
                {i + 1} <span className="words">{stepTitle(boat, task, one)}</span>
              </span>
              <span className="time">{one.minutes > 0 ? minutesText(one.minutes) : '\u00a0'}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** Steps stand in their order; two may say the same. */
const numbered = <T,>(all: readonly T[]): readonly { readonly id: string; readonly one: T; readonly i: number }[] =>
  all.map((one, i) => ({ id: String(i), one, i }));

/** The work itself goes by the name of the task. */
const stepTitle = (boat: Boat, task: Parameters<typeof taskName>[1], step: Parameters<typeof stepWords>[0]): string =>
  step.kind === 'work' ? taskName(boat, task) : stepWords(step, boat);
