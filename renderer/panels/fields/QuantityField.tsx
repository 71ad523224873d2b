import { type JSX, type KeyboardEvent, useId, useState } from 'react';
import { whileTyped } from '../../store/typed';

export type Read = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string };

export interface QuantityFieldProps {
  /** Said by a screen reader; shown only where `visibleLabel` is set by the caller around the field. */
  readonly label: string;
  /** SI; null shows an empty field. */
  readonly value: number | null;
  readonly unit: string;
  /** The value without its unit, as shown. */
  show(value: number): string;
  /** What was typed, in any unit that the entry understands. */
  read(typed: string): Read;
  /** Called once, with the value and what was typed. */
  commit(value: number, typed: string): void;
  /** For optional values: an empty field takes the value away. */
  clear?: (() => void) | undefined;
  /** Steps of the up and down keys, with and without shift; without it the keys do nothing. */
  readonly steps?: readonly [number, number] | undefined;
  readonly placeholder?: string | undefined;
  readonly stale?: boolean | undefined;
  readonly id?: string | undefined;
  /** What was typed for the present value, where that says more than the value. */
  readonly typedAs?: string | undefined;
}

/** A typed quantity: Enter or leaving commits, Escape brings the old value back, an unreadable entry stays with its reason. */
export function QuantityField(props: QuantityFieldProps): JSX.Element {
  const { label, value, unit, show, read, commit, clear, steps, placeholder, stale } = props;
  const shown = value === null ? '' : show(value);
  // An entry counts only against the value it was typed over: after undo or a drag it gives way by itself.
  const [entry, setEntry] = useState<{ readonly text: string; readonly over: string } | null>(null);
  const [refusal, setRefusal] = useState<{ readonly message: string; readonly over: string } | null>(null);
  const typed = entry?.over === shown ? entry.text : null;
  const message = refusal?.over === shown ? refusal.message : null;
  const errorId = useId();
  const drop = (): void => {
    setEntry(null);
    setRefusal(null);
  };

  const finish = (): void => {
    if (typed === null) return;
    const text = typed.trim();
    if (text === shown || text === '') {
      if (text === '' && value !== null && clear) clear();
      drop();
      return;
    }
    const answer = read(text);
    if (!answer.ok) {
      setRefusal({ message: answer.message, over: shown });
      return;
    }
    drop();
    whileTyped({ value: answer.value, text }, () => commit(answer.value, text));
  };

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') finish();
    else if (event.key === 'Escape' && typed !== null) {
      event.stopPropagation();
      drop();
    } else if ((event.key === 'ArrowUp' || event.key === 'ArrowDown') && steps && value !== null) {
      event.preventDefault();
      const step = event.shiftKey ? steps[1] : steps[0];
      drop();
      commit(value + (event.key === 'ArrowUp' ? step : -step), '');
    }
  };

  return (
    <div className="with-error">
      <div className={message === null ? 'field' : 'field invalid'}>
        <input
          id={props.id}
          aria-label={label}
          aria-invalid={message !== null}
          aria-describedby={message === null ? undefined : errorId}
          autoComplete="off"
          spellCheck={false}
          className={stale ? 'stale' : undefined}
          value={typed ?? shown}
          placeholder={placeholder}
          onChange={(event) => setEntry({ text: event.target.value, over: shown })}
          onFocus={(event) => event.target.select()}
          onBlur={finish}
          onKeyDown={onKeyDown}
        />
        {unit === '' ? null : <span className="unit">{unit}</span>}
      </div>
      {props.typedAs !== undefined && message === null ? <div className="typed-as">typed {props.typedAs}</div> : null}
      {message === null ? null : (
        <div className="field-error" id={errorId} role="alert">
          {message}
        </div>
      )}
    </div>
  );
}
