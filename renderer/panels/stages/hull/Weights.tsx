import type { Boat } from '@core/boat/schema/boat';
import { SEA_WATER_KG_M3, waterDensityOf } from '@core/boat/sea-water';
import type { JSX } from 'react';
import { useApp } from '../../../store/app';
import { LengthField } from '../../fields/LengthField';
import { UnitField } from '../../fields/UnitField';
import { Choice, Labelled, Panel } from '../../inspector/parts';

type Weights = NonNullable<Boat['weights']>;
type Key = 'displacementKg' | 'lcgM' | 'kgM' | 'rollPeriodS';

const FRESH_KG_M3 = 1000;

/** Mass and stability as far as the owner knows them; what is left empty is not assumed. */
export function WeightsEntry({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const weights: Partial<Weights> = boat.weights ?? {};
  const density = waterDensityOf(boat);
  const set = (key: Key, value: number | null): boolean =>
    edit('Weights', (draft) => {
      draft.weights ??= { waterDensityKgM3: SEA_WATER_KG_M3 };
      if (value === null) delete draft.weights[key];
      else draft.weights[key] = value;
    });
  const field = (key: Key) => ({
    value: weights[key] ?? null,
    placeholder: 'not known',
    commit: (value: number) => void set(key, value),
    clear: () => void set(key, null),
  });
  return (
    <Panel title="Weights" level={3} aside="in cruising trim">
      <Labelled label="Displacement">
        <UnitField label="Displacement" quantity="mass" unit="kg" {...field('displacementKg')} />
      </Labelled>
      <Labelled label="Centre of gravity, x">
        <LengthField label="Centre of gravity, forward of the aftmost point" {...field('lcgM')} />
      </Labelled>
      <Labelled label="Centre of gravity, z">
        <LengthField label="Centre of gravity, height z" {...field('kgM')} />
      </Labelled>
      <Labelled label="Roll period, over and back">
        <UnitField label="Roll period" quantity="time" unit="s" decimals={1} {...field('rollPeriodS')} />
      </Labelled>
      <Labelled label="Water">
        <Choice
          label="Water that the boat floats in"
          value={density === FRESH_KG_M3 ? 'fresh' : density === SEA_WATER_KG_M3 ? 'salt' : 'other'}
          options={[
            ['salt', `Salt, ${SEA_WATER_KG_M3} kg/m\u00b3`],
            ['fresh', `Fresh, ${FRESH_KG_M3} kg/m\u00b3`],
            ...(density === SEA_WATER_KG_M3 || density === FRESH_KG_M3
              ? []
              : [['other', `As entered, ${density} kg/m\u00b3`] as const]),
          ]}
          choose={(water) => {
            if (water === 'other') return;
            edit('Water', (draft) => {
              const value = water === 'fresh' ? FRESH_KG_M3 : SEA_WATER_KG_M3;
              draft.weights = { ...draft.weights, waterDensityKgM3: value };
            });
          }}
        />
      </Labelled>
    </Panel>
  );
}
