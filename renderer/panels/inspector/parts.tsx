import { type JSX, type ReactNode, useId } from 'react';
import { TermLabel } from '../Term';

/** Building blocks of the inspectors. */

export function Panel({
  title,
  aside,
  level = 2,
  children,
}: {
  readonly title: ReactNode;
  readonly aside?: ReactNode;
  readonly level?: 2 | 3;
  readonly children: ReactNode;
}): JSX.Element {
  const id = useId();
  const heading = typeof title === 'string' ? <TermLabel>{title}</TermLabel> : title;
  return (
    <section className="panel" aria-labelledby={id}>
      <header>
        {level === 2 ? <h2 id={id}>{heading}</h2> : <h3 id={id}>{heading}</h3>}
        {aside === undefined ? null : <span className="aside">{aside}</span>}
      </header>
      {children}
    </section>
  );
}

export function Facts({ rows }: { readonly rows: readonly (readonly [string, ReactNode] | null)[] }): JSX.Element {
  return (
    <dl className="facts">
      {rows.map((row) =>
        row === null ? null : (
          <div key={row[0]}>
            <dt>
              <TermLabel>{row[0]}</TermLabel>
            </dt>
            <dd>{row[1]}</dd>
          </div>
        ),
      )}
    </dl>
  );
}

export function Labelled({
  label,
  above = false,
  children,
}: {
  readonly label: string;
  /** The label on a line of its own: for what needs the whole width. */
  readonly above?: boolean;
  readonly children: ReactNode;
}): JSX.Element {
  return (
    <div className={above ? 'labelled above' : 'labelled'}>
      <span className="label">
        <TermLabel>{label}</TermLabel>
      </span>
      {children}
    </div>
  );
}

export function Choice<T extends string>({
  label,
  value,
  options,
  choose,
}: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  choose(value: T): void;
}): JSX.Element {
  return (
    <div className="field">
      <select
        aria-label={label}
        value={value}
        onChange={(event) => {
          const picked = options.find(([key]) => key === event.target.value);
          if (picked) choose(picked[0]);
        }}
      >
        {options.map(([key, words]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

export function Segmented<T extends string>({
  label,
  value,
  options,
  choose,
}: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  choose(value: T): void;
}): JSX.Element {
  return (
    <fieldset className="segmented" aria-label={label}>
      {options.map(([key, words]) => (
        <button key={key} type="button" aria-pressed={key === value} onClick={() => choose(key)}>
          {words}
        </button>
      ))}
    </fieldset>
  );
}

/** A name that leads to its thing, line or compartment. */
export function Link({ go, children }: { go(): void; readonly children: ReactNode }): JSX.Element {
  return (
    <button type="button" className="link" onClick={go}>
      {children}
    </button>
  );
}
