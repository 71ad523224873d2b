import type { JSX } from 'react';
import { ICONS } from '../../app/icons';

/** The small cross at the end of a row: takes what the label names out of the boat or the list. */
export function RemoveButton({
  label,
  disabled = false,
  remove,
}: {
  readonly label: string;
  readonly disabled?: boolean;
  remove(): void;
}): JSX.Element {
  return (
    <button
      type="button"
      className="icon-button small"
      aria-label={label}
      title={label}
      disabled={disabled}
      onClick={remove}
    >
      {ICONS.close}
    </button>
  );
}
