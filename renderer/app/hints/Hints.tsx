import type { Vec2, Vec3 } from '@core/base/vec';
import { type JSX, type RefObject, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { useApp } from '../../store/app';
import { HINTS, type Hint, useHints } from '../../store/hints';
import { placeOf } from '../../store/select';
import { useDialogs } from '../dialogs';
import { isDialogUp } from '../keys';
import { HINT_WORDS } from './words';

/** Where a point of the boat is drawn in plan, page pixels; null: out of sight. */
export type OnSheet = (at: Vec3) => Vec2 | null;

/** Numbered notes on the sample, each at the place that it speaks of; one is open at a time. They go when they are put away. */
export function Hints({ onSheet }: { readonly onSheet: OnSheet }): JSX.Element | null {
  const isSample = useApp((state) => state.document.isSample);
  const isDialog = useDialogs(isDialogUp);
  const away = useHints((state) => state.away);
  const left = HINTS.filter((hint) => !away.includes(hint));
  if (!isSample || isDialog || left.length === 0) return null;
  return (
    <section className="hints" aria-label="Hints">
      <ol>
        {left.map((hint) => (
          <Note key={hint} hint={hint} onSheet={onSheet} />
        ))}
      </ol>
    </section>
  );
}

function Note({ hint, onSheet }: { readonly hint: Hint; readonly onSheet: OnSheet }): JSX.Element | null {
  const isOpen = useHints((state) => state.open === hint);
  const { show, putAway, putAllAway } = useHints.getState();
  const item = useRef<HTMLLIElement>(null);
  const at = useAnchor(hint, onSheet, item);
  const { title, text } = HINT_WORDS[hint];
  const number = HINTS.indexOf(hint) + 1;
  return (
    <li
      ref={item}
      className={isOpen ? 'hint-at open' : 'hint-at'}
      style={at === null ? { visibility: 'hidden' } : { left: at[0], top: at[1] }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !isOpen) return;
        event.preventDefault();
        event.stopPropagation();
        putAway(hint);
        document.querySelector<HTMLElement>('.hint-number')?.focus();
      }}
    >
      <button
        type="button"
        className="hint-number"
        aria-expanded={isOpen}
        aria-label={`Hint ${number}: ${title}`}
        onClick={() => show(isOpen ? null : hint)}
      >
        {number}
      </button>
      {isOpen ? (
        <div className="hint-note">
          <h2>{title}</h2>
          <p>{text}</p>
          <div className="actions">
            <button type="button" className="button" onClick={() => putAway(hint)}>
              {number === HINTS.length ? 'Done' : 'Next'}
            </button>
            <button type="button" className="button plain" onClick={putAllAway}>
              Put all away
            </button>
          </div>
        </div>
      ) : null}
    </li>
  );
}

/** A note keeps this far from its place and from the edge of what it stands on, pixels. */
const OFF = 10;

/** Page pixels of the note's corner, worked out again whenever the drawing, the window or what is shown changes. */
function useAnchor(hint: Hint, onSheet: OnSheet, item: RefObject<HTMLLIElement | null>): Vec2 | null {
  const [at, setAt] = useState<Vec2 | null>(null);
  const place = useRef(() => {});
  place.current = () => {
    const size = item.current?.getBoundingClientRect();
    const next = size ? placeOfNote(hint, onSheet, size.width, size.height) : null;
    setAt((now) => (now?.[0] === next?.[0] && now?.[1] === next?.[1] ? now : next));
  };
  // Each time that the sheet is drawn anew the place may be another.
  useLayoutEffect(() => place.current());
  useEffect(() => {
    const again = (): void => place.current();
    window.addEventListener('resize', again);
    window.addEventListener('scroll', again, { capture: true });
    return () => {
      window.removeEventListener('resize', again);
      window.removeEventListener('scroll', again, { capture: true });
    };
  }, []);
  return at;
}

const boxOf = (selector: string): DOMRect | null => document.querySelector(selector)?.getBoundingClientRect() ?? null;

/** The upper left corner of a note; null where what it speaks of is out of sight. It stays on the board, over no list. */
function placeOfNote(hint: Hint, onSheet: OnSheet, width: number, height: number): Vec2 | null {
  const board = boxOf('.board-area');
  const anchor = anchorOf(hint, onSheet, width);
  if (!board || !anchor) return null;
  const within = (value: number, low: number, high: number): number => Math.round(Math.max(low, Math.min(value, high)));
  return [
    within(anchor[0], board.left + OFF, board.right - width - OFF),
    within(anchor[1], board.top + OFF, board.bottom - height - OFF),
  ];
}

function anchorOf(hint: Hint, onSheet: OnSheet, width: number): Vec2 | null {
  switch (hint) {
    case 'finding': {
      const [head, side] = [boxOf('.findings > header'), boxOf('.side')];
      if (!head || !side || head.top < side.top || head.top > side.bottom) return null;
      return [side.left - width, head.top];
    }
    case 'list': {
      const stage = boxOf('[data-command="stage-sheets"]');
      return stage && [stage.left, stage.bottom];
    }
    case 'own': {
      const logo = boxOf('.logo');
      return logo && [logo.right, logo.bottom];
    }
    default: {
      const at = hint === 'pump' ? placeOfPump() : placeOfLongestRun();
      const drawn = at && onSheet(at);
      return drawn && [drawn[0] + OFF, drawn[1] + OFF];
    }
  }
}

function placeOfPump(): Vec3 | null {
  const { boat, arrangementId } = useApp.getState();
  const pump = Object.keys(boat?.parts ?? {}).find((id) => boat?.parts[id]?.kind === 'pumpModule');
  return boat && pump !== undefined ? (placeOf(boat, arrangementId, pump)?.at ?? null) : null;
}

/** The middle of the longest run that is planned. */
function placeOfLongestRun(): Vec3 | null {
  const { boat, report } = useApp.getState();
  const planned = (report?.runs ?? []).filter(({ lineId }) => boat?.lines[lineId]?.existing === false);
  const [longest] = planned.sort((a, b) => (b.lengthM ?? 0) - (a.lengthM ?? 0));
  return longest?.prims[Math.floor(longest.prims.length / 2)]?.from ?? null;
}
