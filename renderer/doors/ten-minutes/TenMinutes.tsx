import { SET_SIZES, type SetSize } from '@core/boat/catalogue/generic-set';
import { USUAL_FIXTURES, type UsualFixture } from '@core/engine/first-boat/usual-fixtures';
import { FORMS, type Form } from '@core/shape/form/dimensions';
import { type JSX, type ReactNode, useEffect, useRef } from 'react';
import { documentsNow } from '../../app/commands';
import { massText } from '../../panels/format';
import { Segmented } from '../../panels/inspector/parts';
import { StudyFault } from '../../panels/StudyFault';
import { useApp } from '../../store/app';
import { useDoor } from '../door';
import { type BoatField, fieldsOf, guessesOf, mostTyped, typedCount, useTenMinutes } from './answers';
import { Group } from './Group';
import { MeasuredLockers } from './MeasuredLockers';
import { useDrawing, useShell } from './made';
import { refusalOf } from './refusal';
import { Sketch } from './Sketch';
import { type Scale, Stepped } from './Stepped';

const FORM_WORDS: Readonly<Record<Form, string>> = {
  longKeel: 'Long keel',
  finKeel: 'Fin keel',
  lightDisplacement: 'Light displacement',
  motorHull: 'Motor hull',
  catamaran: 'Catamaran',
};

interface FieldWords {
  readonly words: string;
  readonly scale: Scale;
  readonly hint?: string;
}

const FIELD_WORDS: Readonly<Record<BoatField, FieldWords>> = {
  lengthM: { words: 'Length over all', scale: 'metres', hint: 'Of the hull, without pulpit and bowsprit' },
  beamM: { words: 'Beam', scale: 'metres', hint: 'Greatest, over all' },
  draughtM: { words: 'Draught', scale: 'metres' },
  displacementKg: { words: 'Displacement', scale: 'mass', hint: 'As she floats, with stores' },
  waterlineLengthM: { words: 'Waterline length', scale: 'metres' },
  hullBeamM: { words: 'Beam of one hull', scale: 'metres' },
  bowFreeboardM: { words: 'Deck over water, bow', scale: 'metres' },
  midFreeboardM: { words: 'Deck over water, middle', scale: 'metres' },
  sternFreeboardM: { words: 'Deck over water, stern', scale: 'metres' },
  soleBelowM: {
    words: 'Cabin sole below water',
    scale: 'size',
    hint: 'Deck edge to sole inside, less deck edge to water outside. Minus: the sole is above the water',
  },
};

const MAIN: readonly BoatField[] = ['lengthM', 'beamM', 'draughtM', 'displacementKg'];
const INSIDE: readonly BoatField[] = ['soleBelowM'];

const FIXTURE_WORDS: Readonly<Record<UsualFixture, string>> = {
  engine: 'Engine',
  intake: 'Spare seacock',
  battery: 'House battery',
  waterTank: 'Water tank',
  sink: 'Galley sink',
  freshPump: 'Fresh-water pump',
};

const fieldOfPath = (path: string): string => (path === 'soleZ' ? 'soleBelowM' : path);

