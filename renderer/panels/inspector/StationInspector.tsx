import type { Boat } from '@core/boat/schema/boat';
import { stationNumber } from '@core/boat/station-edits';
import { type JSX, useState } from 'react';
import {
  addStationAt,
  copyStationTo,
  deleteStation,
  interpolateStation,
  middleOfGap,
  moveStationTo,
  renumberStations,
} from '../../sections/actions';
import { PointsTable } from '../../sections/PointsTable';
import { useSections } from '../../sections/store';
import { takenWords } from '../../sections/words';
import { useApp } from '../../store/app';
import { keepTyped } from '../../store/typed';
import { GradeChoice } from '../fields/GradeChoice';
import { LengthField } from '../fields/LengthField';
import { lengthUnit } from '../format';
import { sentence } from '../words';
import { Labelled, Panel } from './parts';

/** One station: where it stands, how it was taken, and what can be done with it as a whole. */
export function StationInspector({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const units = useApp((state) => state.displayUnits);
  const stage = useApp((state) => state.stage);
  const board = useSections((state) => state.board);
  const { hull } = boat;
  const station = hull?.stations[id];
  if (!hull || !station) return null;
  const middle = (Math.min(...xs(hull)) + Math.max(...xs(hull))) / 2;
  // On the section board the offsets stand beside the drawing.
  const isOnBoard = stage === 'hull' && board === 'sections';
  return (
    <Panel title={`Station ${stationNumber(hull, id)}`} aside={`${station.points.length} points`}>
      {isOnBoard ? null : <PointsTable boat={boat} id={id} end={station.xM < middle ? 'aft' : 'forward'} />}
      <Labelled label="x from aft">
        <LengthField
          label="x of the station"
          value={station.xM}
          path={`hull.stations.${id}.xM`}
          commit={(value, typed) => {
            if (moveStationTo(id, value))
              edit(`Station ${stationNumber(hull, id)}`, (draft) => keepTyped(draft, `hull.stations.${id}.xM`, typed));
          }}
        />
      </Labelled>
      <Labelled label="Accuracy">
        <GradeChoice
          label="How good the station is"
          value={station.grade ?? hull.grade}
          choose={(grade) =>
            edit(`Grade of station ${stationNumber(hull, id)}`, (draft) => {
              const own = draft.hull?.stations[id];
              if (own) own.grade = grade;
            })
          }
        />
      </Labelled>
      <Labelled label="Taken by">
        <span className="figures">{sentence(takenWords(station, hull.grade))}</span>
      </Labelled>
      <PlaceAct
        key={id}
        label={`New station at, ${lengthUnit(units)}`}
        from={middleOfGap(hull, id)}
        acts={[
          ['Interpolate there', (xM) => addStationAt(xM)],
          ['Copy this there', (xM) => copyStationTo(id, xM)],
        ]}
      />
      <div className="actions">
        <button type="button" className="button plain" onClick={() => interpolateStation(id)}>
          Take from neighbours
        </button>
        <button type="button" className="button plain" onClick={() => deleteStation(id)}>
          Delete
        </button>
        <button type="button" className="button plain" onClick={renumberStations}>
          Renumber all
        </button>
      </div>
    </Panel>
  );
}

const xs = (hull: NonNullable<Boat['hull']>): readonly number[] => Object.values(hull.stations).map(({ xM }) => xM);

/** A place along the boat and what to put there. */
function PlaceAct({
  label,
  from,
  acts,
}: {
  readonly label: string;
  readonly from: number;
  readonly acts: readonly (readonly [string, (xM: number) => boolean])[];
}): JSX.Element {
  const [xM, setX] = useState(Math.round(from * 1000) / 1000);
  return (
    <>
      <Labelled label="Another at">
        <LengthField label={label} value={xM} commit={setX} />
      </Labelled>
      <div className="actions">
        {acts.map(([words, act]) => (
          <button key={words} type="button" className="button plain" onClick={() => act(xM)}>
            {words}
          </button>
        ))}
      </div>
    </>
  );
}
