import { type JSX, useId, useState } from 'react';

/** A line of text: Enter or leaving commits, Escape brings the old text back. An empty entry clears where that is allowed. */
export function TextField({
  label,
  value,
  commit,
  clear,
  placeholder,
  judge = () => null,
}: {
  readonly label: string;
  readonly value: string;
  commit(text: string): void;
  readonly clear?: () => void;
  readonly placeholder?: string;
  /** What is wrong with a text; it then stays in the field with these words. */
  judge?(text: string): string | null;
}): JSX.Element {
  // An entry counts only against the text it was typed over: after undo it gives way by itself.
  const [entry, setEntry] = useState<{ readonly text: string; readonly over: string } | null>(null);
  const typed = entry?.over === value ? entry.text : null;
  const [refusal, setRefusal] = useState<{ readonly message: string; readonly over: string } | null>(null);
  const message = typed !== null && refusal?.over === typed ? refusal.message : null;
  const errorId = useId();
  const finish = (): void => {
    if (typed === null) return;
    const text = typed.trim();
    const wrong = text === '' ? null : judge(text);
    if (wrong !== null) {
      setRefusal({ message: wrong, over: typed });
      return;
    }
    setEntry(null);
    if (text === '') clear?.();
    else if (text !== value) commit(text);
  };
  return (
    <div className="with-error">
      <div className={message === null ? 'field' : 'field invalid'}>
        <input
          aria-label={label}
          aria-invalid={message !== null}
          aria-describedby={message === null ? undefined : errorId}
          autoComplete="off"
          value={typed ?? value}
          placeholder={placeholder}
          onChange={(event) => setEntry({ text: event.target.value, over: value })}
          onBlur={finish}
          onKeyDown={(event) => {
            if (event.key === 'Enter') finish();
            else if (event.key === 'Escape' && typed !== null) {
              event.stopPropagation();
              setEntry(null);
            }
          }}
        />
      </div>
      {message === null ? null : (
        <div className="field-error" id={errorId} role="alert">
          {message}
        </div>
      )}
    </div>
  );
}
