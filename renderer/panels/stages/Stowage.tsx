import { recordAdded } from '@core/boat/record/edits';
import { schemaAt } from '@core/boat/record/fields';
import { freeRecordId, starterAt } from '@core/boat/record/starters';
import { type Boat, boatSchema } from '@core/boat/schema/boat';
import type { BoxPlace } from '@core/engine/placement/stowage';
import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { compartmentName, nameOfId } from '../../store/select';
import { useStowage } from '../../store/stowage';
import { lengthUnit, massText, sizesText } from '../format';
import { Link, Panel } from '../inspector/parts';
import { AllData } from '../record/AllData';
import { StudyFault } from '../StudyFault';

const PATH = ['stowageBoxes'] as const;

/** Spares and consumables that must still be stowed: of each box the compartment that takes it, nearest to where it should be. */
export function Stowage({ boat }: { readonly boat: Boat }): JSX.Element {
  const edit = useApp((state) => state.edit);
  const boxes = Object.entries(boat.stowageBoxes ?? {});
  const hasBoxes = boxes.length > 0;
  const study = useStowage(hasBoxes ? boat : null);
  const add = (): void => {
    const id = freeRecordId(boat.stowageBoxes ?? {}, PATH);
    const at = [...PATH, id];
    const schema = schemaAt(boatSchema, { ...boat, stowageBoxes: { [id]: {} } }, at);
    if (schema) edit('Add a box to stow', recordAdded(PATH, id, starterAt(boat, at, schema)));
  };
  return (
    <>
      <Panel title="To stow">
        <p className="sub">
          {hasBoxes
            ? 'Where boxes of spares and consumables still find room, clear of all that stands and runs there.'
            : 'Enter boxes of spares and consumables: a compartment is looked for that still takes them.'}
        </p>
        <StudyFault study={study} />
        {hasBoxes ? (
          <ul className={study.isStale ? 'stow old' : 'stow'}>
            {boxes.map(([id, box]) => (
              <Box key={id} boat={boat} box={box} place={study.gives?.boxes[id]} />
            ))}
          </ul>
        ) : null}
        <div className="actions">
          <button type="button" className="button plain" onClick={add}>
            Add a box to stow
          </button>
        </div>
      </Panel>
      {hasBoxes ? <AllData title="Boxes to stow, all data" boat={boat} path={PATH} of="the boxes to stow" /> : null}
    </>
  );
}

type StowageBox = NonNullable<Boat['stowageBoxes']>[string];

function Box({
  boat,
  box,
  place,
}: {
  readonly boat: Boat;
  readonly box: StowageBox;
  /** Undefined: not known yet. */
  readonly place: BoxPlace | null | undefined;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const goTo = useApp((state) => state.goTo);
  const near = box.near === undefined ? null : nearWords(boat, box.near);
  return (
    <li>
      <span>
        <b>{box.name}</b>
        {`, ${sizesText(box.sizeM, units)} ${lengthUnit(units)}${box.massKg > 0 ? `, ${massText(box.massKg)}` : ''}`}
      </span>
      <span className="stow-place">
        {place === undefined ? (
          'being looked for'
        ) : place === null ? (
          'no compartment takes it'
        ) : (
          <Link go={() => goTo({ kind: 'compartment', id: place.compartment }, place.pose.at)}>
            <span className="place">{compartmentName(boat, place.compartment)}</span>
          </Link>
        )}
        {near === null || !place ? '' : place.isNear ? `, near ${near}` : `: no room nearer to ${near}`}
      </span>
    </li>
  );
}

const nearWords = (boat: Boat, id: string): string =>
  boat.compartments[id] ? compartmentName(boat, id) : nameOfId(boat, id);
