import { parseEntry } from '@core/base/entry';
import { unitOf } from '@core/base/quantity';
import { pathText } from '@core/boat/problem';
import { choicesAt, referenceAt } from '@core/boat/record/references';
import { itemSchema } from '@core/boat/schema-walk';
import { fieldWords } from '@core/output/text/field-words';
import type { JSX } from 'react';
import { ungrouped } from '../fields/entries';
import { LengthField } from '../fields/LengthField';
import { LongTextField } from '../fields/LongTextField';
import { QuantityField, type Read } from '../fields/QuantityField';
import { TextField } from '../fields/TextField';
import { figure } from '../format';
import { Choice } from '../inspector/parts';
import { useRecordEdits } from './edit';
import { type FieldProps, plainNumber, refusal, useLabels } from './field';
import { NumbersControl } from './NumbersControl';
import { choiceWords, labelOfKey } from './words';

/** The control of one value that stands alone: a number with its unit, a choice, a text, a row of numbers. */
export function FieldControl(props: FieldProps): JSX.Element | null {
  switch (props.field.shape.type) {
    case 'number':
      return <NumberControl {...props} />;
    case 'choice':
      return <ChoiceControl {...props} options={props.field.shape.options} />;
    case 'switch':
      return <SwitchControl {...props} />;
    case 'text':
      return <TextControl {...props} long={props.field.shape.long} />;
    case 'fixed':
      return <span className="quiet">{choiceWords(String(props.value))}</span>;
    case 'numbers':
      return <NumbersControl {...props} />;
    case 'texts':
      return <TextsControl {...props} count={props.field.shape.count} />;
    default:
      return null;
  }
}

function NumberControl({ boat, path, field, value, label }: FieldProps): JSX.Element {
  const edits = useRecordEdits();
  const { words, spoken } = useLabels({ field, label });
  const typedAs = boat.typed?.[pathText(path)];
  const quantity = field.shape.type === 'number' ? field.shape.quantity : null;
  const kept = typeof value === 'number' ? value : null;
  const judged = (read: Read): Read => {
    const against = read.ok ? refusal(field.schema, field.key, read.value) : null;
    return against === null ? read : { ok: false, message: against };
  };
  const commit = (entered: number, typed: string): void => void edits.set(words, path, entered, typed);
  const clear = field.optional ? (): void => void edits.remove(words, path) : undefined;
  const shared = { label: spoken, value: kept, commit, clear, placeholder: 'not said' };
  if (quantity?.quantity === 'length' && quantity.kept === 'm')
    return <LengthField {...shared} typedAs={typedAs} judge={judged} />;
  if (quantity === null)
    return (
      <QuantityField
        {...shared}
        unit={fieldWords(field.key).unit ?? ''}
        show={(number) => figure(number, decimalsOf(number))}
        read={(typed) => judged(plainNumber(typed))}
      />
    );
  const each =
    (unitOf(quantity.quantity, quantity.kept)?.each ?? 1) / (unitOf(quantity.quantity, quantity.shown)?.each ?? 1);
  return (
    <QuantityField
      {...shared}
      unit={quantity.shown}
      typedAs={typedAs}
      show={(number) => figure(number * each, decimalsOf(number * each))}
      read={(typed) => {
        const entry = parseEntry(ungrouped(typed), quantity.quantity, quantity.shown, quantity.kept);
        return judged(
          entry.ok ? { ok: true, value: entry.value } : { ok: false, message: `Expected ${entry.problem.expected}` },
        );
      }}
    />
  );
}

/** As many decimals as a value has, up to four: what was entered is shown as it is. */
function decimalsOf(value: number): number {
  for (let decimals = 0; decimals < 4; decimals += 1)
    if (Math.abs(value - Number(value.toFixed(decimals))) < 1e-6 * Math.max(1, Math.abs(value))) return decimals;
  return 4;
}

const NOT_SAID = '';

function ChoiceControl({
  path,
  field,
  value,
  label,
  options,
}: FieldProps & { readonly options: readonly string[] }): JSX.Element {
  const edits = useRecordEdits();
  const { words, spoken } = useLabels({ field, label });
  const known = options.map((option) => [option, choiceWords(option)] as const);
  return (
    <Choice
      label={spoken}
      value={typeof value === 'string' ? value : NOT_SAID}
      options={field.optional || value === undefined ? [[NOT_SAID, 'Not said'], ...known] : known}
      choose={(option) => {
        if (option === NOT_SAID) edits.remove(words, path);
        else edits.set(words, path, option);
      }}
    />
  );
}

/** Yes and no, and where it may be left open, the third. */
function SwitchControl({ path, field, value, label }: FieldProps): JSX.Element {
  const edits = useRecordEdits();
  const { words, spoken } = useLabels({ field, label });
  const known = [
    ['yes', 'Yes'],
    ['no', 'No'],
  ] as const;
  return (
    <Choice<'yes' | 'no' | ''>
      label={spoken}
      value={value === true ? 'yes' : value === false ? 'no' : NOT_SAID}
      options={field.optional || value === undefined ? [[NOT_SAID, 'Not said'], ...known] : known}
      choose={(option) => {
        if (option === NOT_SAID) edits.remove(words, path);
        else edits.set(words, path, option === 'yes');
      }}
    />
  );
}

function TextControl({ boat, path, field, value, label, long }: FieldProps & { readonly long: boolean }): JSX.Element {
  const edits = useRecordEdits();
  const { words, spoken } = useLabels({ field, label });
  const reference = referenceAt(path);
  const text = typeof value === 'string' ? value : '';
  if (reference) {
    const choices = choicesAt(boat, path, reference);
    const isKnown = choices.some(([id]) => id === text);
    return (
      <Choice
        label={spoken}
        value={text}
        options={[
          ...(field.optional || text === '' ? [[NOT_SAID, 'Not said'] as const] : []),
          ...(isKnown || text === '' ? [] : [[text, text] as const]),
          ...choices,
        ]}
        choose={(id) => {
          if (id === NOT_SAID) edits.remove(words, path);
          else edits.set(words, path, id);
        }}
      />
    );
  }
  const clear = field.optional ? (): void => void edits.remove(words, path) : undefined;
  const commit = (entered: string): void => void edits.set(words, path, entered);
  if (long) return <LongTextField label={spoken} value={text} commit={commit} clear={clear} />;
  return (
    <TextField
      label={spoken}
      value={text}
      commit={commit}
      {...(clear ? { clear } : {})}
      judge={(entered) => refusal(field.schema, field.key, entered)}
    />
  );
}

function TextsControl({
  boat,
  path,
  field,
  value,
  count,
  label,
}: FieldProps & { readonly count: number }): JSX.Element {
  const texts = Array.isArray(value) ? value : [];
  const own = label ?? labelOfKey(field.key);
  return (
    <div className="stacked">
      {Array.from({ length: count }, (_, k) => (
        <TextControl
          // A short row of fixed places.
          key={pathText([...path, k])}
          boat={boat}
          path={[...path, k]}
          field={{ ...field, optional: false, schema: itemSchema(field.schema, k) ?? field.schema }}
          value={texts[k]}
          label={`${own}, ${k + 1}`}
          long={false}
        />
      ))}
    </div>
  );
}
