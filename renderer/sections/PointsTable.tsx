import type { Boat } from '@core/boat/schema/boat';
import { pointMoved, pointPath, stationNumber } from '@core/boat/station-edits';
import { type CSSProperties, type JSX, type KeyboardEvent, memo, type RefObject, useEffect, useRef } from 'react';
import { LengthField } from '../panels/fields/LengthField';
import { lengthUnit, wholeLength } from '../panels/format';
import { useApp } from '../store/app';
import { keepTyped } from '../store/typed';
import { addPointAfter, nudgePoint, pickPoint, removePoint, stepPoint, stepStation, toggleKnuckle } from './actions';
import { nudgeOnBodyPlan } from './sheet';
import { setSections, shownPoints, useSections } from './store';
import { limitWords } from './words';

interface Props {
  readonly boat: Boat;
  readonly id: string;
  readonly end: 'aft' | 'forward';
}

const KEYS =
  'Arrow keys move the point by 10 millimetres, with shift by 1. Page up and page down pick another point, square brackets another station. A adds a point, K makes a knuckle, delete removes the point.';

/**
 * The offsets of one station from the sheer down, as a table of offsets has them: what the canvas beside it shows, with the
 * focus and the selection that a canvas cannot have.
 */
export function PointsTable({ boat, id, end }: Props): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const held = useSections((state) => state.held);
  const point = useSections((state) => state.point);
  const refusal = useSections((state) => state.refusal);
  const body = useRef<HTMLTableSectionElement>(null);
  const { hull } = boat;
  const station = hull?.stations[id];
  useEffect(() => {
    body.current?.querySelector(`[data-point="${point}"]`)?.scrollIntoView?.({ block: 'nearest' });
  }, [point]);

  if (!hull || !station) return null;
  const points = shownPoints(hull, id, held);
  const rows = points.map((_, index) => points.length - 1 - index);
  const picked = point !== null && point < points.length ? point : points.length - 1;

  return (
    <div className="points-table">
      <div className="points-head">
        <h2>
          Station {stationNumber(hull, id)} at {wholeLength(station.xM, units)} {lengthUnit(units)}
        </h2>
        <span className="quiet">{lengthUnit(units)}</span>
      </div>
      <p id="points-keys" className="spoken">
        {KEYS}
      </p>
      <div className="points-room" style={roomOf(rows.length)}>
        <div className="points-rows">
          <table
            className="mini-table"
            aria-label={`Points of station ${stationNumber(hull, id)}`}
            aria-describedby="points-keys"
          >
            <thead>
              <tr>
                <th scope="col">Point</th>
                <th scope="col">Half-breadth</th>
                <th scope="col">Height</th>
                <th scope="col">Knuckle</th>
              </tr>
            </thead>
            <tbody ref={body}>
              {rows.map((index) => (
                <PointRow
                  key={index}
                  id={id}
                  end={end}
                  index={index}
                  count={points.length}
                  body={body}
                  y={points[index]?.[0] ?? 0}
                  z={points[index]?.[1] ?? 0}
                  isKnuckle={station.knuckles?.includes(index) ?? false}
                  isPicked={index === point}
                  isFocusable={index === picked}
                />
              ))}
            </tbody>
          </table>
        </div>
      </div>
      {refusal === null ? null : (
        <p className="field-error" role="alert">
          {refusal}
        </p>
      )}
      <div className="actions">
        <button type="button" className="button plain" onClick={() => addPointAfter(picked)}>
          Add a point
        </button>
        <button
          type="button"
          className="button plain"
          disabled={points.length <= 2}
          onClick={() => removePoint(picked)}
        >
          Remove point {picked + 1}
        </button>
      </div>
    </div>
  );
}

/** The room that so many rows would take; the column may leave less. */
const roomOf = (rows: number): CSSProperties => ({ '--rows': rows }) as CSSProperties;

