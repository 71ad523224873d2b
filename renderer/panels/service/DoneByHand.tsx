import { findingAccepted } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import type { TaskReport } from '@core/engine/service/service-report';
import { type JSX, useState } from 'react';
import { useApp } from '../../store/app';
import { isOpen } from '../../store/findings';
import { findingOfTask } from '../../store/service';
import { useFormFocus } from '../fields/use-form-focus';

const today = (): string => new Date().toISOString().slice(0, 10);

/** Who has really done it records that, with the day: it is kept in the file as an accepted finding, and can be taken back. */
export function DoneByHand({ boat, task }: { readonly boat: Boat; readonly task: TaskReport }): JSX.Element | null {
  const key = findingOfTask(boat, task);
  const finding = useApp((state) => state.report?.findings.find((one) => one.key === key));
  const edit = useApp((state) => state.edit);
  const [isAsking, setAsking] = useState(false);
  const [on, setOn] = useState(today);
  const [how, setHow] = useState('');
  const [by, setBy] = useState('owner');
  const { first, opener } = useFormFocus(isAsking);
  if (!finding) return null;
  if (finding.accepted)
    return (
      <p>
        {`${finding.accepted.why} (${finding.accepted.by}, ${finding.accepted.on}).`}{' '}
        <button
          type="button"
          className="link"
          onClick={() => edit('Take back: done by hand', findingAccepted(key, null))}
        >
          Take back
        </button>
      </p>
    );
  if (!isOpen(finding)) return null;
  if (!isAsking)
    return (
      <div className="actions">
        <button type="button" className="button" ref={opener} onClick={() => setAsking(true)}>
          I have done it by hand
        </button>
      </div>
    );
  const isComplete = by.trim() !== '' && /^\d{4}-\d{2}-\d{2}$/.test(on);
  return (
    <form
      className="accept-form"
      aria-label="Done by hand"
      onSubmit={(event) => {
        event.preventDefault();
        const why = `Done by hand on ${on}${how.trim() === '' ? '' : `: ${how.trim()}`}`;
        if (isComplete && edit('Record: done by hand', findingAccepted(key, { by: by.trim(), why, on })))
          setAsking(false);
      }}
    >
      <div className="said-row">
        <span aria-hidden="true">How</span>
        <div className="field">
          <input
            ref={first}
            aria-label="How it was done"
            placeholder="How, where it is worth a word"
            value={how}
            onChange={(event) => setHow(event.target.value)}
          />
        </div>
      </div>
      <div className="said-row">
        <span aria-hidden="true">On</span>
        <div className="field">
          <input type="date" aria-label="Day" value={on} onChange={(event) => setOn(event.target.value)} />
        </div>
      </div>
      <div className="said-row">
        <span aria-hidden="true">By</span>
        <div className="field">
          <input aria-label="Done by" value={by} onChange={(event) => setBy(event.target.value)} />
        </div>
      </div>
      <div className="actions">
        <button type="submit" className="button" disabled={!isComplete}>
          Record it
        </button>
        <button type="button" className="button plain" onClick={() => setAsking(false)}>
          Cancel
        </button>
      </div>
    </form>
  );
}
