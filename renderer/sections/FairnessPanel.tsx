import type { Boat } from '@core/boat/schema/boat';
import { stationsInOrder } from '@core/boat/station-edits';
import { sectionCrossings, weaving } from '@core/shape/hull/fairness';
import { type JSX, useMemo } from 'react';
import { lengthUnit, wholeLength } from '../panels/format';
import { Link, Panel } from '../panels/inspector/parts';
import { sentence } from '../panels/words';
import { useApp } from '../store/app';
import { acceptAsBoat, makeFair, pickPoint, pickStation } from './actions';
import { openUnfair, stationGradeM } from './scene';
import { crossingWords, isWithinTape, moveWords, turnsWords, withinTapeWords } from './words';

/** Where the lines are not fair, and what one click would do about it. */
export function FairnessPanel({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const { hull } = boat;
  const stations = useMemo(() => (hull ? unfairStations(boat) : []), [boat, hull]);
  if (!hull) return null;
  const count = stations.filter(
    ({ unfair, crossings, weaves }) => unfair.length + crossings.length + weaves.length > 0,
  );
  return (
    <Panel
      title="Fairness"
      aside={count.length === 0 ? 'all stations' : `${count.length} of ${stations.length} stations`}
    >
      {count.length === 0 ? <p className="quiet">No comb turns more often than the form asks.</p> : null}
      {count.map(({ id, number, unfair, crossings, weaves, gradeM }) => (
        <div key={id} className="fairness">
          {crossings.map((crossing) => (
            <p key={`${crossing.kind} ${crossing.between.join(' ')}`} className="field-error">
              <Link go={() => pickStation(id)}>Station {number}</Link>: {crossingWords(crossing)}
            </p>
          ))}
          {weaves.map(({ with: other, zM }) => (
            <p key={`${other} ${zM}`}>
              <Link go={() => pickStation(id)}>Station {number}</Link> and station {other} cross twice, near height{' '}
              {wholeLength(zM, units)} {lengthUnit(units)}: a point of one of them stands too far in or out.
            </p>
          ))}
          {unfair.map((point, i) => {
            const at = hull.stations[id]?.points[point.index];
            if (!at) return null;
            const isWithin = isWithinTape(point, gradeM);
            return (
              <div key={point.index} className="fairness-point">
                <h3>
                  <span className="close-call" aria-hidden="true">
                    {i + 1}
                  </span>
                  <Link go={() => pickPoint(id, point.index)}>
                    Station {number} is not fair at point {point.index + 1}
                  </Link>
                </h3>
                <p>
                  {sentence(turnsWords(point, units))}; {moveWords(point, at, units)}.{' '}
                  {withinTapeWords(point, gradeM, units)}
                </p>
                <div className="actions">
                  <button
                    type="button"
                    className="button"
                    disabled={!isWithin}
                    title={isWithin ? undefined : 'The move is larger than the readings are uncertain'}
                    onClick={() => makeFair(id, point)}
                  >
                    Fair within the tape
                  </button>
                  <button type="button" className="button plain" onClick={() => acceptAsBoat(id, point)}>
                    It is the boat
                  </button>
                </div>
              </div>
            );
          })}
        </div>
      ))}
    </Panel>
  );
}

function unfairStations(boat: Boat) {
  const { hull } = boat;
  if (!hull) return [];
  const order = stationsInOrder(hull);
  return order.map(([id, station], number) => {
    const gradeM = stationGradeM(boat, hull, id);
    const next = order[number + 1]?.[1];
    const crossed = next ? weaving(station.points, next.points, gradeM) : [];
    return {
      id,
      number,
      gradeM,
      unfair: openUnfair(boat, hull, id),
      crossings: sectionCrossings(station.points),
      weaves: crossed.slice(0, 1).map(([, zM]) => ({ with: number + 1, zM })),
    };
  });
}
