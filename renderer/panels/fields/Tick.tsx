import type { JSX } from 'react';

/** One switch with its words beside it. */
export function Tick({
  label,
  words = label,
  checked,
  turn,
}: {
  /** What a screen reader says: names the thing, too. */
  readonly label: string;
  readonly words?: string;
  readonly checked: boolean;
  turn(on: boolean): void;
}): JSX.Element {
  return (
    <label className="tick">
      <input type="checkbox" aria-label={label} checked={checked} onChange={(event) => turn(event.target.checked)} />
      {words}
    </label>
  );
}
