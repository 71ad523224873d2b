import { parseEntry } from '@core/base/entry';
import { stationsReplaced } from '@core/boat/station-edits';
import { FORMS, type Form, usualDimensions } from '@core/shape/form/dimensions';
import { hullOfForm } from '@core/shape/form/hull-of-form';
import { type JSX, useMemo, useState } from 'react';
import { Modal } from '../app/Modal';
import { LengthField } from '../panels/fields/LengthField';
import { QuantityField } from '../panels/fields/QuantityField';
import { figure } from '../panels/format';
import { Choice, Labelled } from '../panels/inspector/parts';
import { plainWords, sentence } from '../panels/words';
import { useApp } from '../store/app';
import { setSections } from './store';

const FIRST_LENGTH_M = 11;

/** A hull from five figures: what kind of boat, how long, broad, deep and heavy. */
export default function FormDialog(): JSX.Element {
  const [form, setForm] = useState<Form>('longKeel');
  const [lengthM, setLength] = useState(FIRST_LENGTH_M);
  const usual = useMemo(() => usualDimensions(form, lengthM), [form, lengthM]);
  // What was not typed follows the usual boat of that form and length.
  const [typed, setTyped] = useState<Partial<typeof usual>>({});
  const { beamM, draughtM, displacementKg } = { ...usual, ...typed };
  const made = useMemo(
    () => hullOfForm({ form, lengthM, beamM, draughtM, displacementKg }),
    [form, lengthM, beamM, draughtM, displacementKg],
  );
  const close = (): void => setSections({ dialog: null });
  const take = (): void => {
    if (!made.ok) return;
    const { stations, ...more } = made.hull;
    const own = Object.fromEntries(
      Object.entries(stations).map(([id, station]) => [id, { ...station, taken: 'form' as const }]),
    );
    if (!useApp.getState().edit('Hull by form', stationsReplaced(own, more))) return;
    setSections({ dialog: null, board: 'sections', stationId: null, point: null, refusal: null });
  };
  return (
    <Modal label="Hull by form" close={close}>
      <h2>Hull by form</h2>
      <p className="sub">
        A usual hull of its kind that floats at this displacement. Everything of it counts as guessed.
      </p>
      <Labelled label="Form">
        <Choice<Form>
          label="Form of the hull"
          value={form}
          options={FORMS.map((key) => [key, sentence(plainWords(key))] as const)}
          choose={setForm}
        />
      </Labelled>
      <Labelled label="Length over all">
        <LengthField label="Length over all" value={lengthM} commit={setLength} />
      </Labelled>
      <Labelled label="Beam over all">
        <LengthField label="Beam over all" value={beamM} commit={(value) => setTyped({ ...typed, beamM: value })} />
      </Labelled>
      <Labelled label="Draught">
        <LengthField label="Draught" value={draughtM} commit={(value) => setTyped({ ...typed, draughtM: value })} />
      </Labelled>
      <Labelled label="Displacement">
        <QuantityField
          label="Displacement"
          value={displacementKg}
          unit="kg"
          show={(value) => figure(value)}
          read={(text) => {
            const entry = parseEntry(text.replace(/[\u00a0\u2009\u202f]/g, ''), 'mass', 'kg');
            return entry.ok ? entry : { ok: false, message: `Expected ${entry.problem.expected}` };
          }}
          commit={(value) => setTyped({ ...typed, displacementKg: value })}
        />
      </Labelled>
      {made.ok ? (
        made.notes.map((note) => (
          <p key={note} className="quiet">
            {note}
          </p>
        ))
      ) : (
        <ul className="field-error" role="alert">
          {made.problems.map(({ message }) => (
            <li key={message}>{message}</li>
          ))}
        </ul>
      )}
      <div className="actions">
        <button type="button" className="button plain" onClick={close}>
          Cancel
        </button>
        <button type="button" className="button" disabled={!made.ok} onClick={take}>
          Make the hull
        </button>
      </div>
    </Modal>
  );
}
