import type { Boat } from '@core/boat/schema/boat';
import { draughtScale } from '@core/shape/hull/hydrostatic-table';
import { lowestSheer } from '@core/shape/hull/hydrostatics';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { hullOf } from '../../../store/derived';
import { heeledRow, LEVEL_WATER } from '../../../store/hydrostatics';
import { degreesText, figure, lengthUnit, massText, wholeLength } from '../../format';
import { Facts, Panel } from '../../inspector/parts';

const GREATEST_HEEL_DEG = 45;

/** Heel to either side with the displacement kept, on the drawing and in figures. */
export function Heel({ boat }: { readonly boat: Boat }): JSX.Element {
  const heel = useApp((state) => state.shownHeelDeg);
  const setShownHeel = useApp((state) => state.setShownHeel);
  return (
    <Panel
      title="Heel"
      level={3}
      aside={heel === 0 ? 'level, displacement kept' : `${degreesText(Math.abs(heel))} ${sideDown(heel)} down`}
    >
      <div>
        <input
          type="range"
          className="slider-input"
          aria-label="Heel on the drawing, degrees to starboard"
          aria-valuetext={heel === 0 ? 'level' : `${Math.abs(heel)} degrees, ${sideDown(heel)} side down`}
          min={-GREATEST_HEEL_DEG}
          max={GREATEST_HEEL_DEG}
          step={1}
          value={heel}
          onChange={(event) => setShownHeel(Number(event.target.value))}
        />
        <div className="slider-ends" aria-hidden="true">
          <span>{`port ${GREATEST_HEEL_DEG}\u00b0`}</span>
          <span>level</span>
          <span>{`starboard ${GREATEST_HEEL_DEG}\u00b0`}</span>
        </div>
      </div>
      <HeeledFacts boat={boat} heelDeg={heel} />
    </Panel>
  );
}

const sideDown = (heelDeg: number): string => (heelDeg > 0 ? 'starboard' : 'port');

function HeeledFacts({ boat, heelDeg }: { readonly boat: Boat; readonly heelDeg: number }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const surface = hullOf(boat);
  const reference = attitude ?? LEVEL_WATER;
  const row = heeledRow(boat, reference, heelDeg);
  if (!surface || !row || row.displacementKg === 0) return null;
  const water = draughtScale(surface, reference).waterAt(row.draughtM, heelDeg);
  const railM = lowestSheer(surface, water.up) - water.levelM;
  const moved = Math.abs(row.sinkageM) < 0.0005 ? 0 : row.sinkageM;
  return (
    <Facts
      rows={[
        ['Displacement', massText(row.displacementKg)],
        [
          moved < 0 ? 'Rises at the centreline' : 'Sinks at the centreline',
          `${wholeLength(Math.abs(moved), units)} ${lengthUnit(units)}`,
        ],
        [
          heelDeg === 0
            ? 'Lowest rail above water'
            : `${heelDeg > 0 ? 'Starboard' : 'Port'} rail ${railM < 0 ? 'under' : 'above'} water`,
          `${wholeLength(Math.abs(railM), units)} ${lengthUnit(units)}`,
        ],
        [
          'Centre of buoyancy, to the low side',
          lowSide(row.yBM, heelDeg, (m) => `${wholeLength(m, units)} ${lengthUnit(units)}`),
        ],
        ['Waterplane', `${figure(row.waterplaneAreaM2, 2)} m\u00b2`],
        ['Wetted surface', `${figure(row.wettedSurfaceM2, 2)} m\u00b2`],
      ]}
    />
  );
}

/** Port is +y; with starboard down the centre goes to starboard. */
const lowSide = (yM: number, heelDeg: number, words: (metres: number) => string): string =>
  heelDeg === 0 ? words(Math.abs(yM) < 0.0005 ? 0 : Math.abs(yM)) : words(heelDeg > 0 ? -yM : yM);
