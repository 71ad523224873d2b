import { type JSX, lazy, Suspense, useEffect, useState } from 'react';
import { sentence } from '../panels/words';
import { documentsNow } from './commands';
import { useDialogs } from './dialogs';
import type { Sample } from './document';
import { KeyboardMap } from './KeyboardMap';
import { Modal } from './Modal';
import { Recovery } from './work/Recovery';
import { Steps } from './work/Steps';
import { Versions } from './work/Versions';

/** Loaded when it is first wanted. */
const DataDialog = lazy(() => import('../panels/data/DataDialog').then((page) => ({ default: page.DataDialog })));

export function Dialogs(): JSX.Element | null {
  const { question, answer, help, samples, shown, setHelp, setSamples } = useDialogs();
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
  if (shown === 'recovery') return <Recovery close={closeShown} />;
  if (shown === 'versions') return <Versions close={closeShown} />;
  if (shown === 'steps') return <Steps close={closeShown} />;
  if (shown !== null)
    return (
      <Suspense fallback={null}>
        <DataDialog dialog={shown} close={closeShown} />
      </Suspense>
    );
  if (samples) return <Samples close={() => setSamples(false)} />;
  if (help) return <KeyboardMap close={() => setHelp(false)} />;
  return null;
}

const closeShown = (): void => useDialogs.getState().show(null);

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
    <Modal label="New from sample" close={close} className="samples">
      <h2>New from sample</h2>
      {list === null ? <p>Reading the list.</p> : null}
      {list?.length === 0 ? (
        <p>No sample boats are here. Begin with Ten minutes, in the menu of the boat file.</p>
      ) : null}
      {SHELVES.map(([shelf, title]) => {
        const found = (list ?? []).filter(({ folder }) => folder.startsWith(`${shelf}/`));
        return found.length === 0 ? null : (
          <section key={shelf} aria-label={title}>
            <h3>{title}</h3>
            <ul className={shelf === 'complete' ? 'sample-list' : 'sample-list many'}>
              {found.map((sample) => (
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
                  </button>
                </li>
              ))}
            </ul>
          </section>
        );
      })}
      <div className="actions">
        <button type="button" className="button plain" onClick={close}>
          Cancel
        </button>
      </div>
    </Modal>
  );
}

/** Folders of samples, and what is in each. */
const SHELVES = [
  ['complete', 'Finished boats'],
  ['minimal', 'Small ones'],
  ['faulty', 'One fault each, to see what a check says'],
] as const;

/** `Sandwort` for `complete/sandwort`. */
const sampleWords = (folder: string): string => sentence((folder.split('/').at(-1) ?? folder).replaceAll('-', ' '));
