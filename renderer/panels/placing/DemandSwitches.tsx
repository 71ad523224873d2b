import { freeId } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { Tick } from '../fields/Tick';
import { Choice } from '../inspector/parts';

type Demand = NonNullable<Boat['demands']>[string];

/** What the owner may insist on, in the order of the switches. */
const SWITCHES = [
  ['noDismantling', 'Serviceable without dismantling'],
  ['notInBerthCompartment', 'Not in a berth or under its cushion'],
  ['seenFrom', 'Seen from'],
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
        kind === 'seenFrom' ? (
          standing.length === 0 ? null : (
            <SeenFrom key={kind} boat={boat} parts={parts} words={words} />
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

/** Seen from a place: which one stands beside the switch. */
function SeenFrom({
  boat,
  parts,
  words,
}: {
  readonly boat: Boat;
  readonly parts: readonly string[];
  readonly words: string;
}): JSX.Element {
  const places = Object.entries(boat.standingPlaces);
  const now = holding(boat, parts, 'seenFrom');
  const place = now[0]?.[1].place ?? places[0]?.[0] ?? '';
  const set = (from: string): void => {
    const demand: Demand = { kind: 'seenFrom', place: from, ...ofFirst(parts) };
    turned(`seen from ${boat.standingPlaces[from]?.name ?? from}`, boat, parts, demand, 'seenFrom');
  };
  return (
    <div className="demand">
      <Tick
        label={words}
        checked={now.length > 0}
        turn={(on) => (on ? set(place) : turned('seen from anywhere', boat, parts, null, 'seenFrom'))}
      />
      <Choice
        label="Place that it is seen from"
        value={place}
        options={places.map(([id, { name }]) => [id, name] as const)}
        choose={set}
      />
    </div>
  );
}
