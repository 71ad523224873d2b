import { type JSX, useState } from 'react';
import { useApp } from '../store/app';
import { keyboardMap, keyboardMapText } from './keyboard-map';
import { Modal } from './Modal';

/** Every key in one sheet, searched by words, to be kept as text. */
export function KeyboardMap({ close }: { close(): void }): JSX.Element {
  const [typed, setTyped] = useState('');
  const [copied, setCopied] = useState(false);
  const groups = keyboardMap(typed);
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(keyboardMapText());
      setCopied(true);
    } catch {
      useApp.getState().showProblem({ title: 'Not copied', lines: ['The clipboard cannot be written to here.'] });
    }
  };
  return (
    <Modal label="Keyboard map" close={close} className="keyboard-map">
      <h2>Keyboard map</h2>
      <div className="field">
        <input
          type="search"
          aria-label="Find a key or what it does"
          placeholder="Find a key or what it does"
          autoComplete="off"
          spellCheck={false}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
      </div>
      <div className="key-groups">
        {groups.length === 0 ? <p className="empty">No key of that name. Ctrl K finds every command.</p> : null}
        {groups.map(({ title, rows }) => (
          <section key={title} aria-label={title}>
            <h3>{title}</h3>
            <table>
              <tbody>
                {rows.map(({ keys, words, where }) => (
                  <tr key={`${keys} ${where}`}>
                    <th scope="row">{keys}</th>
                    <td>
                      {words}
                      {where === '' ? null : <span className="quiet"> {where}</span>}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        ))}
      </div>
      <div className="actions">
        <button type="button" className="button plain" onClick={() => void copy()}>
          {copied ? 'Copied' : 'Copy as text'}
        </button>
        <button type="button" className="button plain" onClick={() => window.print()}>
          Print
        </button>
        <button type="button" className="button" onClick={close}>
          Close
        </button>
      </div>
    </Modal>
  );
}
