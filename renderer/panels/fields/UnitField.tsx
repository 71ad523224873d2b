import { parseEntry } from '@core/base/entry';
import type { Quantity } from '@core/base/quantity';
import type { JSX } from 'react';
import { figure } from '../format';
import { QuantityField } from './QuantityField';

/** Any other quantity in the one unit that the trade counts it in: kilograms, seconds; reads the others too. */
export function UnitField({
  label,
  value,
  quantity,
  unit,
  decimals = 0,
  commit,
  clear,
  placeholder,
}: {
  readonly label: string;
  readonly value: number | null;
  readonly quantity: Quantity;
  readonly unit: string;
  readonly decimals?: number;
  commit(value: number): void;
  readonly clear?: () => void;
  readonly placeholder?: string;
}): JSX.Element {
  return (
    <QuantityField
      label={label}
      value={value}
      unit={unit}
      show={(kept) => figure(kept, Number.isInteger(kept) ? 0 : decimals)}
      read={(typed) => {
        const entry = parseEntry(typed.replace(/[\u00a0\u2009\u202f]/g, ''), quantity, unit);
        return entry.ok
          ? { ok: true, value: entry.value }
          : { ok: false, message: `Expected ${entry.problem.expected}` };
      }}
      commit={commit}
      clear={clear}
      placeholder={placeholder}
    />
  );
}
