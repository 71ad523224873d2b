import { type Field, fieldsOf } from '@core/boat/record/fields';
import { accepts, starterAt } from '@core/boat/record/starters';
import { type Boat, boatSchema } from '@core/boat/schema/boat';
import { isPlain } from '@core/boat/schema-walk';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { Subject, useRecordEdits } from '../record/edit';
import { Hinted } from '../record/RecordEditor';
import { RecordFields, RecordsOf } from '../record/RecordFields';
import { hintWords, labelOfKey } from '../record/words';
import { DialogFrame, UndoButton, useRefusals } from './DialogFrame';

interface Section {
  readonly id: string;
  readonly words: string;
  readonly keys: readonly string[];
}

/** The boat's single values stand together; each group and each kind of record has a page. In the order of the work, the rest behind. */
const GENERAL = new Set([
  'name',
  'notes',
  'practice',
  'newHoleCostM',
  'greatestHeelDeg',
  'currentArrangement',
  'plannedYear',
  'accuracy',
]);
const ORDER: readonly string[] = [
  'needs',
  'people',
  'demands',
  'runStates',
  'operatingStates',
  'arrangements',
  'reference',
  'weights',
  'hull',
  'compartments',
  'panels',
  'openings',
  'mountingSurfaces',
  'standingPlaces',
  'stowageBoxes',
  'fixtures',
  'parts',
  'lines',
  'lineKinds',
  'suppliedLengths',
  'flooding',
];

function sections(): readonly Section[] {
  const keys = fieldsOf(boatSchema, {})
    .filter(({ shape }) => shape.type !== 'fixed')
    .map(({ key }) => key);
  const general = keys.filter((key) => GENERAL.has(key));
  const rest = keys.filter((key) => !GENERAL.has(key));
  const place = (key: string): number => (ORDER.includes(key) ? ORDER.indexOf(key) : ORDER.length);
  return [
    { id: 'boat', words: 'The boat', keys: general },
    ...rest.sort((a, b) => place(a) - place(b)).map((key) => ({ id: key, words: labelOfKey(key), keys: [key] })),
  ];
}
const SECTIONS = sections();

/** Everything that the file holds, page by page; what is shown elsewhere can be edited here as well. */
export function BoatData({ close }: { close(): void }): JSX.Element | null {
  const boat = useApp((state) => state.boat);
  const [page, setPage] = useState('boat');
  const [words, setWords] = useState('');
  const refusals = useRefusals();
  const section = SECTIONS.find(({ id }) => id === page);
  if (!boat || !section) return null;
  return (
    <DialogFrame title="All data of the boat" close={close} problems={refusals} acts={<UndoButton />}>
      <div className="data-columns nav">
        <nav aria-label="Pages of the boat's data">
          {SECTIONS.map(({ id, words: name, keys }) => (
            <button
              key={id}
              type="button"
              aria-current={id === page ? 'page' : undefined}
              onClick={() => {
                setPage(id);
                setWords('');
              }}
            >
              <span>{name}</span>
              <span className="figures">{id === 'boat' ? '' : countOf(boat, keys[0] ?? '')}</span>
            </button>
          ))}
        </nav>
        <div className="data-sheet" key={page}>
          <Page boat={boat} section={section} words={words} setWords={setWords} />
        </div>
      </div>
    </DialogFrame>
  );
}

function Page({
  boat,
  section,
  words,
  setWords,
}: {
  readonly boat: Boat;
  readonly section: Section;
  readonly words: string;
  setWords(words: string): void;
}): JSX.Element {
  const [key = ''] = section.keys;
  const field = section.id === 'boat' ? undefined : fieldsOf(boatSchema, boat).find((one) => one.key === key);
  const value = (boat as Record<string, unknown>)[key];
  const isRecords = field?.shape.type === 'records';
  return (
    <>
      <h3>{section.words}</h3>
      {field?.hint ? <p className="quiet">{hintWords(field.hint)}</p> : null}
      <Subject.Provider value={section.id === 'boat' ? 'the boat' : section.words.toLowerCase()}>
        <Hinted label={section.words}>
          {isRecords && field ? (
            <>
              <div className="field data-filter">
                <input
                  type="search"
                  aria-label={`Find in ${section.words.toLowerCase()}`}
                  placeholder="Find by name or id"
                  value={words}
                  onChange={(event) => setWords(event.target.value)}
                />
              </div>
              <RecordsOf boat={boat} path={[key]} schema={field.schema} value={value} filter={words} />
            </>
          ) : section.id === 'boat' ? (
            <RecordFields boat={boat} path={[]} schema={boatSchema} value={boat} only={new Set(section.keys)} whole />
          ) : field && (value !== undefined || mayBeEmpty(field)) ? (
            <RecordFields boat={boat} path={[key]} schema={field.schema} value={value ?? {}} whole />
          ) : field ? (
            <Unsaid boat={boat} field={field} words={section.words} />
          ) : null}
        </Hinted>
      </Subject.Provider>
    </>
  );
}

const mayBeEmpty = ({ schema }: Field): boolean => accepts(schema, {});

/** A group that the boat says nothing of yet. */
function Unsaid({
  boat,
  field,
  words,
}: {
  readonly boat: Boat;
  readonly field: Field;
  readonly words: string;
}): JSX.Element {
  const edits = useRecordEdits();
  const begin = (): void => {
    edits.set('Begin the data', [field.key], starterAt(boat, [field.key], field.schema));
  };
  return (
    <div>
      <p className="quiet">Nothing is said of it yet.</p>
      <div className="actions">
        <button type="button" className="button" onClick={begin}>
          {`Enter ${words.toLowerCase()}`}
        </button>
      </div>
    </div>
  );
}

function countOf(boat: Boat, key: string): string {
  const value = (boat as Record<string, unknown>)[key];
  const field = fieldsOf(boatSchema, boat).find((one) => one.key === key);
  if (field?.shape.type !== 'records' || !isPlain(value)) return '';
  return String(Object.keys(value).length);
}
