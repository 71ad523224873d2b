import { AXES } from '@core/base/vec';
import { type BoatRecipe, freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { arrangementOf } from '../../store/select';
import { LengthField } from '../fields/LengthField';
import { RemoveButton } from '../fields/RemoveButton';
import { lengthUnit } from '../format';
import { Panel } from './parts';

/** Points that the run must pass, in order; the first new one starts in the middle of the present run. */
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
  const run = useApp((state) => state.report?.runs.find((found) => found.lineId === lineId) ?? null);
  const edit = useApp((state) => state.edit);
  const units = useApp((state) => state.displayUnits);
  const arrangement = arrangementOf(boat, arrangementId);
  const points = Object.entries(arrangement?.clipPoints[lineId] ?? {}).sort(([, a], [, b]) => a.order - b.order);
  const inArrangement =
    (change: (points: Record<string, { at: [number, number, number]; order: number }>) => void): BoatRecipe =>
    (draft) => {
      const clips = arrangementId === null ? undefined : draft.arrangements[arrangementId]?.clipPoints;
      if (!clips) return;
      const own = clips[lineId] ?? {};
      clips[lineId] = own;
      change(own as Record<string, { at: [number, number, number]; order: number }>);
      if (Object.keys(own).length === 0) delete clips[lineId];
    };
  const middle = middleOf(run);
  return (
    <Panel title="Clip points" level={3} aside={points.length === 0 ? 'none' : lengthUnit(units)}>
      {points.length === 0 ? null : (
        <table className="mini-table">
          <thead>
            <tr>
              <th scope="col">No.</th>
              <th scope="col">x</th>
              <th scope="col">y</th>
              <th scope="col">z</th>
              <th scope="col">
                <span className="spoken">Remove</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {points.map(([id, clip], index) => (
              <tr key={id}>
                <td>{index + 1}</td>
                {AXES.map((axis, place) => (
                  <td key={axis}>
                    <LengthField
                      label={`${axis} of clip point ${index + 1}`}
                      value={clip.at[place as 0 | 1 | 2]}
                      commit={(value) =>
                        edit(
                          `Clip point of ${mark}`,
                          inArrangement((own) => {
                            const point = own[id];
                            if (point) point.at[place as 0 | 1 | 2] = value;
                          }),
                        )
                      }
                    />
                  </td>
                ))}
                <td>
                  <RemoveButton
                    label={`Remove clip point ${index + 1}`}
                    remove={() =>
                      edit(
                        `Clip point of ${mark}`,
                        inArrangement((own) => delete own[id]),
                      )
                    }
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          disabled={middle === null}
          onClick={() =>
            middle &&
            edit(
              `Clip point on ${mark}`,
              inArrangement((own) => {
                const last = Math.max(0, ...Object.values(own).map((clip) => clip.order));
                own[freeId(own, 'clip')] = { at: middle, order: last + 1 };
              }),
            )
          }
        >
          Add a clip point
        </button>
      </div>
    </Panel>
  );
}

/** The end of the piece nearest to half the length: a point that surely lies on the run. */
function middleOf(run: RunReport | null): [number, number, number] | null {
  const prims = run?.status === 'routed' ? run.prims : [];
  const piece = prims[Math.floor(prims.length / 2)];
  return piece ? [piece.from[0], piece.from[1], piece.from[2]] : null;
}
