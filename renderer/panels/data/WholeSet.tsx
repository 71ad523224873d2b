import { SET_SIZES, type SetSize } from '@core/boat/catalogue/generic-set';
import type { Boat } from '@core/boat/schema/boat';
import {
  jointChoices,
  type PlacedSet,
  type SetJoint,
  type SetOrder,
  setAdded,
} from '@core/engine/first-boat/set-into-boat';
import { type JSX, useMemo, useState } from 'react';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { compartmentName, markOf, thingOf } from '../../store/select';
import { useStudy } from '../../store/study';
import { lengthUnit, sizesText } from '../format';
import { envelopeOf } from '../inspector/envelope';
import { Choice, Facts, Labelled } from '../inspector/parts';
import { StudyFault } from '../StudyFault';
import { sentence } from '../words';
import { DialogFrame, useRefusals } from './DialogFrame';

const JOINT_WORDS: Readonly<Record<SetJoint, readonly [label: string, none: string]>> = {
  intake: ['Sea water from', 'Nothing: the line from the sea is left out'],
  bank: ['Power from', 'Nothing: the cable from the bank is left out'],
  tank: ['Made water into', 'Nothing: the line to the tank is left out'],
  freshPump: ['Flushed by', 'Nothing: it is not flushed with fresh water'],
};
const JOINT_LIST = Object.keys(JOINT_WORDS) as SetJoint[];

const WHY: Readonly<Record<PlacedSet['unplaced'][string], string>> = {
  noHull: 'no hull is drawn to place it in',
  noCompartments: 'no compartment is drawn to place it in',
  noRoom: 'no locker has room for it with hands and hoses round it',
  noSide: "no place at the ship's side above the water that an arm reaches",
};

/** A generic set in one act: its size, what it is joined to, where its parts would go; then one step that undo takes back. */
export function WholeSet({ close }: { close(): void }): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const arrangementId = useApp((state) => state.arrangementId);
  if (!boat) return null;
  if (arrangementId === null)
    return (
      <DialogFrame title="Place a whole generic set" close={close}>
        <div className="data-sheet">
          <p>There is no arrangement to place it in. Add one first: All data of the boat, Arrangements.</p>
        </div>
      </DialogFrame>
    );
  return <Order boat={boat} arrangementId={arrangementId} close={close} />;
}

function Order({
  boat,
  arrangementId,
  close,
}: {
  readonly boat: Boat;
  readonly arrangementId: string;
  close(): void;
}): JSX.Element {
  const edit = useApp((state) => state.edit);
  const setStage = useApp((state) => state.setStage);
  const refusals = useRefusals();
  const [size, setSize] = useState<SetSize>(60);
  const [picked, setPicked] = useState<Partial<Record<SetJoint, string | null>>>({});
  const choices = useMemo(
    () => Object.fromEntries(JOINT_LIST.map((joint) => [joint, jointChoices(boat, arrangementId, joint)])),
    [boat, arrangementId],
  );
  const order = useMemo((): SetOrder => {
    const joint = (one: SetJoint): string | null =>
      picked[one] !== undefined
        ? (picked[one] ?? null)
        : ((choices[one]?.find(({ inUse }) => !inUse) ?? choices[one]?.[0])?.thing ?? null);
    return {
      boat,
      arrangementId,
      size,
      joints: { intake: joint('intake'), bank: joint('bank'), tank: joint('tank'), freshPump: joint('freshPump') },
    };
  }, [boat, arrangementId, size, picked, choices]);
  const study = useStudy('wholeSet', order);
  const set = study.isStale ? null : study.gives;
  const place = (): void => {
    if (!set || !edit(`Place a set of ${size} L/h`, setAdded(arrangementId, set))) return;
    setStage('equipment');
    close();
  };
  const left = set ? Object.keys(set.unplaced).length : 0;
  const count = set ? Object.keys(set.parts).length : 0;
  return (
    <DialogFrame
      title="Place a whole generic set"
      close={close}
      problems={refusals}
      acts={
        <button type="button" className="button" disabled={set === null} onClick={place}>
          {set === null
            ? 'Place the set'
            : `Place ${count - left} of ${count} parts and ${Object.keys(set.lines).length} lines`}
        </button>
      }
    >
      <div className="data-columns list">
        <div className="data-sheet">
          <h3>The set</h3>
          <p className="quiet">Typical 12 V sets of no maker. Replace each part by its data sheet afterwards.</p>
          <Labelled label="Makes">
            <Choice
              label="Size of the set"
              value={String(size)}
              options={SET_SIZES.map((one) => [String(one), `${one} L/h`] as const)}
              choose={(one) => setSize(SET_SIZES.find((known) => String(known) === one) ?? size)}
            />
          </Labelled>
          <h3>Joined to</h3>
          {JOINT_LIST.map((joint) => {
            const [label, none] = JOINT_WORDS[joint];
            const chosen = choices[joint]?.find(({ thing }) => thing === order.joints[joint]);
            return (
              <div key={joint}>
                <Labelled label={label}>
                  <Choice
                    label={label}
                    value={order.joints[joint] ?? ''}
                    options={[
                      ...(choices[joint] ?? []).map(
                        ({ thing }) =>
                          [
                            thing,
                            `${markOf(thing, thingOf(boat, thing))} ${thingOf(boat, thing)?.name ?? ''}`,
                          ] as const,
                      ),
                      ['', none] as const,
                    ]}
                    choose={(thing) => setPicked({ ...picked, [joint]: thing === '' ? null : thing })}
                  />
                </Labelled>
                {chosen?.inUse ? (
                  <p className="quiet">{`Its port ${chosen.port} has a line already: see whether both may share it.`}</p>
                ) : null}
              </div>
            );
          })}
          <p className="quiet">
            Parts stand clear of what is aboard, near what they are joined to, hands and hoses with room where there is
            some. Then drag them where you want them.
          </p>
        </div>
        <div className="data-sheet" aria-live="polite">
          <StudyFault study={study} />
          {set === null ? (
            <p className="quiet">{study.fault === null ? 'Places are being looked for.' : ''}</p>
          ) : (
            <Answer boat={boat} arrangementId={arrangementId} set={set} />
          )}
        </div>
      </div>
    </DialogFrame>
  );
}

function Answer({
  boat,
  arrangementId,
  set,
}: {
  readonly boat: Boat;
  readonly arrangementId: string;
  readonly set: PlacedSet;
}): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const layout = layoutOf(boat, arrangementId);
  const left = Object.entries(set.unplaced);
  const named = (id: string): string => `${markOf(id, set.parts[id] ?? null)}  ${set.parts[id]?.name ?? id}`;
  return (
    <>
      {left.length === 0 ? null : (
        <>
          <h3>Not placed</h3>
          <ul className="reasons">
            {left.map(([id, why]) => {
              const part = set.parts[id];
              const sizes = part ? `, ${sizesText(envelopeOf(part), units)} ${lengthUnit(units)}` : '';
              return <li key={id}>{`${named(id)}${sizes}: ${WHY[why]}.`}</li>;
            })}
          </ul>
        </>
      )}
      <h3>Where the parts go</h3>
      <Facts
        rows={Object.entries(set.places).map(([id, { at }]) => [
          named(id),
          <span className="place" key={id}>
            {sentence(compartmentName(boat, layout.compartmentAt(at)))}
          </span>,
        ])}
      />
      <h3>Lines</h3>
      <ul className="port-list">
        {Object.entries(set.lines).map(([id, { tag, name }]) => (
          <li key={id}>{`${tag ?? id} ${name}`}</li>
        ))}
      </ul>
    </>
  );
}
