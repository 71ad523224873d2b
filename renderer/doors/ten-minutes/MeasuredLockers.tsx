import type { Problem } from '@core/boat/problem';
import { type JSX, useMemo } from 'react';
import { Choice } from '../../panels/inspector/parts';
import {
  type Drawn,
  isMeasured,
  LOCKER_FIELDS,
  type LockerAnswers,
  type LockerField,
  MOST_LOCKERS,
  useTenMinutes,
} from './answers';
import { Group } from './Group';
import { refusalOf } from './refusal';
import { Stepped } from './Stepped';

const LOCKER_WORDS: Readonly<Record<LockerField, string>> = {
  lengthM: 'Length, fore and aft',
  widthM: 'Width, from its inner face',
  heightM: 'Height',
  fromBulkheadM: 'From the main bulkhead',
};

/** Kinds of compartments that are worth a tape. */
const MEASURABLE = new Set(['locker', 'void', 'cockpitLocker', 'lazarette', 'engineSpace']);

/** Up to four lockers that were measured: each stands in the place of one that was guessed. */
export function MeasuredLockers({
  drawn,
  problems,
}: {
  readonly drawn: Drawn | null;
  readonly problems: readonly Problem[];
}): JSX.Element {
  const { answers, addLocker } = useTenMinutes();
  const { lockers } = answers;
  const options = useMemo(
    () =>
      Object.entries(drawn?.interior.compartments ?? {})
        .filter(([, { kind }]) => MEASURABLE.has(kind))
        .map(([id, { name }]) => [id, name] as const)
        .sort((a, b) => a[1].localeCompare(b[1], 'en')),
    [drawn],
  );
  const taken = new Set(lockers.map(({ compartment }) => compartment));
  const next = options.find(([id]) => !taken.has(id));
  return (
    <Group title="Measured lockers">
      {lockers.length === 0 ? (
        <p className="quiet">Up to four lockers taken with a tape stand in the place of guessed ones.</p>
      ) : null}
      {lockers.map((locker, index) => (
        <LockerRows
          key={locker.id}
          index={index}
          locker={locker}
          drawn={drawn}
          problems={problems}
          options={options.filter(([id]) => id === locker.compartment || !taken.has(id))}
        />
      ))}
      <button
        type="button"
        className="button"
        disabled={lockers.length >= MOST_LOCKERS || next === undefined}
        onClick={() => next && addLocker(next[0])}
      >
        Add a measured locker
      </button>
    </Group>
  );
}

function LockerRows({
  index,
  locker,
  drawn,
  problems,
  options,
}: {
  readonly index: number;
  readonly locker: LockerAnswers;
  readonly drawn: Drawn | null;
  readonly problems: readonly Problem[];
  readonly options: readonly (readonly [string, string])[];
}): JSX.Element {
  const { answers, setLocker, setLockerValue, removeLocker } = useTenMinutes();
  const counted = answers.lockers.slice(0, index).filter(isMeasured).length;
  const problemOf = (field: string): string | undefined => {
    const found = isMeasured(locker) ? problems.find(({ path }) => path === `lockers[${counted}].${field}`) : undefined;
    return found && refusalOf(found, field);
  };
  const room = drawn?.interior.rooms[locker.compartment];
  const bulkhead = drawn?.interior.mainBulkheadM ?? 0;
  const guess = (axis: 0 | 1 | 2): number | undefined =>
    room && Math.round((room.high[axis] - room.low[axis]) * 100) / 100;
  const guesses: Readonly<Record<LockerField, number | undefined>> = {
    lengthM: guess(0),
    widthM: guess(1),
    heightM: guess(2),
    fromBulkheadM:
      room &&
      Math.round(
        Math.max(0, (room.low[0] + room.high[0]) / 2 < bulkhead ? bulkhead - room.high[0] : room.low[0] - bulkhead) *
          100,
      ) / 100,
  };
  const mark = `Locker ${index + 1}`;
  return (
    <fieldset className="door-locker" aria-label={mark}>
      <div className="door-row name">
        <span className="label">{mark} is the</span>
        <Choice
          label={`${mark} is the`}
          value={locker.compartment}
          options={options}
          choose={(compartment) => setLocker(index, { compartment })}
        />
        <button type="button" className="button plain" onClick={() => removeLocker(index)}>
          Remove
        </button>
      </div>
      <div className="door-row name">
        <span className="label">Called aboard</span>
        <div className="field">
          <input
            aria-label={`${mark}, called aboard`}
            autoComplete="off"
            maxLength={80}
            value={locker.name}
            placeholder={options.find(([id]) => id === locker.compartment)?.[1] ?? ''}
            onChange={(event) => setLocker(index, { name: event.target.value })}
          />
        </div>
      </div>
      {LOCKER_FIELDS.map((field) => (
        <Stepped
          key={field}
          label={`${mark}: ${LOCKER_WORDS[field].toLowerCase()}`}
          short={LOCKER_WORDS[field]}
          scale="size"
          value={locker.values[field]}
          guess={guesses[field]}
          problem={problemOf(field)}
          set={(value) => setLockerValue(index, field, value)}
        />
      ))}
      {problemOf('compartment') === undefined ? null : (
        <div className="field-error" role="alert">
          {problemOf('compartment')}
        </div>
      )}
      {isMeasured(locker) ? null : <p className="quiet">Counts as measured once length, width and height are in.</p>}
    </fieldset>
  );
}
