import { type JSX, type KeyboardEvent, type Ref, useState } from 'react';

/** Where a reading begins or ends: a known name is completed, a new one becomes a point. */
export function EndField({
  label,
  value,
  listId,
  commit,
  change,
  onKey,
  inputRef,
  placeholder,
}: {
  readonly label: string;
  readonly value: string;
  /** Of the datalist with all names. */
  readonly listId?: string;
  /** Left or entered with another name than before. */
  commit?(name: string): void;
  /** At each key; the value is then the caller's. */
  change?(name: string): void;
  /** Keys of the row around the field. */
  onKey?(event: KeyboardEvent): void;
  readonly inputRef?: Ref<HTMLInputElement>;
  readonly placeholder?: string;
}): JSX.Element {
  const [typed, setTyped] = useState<string | null>(null);
  const finish = (): void => {
    const name = typed?.trim() ?? '';
    setTyped(null);
    if (typed !== null && name !== '' && name !== value) commit?.(name);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    onKey?.(event);
    if (event.key === 'Enter') finish();
    else if (event.key === 'Escape' && typed !== null) {
      event.stopPropagation();
      setTyped(null);
    }
  };
  return (
    <div className="field">
      <input
        ref={inputRef}
        aria-label={label}
        list={listId}
        autoComplete="off"
        spellCheck={false}
        maxLength={120}
        placeholder={placeholder}
        value={change ? value : (typed ?? value)}
        onChange={(event) => (change ? change(event.target.value) : setTyped(event.target.value))}
        onFocus={(event) => event.target.select()}
        onBlur={finish}
        onKeyDown={onKeyDown}
      />
    </div>
  );
}
