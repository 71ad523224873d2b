import { type JSX, type ReactNode, useEffect, useRef, useState } from 'react';
import { sentence } from '../panels/words';
import { COMMANDS, documentsNow } from './commands';
import { useDialogs } from './dialogs';
import type { Sample } from './document';

/** A modal dialog of the browser itself: it keeps the focus and gives it back. */
export function Modal({
  label,
  close,
  children,
}: {
  readonly label: string;
  close(): void;
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
      onCancel={(event) => {
        event.preventDefault();
        close();
      }}
    >
      <div className="dialog-body">{children}</div>
    </dialog>
  );
}

export function Dialogs(): JSX.Element | null {
  const { question, answer, help, samples, setHelp, setSamples } = useDialogs();
  if (question && answer) {
    return (
      <Modal label={question.title} close={() => answer('cancel')}>
        <h2>{question.title}</h2>
        <p>{question.text}</p>
        <div className="actions">
          {question.choices.map((choice) => (
            <button
              key={choice.key}
              type="button"
              className={choice.main ? 'button' : 'button plain'}
              onClick={() => answer(choice.key)}
            >
              {choice.words}
            </button>
          ))}
        </div>
      </Modal>
    );
  }
  if (samples) return <Samples close={() => setSamples(false)} />;
  if (help) return <KeyboardMap close={() => setHelp(false)} />;
  return null;
}

function Samples({ close }: { close(): void }): JSX.Element {
  const [list, setList] = useState<readonly Sample[] | null>(null);
  useEffect(() => {
    let wanted = true;
    documentsNow()
      ?.samples()
      .then((found) => wanted && setList(found))
      .catch(() => wanted && setList([]));
    return () => {
      wanted = false;
    };
  }, []);
  return (
    <Modal label="New from sample" close={close}>
      <h2>New from sample</h2>
      {list === null ? <p>Reading the list.</p> : null}
      {list?.length === 0 ? <p>No sample boats are here.</p> : null}
      <ul className="sample-list">
        {list?.map((sample) => (
          <li key={sample.folder}>
            <button
              type="button"
              className="button plain"
              onClick={() => {
                close();
                void documentsNow()?.openSample(sample);
              }}
            >
              {sampleWords(sample.folder)}
              <span className="quiet">{sample.folder.split('/').slice(0, -1).join(', ')}</span>
            </button>
          </li>
        ))}
      </ul>
      <div className="actions">
        <button type="button" className="button plain" onClick={close}>
          Cancel
        </button>
      </div>
    </Modal>
  );
}

/** `Sandwort` for `complete/sandwort`. */
const sampleWords = (folder: string): string => sentence((folder.split('/').at(-1) ?? folder).replaceAll('-', ' '));

const ON_THE_DRAWING: readonly (readonly [string, string])[] = [
  ['Arrow keys', 'Move the selected thing 10 mm in the plane of the view; with Shift 1 mm'],
  ['R', 'Quarter turn in the plane of the view'],
  ['V', 'The next view takes the arrow keys'],
  ['Page down, page up', 'The next thing or run, the one before'],
  ['+, \u2212, 0', 'Closer, further, the whole boat'],
  ['Space and drag', 'Move the sheet'],
  ['Tab', 'Stages, tools, drawing, inspector, findings, tables'],
  ['Enter on a table row', 'Take the view to it'],
  ['A, K, Delete', 'On a point of a station: add one after it, make it a knuckle, remove it'],
  ['[ and ] on a point', 'The station before, the station after'],
];

function KeyboardMap({ close }: { close(): void }): JSX.Element {
  return (
    <Modal label="Keyboard map" close={close}>
      <h2>Keyboard map</h2>
      <table>
        <tbody>
          {ON_THE_DRAWING.map(([keys, words]) => (
            <tr key={keys}>
              <th scope="row">{keys}</th>
              <td>{words}</td>
            </tr>
          ))}
          {COMMANDS.filter((command) => command.keys !== undefined && command.id !== 'turn').map((command) => (
            <tr key={command.id}>
              <th scope="row">{command.keys}</th>
              <td>{command.words}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">Ctrl K</th>
            <td>Find a part, command or term</td>
          </tr>
        </tbody>
      </table>
      <div className="actions">
        <button type="button" className="button" onClick={close}>
          Close
        </button>
      </div>
    </Modal>
  );
}
