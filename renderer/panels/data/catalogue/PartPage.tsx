import { fixtureAdded, freeId, partAdded } from '@core/boat/edits';
import { freeTag } from '@core/boat/free-tag';
import { placeIn } from '@core/boat/interior/put-into';
import type { Boat } from '@core/boat/schema/boat';
import { part as partSchema } from '@core/boat/schema/things';
import { taskText } from '@core/output/text/schema-words';
import { type JSX, useState } from 'react';
import { useApp } from '../../../store/app';
import { compartmentName } from '../../../store/select';
import { lengthUnit, massText, sizesText } from '../../format';
import { envelopeOf } from '../../inspector/envelope';
import { Choice, Facts, Labelled } from '../../inspector/parts';
import { mediumText, plainWords, sentence } from '../../words';
import { openDataSheet } from '../data-sheet';
import { ThreeViews } from '../ThreeViews';
import { factsOf } from '../values';
import type { PartEntry } from './entries';
import { startIn, UNPLACED } from './start-in';

/** Told in the drawing, the head or the tables of the page. */
const TOLD = new Set(['name', 'tag', 'shape', 'massKg', 'source', 'grade', 'notes', 'kind']);

/** One generic part: drawn, its values, and where to put it. */
export function PartPage({ entry, close }: { readonly entry: PartEntry; close(): void }): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const units = useApp((state) => state.displayUnits);
  if (!boat) return null;
  const { part } = entry;
  const ports = Object.entries(part.ports);
  const tasks = Object.values(part.services);
  return (
    <>
      <h3>{part.name}</h3>
      <p className="quiet">
        Typical values from common practice, of no maker. Replace them by the data sheet of the real one.
      </p>
      <ThreeViews part={part} width={520} height={330} dimensions />
      <PutAboard boat={boat} entry={entry} close={close} />
      <h3>Values, each typical</h3>
      <Facts
        rows={[
          ['Size, length by width by height', `${sizesText(envelopeOf(part), units)} ${lengthUnit(units)}`],
          ['Mass', part.massKg > 0 ? massText(part.massKg) : 'not said'],
          ...factsOf(partSchema, part, units, TOLD),
        ]}
      />
      {ports.length === 0 ? null : (
        <>
          <h3>Ports</h3>
          <ol className="port-list">
            {ports.map(([id, port]) => (
              <li key={id}>
                {`${sentence(plainWords(id))}${port.medium === undefined ? '' : `, ${mediumText(port.medium)}`}${port.boreM === undefined ? '' : `, bore ${sizesText([port.boreM], units)} ${lengthUnit(units)}`}`}
              </li>
            ))}
          </ol>
        </>
      )}
      {tasks.length === 0 ? null : (
        <>
          <h3>Service tasks</h3>
          <ul className="port-list">
            {Object.entries(part.services).map(([id, task]) => (
              <li
                key={id}
              >{`${sentence(task.name ?? taskText(task.task))}${task.clearM > 0 ? `, ${sizesText([task.clearM], units)} ${lengthUnit(units)} clear` : ''}`}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

function PutAboard({
  boat,
  entry,
  close,
}: {
  readonly boat: Boat;
  readonly entry: PartEntry;
  close(): void;
}): JSX.Element {
  const arrangementId = useApp((state) => state.arrangementId);
  const edit = useApp((state) => state.edit);
  const select = useApp((state) => state.select);
  const [into, setInto] = useState(() => startIn(boat));
  const { part, as, id: base } = entry;
  const add = (): void => {
    const id = freeId({ ...boat.fixtures, ...boat.parts }, base);
    const tag = freeTag(boat, part);
    const at = placeIn(boat, into, part);
    const pose = { at: at ?? ([0, 0, 0] as const), yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    const own = { ...part, tag, grade: 'guessed' as const };
    const recipe =
      as === 'fixture'
        ? fixtureAdded(id, { ...own, soft: false, pose: { ...pose, at: [...pose.at] } })
        : partAdded(id, own, arrangementId ?? undefined, at === null ? undefined : pose);
    if (!edit(`Add ${tag} ${part.name}`, recipe)) return;
    select({ kind: 'thing', id });
    close();
  };
  const compartments = Object.keys(boat.compartments)
    .map((id) => [id, compartmentName(boat, id)] as const)
    .sort(([, a], [, b]) => a.localeCompare(b, 'en'));
  return (
    <>
      <h3>Put it aboard</h3>
      <Labelled label="Into">
        <Choice
          label="Compartment to put it into"
          value={into}
          options={[
            ...(as === 'part' || compartments.length === 0
              ? [[UNPLACED, as === 'part' ? 'Not placed yet' : 'At the after end'] as const]
              : []),
            ...compartments,
          ]}
          choose={setInto}
        />
      </Labelled>
      <div className="actions">
        <button type="button" className="button" onClick={add}>
          {as === 'part' ? 'Add as a part to fit' : 'Add as aboard already'}
        </button>
        <button type="button" className="button plain" onClick={() => openDataSheet({ kind: 'from', part })}>
          Enter its data sheet from here
        </button>
      </div>
    </>
  );
}
