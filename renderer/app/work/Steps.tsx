import type { JSX } from 'react';
import { useApp } from '../../store/app';
import { stepsOf } from '../../store/history';
import { Modal } from '../Modal';

/** Every step that undo can take back, newest first, and those that can be done again; a click goes there. */
export function Steps({ close }: { close(): void }): JSX.Element {
  const history = useApp((state) => state.history);
  const goToStep = useApp((state) => state.goToStep);
  const { steps, now } = stepsOf(history);
  return (
    <Modal label="Steps taken" close={close}>
      <h2>Steps taken</h2>
      <p>Pick a step to have the boat as it was after it. What is above it can be done again until the next edit.</p>
      <ol className="step-list" reversed>
        {steps
          .map(({ label, revision }, index) => (
            <li key={revision}>
              <button
                type="button"
                className="button plain"
                aria-current={index === now ? 'step' : undefined}
                onClick={() => goToStep(index)}
              >
                {label}
                {index === now ? <span className="quiet">now</span> : null}
                {index > now ? <span className="quiet">undone</span> : null}
              </button>
            </li>
          ))
          .reverse()}
      </ol>
      <button
        type="button"
        className="button plain"
        aria-current={now === -1 ? 'step' : undefined}
        onClick={() => goToStep(-1)}
      >
        As it was opened
      </button>
      <div className="actions">
        <button type="button" className="button" onClick={close}>
          Close
        </button>
      </div>
    </Modal>
  );
}
