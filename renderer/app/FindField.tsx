import { type JSX, type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react';
import { useApp } from '../store/app';
import { type Found, find } from './find';
import { FIND_FIELD_ID } from './focus-fields';

/** A combobox over everything that has a name, and over every command. */
export function FindField(): JSX.Element {
  const boat = useApp((state) => state.boat);
  const arrangementId = useApp((state) => state.arrangementId);
  const [text, setText] = useState('');
  const [open, setOpen] = useState(false);
  const [at, setAt] = useState(0);
  const found = useMemo(() => find(text, boat, arrangementId), [text, boat, arrangementId]);
  const shown = open && text.trim() !== '';
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (shown) list.current?.children[at]?.scrollIntoView?.({ block: 'nearest' });
  }, [shown, at]);

  const choose = (choice: Found | undefined): void => {
    if (!choice) return;
    if (choice.why) {
      useApp.getState().notify(choice.why);
      return;
    }
    setText('');
    setOpen(false);
    choice.run();
    // Who found a thing, or gave a command that leads nowhere else, goes on with it on the drawing.
    const isStillHere = document.activeElement?.id === FIND_FIELD_ID;
    if (isStillHere || !/^(command|button) /.test(choice.id))
      document.getElementById('board-list')?.focus({ preventScroll: true });
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault();
      const step = event.key === 'ArrowDown' ? 1 : -1;
      setAt((at + step + found.length) % Math.max(1, found.length));
    } else if (event.key === 'Enter') {
      event.preventDefault();
      choose(found[at]);
    } else if (event.key === 'Escape') {
      event.stopPropagation();
      setText('');
      event.currentTarget.blur();
    }
  };

  return (
    <div className="find">
      <div className="field">
        <input
          id={FIND_FIELD_ID}
          role="combobox"
          aria-label="Find a part, command or term"
          aria-expanded={shown}
          aria-controls="find-results"
          aria-activedescendant={shown && found[at] ? `find-${at}` : undefined}
          aria-autocomplete="list"
          placeholder="Find a part, command or term"
          autoComplete="off"
          spellCheck={false}
          value={text}
          onChange={(event) => {
            setText(event.target.value);
            setAt(0);
            setOpen(true);
          }}
          onFocus={() => setOpen(true)}
          onBlur={() => setOpen(false)}
          onKeyDown={onKeyDown}
        />
        <span className="unit">Ctrl K</span>
      </div>
      {shown ? (
        <div className="find-results" id="find-results" role="listbox" aria-label="Found" ref={list}>
          {found.length === 0 ? (
            <div className="none">Nothing of that name. Look for a part, a place or a command.</div>
          ) : null}
          {found.map((choice, index) => (
            <div
              key={choice.id}
              id={`find-${index}`}
              className={choice.why ? 'option not-now' : 'option'}
              role="option"
              tabIndex={-1}
              aria-selected={index === at}
              aria-disabled={choice.why ? true : undefined}
              onMouseDown={(event) => {
                event.preventDefault();
                choose(choice);
              }}
            >
              <span className="words">
                {choice.words}
                {choice.why ? <span className="why">{choice.why}</span> : null}
              </span>
              {choice.keys === undefined ? <span className="kind">{choice.kind}</span> : <kbd>{choice.keys}</kbd>}
            </div>
          ))}
        </div>
      ) : null}
    </div>
  );
}
