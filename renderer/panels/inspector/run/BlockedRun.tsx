import type { Boat } from '@core/boat/schema/boat';
import type { RunReport } from '@core/engine/report';
import { obstacleName } from '@core/output/text/names';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { layoutOf } from '../../../store/derived';
import { compartmentName } from '../../../store/select';
import { figure, lengthUnit, runFigure, runUnit, wholeLength } from '../../format';
import { blockWords, proofWords } from '../../run-words';
import { Facts, Link, Panel } from '../parts';

/** Why there is no run: the place, the thing, the millimetres, and how sure that is. */
export function BlockedRun({
  boat,
  id,
  run,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly run: RunReport;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const arrangementId = useApp((state) => state.arrangementId);
  const stale = useApp((state) => state.stale);
  const goTo = useApp((state) => state.goTo);
  const { reason } = run;
  const at = reason?.at ?? null;
  const aside = stale ? (
    <span className="stale">being worked out</span>
  ) : run.proved ? (
    'proved impossible'
  ) : (
    'not found'
  );
  // A place within a panel is in no compartment: the panel is named as what is in the way.
  const inside = at ? layoutOf(boat, arrangementId).compartmentAt(at) : null;
  const where = inside === null ? null : compartmentName(boat, inside);
  const isSearching = useApp((state) => state.searching) && !run.proved && run.effort === 'fast';
  return (
    <Panel title="Run" level={3} aside={aside}>
      <p>{blockWords(run, (blocker) => obstacleName(boat, blocker), units)}</p>
      <Facts
        rows={[
          where === null
            ? null
            : [
                'Where',
                <span key="where" className="place">
                  <Link go={() => goTo({ kind: 'line', id }, at)}>{where}</Link>
                </span>,
              ],
          reason?.blocker ? ['In the way', obstacleName(boat, reason.blocker)] : null,
          typeof reason?.shortByM === 'number'
            ? ['Missing', `${wholeLength(reason.shortByM, units)} ${lengthUnit(units)}`]
            : null,
          run.lowerBoundM > 0
            ? ['No run is shorter than', `${runFigure(run.lowerBoundM, units)} ${runUnit(units)}`]
            : null,
          run.proved ? null : ['Ways tried', figure(reason?.tries ?? 0)],
        ]}
      />
      {run.proved ? (
        run.proof === undefined ? null : (
          <p className="quiet">{proofWords(run.proof)}</p>
        )
      ) : (
        <p className="quiet" aria-live="polite">
          {isSearching ? 'A longer search goes on.' : 'A longer search found none either; a way may still exist.'}
        </p>
      )}
      {at ? (
        <div className="actions">
          <button type="button" className="button plain" onClick={() => goTo({ kind: 'line', id }, at)}>
            Show where
          </button>
        </div>
      ) : null}
    </Panel>
  );
}
