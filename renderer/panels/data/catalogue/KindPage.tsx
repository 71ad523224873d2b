import { endFittingsFor } from '@core/boat/catalogue/end-fittings';
import { recordAdded } from '@core/boat/record/edits';
import { lineKind } from '@core/boat/schema/lines';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { degreesText, lengthFigure, lengthUnit } from '../../format';
import { Facts } from '../../inspector/parts';
import { RecordEditor } from '../../record/RecordEditor';
import { sentence } from '../../words';
import { factsOf } from '../values';
import type { KindEntry } from './entries';

const TOLD = new Set(['name', 'source', 'what', 'end']);

/** One hose, tube or cable with the ends that go on it; kept with the boat its values can be edited. */
export function KindPage({
  entry: { id, kind },
  close,
}: {
  readonly entry: KindEntry;
  close(): void;
}): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const edit = useApp((state) => state.edit);
  const setStage = useApp((state) => state.setStage);
  const select = useApp((state) => state.select);
  const units = useApp((state) => state.displayUnits);
  if (!boat) return null;
  const own = boat.lineKinds[id];
  const lines = Object.entries(boat.lines).filter(([, line]) => line.kind === id);
  return (
    <>
      <h3>{own?.name ?? kind.name}</h3>
      {own ? (
        <>
          <p className="quiet">Kept with this boat: these values count before the typical ones.</p>
          <RecordEditor boat={boat} path={['lineKinds', id]} schema={lineKind} value={own} of={own.name} />
          <div className="actions">
            <button
              type="button"
              className="button plain"
              onClick={() =>
                edit(`Typical ${kind.name} again`, (draft) => {
                  delete draft.lineKinds[id];
                })
              }
            >
              Typical values again
            </button>
          </div>
        </>
      ) : (
        <>
          <p className="quiet">{`Typical. ${sentence(kind.source ?? 'common practice')}.`}</p>
          <Facts rows={factsOf(lineKind, kind, units, TOLD)} />
          <div className="actions">
            <button
              type="button"
              className="button"
              onClick={() => edit(`Keep ${kind.name} with the boat`, recordAdded(['lineKinds'], id, kind))}
            >
              Keep with this boat to edit it
            </button>
          </div>
        </>
      )}
      <h3>End fittings</h3>
      <p className="quiet">Typical sizes. Each end of a line takes one of them in its inspector.</p>
      <table className="mini-table">
        <thead>
          <tr>
            <th scope="col">Fitting</th>
            <th scope="col">{`Wide ${lengthUnit(units)}`}</th>
            <th scope="col">{`Rigid ${lengthUnit(units)}`}</th>
            <th scope="col">Angle</th>
          </tr>
        </thead>
        <tbody>
          {endFittingsFor(own ?? kind).map(({ id: fitting, name, end }) => (
            <tr key={fitting}>
              <td>{sentence(name)}</td>
              <td>{end.diameterM === undefined ? '' : lengthFigure(end.diameterM, units)}</td>
              <td>{end.rigidM === undefined ? '' : lengthFigure(end.rigidM, units)}</td>
              <td>{degreesText(end.angleDeg)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <h3>Lines of this kind</h3>
      {lines.length === 0 ? <p className="quiet">None yet. A line is drawn from a port to a port.</p> : null}
      <ul className="port-list">
        {lines.map(([line, { name, tag }]) => (
          <li key={line}>
            <button
              type="button"
              className="link"
              onClick={() => {
                setStage('runs');
                select({ kind: 'line', id: line });
                close();
              }}
            >
              {[tag, name].filter(Boolean).join(' ')}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
