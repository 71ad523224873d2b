import type { Boat } from '@core/boat/schema/boat';
import type { ServiceReport } from '@core/engine/service/service-report';
import { nameOf } from '@core/output/text/names';
import type { JSX } from 'react';
import { markOf, thingOf } from '../../store/select';
import { useService } from '../../store/service';
import { figure } from '../format';
import { Link } from '../inspector/parts';
import { YearAssumptions } from './Assumptions';
import { inspect } from './leading';

/** Drawn in these units; the style sheet says how wide it is on screen. */
const WIDTH = 300;
const HEIGHT = 10;

/** What service costs in a year, thing by thing: getting there hatched, the work plain. */
export function MinutesAYear({ boat, report }: { readonly boat: Boat; readonly report: ServiceReport }): JSX.Element {
  const isStale = useService((state) => state.isStale);
  const things = report.burden.byThing.filter(({ aYear }) => aYear > 0).sort((a, b) => b.aYear - a.aYear);
  const most = Math.max(1, ...things.map(({ aYear }) => aYear));
  return (
    <div className={isStale ? 'minutes-a-year stale-rows' : 'minutes-a-year'}>
      {things.length === 0 ? (
        <p className="quiet">
          No task has an interval yet. Enter how often it is done, in running hours or days, with the task.
        </p>
      ) : (
        <table aria-label="Minutes a year, by thing">
          <thead>
            <tr>
              <th scope="col">Thing</th>
              <th scope="col">
                <span className="hatch-key" aria-hidden="true" /> getting there,{' '}
                <span className="work-key" aria-hidden="true" /> work
              </th>
              <th scope="col" className="number">
                Getting there
              </th>
              <th scope="col" className="number">
                Work
              </th>
              <th scope="col" className="number">
                Min a year
              </th>
            </tr>
          </thead>
          <tbody>
            {things.map(({ thing, aYear, accessAYear }) => (
              <tr key={thing}>
                <th scope="row" title={nameOf(boat, thing)}>
                  <Link go={() => inspect({ kind: 'thing', id: thing })}>{markOf(thing, thingOf(boat, thing))}</Link>
                </th>
                <td>
                  <Bar access={accessAYear / most} whole={aYear / most} />
                </td>
                <td className="number">{figure(accessAYear)}</td>
                <td className="number">{figure(aYear - accessAYear)}</td>
                <td className="number">
                  <b>{figure(aYear)}</b>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <YearAssumptions boat={boat} />
    </div>
  );
}

function Bar({ access, whole }: { readonly access: number; readonly whole: number }): JSX.Element {
  const to = Math.max(1, whole * WIDTH);
  const there = Math.min(to, access * WIDTH);
  return (
    <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" height={HEIGHT} aria-hidden="true">
      <defs>
        <pattern id="minutes-hatch" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0v4" stroke="var(--ink2)" strokeWidth="1.4" />
        </pattern>
      </defs>
      <rect x="0" y="1" width={there} height={HEIGHT - 2} fill="url(#minutes-hatch)" />
      <rect
        x="0.5"
        y="1"
        width={Math.max(0.5, to - 1)}
        height={HEIGHT - 2}
        fill="none"
        stroke="var(--ink2)"
        vectorEffect="non-scaling-stroke"
      />
    </svg>
  );
}
