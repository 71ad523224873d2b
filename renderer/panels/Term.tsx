import { termOfKind, termOfLabel, textPieces } from '@core/output/text/term-words';
import type { Term as TermOf } from '@core/output/text/terms';
import {
  type CSSProperties,
  type FocusEvent,
  type JSX,
  type ReactNode,
  type RefObject,
  useEffect,
  useId,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import { plainWords, sentence } from './words';

/** The pointer passes over words without opening them, and may cross to what was opened, milliseconds. */
const OPENS_AFTER = 250;
const CLOSES_AFTER = 150;

/** A trade word: hover, focus, Enter or a touch opens what it means, Esc closes it. The word alone says enough to go on. */
export function Term({ of, children }: { readonly of: TermOf; readonly children: ReactNode }): JSX.Element {
  const { id, bubble, explained, button } = useExplained(of);
  return (
    <span className="term-anchor" {...explained}>
      <button ref={button} type="button" className="term" aria-describedby={id}>
        {children}
      </button>
      {bubble}
    </span>
  );
}

/** A label that is a trade word is explained; any other is left as it is. */
export function TermLabel({ children }: { readonly children: string }): ReactNode {
  const term = termOfLabel(children);
  return term === null ? children : <Term of={term}>{children}</Term>;
}

/** The kind of a part or fixture in words. */
export function KindWord({ kind }: { readonly kind: string }): ReactNode {
  const words = sentence(plainWords(kind));
  const term = termOfKind(kind);
  return term === null ? words : <Term of={term}>{words}</Term>;
}

/** Running text in which the first trade words are explained. */
export function TermText({ children }: { readonly children: string }): JSX.Element {
  return (
    <>
      {textPieces(children).map(({ words, term }) =>
        term === null ? (
          words
        ) : (
          <Term key={term.name} of={term}>
            {words}
          </Term>
        ),
      )}
    </>
  );
}

/** The heading of a column, which sorts when it is pressed: what it means comes by hover and focus. */
export function TermHeading({
  term,
  press,
  children,
}: {
  readonly term: TermOf;
  press(): void;
  readonly children: ReactNode;
}): JSX.Element {
  const { id, bubble, explained, button } = useExplained(term, true);
  return (
    <span className="term-anchor" {...explained}>
      <button ref={button} type="button" className="term" aria-describedby={id} onClick={press}>
        {children}
      </button>
      {bubble}
    </span>
  );
}

interface Explained {
  /** Of what describes it, while that is there. */
  readonly id: string | undefined;
  readonly bubble: JSX.Element | null;
  readonly button: RefObject<HTMLButtonElement | null>;
  readonly explained: {
    onMouseEnter(): void;
    onMouseLeave(): void;
    onFocus(event: FocusEvent): void;
    onBlur(): void;
    onClick(): void;
  };
}

/** `isPressed`: pressing the word does something of its own. */
function useExplained(term: TermOf, isPressed = false): Explained {
  const id = useId();
  const [isOpen, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const waiting = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const later = (open: boolean): void => {
    clearTimeout(waiting.current);
    waiting.current = setTimeout(() => setOpen(open), open ? OPENS_AFTER : CLOSES_AFTER);
  };
  const now = (open: boolean): void => {
    clearTimeout(waiting.current);
    setOpen(open);
  };
  useEffect(() => () => clearTimeout(waiting.current), []);
  useEffect(() => {
    if (!isOpen) return;
    // Before whatever else Esc would do: close the dialog that it stands in, put the selection down.
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      event.stopImmediatePropagation();
      setOpen(false);
    };
    window.addEventListener('keydown', onKeyDown, { capture: true });
    return () => window.removeEventListener('keydown', onKeyDown, { capture: true });
  }, [isOpen]);
  return {
    id: isOpen ? id : undefined,
    bubble: isOpen ? <Bubble id={id} term={term} button={button} /> : null,
    button,
    explained: {
      onMouseEnter: () => later(true),
      onMouseLeave: () => later(false),
      onFocus: ({ target }) => {
        if (target === button.current && target.matches(':focus-visible')) now(true);
      },
      onBlur: () => now(false),
      onClick: () => {
        if (!isPressed) now(true);
      },
    },
  };
}

/** In the browser's top layer: no list that scrolls cuts it off, and a dialog does not cover it. */
function Bubble({
  id,
  term,
  button,
}: {
  readonly id: string;
  readonly term: TermOf;
  readonly button: RefObject<HTMLButtonElement | null>;
}): JSX.Element {
  const bubble = useRef<HTMLSpanElement>(null);
  const [place, setPlace] = useState<CSSProperties>({});
  useLayoutEffect(() => {
    const shown = bubble.current;
    const word = button.current?.getBoundingClientRect();
    if (!shown || !word) return;
    shown.showPopover?.();
    const { width, height } = shown.getBoundingClientRect();
    const isBelow = word.bottom + height + GAP <= window.innerHeight || word.top < height + GAP;
    setPlace({
      left: Math.max(GAP, Math.min(word.left, window.innerWidth - width - GAP)),
      top: isBelow ? word.bottom : word.top - height,
    });
  }, [button]);
  return (
    <span ref={bubble} id={id} role="tooltip" className="term-bubble" popover="manual" style={place}>
      <span className="term-words">
        <b>{term.name}</b> {term.what} {term.why}
        {term.typical === '' ? null : <span className="term-typical">Typical: {term.typical}.</span>}
      </span>
    </span>
  );
}

/** From the edge of the window, pixels. */
const GAP = 6;
