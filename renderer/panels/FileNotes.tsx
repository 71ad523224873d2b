import type { JSX } from 'react';
import { ICONS } from '../app/icons';
import { useApp } from '../store/app';
import { Panel } from './inspector/parts';

/** What the file holds that is not judged or not known: said beside the drawing, not over it. */
export function FileNotes(): JSX.Element | null {
  const notes = useApp((state) => state.notes);
  const name = useApp((state) => state.document.fileName);
  const dismiss = useApp((state) => state.dismissNotes);
  if (notes.length === 0) return null;
  return (
    <Panel
      title={`In ${name}`}
      level={3}
      aside={
        <button type="button" className="icon-button small" aria-label="Put the notes away" onClick={dismiss}>
          {ICONS.close}
        </button>
      }
    >
      <ul className="file-notes">
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </Panel>
  );
}
