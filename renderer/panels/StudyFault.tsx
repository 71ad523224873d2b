import type { JSX } from 'react';

/** Says that the work on a question stopped; what was found before stays where it is. */
export function StudyFault({ study }: { readonly study: { readonly fault: string | null } }): JSX.Element | null {
  if (study.fault === null) return null;
  return (
    <p className="field-error" role="alert">
      This could not be worked out: a fault of the program. {study.fault}
    </p>
  );
}
