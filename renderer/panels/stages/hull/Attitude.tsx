import type { Boat } from '@core/boat/schema/boat';
import type { Attitude as HullAttitude } from '@core/shape/hull/types';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { degreesText, lengthUnit, wholeLength } from '../../format';
import { Facts, Panel } from '../../inspector/parts';
import { MarkedPoints } from './MarkedPoints';

const SOURCE_WORDS: Readonly<Record<HullAttitude['source'], string>> = {
  frame: 'nothing: as drawn',
  weights: 'the weights: computed, not measured',
  freeboards: 'measured freeboards',
  levelMarks: 'level marks',
};

const SOURCE_ADVICE: Readonly<Record<HullAttitude['source'], string | null>> = {
  frame: 'Measure three freeboards, or enter the displacement: until then the water is where the lines have it.',
  weights: 'Stores sink a boat by a hand\u2019s breadth. Three freeboards tell how it really floats.',
  freeboards: null,
  levelMarks: null,
};

/** How the boat floats in cruising trim: what was measured of it, or what its weights make of it. */
export function Attitude({ boat }: { readonly boat: Boat }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const attitude = useApp((state) => state.report?.attitude ?? null);
  const isMeasured = attitude?.source === 'freeboards' || attitude?.source === 'levelMarks';
  return (
    <Panel title="Floating" level={3} aside={attitude?.source === 'weights' ? 'computed' : undefined}>
      {attitude === null ? null : (
        <>
          <Facts
            rows={[
              ['Taken from', SOURCE_WORDS[attitude.source]],
              [
                attitude.sinkageM < 0 ? 'Higher than drawn' : 'Deeper than drawn',
                `${wholeLength(Math.abs(attitude.sinkageM), units)} ${lengthUnit(units)}`,
              ],
              [
                attitude.trimDeg < 0 ? 'Trim, stern down' : 'Trim, bow down',
                degreesText(Math.abs(attitude.trimDeg), 2),
              ],
              [attitude.listDeg < 0 ? 'List to port' : 'List to starboard', degreesText(Math.abs(attitude.listDeg), 2)],
              ['Good to', `\u00b1${wholeLength(attitude.gradeM, units)} ${lengthUnit(units)}`],
              isMeasured
                ? ['Greatest residual', `${wholeLength(attitude.residualM, units)} ${lengthUnit(units)}`]
                : null,
            ]}
          />
          {SOURCE_ADVICE[attitude.source] === null ? null : <p className="sub">{SOURCE_ADVICE[attitude.source]}</p>}
        </>
      )}
      <MarkedPoints boat={boat} kind="freeboards" />
      <MarkedPoints boat={boat} kind="levelMarks" />
    </Panel>
  );
}
