import type { JSX, ReactNode } from 'react';

/** Fields of the door that belong together, under their name. */
export function Group({ title, children }: { readonly title: string; readonly children: ReactNode }): JSX.Element {
  return (
    <section className="door-group" aria-label={title}>
      <h3>{title}</h3>
      {children}
    </section>
  );
}
