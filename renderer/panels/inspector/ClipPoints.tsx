import { AXES } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { clipPointRemoved, clipPointsOf } from '../../store/clip-points';
import { clipPointSet, IS_PINNED, putPulled } from '../../store/pulled';
import { isPinned, sameSelection } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { lengthUnit } from '../format';
import { Link, Panel } from './parts';

/** Points that the run must pass, in order; a new one is set on the run as it is now. */
export function ClipPoints({
  boat,
  lineId,
  mark,
}: {
  readonly boat: Boat;
  readonly lineId: string;
  readonly mark: string;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const hasRun = useApp((state) => state.report?.runs.find((run) => run.lineId === lineId)?.status === 'routed');
  const pinned = useApp((state) => isPinned(boat, state.arrangementId, lineId));
  const selection = useApp((state) => state.selection);
  const { edit, goTo } = useApp.getState();
  const units = useApp((state) => state.displayUnits);
  const points = clipPointsOf(boat, arrangementId).filter(({ line }) => line === lineId);
  return (
    <Panel title="Clip points" level={3} aside={points.length === 0 ? 'none' : lengthUnit(units)}>
      {points.length === 0 ? (
        <p className="quiet">Drag the picked run on the drawing to lead it past a place, or set a point here.</p>
      ) : (
        <table className="mini-table">
          <thead>
            <tr>
              <th scope="col">No.</th>
              {AXES.map((axis) => (
                <th scope="col" key={axis}>
                  {axis}
                </th>
              ))}
              <th scope="col">
                <span className="spoken">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {points.map(({ id, number, at }) => {
              const here = { kind: 'clipPoint', id, line: lineId } as const;
              return (
                <tr key={id} className={sameSelection(selection, here) ? 'picked' : undefined}>
                  <td>
                    <Link go={() => goTo(here, at)}>{number}</Link>
                  </td>
                  {AXES.map((axis, place) => (
                    <td key={axis}>
                      <LengthField
                        label={`${axis} of clip point ${number}`}
                        value={at[place as 0 | 1 | 2]}
                        commit={(value) => {
                          const next: [number, number, number] = [at[0], at[1], at[2]];
                          next[place] = value;
                          putPulled(here, next);
                        }}
                      />
                    </td>
                  ))}
                  <td>
                    <RemoveButton
                      label={`Remove clip point ${number}`}
                      remove={() => edit(`Remove a clip point of ${mark}`, clipPointRemoved(arrangementId, lineId, id))}
                    />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          disabled={!hasRun || pinned}
          title={pinned ? IS_PINNED : 'In the middle of the run, to be moved from there. Key K'}
          onClick={clipPointSet}
        >
          Add a clip point
        </button>
      </div>
    </Panel>
  );
}
