import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { keepTyped } from '../../store/typed';
import { LengthField } from '../fields/LengthField';
import { lengthUnit } from '../format';
import { Labelled, Panel } from './parts';

/** One station's offsets, from sheer down to keel as on an offset table; half-breadth, height and knuckle. */
export function StationInspector({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const units = useApp((state) => state.displayUnits);
  const station = boat.hull?.stations[id];
  if (!station) return null;
  const rows = station.points.map((point, index) => ({ point, index })).reverse();
  const pathOf = (index: number, axis: 0 | 1): string => `hull.stations.${id}.points[${index}][${axis}]`;
  const set = (index: number, axis: 0 | 1, value: number, typed: string): boolean =>
    edit(`Station ${id}`, (draft) => {
      const point = draft.hull?.stations[id]?.points[index];
      if (point) point[axis] = value;
      keepTyped(draft, pathOf(index, axis), typed);
    });
  return (
    <Panel title={`Station ${id}`} aside={lengthUnit(units)}>
      <Labelled label="x">
        <LengthField
          label="x of the station"
          value={station.xM}
          commit={(value) =>
            edit(`Station ${id}`, (draft) => {
              const own = draft.hull?.stations[id];
              if (own) own.xM = value;
            })
          }
        />
      </Labelled>
      <table className="mini-table">
        <thead>
          <tr>
            <th scope="col">No.</th>
            <th scope="col">Half-breadth</th>
            <th scope="col">Height</th>
            <th scope="col">Knuckle</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ point, index }) => (
            <tr key={index}>
              <td>{index + 1}</td>
              <td>
                <LengthField
                  label={`Half-breadth of point ${index + 1}`}
                  value={point[0]}
                  path={pathOf(index, 0)}
                  commit={(value, typed) => set(index, 0, value, typed)}
                />
              </td>
              <td>
                <LengthField
                  label={`Height of point ${index + 1}`}
                  value={point[1]}
                  path={pathOf(index, 1)}
                  commit={(value, typed) => set(index, 1, value, typed)}
                />
              </td>
              <td>
                <input
                  type="checkbox"
                  aria-label={`Knuckle at point ${index + 1}`}
                  checked={station.knuckles?.includes(index) ?? false}
                  onChange={(event) =>
                    edit(`Station ${id}`, (draft) => {
                      const own = draft.hull?.stations[id];
                      if (!own) return;
                      const others = (own.knuckles ?? []).filter((knuckle) => knuckle !== index);
                      own.knuckles = event.target.checked ? [...others, index].sort((a, b) => a - b) : others;
                    })
                  }
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Panel>
  );
}