/** What a key does with the picked point; null for keys of others. The list runs from the sheer down. */
function keyAct(key: string, picked: number, count: number): (() => void) | null {
  switch (key) {
    case 'PageDown':
      return () => stepPoint(picked - 1);
    case 'PageUp':
      return () => stepPoint(picked + 1);
    case 'Home':
      return () => stepPoint(count - 1);
    case 'End':
      return () => stepPoint(0);
    case '[':
      return () => stepStation(-1);
    case ']':
      return () => stepStation(1);
    case 'a':
    case 'A':
    case 'Insert':
      return () => addPointAfter(picked);
    case 'k':
    case 'K':
      return () => toggleKnuckle(picked);
    case 'Delete':
    case 'Backspace':
      return () => removePoint(picked);
    default:
      return null;
  }
}

interface RowProps {
  readonly id: string;
  readonly end: Props['end'];
  readonly index: number;
  readonly count: number;
  /** Where the rows are: the focus follows the picked point from one to the other. */
  readonly body: RefObject<HTMLTableSectionElement | null>;
  readonly y: number;
  readonly z: number;
  readonly isKnuckle: boolean;
  readonly isPicked: boolean;
  readonly isFocusable: boolean;
}

/** Drawn again only when its own point changes: a drag moves one row. */
const PointRow = memo(function PointRow(props: RowProps): JSX.Element {
  const { id, index, y, z, isKnuckle, isPicked, isFocusable } = props;
  return (
    <tr data-point={index} aria-current={isPicked} onClick={() => pickPoint(id, index)}>
      <td>
        <button
          type="button"
          className="row-name"
          aria-pressed={isPicked}
          aria-label={`Point ${index + 1}`}
          tabIndex={isFocusable ? 0 : -1}
          onKeyDown={(event) => pointKey(event, props)}
        >
          {index + 1}
        </button>
      </td>
      <td>
        <LengthField
          label={`Half-breadth of point ${index + 1}`}
          value={y}
          path={pointPath(id, index, 0)}
          commit={(value, typed) => typePoint(id, index, 0, value, typed)}
        />
      </td>
      <td>
        <LengthField
          label={`Height of point ${index + 1}`}
          value={z}
          path={pointPath(id, index, 1)}
          commit={(value, typed) => typePoint(id, index, 1, value, typed)}
        />
      </td>
      <td>
        <input
          type="checkbox"
          aria-label={`Knuckle at point ${index + 1}`}
          checked={isKnuckle}
          onChange={() => {
            pickPoint(id, index);
            toggleKnuckle(index);
          }}
        />
      </td>
    </tr>
  );
});

/** A key on a point: it moves, or another is picked. */
function pointKey(event: KeyboardEvent, { id, index, count, end, body }: RowProps): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const nudge = nudgeOnBodyPlan(event.key, event.shiftKey, end);
  const act = keyAct(event.key, index, count);
  if (!nudge && !act) return;
  event.preventDefault();
  event.stopPropagation();
  // The row that has the focus is the point that is meant, also before it was picked.
  if (useSections.getState().point !== index) pickPoint(id, index);
  if (nudge) nudgePoint(nudge);
  else {
    act?.();
    // The row of a new point is there after the next drawing.
    requestAnimationFrame(() => focusPicked(body.current));
  }
}

function focusPicked(body: HTMLElement | null): void {
  const row = body?.querySelector('[aria-pressed="true"]') ?? body?.querySelector('.row-name[tabindex="0"]');
  if (row instanceof HTMLElement) row.focus();
}

/** A typed coordinate: kept with the words that gave it, or refused with the limit. */
function typePoint(id: string, index: number, axis: 0 | 1, value: number, typed: string): void {
  const { boat, edit, displayUnits } = useApp.getState();
  const points = boat?.hull?.stations[id]?.points;
  const before = points?.[index];
  if (!boat?.hull || !points || !before) return;
  pickPoint(id, index);
  const at: readonly [number, number] = axis === 0 ? [value, before[1]] : [before[0], value];
  const why = limitWords(points, index, at, displayUnits);
  setSections({ refusal: why });
  if (why !== null) return;
  edit(`Point ${index + 1} of station ${stationNumber(boat.hull, id)}`, (draft) => {
    pointMoved(id, index, at)(draft);
    keepTyped(draft, pointPath(id, index, axis), typed);
  });
}
