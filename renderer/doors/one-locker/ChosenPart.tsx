import { halfOf } from '@core/boat/catalogue/face-places';
import { freeId } from '@core/boat/edits';
import type { Part } from '@core/boat/schema/boat';
import { part as partSchema } from '@core/boat/schema/things';
import { taskText } from '@core/output/text/schema-words';
import { servicesWithRoom } from '@core/shape/space/things';
import { type JSX, useState } from 'react';
import { printMockUp } from '../../app/sheets/orders';
import { GradeChoice } from '../../panels/fields/GradeChoice';
import { LengthField } from '../../panels/fields/LengthField';
import { PaperChoice } from '../../panels/fields/PaperChoice';
import { RemoveButton } from '../../panels/fields/RemoveButton';
import { lengthUnit } from '../../panels/format';
import { Choice, Labelled, Panel } from '../../panels/inspector/parts';
import { sentence } from '../../panels/words';
import { useApp } from '../../store/app';
import { useLocker } from './state';

/** The part that is drawn: its sizes, what must be done to it, and the way to a cardboard one. */
export function ChosenPart({ id, part }: { readonly id: string; readonly part: Part }): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const setPart = useLocker((state) => state.setPart);
  const removePart = useLocker((state) => state.removePart);
  const isUpright = part.mounting?.upright === true;
  return (
    <Panel title={`${part.tag ?? ''} ${part.name}`.trim()} level={3} aside={lengthUnit(units)}>
      <Labelled label="Name">
        <div className="field">
          <input
            aria-label="Name of the part"
            value={part.name}
            maxLength={120}
            onChange={(event) => setPart(id, { ...part, name: event.target.value || 'Part' })}
          />
        </div>
      </Labelled>
      <Sizes id={id} part={part} />
      <Labelled label="Sizes are">
        <GradeChoice
          label="How well the sizes of the part are known"
          value={part.grade ?? 'measured'}
          choose={(grade) => setPart(id, { ...part, grade })}
        />
      </Labelled>
      <label className="tick">
        <input
          type="checkbox"
          checked={isUpright}
          onChange={(event) => setPart(id, { ...part, mounting: { ...part.mounting, upright: event.target.checked } })}
        />
        Must stand upright
      </label>
      <Tasks id={id} part={part} />
      <PaperChoice />
      <div className="actions">
        <button type="button" className="button" onClick={() => void printMockUp(part)}>
          Cardboard mock-up
        </button>
        <button type="button" className="button plain" onClick={() => removePart(id)}>
          Remove the part
        </button>
      </div>
    </Panel>
  );
}

function Sizes({ id, part }: { readonly id: string; readonly part: Part }): JSX.Element {
  const setPart = useLocker((state) => state.setPart);
  const { shape } = part;
  const size = (label: string, value: number, set: (value: number) => Part['shape']): JSX.Element => (
    <Labelled label={label} key={label}>
      <LengthField
        label={`${label} of the part`}
        value={value}
        commit={(typed) => typed > 0 && setPart(id, resized(part, set(typed)))}
      />
    </Labelled>
  );
  if (shape.type === 'cylinder')
    return (
      <>
        {size('Diameter', shape.diameterM, (diameterM) => ({ ...shape, diameterM }))}
        {size('Length', shape.lengthM, (lengthM) => ({ ...shape, lengthM }))}
      </>
    );
  const [x, y, z] = shape.sizeM;
  return (
    <>
      {size('Length', x, (value) => ({ ...shape, sizeM: [value, y, z] }))}
      {size('Width', y, (value) => ({ ...shape, sizeM: [x, value, z] }))}
      {size('Height', z, (value) => ({ ...shape, sizeM: [x, y, value] }))}
    </>
  );
}

/** Another size: what sits on a face stays on it. */
function resized(part: Part, shape: Part['shape']): Part {
  const [before, after] = [halfOf(part.shape), halfOf(shape)];
  const moved = <T extends { readonly at: readonly [number, number, number] }>(records: Readonly<Record<string, T>>) =>
    Object.fromEntries(
      Object.entries(records).map(([key, record]) => [
        key,
        {
          ...record,
          at: record.at.map((value, k) =>
            (before[k] ?? 0) > 0 ? (value * (after[k] ?? 0)) / (before[k] ?? 1) : value,
          ) as [number, number, number],
        },
      ]),
    );
  return { ...part, shape, ports: moved(part.ports), services: moved(part.services) };
}

const FACES = {
  top: [0, 0, 1],
  bottom: [0, 0, -1],
  fore: [1, 0, 0],
  aft: [-1, 0, 0],
  port: [0, 1, 0],
  starboard: [0, -1, 0],
} as const;
type FaceName = keyof typeof FACES;
const FACE_WORDS: readonly (readonly [FaceName, string])[] = [
  ['top', 'On its top'],
  ['bottom', 'Under it'],
  ['fore', 'At its forward end'],
  ['aft', 'At its aft end'],
  ['port', 'On its port side'],
  ['starboard', 'On its starboard side'],
];
/** A room that is asked for starts a hand deep. */
const HAND_M = 0.15;

function Tasks({ id, part }: { readonly id: string; readonly part: Part }): JSX.Element {
  const setPart = useLocker((state) => state.setPart);
  const [face, setFace] = useState<FaceName>('top');
  const set = (services: Part['services']): void => setPart(id, { ...part, services });
  const add = (): void => {
    const half = halfOf(part.shape);
    const direction = FACES[face];
    const at = direction.map((way, k) => way * (half[k] ?? 0)) as [number, number, number];
    const across = half.filter((_, k) => direction[k] === 0).map((side) => 2 * side) as [number, number];
    const added = partSchema.parse({
      ...part,
      services: {
        ...part.services,
        [freeId(part.services, face)]: {
          task: 'other',
          name: `room ${FACE_WORDS.find(([name]) => name === face)?.[1].toLowerCase() ?? face}`,
          at,
          direction: [...direction],
          acrossM: across,
          clearM: HAND_M,
        },
      },
    });
    setPart(id, added);
  };
  return (
    <>
      {Object.entries(servicesWithRoom(part)).map(([key, service]) => (
        <Labelled key={key} label={service.name ?? sentence(taskText(service.task))}>
          <div className="task-room">
            <LengthField
              label={`Room for ${service.name ?? taskText(service.task)}`}
              value={service.clearM}
              commit={(clearM) => clearM > 0 && set({ ...part.services, [key]: { ...service, clearM } })}
            />
            <RemoveButton
              label={`Remove the room for ${service.name ?? taskText(service.task)}`}
              remove={() => {
                const { [key]: _, ...rest } = part.services;
                set(rest);
              }}
            />
          </div>
        </Labelled>
      ))}
      <div className="add-row">
        <Choice label="Side that needs room" value={face} options={FACE_WORDS} choose={(picked) => setFace(picked)} />
        <button type="button" className="button" onClick={add}>
          Add room
        </button>
      </div>
    </>
  );
}
