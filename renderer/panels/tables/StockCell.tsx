import { type StockKey, stockCounted } from '@core/boat/stock-edits';
import type { TakeoffRow } from '@core/engine/report';
import { type JSX, type MouseEvent, useEffect, useRef, useState } from 'react';
import { useApp } from '../../store/app';

const WORDS: Readonly<Record<StockKey, string>> = { have: 'There', bought: 'Bought', fitted: 'Fitted' };

/** Ticking is not picking: the row keeps what is picked. */
const notPicking = (event: MouseEvent): void => event.stopPropagation();

/** A tick for all of a row, and a count where the row is more than one piece. */
export function StockCell({
  row,
  what,
  value,
  wanted,
}: {
  readonly row: TakeoffRow;
  readonly what: StockKey;
  readonly value: number;
  /** All that the row asks for. */
  readonly wanted: number;
}): JSX.Element | null {
  const box = useRef<HTMLInputElement>(null);
  const isAll = wanted > 0 && value >= wanted;
  useEffect(() => {
    if (box.current) box.current.indeterminate = value > 0 && !isAll;
  }, [value, isAll]);
  if (wanted <= 0 && value <= 0) return null;
  const count = (amount: number): void => {
    if (amount !== value)
      useApp.getState().edit(`${WORDS[what]}, ${row.item}: ${amount}`, stockCounted(row.key, what, amount));
  };
  return (
    <span className="stock-cell">
      <input
        ref={box}
        type="checkbox"
        aria-label={`${WORDS[what]}: ${row.item}`}
        checked={isAll}
        onClick={notPicking}
        onChange={() => count(isAll ? 0 : Math.max(wanted, value))}
      />
      {wanted > 1 || row.unit === 'm' ? (
        <Count label={`${WORDS[what]}, how many: ${row.item}`} value={value} set={count} />
      ) : null}
    </span>
  );
}

function Count({
  label,
  value,
  set,
}: {
  readonly label: string;
  readonly value: number;
  set(amount: number): void;
}): JSX.Element {
  const shown = value === 0 ? '' : String(value);
  const [typed, setTyped] = useState<string | null>(null);
  const amount = typed === null ? value : amountOf(typed);
  const commit = (): void => {
    if (amount !== null) set(amount);
    setTyped(null);
  };
  return (
    <input
      className="stock-count"
      inputMode="decimal"
      aria-label={label}
      aria-invalid={amount === null}
      value={typed ?? shown}
      onClick={notPicking}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={commit}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key === 'Enter') commit();
        if (event.key === 'Escape') setTyped(null);
      }}
    />
  );
}

/** What a person types for a count: a number that is not below nothing, with a point or a comma; null: none. */
export function amountOf(typed: string): number | null {
  const text = typed.trim().replace(',', '.');
  if (text === '') return 0;
  const value = Number(text);
  return /^\d*\.?\d*$/.test(text) && Number.isFinite(value) && value <= 1e6 ? value : null;
}