/** A boat from main dimensions: hull, divided interior, usual fixtures and a generic set. What is not typed is guessed and marked so. */
export function TenMinutes(): JSX.Element {
  const { answers, set, setValue, startOver } = useTenMinutes();
  const show = useDoor((state) => state.show);
  const { drawn, problems, stale, ...shell } = useShell();
  const drawing = useDrawing(answers, async (boat) => {
    await documentsNow()?.openNew(boat);
    if (useApp.getState().boat !== boat) return;
    startOver();
    useApp.getState().setStage('checks');
    show(null);
  });
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus(), []);
  const guesses = guessesOf(answers, drawn);
  const all = [...problems, ...drawing.problems];
  const problemOf = (field: string): string | undefined => {
    const found = all.find((one) => fieldOfPath(one.path) === field);
    return found && refusalOf(found, field);
  };
  const rows = (fields: readonly BoatField[]): ReactNode =>
    fields.map((field) => {
      const { words, scale, hint } = FIELD_WORDS[field];
      return (
        <Stepped
          key={field}
          label={words}
          scale={scale}
          {...(hint === undefined ? {} : { hint })}
          value={answers.values[field]}
          guess={guesses[field]}
          problem={problemOf(field)}
          set={(value) => setValue(field, value)}
        />
      );
    });
  const others = fieldsOf(answers.form).filter((field) => !MAIN.includes(field) && !INSIDE.includes(field));
  const stray = all.filter(
    ({ path }) =>
      !path.startsWith('lockers[') && !(fieldsOf(answers.form) as readonly string[]).includes(fieldOfPath(path)),
  );

  return (
    <section className="door" aria-label="Ten minutes">
      <header>
        <h2 ref={title} tabIndex={-1}>
          Ten minutes
        </h2>
        <p>A boat from what you know of her. Type what you have; the rest is guessed and stays marked so.</p>
        <output className="count" aria-live="polite">
          {typedCount(answers)} of {mostTyped(answers.form)} values typed
        </output>
      </header>
      <div className="door-body">
        <div className="door-form">
          <Group title="Kind of boat">
            <Segmented
              label="Kind of boat"
              value={answers.form}
              options={FORMS.map((form) => [form, FORM_WORDS[form]] as const)}
              choose={(form) => set({ form, lockers: [] })}
            />
            <div className="door-row name">
              <span className="label">Name</span>
              <div className="field">
                <input
                  aria-label="Name of the boat"
                  autoComplete="off"
                  value={answers.name}
                  maxLength={80}
                  placeholder={FORM_WORDS[answers.form]}
                  onChange={(event) => set({ name: event.target.value })}
                />
              </div>
            </div>
          </Group>
          <Group title="Main dimensions">{rows(MAIN)}</Group>
          <Group title="Inside">{rows(INSIDE)}</Group>
          <Group title="Water and deck">{rows(others)}</Group>
          <Group title="Aboard already">
            <Ticks
              options={USUAL_FIXTURES.map((key) => [key, FIXTURE_WORDS[key]] as const)}
              on={answers.fixtures}
              turn={(key, on) => set({ fixtures: { ...answers.fixtures, [key]: on } })}
            />
          </Group>
          <Group title="Set, litres an hour">
            <Segmented
              label="Set, litres an hour"
              value={String(answers.setSize)}
              options={SET_SIZES.map((size) => [String(size), `${size} L/h`] as const)}
              choose={(size) => set({ setSize: Number(size) as SetSize })}
            />
            <p className="quiet">A generic set with typical sizes. Check your data sheet.</p>
          </Group>
          <MeasuredLockers drawn={drawn} problems={all} />
        </div>
        <div className="door-sketch">
          {drawn === null ? (
            <p className="quiet">{shell.isLong ? 'Being worked out.' : ''}</p>
          ) : (
            <>
              <Sketch shell={drawn} stale={stale} />
              <p className="caption">
                Floats at {massText(drawn.dimensions.displacementKg)}. {Object.keys(drawn.interior.compartments).length}{' '}
                compartments. {drawn.notes.at(-1)}
              </p>
            </>
          )}
          <StudyFault study={shell} />
          {stray.map((one) => (
            <p key={one.message} className="field-error" role="alert">
              {one.message}
            </p>
          ))}
        </div>
      </div>
      <footer>
        <button
          type="button"
          className="button main"
          disabled={drawing.isDrawing || problems.length > 0 || drawn === null}
          onClick={drawing.draw}
        >
          {drawing.isDrawing ? 'Drawing the boat' : 'Draw the boat'}
        </button>
        {drawing.isDrawing ? (
          <button type="button" className="button" onClick={drawing.cancel}>
            Cancel
          </button>
        ) : null}
        <button type="button" className="button plain" onClick={() => show(null)}>
          Back
        </button>
        <button type="button" className="button plain" onClick={startOver}>
          Start over
        </button>
        <output className="quiet">{said(drawing.isLong, problems.length > 0)}</output>
        <StudyFault study={drawing} />
      </footer>
    </section>
  );
}

function said(isDrawing: boolean, isWrong: boolean): string {
  if (isDrawing) return 'Hull, lockers, set and hoses are being worked out: some seconds. What is typed stays.';
  return isWrong ? 'First put right what is marked.' : 'Back keeps what is typed.';
}

function Ticks<K extends string>({
  options,
  on,
  turn,
}: {
  readonly options: readonly (readonly [K, string])[];
  readonly on: Readonly<Record<K, boolean>>;
  turn(key: K, on: boolean): void;
}): JSX.Element {
  return (
    <div className="ticks">
      {options.map(([key, words]) => (
        <label key={key}>
          <input type="checkbox" checked={on[key]} onChange={(event) => turn(key, event.target.checked)} />
          {words}
        </label>
      ))}
    </div>
  );
}
