import type { RunReport } from '@core/engine/report';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { runFigure, runUnit } from '../../format';
import { costRows } from '../../run-words';
import { Panel } from '../parts';

/** Less is not told, metres of hose. */
const LEAST_M = 0.005;

/** What was weighed against length, in metres of hose; nothing where the run pays for its length alone. */
export function RunCosts({ run }: { readonly run: RunReport }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const rows = costRows(run).filter(({ metres }) => metres >= LEAST_M);
  if (rows.length === 0 || run.costM === undefined) return null;
  const most = Math.max(...rows.map(({ metres }) => metres));
  return (
    <Panel title="What it pays for" level={3} aside={`${runUnit(units)} of hose`}>
      <dl className="costs">
        <div>
          <dt>Length</dt>
          <dd>{run.lengthM === null ? '\u2013' : runFigure(run.lengthM, units)}</dd>
        </div>
        {rows.map(({ key, words, metres }) => (
          <div key={key}>
            <dt>{words}</dt>
            <dd>
              <span className="cost-bar" aria-hidden="true">
                <span style={{ width: `${(metres / most) * 100}%` }} />
              </span>
              {runFigure(metres, units)}
            </dd>
          </div>
        ))}
        <div className="sum">
          <dt>Together</dt>
          <dd>{runFigure(run.costM, units)}</dd>
        </div>
      </dl>
      <p className="quiet">A longer way is taken only where it saves more than it costs.</p>
    </Panel>
  );
}
