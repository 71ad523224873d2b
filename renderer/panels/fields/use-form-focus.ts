import { type RefObject, useEffect, useRef } from 'react';

/**
 * Focus of a form that a button opens: its first field while it is open, since letters outside a field are commands, and the button again
 * once it has been closed.
 */
export function useFormFocus(isOpen: boolean): {
  readonly first: RefObject<HTMLInputElement | null>;
  readonly opener: RefObject<HTMLButtonElement | null>;
} {
  const first = useRef<HTMLInputElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const wasOpen = useRef(false);
  useEffect(() => {
    if (isOpen) first.current?.focus();
    else if (wasOpen.current) opener.current?.focus();
    wasOpen.current = isOpen;
  }, [isOpen]);
  return { first, opener };
}
