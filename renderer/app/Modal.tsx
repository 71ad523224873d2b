import { type JSX, type ReactNode, useEffect, useRef } from 'react';

/** A modal dialog of the browser itself: it keeps the focus and gives it back. */
export function Modal({
  label,
  close,
  className,
  children,
}: {
  readonly label: string;
  close(): void;
  readonly className?: string;
  readonly children: ReactNode;
}): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    element?.showModal();
    return () => element?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      aria-label={label}
      className={className}
      onCancel={(event) => {
        event.preventDefault();
        close();
      }}
    >
      <div className="dialog-body">{children}</div>
    </dialog>
  );
}
