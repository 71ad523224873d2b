import type { JSX, ReactNode } from 'react';
import { Modal } from '../../app/Modal';
import { useApp } from '../../store/app';
import { RemoveButton } from '../fields/RemoveButton';

/** A wide dialog: its heading, what it holds, and at the foot what was refused and what can be done. */
export function DialogFrame({
  title,
  aside,
  close,
  acts,
  problems,
  children,
}: {
  readonly title: string;
  readonly aside?: ReactNode;
  close(): void;
  readonly acts?: ReactNode;
  /** Why the last edit was not made; the boat stood behind the dialog and stands as it was. */
  readonly problems?: readonly string[];
  readonly children: ReactNode;
}): JSX.Element {
  return (
    <Modal label={title} close={close} className="data-dialog">
      <div className="data-page">
        <header>
          <h2 tabIndex={-1} ref={aside === undefined ? takesFocus : undefined}>
            {title}
          </h2>
          {aside}
          <RemoveButton label={`Close ${title.toLowerCase()}`} remove={close} />
        </header>
        {children}
        {problems === undefined || problems.length === 0 ? null : (
          <div className="data-refused" role="alert">
            {problems.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </div>
        )}
        <footer>
          {acts}
          <button type="button" className="button plain" onClick={close}>
            Close
          </button>
        </footer>
      </div>
    </Modal>
  );
}

/** The browser gives the focus to it when the dialog opens, instead of to the button that closes it. */
export const takesFocus = (element: HTMLElement | null): void => element?.setAttribute('autofocus', '');

/** Of edits of the open boat: why the last one was not made. Behind a dialog its banner would not be seen. */
export function useRefusals(): readonly string[] {
  return useApp((state) => state.problem)?.lines ?? NONE;
}
const NONE: readonly string[] = [];

/** Takes the last step back without leaving the dialog. */
export function UndoButton(): JSX.Element {
  const canUndo = useApp((state) => state.canUndo);
  const undo = useApp((state) => state.undo);
  return (
    <button type="button" className="button plain" disabled={canUndo === null} onClick={undo}>
      {canUndo === null ? 'Undo' : `Undo: ${canUndo}`}
    </button>
  );
}
