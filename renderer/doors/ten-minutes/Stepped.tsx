import { type Entry, parseEntry } from '@core/base/entry';
import type { JSX } from 'react';
import { QuantityField, type Read } from '../../panels/fields/QuantityField';
import { figure, lengthFigure, lengthUnit } from '../../panels/format';
import { useApp } from '../../store/app';
import type { DisplayUnits } from '../../store/types';

/** What a number of the door is: a dimension in metres, a size in millimetres, a mass. */
export type Scale = 'metres' | 'size' | 'mass';

interface Reading {
  readonly unit: string;
  show(value: number): string;
  read(typed: string): Read;
}

const FOOT_M = 0.3048;
const POUND_KG = 0.45359237;
const STEPS: Readonly<Record<Scale, readonly [number, number]>> = {
  metres: [0.1, 0.01],
  size: [0.01, 0.001],
  mass: [100, 10],
};

/** The screen groups thousands by a thin space, which an entry may still carry. */
const ungrouped = (typed: string): string => typed.replace(/[\u00a0\u2009\u202f]/g, '');
const answer = (entry: Entry): Read =>
  entry.ok ? { ok: true, value: entry.value } : { ok: false, message: `Expected ${entry.problem.expected}` };

function readingOf(scale: Scale, units: DisplayUnits): Reading {
  const inch = units === 'inch';
  if (scale === 'mass')
    return {
      unit: inch ? 'lb' : 'kg',
      show: (value) => figure(inch ? value / POUND_KG : value),
      read: (typed) => answer(parseEntry(ungrouped(typed), 'mass', inch ? 'lb' : 'kg')),
    };
  if (scale === 'size')
    return {
      unit: lengthUnit(units),
      show: (value) => lengthFigure(value, units),
      read: (typed) => answer(parseEntry(ungrouped(typed), 'length', lengthUnit(units))),
    };
  return {
    unit: inch ? 'ft' : 'm',
    show: (value) => figure(inch ? value / FOOT_M : value, 2),
    read: (typed) => answer(parseEntry(ungrouped(typed), 'length', inch ? 'ft' : 'm')),
  };
}

interface Props {
  /** Said by a screen reader; shown too unless `short` is. */
  readonly label: string;
  readonly short?: string;
  readonly scale: Scale;
  /** Undefined: not typed; the guess is shown. */
  readonly value: number | undefined;
  readonly guess: number | undefined;
  readonly hint?: string;
  /** What is wrong with it, if anything. */
  readonly problem?: string | undefined;
  /** Undefined takes the value back to its guess. */
  set(value: number | undefined): void;
}

/** A row: name, value with unit, steps for the mouse, and whether it is typed or guessed. Emptying the field brings the guess back. */
export function Stepped({ label, short, scale, value, guess, hint, problem, set }: Props): JSX.Element {
  const units = useApp((state) => state.displayUnits);
  const { unit, show, read } = readingOf(scale, units);
  const steps = STEPS[scale];
  const shown = value ?? guess ?? null;
  const step = (direction: 1 | -1, fine: boolean): void => {
    const by = fine ? steps[1] : steps[0];
    const from = shown ?? 0;
    // On to the next whole step: a guess of 1.87 steps to 1.9, then 2.0.
    const next = direction > 0 ? Math.floor(from / by + 1e-6) + 1 : Math.ceil(from / by - 1e-6) - 1;
    set(Math.round(next * by * 1e6) / 1e6);
  };
  return (
    <div className={value === undefined ? 'door-row guessed' : 'door-row'}>
      <span className="label">
        {short ?? label}
        {hint === undefined ? null : <span className="hint">{hint}</span>}
      </span>
      <QuantityField
        label={label}
        value={shown}
        unit={unit}
        show={show}
        read={read}
        steps={steps}
        commit={(next) => set(next)}
        clear={() => set(undefined)}
      />
      <span className="steps">
        <button type="button" tabIndex={-1} aria-label={`Less: ${label}`} onClick={(event) => step(-1, event.shiftKey)}>
          {'\u2212'}
        </button>
        <button type="button" tabIndex={-1} aria-label={`More: ${label}`} onClick={(event) => step(1, event.shiftKey)}>
          +
        </button>
      </span>
      <span className="state">{value === undefined ? 'guessed' : 'typed'}</span>
      {problem === undefined ? null : (
        <div className="field-error" role="alert">
          {problem}
        </div>
      )}
    </div>
  );
}
