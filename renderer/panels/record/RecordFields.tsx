import { type Field, fieldOf, fieldsOf } from '@core/boat/record/fields';
import { formStarter, starterAt } from '@core/boat/record/starters';
import type { Boat } from '@core/boat/schema/boat';
import { isPlain, itemSchema } from '@core/boat/schema-walk';
import { type JSX, type ReactNode, useState } from 'react';
import type { z } from 'zod';
import { RemoveButton } from '../fields/RemoveButton';
import { Tick } from '../fields/Tick';
import { Choice, Labelled } from '../inspector/parts';
import { Disclosure } from './Disclosure';
import { type Path, Subject, useRecordEdits, useSubject } from './edit';
import { FieldControl } from './FieldControl';
import { Records } from './Records';
import { choiceWords, hintWords, labelOfKey } from './words';

export interface RecordProps {
  readonly boat: Boat;
  readonly path: Path;
  readonly schema: z.core.$ZodType;
  readonly value: unknown;
  /** Keys that are edited elsewhere. */
  readonly skip?: ReadonlySet<string>;
  /** These keys alone. */
  readonly only?: ReadonlySet<string>;
  /** On a page of its own: single values that are not said yet wait in empty fields. */
  readonly whole?: boolean;
}

/**
 * Every field of a record or group, from its schema: what it says, each in a control of its kind, and a list of what it might
 * say besides. Nothing that the file can hold is out of reach here.
 */
export function RecordFields({ boat, path, schema, value, skip, only, whole = false }: RecordProps): JSX.Element {
  /** Asked for and not said yet: an empty field waits. */
  const [asked, setAsked] = useState<readonly string[]>([]);
  const edits = useRecordEdits();
  const subject = useSubject();
  const record = isPlain(value) ? value : {};
  const fields = fieldsOf(schema, value).filter(
    ({ key, shape }) => shape.type !== 'fixed' && !skip?.has(key) && (!only || only.has(key)),
  );
  const isShown = (field: Field): boolean =>
    record[field.key] !== undefined || !field.optional || asked.includes(field.key) || (whole && isWaiting(field));
  const unsaid = fields.filter((field) => !isShown(field));
  const add = (key: string): void => {
    const field = unsaid.find((one) => one.key === key);
    if (!field) return;
    setAsked([...asked, key]);
    if (isWaiting(field)) return;
    const at = [...path, key];
    edits.set(`Add ${labelOfKey(key).toLowerCase()}`, at, starterAt(boat, at, field.schema));
  };
  return (
    <>
      <FormChoice boat={boat} path={path} schema={schema} value={value} />
      {fields.filter(isShown).map((field) => (
        <FieldRow
          key={field.key}
          boat={boat}
          path={[...path, field.key]}
          field={field}
          value={record[field.key]}
          isNew={asked.includes(field.key)}
        />
      ))}
      {unsaid.length === 0 ? null : (
        <div className="field add-value">
          <select aria-label={`Add to ${subject}`} value="" onChange={(event) => add(event.target.value)}>
            <option value="">Add ...</option>
            {unsaid.map(({ key }) => (
              <option key={key} value={key}>
                {labelOfKey(key)}
              </option>
            ))}
          </select>
        </div>
      )}
    </>
  );
}

/** Single values are asked for before they are said; the rest begins with something. */
const isWaiting = ({ shape }: Field): boolean => ['number', 'text', 'choice', 'switch'].includes(shape.type);

interface RowProps {
  readonly boat: Boat;
  readonly path: Path;
  readonly field: Field;
  readonly value: unknown;
  readonly isNew?: boolean;
}

/** One field: a row where it is one value, a heading that opens where it holds more. */
export function FieldRow({ boat, path, field, value, isNew = false }: RowProps): JSX.Element | null {
  const { shape } = field;
  const label = labelOfKey(field.key);
  switch (shape.type) {
    case 'records':
      return (
        <Disclosure title={label} aside={countOf(value)} open={isNew}>
          <Within label={label}>
            <Records boat={boat} path={path} schema={field.schema} value={value} renderMember={renderMember} />
            {field.optional ? <TakeOut path={path} label={label} /> : null}
          </Within>
        </Disclosure>
      );
    case 'group':
    case 'forms':
      return (
        <Disclosure title={label} open={isNew}>
          <Within label={label}>
            <Hint text={field.hint} />
            <RecordFields boat={boat} path={path} schema={field.schema} value={value} />
            {field.optional ? <TakeOut path={path} label={label} /> : null}
          </Within>
        </Disclosure>
      );
    case 'list':
      return <ListRow boat={boat} path={path} field={field} value={value} isNew={isNew} />;
    default: {
      const wide = shape.type === 'numbers' || (shape.type === 'text' && shape.long);
      return (
        <div data-hint={field.hint ?? undefined}>
          <Labelled label={label} above={wide}>
            {field.optional && shape.type === 'numbers' ? (
              <div className="field-and-act">
                <FieldControl boat={boat} path={path} field={field} value={value} />
                <TakeOut path={path} label={label} small />
              </div>
            ) : (
              <FieldControl boat={boat} path={path} field={field} value={value} />
            )}
          </Labelled>
        </div>
      );
    }
  }
}

/** Records by id on a page of their own. */
export const RecordsOf = (props: RecordProps & { readonly filter?: string }): JSX.Element => (
  <Records {...props} renderMember={renderMember} />
);

