import { type JSX, type ReactNode, useState } from 'react';

/** A heading that opens what stands below it; what is shut is not drawn at all, so that long files stay quick. */
export function Disclosure({
  title,
  aside,
  open: openAtFirst = false,
  children,
}: {
  readonly title: ReactNode;
  readonly aside?: ReactNode;
  readonly open?: boolean;
  readonly children: ReactNode;
}): JSX.Element {
  const [open, setOpen] = useState(openAtFirst);
  return (
    <details className="disclosure" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span>{title}</span>
        {aside === undefined ? null : <span className="aside">{aside}</span>}
      </summary>
      {open ? <div className="disclosed">{children}</div> : null}
    </details>
  );
}
