import type { Boat } from '@core/boat/schema/boat';
import { waterDensityOf } from '@core/boat/sea-water';
import { type JSX, useState } from 'react';
import { type ChartLine, LineChart, valueAt } from '../../../charts/LineChart';
import { useSections } from '../../../sections/store';
import { useApp } from '../../../store/app';
import { floatOf } from '../../../store/floating';
import { type DraughtTable, useDraughtTable } from '../../../store/hydrostatics';
import { figure, lengthUnit, massText, wholeLength } from '../../format';
import { Facts, Panel } from '../../inspector/parts';

/** The hull as a body in the water: what it displaces as it floats. While a point is held these are the figures from before. */
export function Hydrostatics({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const isHeld = useSections((state) => state.held !== null);
  const float = floatOf(boat, attitude);
  const value = (text: string): JSX.Element => <span className={isHeld ? 'stale' : undefined}>{text}</span>;
  return (
    <Panel
      title="Hydrostatics"
      aside={
        isHeld ? <span className="stale">until you let go</span> : `water ${figure(waterDensityOf(boat))} kg/m\u00b3`
      }
    >
      {float === null ? (
        <p className="quiet">Draw at least two stations.</p>
      ) : (
        <Facts
          rows={[
            ['Displacement, from the lines', value(massText(float.displacementKg))],
            ['Waterplane', value(`${figure(float.waterplaneM2, 2)} m\u00b2`)],
            ['Centre of buoyancy from aft', value(`${figure(float.centre[0], 2)} m`)],
            ['Centre of buoyancy, z', value(`${wholeLength(float.centre[2], units)} ${lengthUnit(units)}`)],
            ['Draught', value(`${figure(float.draughtM, 2)} m`)],
            ['Sinks per cm', value(`${figure(float.kgPerCm)} kg`)],
          ]}
        />
      )}
    </Panel>
  );
}

/** The same by draught, from keel to sheer. A hull under the hand redraws the figures above at once and these when it rests. */
export function HydrostaticCurves({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const isHeld = useSections((state) => state.held !== null);
  const { table, isStale } = useDraughtTable(boat);
  if (table === null || table.curve.length < 2) return null;
  return (
    <Panel
      title="By draught"
      level={3}
      aside={
        isHeld ? (
          <span className="stale">until you let go</span>
        ) : isStale ? (
          <span className="stale">being worked out</span>
        ) : (
          'upright, in this trim'
        )
      }
    >
      <Curves table={table} />
    </Panel>
  );
}

type Row = DraughtTable['rows'][number];
const of =
  (pick: (row: Row) => number) =>
  (rows: readonly Row[]): ChartLine['points'] =>
    rows.map((row) => [row.draughtM, pick(row)] as const);

const CHARTS: readonly {
  readonly title: string;
  readonly decimals: number;
  readonly lines: readonly (readonly [string, (rows: readonly Row[]) => ChartLine['points']])[];
}[] = [
  { title: 'Displacement, t', decimals: 1, lines: [['Displacement', of((row) => row.displacementKg / 1000)]] },
  {
    title: 'Centres from aft, m',
    decimals: 2,
    lines: [
      ['LCB', of((row) => row.lcbM)],
      ['LCF', of((row) => row.lcfM)],
    ],
  },
  {
    title: 'KB above the keel and BM, m',
    decimals: 2,
    lines: [
      ['KB', of((row) => row.kbM)],
      ['BM', of((row) => row.bmM)],
    ],
  },
  {
    title: 'Areas, m\u00b2',
    decimals: 1,
    lines: [
      ['Plane', of((row) => row.waterplaneAreaM2)],
      ['Wetted', of((row) => row.wettedSurfaceM2)],
    ],
  },
  { title: 'Sinks, kg per cm', decimals: 0, lines: [['Sinks', of((row) => row.immersionKgPerCm)]] },
  { title: 'Moment to trim, N m per cm', decimals: 0, lines: [['Moment', of((row) => row.momentToTrimNmPerCm)]] },
];

/** Curves over one axis of draught. The cursor stands at the present draught until it is moved. */
function Curves({ table }: { readonly table: DraughtTable }): JSX.Element {
  const [asked, setAsked] = useState<number | null>(null);
  const first = table.curve[0]?.draughtM ?? 0;
  const last = table.curve[table.curve.length - 1]?.draughtM ?? 1;
  const present = Math.min(Math.max(table.referenceM, first), last);
  const cursor = asked === null ? present : Math.min(Math.max(asked, first), last);
  const isPresent = asked === null;
  return (
    <>
      <div className="labelled above">
        <span className="label">
          {isPresent ? `Present draught ${figure(cursor, 2)} m` : `Draught ${figure(cursor, 2)} m`}
        </span>
        <input
          type="range"
          className="slider-input"
          aria-label="Draught that the curves are read at, metres"
          aria-valuetext={`${figure(cursor, 2)} m${isPresent ? ', the present draught' : ''}`}
          min={first}
          max={last}
          step={0.01}
          value={cursor}
          onChange={(event) => setAsked(Number(event.target.value))}
        />
      </div>
      {isPresent ? null : (
        <div className="actions">
          <button type="button" className="button plain" onClick={() => setAsked(null)}>
            Back to the present draught
          </button>
        </div>
      )}
      {CHARTS.map(({ title, decimals, lines }, i) => (
        <LineChart
          key={title}
          title={title}
          domain={[0, last]}
          cursor={cursor}
          figure={(value) => figure(value, decimals)}
          lines={lines.map(([label, points], k) => ({ label, points: points(table.curve), dashed: k > 0 }))}
          {...(i === CHARTS.length - 1
            ? { axis: { words: 'draught, m', figure: (value: number) => figure(value, 1) } }
            : {})}
        />
      ))}
      <p className="sub">
        {`At ${figure(cursor, 2)} m: ${massText(valueAt(of((row) => row.displacementKg)(table.curve), cursor) ?? 0)}. The table is in the drawer.`}
      </p>
    </>
  );
}