/** A member of records: fields of its own, or one value. */
const renderMember = (boat: Boat, path: Path, schema: z.core.$ZodType, value: unknown, label: string): JSX.Element => {
  const field = fieldOf(String(path.at(-2) ?? ''), schema);
  return isWaiting(field) || field.shape.type === 'numbers' || field.shape.type === 'texts' ? (
    <FieldControl boat={boat} path={path} field={field} value={value} label={label} />
  ) : field.shape.type === 'records' ? (
    <Records boat={boat} path={path} schema={schema} value={value} renderMember={renderMember} />
  ) : field.shape.type === 'list' ? (
    <ListItems boat={boat} path={path} field={field} value={value} />
  ) : (
    <RecordFields boat={boat} path={path} schema={schema} value={value} />
  );
};

/** A list: ticks where its members are of a few words, else one row a member. */
function ListRow({ boat, path, field, value, isNew = false }: RowProps): JSX.Element {
  const label = labelOfKey(field.key);
  const count = Array.isArray(value) ? value.length : 0;
  return (
    <Disclosure title={label} aside={count === 0 ? 'none' : String(count)} open={isNew}>
      <Within label={label}>
        <Hint text={field.hint} />
        <ListItems boat={boat} path={path} field={field} value={value} />
        {field.optional ? <TakeOut path={path} label={label} /> : null}
      </Within>
    </Disclosure>
  );
}

function ListItems({ boat, path, field, value }: Omit<RowProps, 'isNew'>): JSX.Element | null {
  const edits = useRecordEdits();
  const subject = useSubject();
  const items = Array.isArray(value) ? value : [];
  const schema = itemSchema(field.schema, 0);
  if (!schema) return null;
  const item = fieldOf(field.key, schema);
  const label = labelOfKey(field.key);
  if (item.shape.type === 'choice') {
    const { options } = item.shape;
    return (
      <div className="tick-grid">
        {options.map((option) => (
          <Tick
            key={option}
            label={`${choiceWords(option)}, ${subject}`}
            words={choiceWords(option)}
            checked={items.includes(option)}
            turn={(on) =>
              edits.set(
                label,
                path,
                options.filter((one) => (one === option ? on : items.includes(one))),
              )
            }
          />
        ))}
      </div>
    );
  }
  return (
    <>
      {items.map((member, index) => {
        const at = [...path, index];
        const name = `${label} ${index + 1}`;
        const isGroup = item.shape.type === 'group';
        return (
          // The members of a list have no name but their place in it.
          <div className="list-item" key={at.join('.')}>
            <span className="number">{index + 1}</span>
            {isGroup ? (
              <div className="stacked">
                <Subject.Provider value={`${name}, ${subject}`}>
                  <RecordFields boat={boat} path={at} schema={schema} value={member} />
                </Subject.Provider>
              </div>
            ) : (
              <FieldControl boat={boat} path={at} field={item} value={member} label={name} />
            )}
            <RemoveButton label={`Remove ${name} of ${subject}`} remove={() => edits.remove(`Remove ${name}`, at)} />
          </div>
        );
      })}
      <div className="actions">
        <button
          type="button"
          className="button plain"
          onClick={() => {
            const at = [...path, items.length];
            const last = items.at(-1);
            // Another point begins where the last one stands.
            const begin = item.shape.type === 'numbers' && last !== undefined ? last : starterAt(boat, at, schema);
            edits.set(`Add to ${label.toLowerCase()}`, path, [...items, begin]);
          }}
        >
          {`Add to ${label.toLowerCase()}`}
        </button>
      </div>
    </>
  );
}

/** Which of several forms a record has; another form begins anew. */
function FormChoice({ boat, path, schema, value }: RecordProps): JSX.Element | null {
  const edits = useRecordEdits();
  const subject = useSubject();
  const { shape } = fieldOf('form', schema);
  if (shape.type !== 'forms') return null;
  const now = isPlain(value) ? String(value[shape.key] ?? '') : '';
  return (
    <Labelled label="Form">
      <Choice
        label={`Form of ${subject}`}
        value={now}
        options={shape.options.map((option) => [option, choiceWords(option)] as const)}
        choose={(option) => {
          if (option !== now) edits.set('Form', path, formStarter(boat, path, schema, { [shape.key]: option }));
        }}
      />
    </Labelled>
  );
}

/** Names what the fields inside speak of. */
function Within({ label, children }: { readonly label: string; readonly children: ReactNode }): JSX.Element {
  const subject = useSubject();
  return <Subject.Provider value={`${subject}, ${label.toLowerCase()}`}>{children}</Subject.Provider>;
}

function TakeOut({
  path,
  label,
  small = false,
}: {
  readonly path: Path;
  readonly label: string;
  readonly small?: boolean;
}): JSX.Element {
  const edits = useRecordEdits();
  const subject = useSubject();
  const remove = (): void => void edits.remove(`Remove ${label.toLowerCase()}`, path);
  return small ? (
    <RemoveButton label={`Remove ${label.toLowerCase()} of ${subject}`} remove={remove} />
  ) : (
    <div className="actions">
      <button type="button" className="button plain" aria-label={`Remove ${subject}`} onClick={remove}>
        {`Remove ${label.toLowerCase()}`}
      </button>
    </div>
  );
}

const Hint = ({ text }: { readonly text: string | null }): JSX.Element | null =>
  text === null ? null : <p className="quiet">{hintWords(text)}</p>;

const countOf = (value: unknown): string => {
  const count = isPlain(value) ? Object.keys(value).length : 0;
  return count === 0 ? 'none' : String(count);
};
