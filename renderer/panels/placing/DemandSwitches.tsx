import { freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { LengthField } from '../fields/LengthField';
import { Tick } from '../fields/Tick';
import { Choice } from '../inspector/parts';

type Demand = NonNullable<Boat['demands']>[string];

/** What the owner may insist on, in the order of the switches. */
const SWITCHES = [
  ['noDismantling', 'Serviceable without dismantling'],
  ['notInBerthCompartment', 'Not where somebody sleeps'],
  ['seenFrom', 'Seen from'],
  ['keepWithin', 'Within'],
  ['noNewHoleBelowWaterline', 'No new hole below the waterline'],
  ['noHaulOut', 'Without hauling out'],
] as const satisfies readonly (readonly [Demand['kind'], string])[];

/** Demands as switches: kept in the boat file, undone like any edit. A demand for all parts holds here, too. */
export function DemandSwitches({
  boat,
  parts,
}: {
  readonly boat: Boat;
  readonly parts: readonly string[];
}): JSX.Element {
  const standing = Object.entries(boat.standingPlaces);
  return (
    <fieldset className="demands">
      <legend className="spoken">Demands</legend>
      {SWITCHES.map(([kind, words]) =>
        kind === 'seenFrom' || kind === 'keepWithin' ? (
          standing.length === 0 ? null : (
            <FromPlace key={kind} boat={boat} parts={parts} kind={kind} words={words} />
          )
        ) : (
          <Switch key={kind} boat={boat} parts={parts} kind={kind} words={words} />
        ),
      )}
    </fieldset>
  );
}

/** Demands of a kind that hold for the parts: theirs, and those for everything. */
const holding = (boat: Boat, parts: readonly string[], kind: Demand['kind']): readonly (readonly [string, Demand])[] =>
  Object.entries(boat.demands ?? {}).filter(
    ([, demand]) => demand.kind === kind && (demand.subject === undefined || parts.includes(demand.subject)),
  );

function turned(words: string, boat: Boat, parts: readonly string[], on: Demand | null, kind: Demand['kind']): void {
  useApp.getState().edit(`Demand: ${words.toLowerCase()}`, (draft) => {
    draft.demands ??= {};
    for (const [id] of holding(boat, parts, kind)) delete draft.demands[id];
    if (on) draft.demands[freeId(draft.demands, kind)] = on;
  });
}

function Switch({
  boat,
  parts,
  kind,
  words,
}: {
  readonly boat: Boat;
  readonly parts: readonly string[];
  readonly kind: Demand['kind'];
  readonly words: string;
}): JSX.Element {
  const now = holding(boat, parts, kind);
  const isForAll = now.some(([, { subject }]) => subject === undefined);
  return (
    <div className="demand">
      <Tick
        label={words}
        checked={now.length > 0}
        turn={(on) => turned(words, boat, parts, on ? { kind, ...ofFirst(parts) } : null, kind)}
      />
      {isForAll ? <span className="quiet">for all parts</span> : null}
    </div>
  );
}

const ofFirst = ([first]: readonly string[]): Pick<Demand, 'subject'> =>
  first === undefined ? {} : { subject: first };

/** Begins so near, metres. */
const NEAR_M = 2;

/** A demand that speaks of a place to stand: which one stands beside the switch; of a distance, how far from it at most. */
function FromPlace({
  boat,
  parts,
  kind,
  words,
}: {
  readonly boat: Boat;
  readonly parts: readonly string[];
  readonly kind: 'seenFrom' | 'keepWithin';
  readonly words: string;
}): JSX.Element {
  const places = Object.entries(boat.standingPlaces);
  const own = holding(boat, parts, kind)[0]?.[1] ?? null;
  const isWithin = kind === 'keepWithin';
  const now: Demand = own ?? {
    kind,
    place: places[0]?.[0],
    ...(isWithin ? { distanceM: NEAR_M } : {}),
    ...ofFirst(parts),
  };
  const set = (demand: Demand | null): void => turned(words, boat, parts, demand, kind);
  return (
    <div className="demand">
      <Tick label={words} checked={own !== null} turn={(on) => set(on ? now : null)} />
      {isWithin ? (
        <>
          <LengthField
            label="Distance at most"
            value={now.distanceM ?? null}
            commit={(distanceM) => set({ ...now, distanceM })}
          />
          <span>of</span>
        </>
      ) : null}
      <Choice
        label={isWithin ? 'Place that it is kept within reach of' : 'Place that it is seen from'}
        value={now.place ?? ''}
        options={places.map(([id, { name }]) => [id, name] as const)}
        choose={(place) => set({ ...now, place })}
      />
    </div>
  );
}
