import { arrangedIn } from '@core/boat/arranged';
import type { Boat } from '@core/boat/schema/boat';
import { type JSX, lazy, Suspense } from 'react';
import { useDialogs } from '../../app/dialogs';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { newCompartment } from '../../store/interior';
import { isPart, placeOf, thingsOf } from '../../store/select';
import { figure, runFigure, runUnit } from '../format';
import { Facts, Link, Panel } from '../inspector/parts';
import { Arrangements } from './Arrangements';
import { CompartmentForm } from './CompartmentForm';
import { InteriorFaults } from './InteriorFaults';

const Stowage = lazy(() => import('./Stowage').then((panel) => ({ default: panel.Stowage })));

/** What a stage says while nothing is selected. */

export function EquipmentOverview({ boat }: { readonly boat: Boat }): JSX.Element {
  return (
    <>
      <Placed boat={boat} />
      <Arrangements boat={boat} />
    </>
  );
}

function Placed({ boat }: { readonly boat: Boat }): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const select = useApp((state) => state.select);
  const here = arrangedIn(boat, arrangementId);
  const parts = thingsOf(boat).filter(({ id }) => isPart(boat, id) && here.hasPart(id));
  const waiting = parts.filter(({ id }) => placeOf(boat, arrangementId, id) === null);
  return (
    <Panel title="Equipment" aside={`${parts.length - waiting.length} of ${parts.length} placed`}>
      <p className="sub">Select a thing on the drawing or in the table. Drag moves it, arrow keys nudge it.</p>
      {waiting.length === 0 ? null : (
        <dl className="facts">
          {waiting.map(({ id, thing }) => (
            <div key={id}>
              <dt>
                <Link go={() => select({ kind: 'thing', id })}>{thing.name}</Link>
              </dt>
              <dd>not placed</dd>
            </div>
          ))}
        </dl>
      )}
      <div className="actions">
        <button type="button" className="button plain" onClick={() => useDialogs.getState().show('allData')}>
          All data of the boat
        </button>
      </div>
    </Panel>
  );
}

export function RunsOverview(): JSX.Element {
  const summary = useApp((state) => state.report?.summary ?? null);
  const units = useApp((state) => state.displayUnits);
  return (
    <Panel title="Runs">
      {summary === null ? (
        <p className="quiet">Being worked out.</p>
      ) : (
        <Facts
          rows={[
            ['Routed', figure(summary.routed)],
            ['Blocked', figure(summary.blocked)],
            ['Hose, tube and cable', `${runFigure(summary.hoseM, units)} ${runUnit(units)}`],
            ['Holes to drill', figure(summary.newHoles)],
          ]}
        />
      )}
    </Panel>
  );
}

/** The interior as a whole: how to draw it, the form for a new compartment, and what does not fit together. */
export function CompartmentsOverview({ boat }: { readonly boat: Boat }): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const layout = layoutOf(boat, arrangementId);
  const setTool = useApp((state) => state.setTool);
  return (
    <>
      <CompartmentForm boat={boat} />
      <Panel title="Compartments">
        <p className="sub">
          Draw the inside of each locker in any view; panels come by themselves where two meet. Drag a face to move it.
        </p>
        <Facts
          rows={[
            ['Compartments', figure(Object.keys(boat.compartments).length)],
            ['Panels between them', figure(Object.keys(layout.panels).length)],
            ['Openings', figure(Object.keys(boat.openings).length)],
            ['Mounting surfaces', figure(Object.keys(boat.mountingSurfaces).length)],
          ]}
        />
        <div className="actions">
          <button type="button" className="button" onClick={() => setTool('rectangle')}>
            Draw a compartment
          </button>
          <button type="button" className="button" onClick={newCompartment}>
            New one by numbers
          </button>
        </div>
      </Panel>
      <InteriorFaults boat={boat} />
      <Suspense fallback={null}>
        <Stowage boat={boat} />
      </Suspense>
    </>
  );
}
