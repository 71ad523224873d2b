import { AXES } from '@core/base/vec';
import { pathText } from '@core/boat/problem';
import { itemSchema } from '@core/boat/schema-walk';
import type { JSX } from 'react';
import { LengthField } from '../fields/LengthField';
import { QuantityField } from '../fields/QuantityField';
import { figure } from '../format';
import { Choice } from '../inspector/parts';
import { useRecordEdits } from './edit';
import { type FieldProps, plainNumber, refusal, useLabels } from './field';
import { BOAT_WAY_WORDS, OWN_WAY_WORDS, WAYS, type Way, wayOf } from './words';

/** A place, a direction or sizes: two or three numbers side by side. */
export function NumbersControl({ boat, path, field, value, label }: FieldProps): JSX.Element | null {
  const edits = useRecordEdits();
  const { words, spoken } = useLabels({ field, label });
  if (field.shape.type !== 'numbers') return null;
  const { of, count } = field.shape;
  const numbers = Array.isArray(value) ? value.map(Number) : [];
  const names = count === 3 ? AXES : ['first', 'second'];
  const isLength = of === 'place' || of === 'lengths';
  const set = (k: number, entered: number, typed?: string): void => void edits.set(words, [...path, k], entered, typed);
  const row = (
    <div className={count === 3 ? 'position' : 'position two'}>
      {Array.from({ length: count }, (_, k) => {
        const name = names[k] ?? String(k + 1);
        const shared = {
          label: `${name} of ${spoken.charAt(0).toLowerCase()}${spoken.slice(1)}`,
          value: numbers[k] ?? null,
        };
        return (
          <div className="axis" key={name}>
            {count === 3 ? <span className="axis-name">{name}</span> : null}
            {isLength ? (
              <LengthField
                {...shared}
                typedAs={boat.typed?.[pathText([...path, k])]}
                commit={(entered, typed) => set(k, entered, typed)}
                judge={(read) => {
                  const item = itemSchema(field.schema, k);
                  const against = read.ok && item ? refusal(item, field.key, read.value) : null;
                  return against === null ? read : { ok: false, message: against };
                }}
              />
            ) : (
              <QuantityField
                {...shared}
                unit=""
                show={(number) => figure(number, Number.isInteger(number) ? 0 : 3)}
                read={plainNumber}
                commit={(entered) => set(k, entered)}
              />
            )}
          </div>
        );
      })}
    </div>
  );
  if (of !== 'direction') return row;
  const way = wayOf(numbers);
  const wayWords = path[0] === 'parts' || path[0] === 'fixtures' ? OWN_WAY_WORDS : BOAT_WAY_WORDS;
  return (
    <div className="stacked">
      <Choice<Way | 'other'>
        label={spoken}
        value={way}
        options={(Object.keys(wayWords) as (Way | 'other')[])
          .filter((one) => one !== 'other' || way === 'other')
          .map((one) => [one, wayWords[one]] as const)}
        choose={(one) => {
          if (one !== 'other') edits.set(words, path, WAYS[one]);
        }}
      />
      {way === 'other' ? row : null}
    </div>
  );
}
