import type { Boat, Fixture } from '@core/boat/schema/boat';
import { DISCHARGES } from '@core/boat/schema/sea-opening';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { LengthField } from '../fields/LengthField';
import { QuantityField } from '../fields/QuantityField';
import { Choice, Labelled } from '../inspector/parts';

type SeaOpening = NonNullable<Fixture['opensToSea']>;
type ValveKind = NonNullable<Fixture['valve']>['kind'];

const UNKNOWN = 'unknown';
const MATERIALS: readonly (readonly [string, string])[] = [
  [UNKNOWN, 'Not known'],
  ['bronze', 'Bronze'],
  ['dzrBrass', 'DZR brass'],
  ['brass', 'Plain brass'],
  ['plastic', 'Reinforced plastic'],
  ['stainless', 'Stainless steel'],
  ['other', 'Something else'],
];
const USES: readonly (readonly [SeaOpening['use'], string])[] = [
  ['intake', 'Water comes in'],
  ['outlet', 'Water goes out'],
  ['spare', 'Spare'],
];
const DISCHARGE_WORDS: Readonly<Record<(typeof DISCHARGES)[number], string>> = {
  head: 'The head',
  sink: 'A sink',
  exhaust: 'Engine exhaust',
  cooling: 'Cooling water',
  bilge: 'Bilge water',
  brine: 'Brine',
  deck: 'Deck water',
};
const OUT: readonly (readonly [string, string])[] = [
  [UNKNOWN, 'As its lines tell'],
  ['nothing', 'Nothing'],
  ...DISCHARGES.map((what) => [what, DISCHARGE_WORDS[what]] as const),
];
const VALVES: readonly (readonly [ValveKind | 'none', string])[] = [
  ['none', 'None of its own'],
  ['ball', 'Ball valve'],
  ['gate', 'Gate valve'],
  ['plug', 'Plug cock'],
  ['threeWay', 'Three-way valve'],
  ['check', 'Check valve'],
  ['other', 'Another'],
];
const FIRST_YEAR = 1900;
const LAST_YEAR = 2200;

/** What the ranking asks about one through-hull, to be entered where it is asked. */
export function HoleFacts({ boat, id }: { readonly boat: Boat; readonly id: string }): JSX.Element | null {
  const edit = useApp((state) => state.edit);
  const fixture = boat.fixtures[id];
  const opening = fixture?.opensToSea;
  if (!fixture || !opening) return null;
  const set = (label: string, change: (opening: SeaOpening) => void): boolean =>
    edit(`${label} of ${fixture.name}`, (draft) => {
      const own = draft.fixtures[id]?.opensToSea;
      if (own) change(own as SeaOpening);
    });
  const valve: ValveKind | 'none' = fixture.valve?.kind ?? (fixture.kind === 'seacock' ? 'ball' : 'none');
  const out = opening.discharges === undefined ? UNKNOWN : (opening.discharges[0] ?? 'nothing');
  return (
    <div className="hole-facts">
      <Labelled label="Bore">
        <LengthField
          label={`Bore of ${fixture.name}`}
          value={opening.boreM}
          commit={(boreM) => boreM > 0 && set('Bore', (own) => Object.assign(own, { boreM }))}
        />
      </Labelled>
      <Labelled label="Use">
        <Choice
          label={`Use of ${fixture.name}`}
          value={opening.use}
          options={USES}
          choose={(use) => set('Use', (own) => Object.assign(own, { use }))}
        />
      </Labelled>
      <Labelled label="Comes out">
        <Choice
          label={`What comes out of ${fixture.name}`}
          value={out}
          options={OUT}
          choose={(what) =>
            set('What comes out', (own) =>
              replace(own, 'discharges', what === UNKNOWN ? undefined : DISCHARGES.filter((one) => one === what)),
            )
          }
        />
      </Labelled>
      <Labelled label="Material">
        <Choice
          label={`Material of ${fixture.name}`}
          value={opening.material ?? UNKNOWN}
          options={MATERIALS}
          choose={(what) => set('Material', (own) => replace(own, 'material', what === UNKNOWN ? undefined : what))}
        />
      </Labelled>
      <Labelled label="Valve">
        <Choice
          label={`Valve of ${fixture.name}`}
          value={valve}
          options={VALVES}
          choose={(kind) =>
            edit(`Valve of ${fixture.name}`, (draft) => {
              const own = draft.fixtures[id];
              if (!own) return;
              if (kind === 'none') {
                delete own.valve;
                if (own.kind === 'seacock') own.kind = 'skinFitting';
              } else own.valve = { states: ['open', 'shut'], ...own.valve, kind };
            })
          }
        />
      </Labelled>
      <Labelled label="Fitted in">
        <QuantityField
          label={`Year in which ${fixture.name} was fitted`}
          value={opening.fittedYear ?? null}
          unit=""
          show={String}
          read={readYear}
          commit={(fittedYear) => set('Year', (own) => Object.assign(own, { fittedYear }))}
          clear={() => set('Year', (own) => replace(own, 'fittedYear', undefined))}
          placeholder="year, not known"
        />
      </Labelled>
    </div>
  );
}

function replace(own: SeaOpening, key: 'material' | 'discharges' | 'fittedYear', value: unknown): void {
  if (value === undefined) Reflect.deleteProperty(own, key);
  else Reflect.set(own, key, value);
}

function readYear(
  typed: string,
): { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string } {
  const year = Number(typed.trim());
  return Number.isInteger(year) && year >= FIRST_YEAR && year <= LAST_YEAR
    ? { ok: true, value: year }
    : { ok: false, message: `Expected a year from ${FIRST_YEAR} to ${LAST_YEAR}` };
}
