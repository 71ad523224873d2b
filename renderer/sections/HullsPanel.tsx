import type { Boat, Hull } from '@core/boat/schema/boat';
import { hullsOverlap } from '@core/boat/station-edits';
import type { JSX } from 'react';
import { LengthField } from '../panels/fields/LengthField';
import { lengthUnit, wholeLength } from '../panels/format';
import { Labelled, Panel, Segmented } from '../panels/inspector/parts';
import { useApp } from '../store/app';

/** Centre of a hull off the centreline, in breadths of one hull: what a cruising catamaran has. Common practice; no source. */
const OFF_BREADTHS = 1.6;

/** One hull on the centreline, or one off it that is there twice. */
export function HullsPanel({ boat }: { readonly boat: Boat }): JSX.Element | null {
  const units = useApp((state) => state.displayUnits);
  const { hull } = boat;
  if (!hull) return null;
  const set = (offsetM: number): boolean =>
    useApp.getState().edit('Place of the hull', (draft) => {
      if (draft.hull) draft.hull.offsetM = offsetM;
    });
  const overlap = hullsOverlap(hull);
  const length = (metres: number): string => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const count = hull.offsetM === 0 ? 'one' : 'two';
  return (
    <Panel title="Hulls" level={3} aside={count === 'one' ? 'on the centreline' : 'mirrored'}>
      <Labelled label="The boat has">
        <Segmented<'one' | 'two'>
          label="Number of hulls"
          value={count}
          options={[
            ['one', 'One hull'],
            ['two', 'Two hulls'],
          ]}
          choose={(next) => next !== count && set(next === 'one' ? 0 : usualOffset(hull))}
        />
      </Labelled>
      {count === 'one' ? null : (
        <Labelled label="Off the centreline">
          <LengthField
            label="Centre of a hull off the centreline"
            value={hull.offsetM}
            commit={(value) => set(Math.abs(value))}
          />
        </Labelled>
      )}
      {overlap === null ? null : (
        <p className="warning" role="status">
          {`The two hulls overlap: ${length(overlap.offsetM)} off the centreline is less than the greatest half-breadth, ${length(overlap.halfBreadthM)}. What they share is counted twice.`}
        </p>
      )}
    </Panel>
  );
}

const usualOffset = ({ stations }: Hull): number => {
  const breadth = Math.max(...Object.values(stations).flatMap(({ points }) => points.map(([y]) => y)));
  return Math.round(breadth * 2 * OFF_BREADTHS * 100) / 100;
};
