import { type JSX, useState } from 'react';
import { useApp } from '../store/app';
import { copied, NOT_COPIED } from './copying';
import { scrollsByKeys } from './focus-fields';
import { keyboardMap, keyboardMapText } from './keyboard-map';
import { Modal } from './Modal';

/** Every key in one sheet, searched by words, to be kept as text. */
export function KeyboardMap({ close }: { close(): void }): JSX.Element {
  const [typed, setTyped] = useState('');
  const [isCopied, setCopied] = useState(false);
  const groups = keyboardMap(typed);
  const copy = (): void => {
    if (copied({ text: keyboardMapText() })) setCopied(true);
    else useApp.getState().showProblem(NOT_COPIED);
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
      <section className="key-groups" aria-label="Keys" ref={scrollsByKeys}>
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
      </section>
      <div className="actions">
        <button type="button" className="button plain" onClick={copy}>
          {isCopied ? 'Copied' : 'Copy as text'}
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
