import { type JSX, useState } from 'react';

/** A line of text: Enter or leaving commits, Escape brings the old text back. An empty entry clears where that is allowed. */
export function TextField({
  label,
  value,
  commit,
  clear,
  placeholder,
}: {
  readonly label: string;
  readonly value: string;
  commit(text: string): void;
  readonly clear?: () => void;
  readonly placeholder?: string;
}): JSX.Element {
  // An entry counts only against the text it was typed over: after undo it gives way by itself.
  const [entry, setEntry] = useState<{ readonly text: string; readonly over: string } | null>(null);
  const typed = entry?.over === value ? entry.text : null;
  const finish = (): void => {
    if (typed === null) return;
    const text = typed.trim();
    setEntry(null);
    if (text === '') clear?.();
    else if (text !== value) commit(text);
  };
  return (
    <div className="field">
      <input
        aria-label={label}
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
  );
}
