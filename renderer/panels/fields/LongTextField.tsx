import { type JSX, useState } from 'react';

/** Some lines of text: leaving commits, Escape brings the old text back. An empty entry clears where that is allowed. */
export function LongTextField({
  label,
  value,
  commit,
  clear,
}: {
  readonly label: string;
  readonly value: string;
  commit(text: string): void;
  readonly clear?: (() => void) | undefined;
}): JSX.Element {
  const [entry, setEntry] = useState<{ readonly text: string; readonly over: string } | null>(null);
  const typed = entry?.over === value ? entry.text : null;
  return (
    <textarea
      className="long-text"
      aria-label={label}
      rows={2}
      value={typed ?? value}
      onChange={(event) => setEntry({ text: event.target.value, over: value })}
      onBlur={() => {
        if (typed === null) return;
        setEntry(null);
        if (typed.trim() === '' && clear) clear();
        else if (typed !== value) commit(typed);
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || typed === null) return;
        event.stopPropagation();
        setEntry(null);
      }}
    />
  );
}
