import { recordAdded, recordDuplicated, recordRemoved, recordRenamed } from '@core/boat/record/edits';
import { keyChoices } from '@core/boat/record/fields';
import { choicesAt, keyReferenceAt, labelOf } from '@core/boat/record/references';
import { freeRecordId, starterAt } from '@core/boat/record/starters';
import type { Boat } from '@core/boat/schema/boat';
import { id as idSchema } from '@core/boat/schema/quantities';
import { isPlain, recordValue } from '@core/boat/schema-walk';
import type { JSX } from 'react';
import type { z } from 'zod';
import { RemoveButton } from '../fields/RemoveButton';
import { TextField } from '../fields/TextField';
import { Labelled } from '../inspector/parts';
import { Disclosure } from './Disclosure';
import { type Path, Subject, useRecordEdits, useSubject } from './edit';
import { choiceWords, labelOfKey } from './words';

type RenderMember = (boat: Boat, path: Path, schema: z.core.$ZodType, value: unknown, label: string) => JSX.Element;

interface Props {
  readonly boat: Boat;
  readonly path: Path;
  readonly schema: z.core.$ZodType;
  readonly value: unknown;
  readonly renderMember: RenderMember;
  /** Shows only what holds these words. */
  readonly filter?: string;
}

/** Records by id: each opens for its fields, can be renamed, duplicated and removed; a new one begins with the least it needs. */
export function Records({ boat, path, schema, value, renderMember, filter = '' }: Props): JSX.Element | null {
  const edits = useRecordEdits();
  const subject = useSubject();
  const member = recordValue(schema);
  if (!member) return null;
  const records = isPlain(value) ? value : {};
  const keys = keysAt(boat, path, schema);
  const named = new Map(keys ?? []);
  const shown = Object.entries(records).filter(([id, record]) =>
    `${id} ${named.get(id) ?? labelOf(id, record)}`.toLowerCase().includes(filter.toLowerCase()),
  );
  const free = keys?.filter(([id]) => !Object.hasOwn(records, id)) ?? null;
  const noun = nounOf(String(path.at(-1) ?? ''));
  const add = (id: string): void => {
    const at = [...path, id];
    edits.make(`Add ${noun}`, recordAdded(path, id, starterAt(boat, at, member)));
  };
  return (
    <>
      {shown.map(([id, record]) => {
        const words = named.get(id) ?? labelOf(id, record);
        const remove = (): void => void edits.make(`Remove ${words}`, recordRemoved(path, id));
        const fields = renderMember(boat, [...path, id], member, record, words);
        if (!isPlain(record) && !Array.isArray(record))
          return (
            <Labelled key={id} label={words}>
              <div className="field-and-act">
                {fields}
                <RemoveButton label={`Remove ${words} of ${subject}`} remove={remove} />
              </div>
            </Labelled>
          );
        return (
          <Disclosure key={id} title={words} aside={words === id ? undefined : id}>
            <Subject.Provider value={`${words}, ${subject}`}>
              {keys === null ? (
                <Labelled label="Id">
                  <TextField
                    label={`Id of ${words}, ${subject}`}
                    value={id}
                    judge={(next) => idRefusal(next, id, records)}
                    commit={(next) => edits.make(`Id of ${words}`, recordRenamed(path, id, next))}
                  />
                </Labelled>
              ) : null}
              {fields}
            </Subject.Provider>
            <div className="actions">
              {keys === null ? (
                <button
                  type="button"
                  className="button plain"
                  aria-label={`Duplicate ${words} of ${subject}`}
                  onClick={() =>
                    edits.make(
                      `Duplicate ${words}`,
                      recordDuplicated(path, id, freeRecordId(records, [...path.slice(0, -1), id])),
                    )
                  }
                >
                  Duplicate
                </button>
              ) : null}
              <button
                type="button"
                className="button plain"
                aria-label={`Remove ${words} of ${subject}`}
                onClick={remove}
              >
                Remove
              </button>
            </div>
          </Disclosure>
        );
      })}
      {free === null ? (
        <div className="actions">
          <button type="button" className="button plain" onClick={() => add(freeRecordId(records, path))}>
            {`Add ${withArticle(noun)}`}
          </button>
        </div>
      ) : free.length === 0 ? null : (
        <div className="field add-value">
          <select
            aria-label={`Add ${withArticle(noun)} to ${subject}`}
            value=""
            onChange={(event) => add(event.target.value)}
          >
            <option value="">Add ...</option>
            {free.map(([id, words]) => (
              <option key={id} value={id}>
                {words}
              </option>
            ))}
          </select>
        </div>
      )}
    </>
  );
}

/** Keys that records here may have, where they are not free: ids of other records, or a few words. */
function keysAt(boat: Boat, path: Path, schema: z.core.$ZodType): readonly (readonly [string, string])[] | null {
  const reference = keyReferenceAt(path);
  if (reference) return choicesAt(boat, path, reference);
  return keyChoices(schema)?.map((option) => [option, choiceWords(option)] as const) ?? null;
}

/** What one of the records is called, where that is not their heading without its s. */
const NOUNS: Readonly<Record<string, string>> = {
  demands: 'demand',
  lineKinds: 'hose, tube or cable',
  operatingStates: 'operating state',
  passages: 'way through',
  people: 'person',
  runStates: 'state in which the set runs',
  services: 'service task',
  stowageBoxes: 'box to stow',
  suppliedLengths: 'length at hand',
  zones: 'zone',
};

const nounOf = (key: string): string => NOUNS[key] ?? labelOfKey(key).toLowerCase().replace(/s$/, '');

/** Why a record may not have that id; null where it may. */
function idRefusal(next: string, now: string, records: Readonly<Record<string, unknown>>): string | null {
  if (next !== now && Object.hasOwn(records, next)) return `${next} is taken: two records differ by their ids`;
  return idSchema.safeParse(next).success
    ? null
    : 'Letters, digits, ".", "_" and "-" only, the first a letter or digit, at most 64 of them';
}

const withArticle = (noun: string): string => `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
