import { type JSX, type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';

export interface MenuItem {
  readonly id: string;
  readonly words: string;
  readonly keys?: string | undefined;
  readonly disabled?: boolean;
  readonly ruled?: boolean;
  run(): void;
}

/** A button with a list of commands below it; arrows move, Escape closes and gives the focus back. */
export function Menu({
  label,
  className,
  items,
  children,
}: {
  readonly label: string;
  readonly className: string;
  readonly items: readonly MenuItem[];
  readonly children: ReactNode;
}): JSX.Element {
  const [open, setOpen] = useState(false);
  const anchor = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);

  useEffect(() => {
    if (!open) return;
    anchor.current?.querySelector<HTMLElement>('[role=menuitem]')?.focus();
    const away = (event: PointerEvent): void => {
      if (event.target instanceof Node && !anchor.current?.contains(event.target)) setOpen(false);
    };
    document.addEventListener('pointerdown', away);
    return () => document.removeEventListener('pointerdown', away);
  }, [open]);

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    const entries = [...(anchor.current?.querySelectorAll<HTMLElement>('[role=menuitem]:not(:disabled)') ?? [])];
    const now = entries.indexOf(document.activeElement as HTMLElement);
    if (event.key === 'Escape') {
      event.stopPropagation();
      event.preventDefault();
      setOpen(false);
      button.current?.focus();
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      const step = event.key === 'ArrowDown' ? 1 : -1;
      entries[(now + step + entries.length) % entries.length]?.focus();
    }
  };

  return (
    <div className="menu-anchor" ref={anchor}>
      <button
        ref={button}
        type="button"
        className={className}
        aria-label={label}
        aria-haspopup="menu"
        aria-expanded={open}
        onClick={() => setOpen(!open)}
      >
        {children}
      </button>
      {open ? (
        <div className="menu" role="menu" aria-label={label} tabIndex={-1} onKeyDown={onKeyDown}>
          {items.map((item) => (
            <div key={item.id} role="presentation">
              {item.ruled ? <hr /> : null}
              <button
                type="button"
                role="menuitem"
                tabIndex={-1}
                disabled={item.disabled ?? false}
                onClick={() => {
                  setOpen(false);
                  button.current?.focus();
                  item.run();
                }}
              >
                <span>{item.words}</span>
                {item.keys === undefined ? null : <span className="keys">{item.keys}</span>}
              </button>
            </div>
          ))}
        </div>
      ) : null}
    </div>
  );
}
