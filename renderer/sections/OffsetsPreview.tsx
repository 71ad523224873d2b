import type { Vec2 } from '@core/base/vec';
import type { ReadOffsets } from '@core/boat/offsets/read';
import type { JSX } from 'react';
import { lengthFigure, lengthUnit } from '../panels/format';
import { useApp } from '../store/app';

const WIDTH = 300;
const HEIGHT = 170;
const EDGE = 12;
/** Faults shown; more are counted. */
const MOST_FAULTS = 40;

/** What a table would give, before it is taken: its sections, its stations, and everything that is wrong with it. */
export function OffsetsPreview({ read }: { readonly read: ReadOffsets | null }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  if (!read) return <p className="quiet offsets-empty">What the table gives is drawn here before anything is taken.</p>;
  const { faults, notes, order, stations } = read;
  const all = order.flatMap((id) => stations[id]?.points ?? []);
  const zs = all.map(([, z]) => z);
  const isDry = zs.length > 0 && (Math.min(...zs) >= 0 || Math.max(...zs) <= 0);
  return (
    <div className="offsets-preview">
      {faults.length === 0 ? null : (
        <div role="alert">
          <h3>
            {faults.length === 1 ? 'One fault' : `${faults.length} faults`}. Nothing is taken until they are put right.
          </h3>
          <ul className="offsets-faults">
            {faults.slice(0, MOST_FAULTS).map(({ message, row, column }, i) => (
              <li key={`${row} ${column} ${i.toString()}`}>{message}</li>
            ))}
            {faults.length > MOST_FAULTS ? <li>and {faults.length - MOST_FAULTS} more</li> : null}
          </ul>
        </div>
      )}
      <Sections read={read} />
      <p className="sub">
        {order.length} stations, {all.length} points. {notes.join(' ')}
        {isDry ? ' No section meets the water at height 0: nothing would float.' : ''}
      </p>
      {faults.length > 0 ? null : (
        <div className="offsets-stations">
          <table className="mini-table" aria-label="Stations of the table">
            <thead>
              <tr>
                {['Station', `x ${lengthUnit(units)}`, 'Points', 'Half-breadth', 'Keel', 'Sheer'].map((title) => (
                  <th key={title} scope="col">
                    {title}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {order.map((id, number) => {
                const station = stations[id];
                if (!station) return null;
                const { points, xM } = station;
                return (
                  <tr key={id}>
                    <td>{number}</td>
                    <td>{lengthFigure(xM, units)}</td>
                    <td>{points.length}</td>
                    <td>{lengthFigure(Math.max(...points.map(([y]) => y)), units)}</td>
                    <td>{lengthFigure(points[0]?.[1] ?? 0, units)}</td>
                    <td>{lengthFigure(points.at(-1)?.[1] ?? 0, units)}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
    </div>
  );
}

/** Aft stations to the left, the others to the right, as on the body plan. */
function Sections({ read }: { readonly read: ReadOffsets }): JSX.Element | null {
  const list = read.order.flatMap((id) => read.stations[id] ?? []);
  const points = list.flatMap((station) => station.points);
  if (points.length < 2) return null;
  const zs = points.map(([, z]) => z);
  const low = Math.min(...zs, 0);
  const high = Math.max(...zs, 0);
  const wide = Math.max(0.1, ...points.map(([y]) => Math.abs(y)));
  const scale = Math.min((WIDTH - 2 * EDGE) / (2 * wide), (HEIGHT - 2 * EDGE) / Math.max(0.1, high - low));
  const middle = ((list[0]?.xM ?? 0) + (list.at(-1)?.xM ?? 0)) / 2;
  const place = ([y, z]: Vec2): string =>
    `${(WIDTH / 2 + y * scale).toFixed(1)},${(EDGE + (high - z) * scale).toFixed(1)}`;
  return (
    <svg
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      role="img"
      aria-label="Body plan of the table"
    >
      <line className="water" x1={EDGE} x2={WIDTH - EDGE} y1={EDGE + high * scale} y2={EDGE + high * scale} />
      <line className="centre" x1={WIDTH / 2} x2={WIDTH / 2} y1={EDGE / 2} y2={HEIGHT - EDGE / 2} />
      {list.map(({ xM, points: own }) => (
        <polyline key={xM} points={own.map(([y, z]) => place([xM < middle ? -y : y, z])).join(' ')} />
      ))}
    </svg>
  );
}
