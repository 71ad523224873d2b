import { AXES } from '@core/base/vec';
import { thingDeleted, unplaced } from '@core/boat/edits';
import type { Boat, Place, Thing } from '@core/boat/schema/boat';
import { type JSX, lazy, Suspense } from 'react';
import { CommandButton } from '../../app/CommandButton';
import { ICONS } from '../../app/icons';
import { printMockUp } from '../../app/sheets/orders';
import { useApp } from '../../store/app';
import { layoutOf } from '../../store/derived';
import { useDrag } from '../../store/drag';
import { compartmentName, isPart, markOf, placeOf } from '../../store/select';
import { placePath } from '../../store/typed';
import { openDataSheet } from '../data/data-sheet';
import { AngleField, LengthField } from '../fields/LengthField';
import { massText, sizesText } from '../format';
import { KindWord } from '../Term';
import { mediumText, plainWords, sentence } from '../words';
import { envelopeOf } from './envelope';
import { Facts, Link, Panel } from './parts';
import { ServiceRoom } from './ServiceRoom';
import { ServiceTasks } from './ServiceTasks';
import { Sweeps, ThingData } from './ThingData';

const ThingTasks = lazy(() => import('../service/ThingTasks').then((panel) => ({ default: panel.ThingTasks })));

/** A part or fixture: where it stands and how it is turned, typed; what it is; what is joined to it; its room for service. */
export function ThingInspector({
  boat,
  id,
  thing,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly thing: Thing;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const units = useApp((state) => state.displayUnits);
  const item = useApp(
    (state) => state.report?.takeoff.findIndex(({ group, from }) => group === 'part' && from.includes(id)) ?? -1,
  );
  const place = placeOf(boat, arrangementId, id);

  return (
    <>
      <Panel
        title={`${markOf(id, thing)}  ${thing.name}`}
        aside={item >= 0 ? `item ${item + 1}` : isPart(boat, id) ? undefined : 'aboard'}
      >
        <p className="sub">
          <Where boat={boat} id={id} place={place} />
          {thing.massKg > 0 ? `. ${massText(thing.massKg)}` : ''}
        </p>
        {place === null ? <NotPlaced id={id} /> : <Position boat={boat} id={id} place={place} />}
        <Facts
          rows={[
            ['Envelope', `${sizesText(envelopeOf(thing), units)}`],
            ['Kind', <KindWord key="kind" kind={thing.kind} />],
            thing.electric?.drawA === undefined ? null : ['Draws', `${thing.electric.drawA} A`],
            thing.opensToSea === undefined ? null : ['Opens to the sea', sizesText([thing.opensToSea.boreM], units)],
            thing.source === undefined ? null : ['Values from', thing.source],
          ]}
        />
        <Acts boat={boat} id={id} thing={thing} place={place} />
      </Panel>
      <ServiceRoom id={id} thing={thing} />
      {Object.keys(thing.services).length === 0 ? null : (
        <Suspense fallback={null}>
          <ThingTasks boat={boat} id={id} />
        </Suspense>
      )}
      <Joined boat={boat} id={id} thing={thing} />
      <ThingData boat={boat} id={id} thing={thing} />
      <Sweeps boat={boat} id={id} thing={thing} />
      <ServiceTasks boat={boat} id={id} thing={thing} />
    </>
  );
}

/** The compartment that it is in, also while it is held. */
function Where({
  boat,
  id,
  place,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly place: Place | null;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const layout = layoutOf(boat, arrangementId);
  const held = useDrag((state) =>
    state.thingId === id && state.place ? layout.compartmentAt(state.place.at) : undefined,
  );
  if (place === null) return <span>Not placed</span>;
  const compartment = held === undefined ? layout.compartmentAt(place.at) : held;
  return <span className="place">{sentence(compartmentName(boat, compartment))}</span>;
}

function Position({
  boat,
  id,
  place: atRest,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly place: Place;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  // Only this part of the inspector follows a drag.
  const dragged = useDrag((state) => (state.thingId === id ? state.place : null));
  const place = dragged ?? atRest;
  const placeThing = useApp((state) => state.placeThing);
  const turn = useApp((state) => state.turn);
  const set = (axis: 0 | 1 | 2, value: number, text: string): void => {
    const at: [number, number, number] = [place.at[0], place.at[1], place.at[2]];
    at[axis] = value;
    placeThing(id, { ...place, at }, undefined, { axis, text });
  };
  const turns = [
    ['yawDeg', 'Yaw', 'z'],
    ['pitchDeg', 'Pitch', 'y'],
    ['rollDeg', 'Roll', 'x'],
  ] as const;
  return (
    <>
      <div className="position">
        {AXES.map((axis, index) => (
          <div className="axis" key={axis}>
            <label htmlFor={`place-${axis}`}>{axis}</label>
            <LengthField
              id={`place-${axis}`}
              label={`${axis} of the centre`}
              value={place.at[index as 0 | 1 | 2]}
              path={placePath(boat, arrangementId, id, index as 0 | 1 | 2)}
              commit={(value, typed) => set(index as 0 | 1 | 2, value, typed)}
            />
          </div>
        ))}
      </div>
      <div className="position">
        {turns.map(([key, word, axis]) => (
          <div key={key}>
            <div className="turn">
              <span className="label">{word}</span>
              <button
                type="button"
                className="icon-button small"
                aria-label={`Quarter turn in ${word.toLowerCase()}`}
                title={`Quarter turn in ${word.toLowerCase()}`}
                onClick={() => turn(id, axis, 90)}
              >
                {ICONS.turn}
              </button>
            </div>
            <AngleField
              label={word}
              value={place[key]}
              commit={(value) => placeThing(id, { ...place, [key]: value })}
            />
          </div>
        ))}
      </div>
    </>
  );
}

function NotPlaced({ id }: { readonly id: string }): JSX.Element {
  const placeThing = useApp((state) => state.placeThing);
  const sectionX = useApp((state) => state.sectionX);
  return (
    <div className="actions">
      <button
        type="button"
        className="button"
        onClick={() => placeThing(id, { at: [sectionX, 0, 0], yawDeg: 0, pitchDeg: 0, rollDeg: 0 })}
      >
        Place it at the section
      </button>
    </div>
  );
}

function Acts({
  boat,
  id,
  thing,
  place,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly thing: Thing;
  readonly place: Place | null;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const edit = useApp((state) => state.edit);
  const goTo = useApp((state) => state.goTo);
  const select = useApp((state) => state.select);
  return (
    <div className="actions">
      {isPart(boat, id) ? <CommandButton id="where-can-it-go">Where can it go?</CommandButton> : null}
      {place === null ? null : (
        <button type="button" className="button plain" onClick={() => goTo({ kind: 'thing', id }, place.at)}>
          Show
        </button>
      )}
      {place === null || !isPart(boat, id) ? null : (
        <button
          type="button"
          className="button plain"
          onClick={() => arrangementId !== null && edit(`Take ${markOf(id, thing)} out`, unplaced(arrangementId, id))}
        >
          Take out
        </button>
      )}
      <button type="button" className="button plain" onClick={() => openDataSheet({ kind: 'edit', id })}>
        Data sheet
      </button>
      <button type="button" className="button plain" onClick={() => void printMockUp(thing)}>
        Print as cardboard
      </button>
      <button
        type="button"
        className="button plain"
        onClick={() => {
          if (edit(`Delete ${markOf(id, thing)}`, thingDeleted(id))) select(null);
        }}
      >
        Delete
      </button>
    </div>
  );
}

/** Its ports with the lines that end there. */
function Joined({
  boat,
  id,
  thing,
}: {
  readonly boat: Boat;
  readonly id: string;
  readonly thing: Thing;
}): JSX.Element | null {
  const select = useApp((state) => state.select);
  const ports = Object.entries(thing.ports);
  if (ports.length === 0) return null;
  const linesAt = (port: string) =>
    Object.entries(boat.lines).filter(([, line]) =>
      [line.from, line.to].some((end) => end.thing === id && end.port === port),
    );
  return (
    <Panel title="Ports" level={3}>
      <dl className="facts">
        {ports.map(([port, data]) => (
          <div key={port}>
            <dt>
              {sentence(plainWords(port))}
              {data.medium === undefined ? '' : `, ${mediumText(data.medium)}`}
            </dt>
            <dd>
              {linesAt(port).length === 0 ? <span className="quiet">free</span> : null}
              {linesAt(port).map(([lineId, line]) => (
                <Link key={lineId} go={() => select({ kind: 'line', id: lineId })}>
                  {markOf(lineId, line)}
                </Link>
              ))}
            </dd>
          </div>
        ))}
      </dl>
    </Panel>
  );
}
