import type { JSX } from 'react';
import { commandOf } from './commands';

interface Way {
  readonly command: string;
  readonly words: string;
  /** What comes of it, in a line. */
  readonly about: string;
}

/** From the least that one knows of a boat to the most. */
const DOORS: readonly Way[] = [
  {
    command: 'door-one-locker',
    words: 'One locker',
    about: 'Inside sizes of one locker and its opening. Does a part pass, fit, and can it be serviced?',
  },
  {
    command: 'door-ten-minutes',
    words: 'Ten minutes',
    about:
      'Main dimensions give a hull, an interior already divided and a set placed in it. What is guessed is marked so.',
  },
  { command: 'new-empty', words: 'Empty boat', about: 'Draw every compartment yourself.' },
];

const FILES: readonly Way[] = [
  { command: 'open', words: 'Open', about: 'A boat file. One may be dropped here too.' },
  { command: 'sample', words: 'New from sample', about: 'A finished boat to look around in.' },
];

/** Nothing is open: the ways to begin. */
export function Start(): JSX.Element {
  return (
    <div className="start">
      <h2 className="title">Begin with a boat</h2>
      <Ways label="New boat" ways={DOORS} />
      <Ways label="Boats that are there" ways={FILES} />
    </div>
  );
}

function Ways({ label, ways }: { readonly label: string; readonly ways: readonly Way[] }): JSX.Element {
  return (
    <ul className="ways" aria-label={label}>
      {ways.map(({ command, words, about }) => {
        const found = commandOf(command);
        return found === null ? null : (
          <li key={command}>
            <button type="button" className="button" aria-describedby={`way-${command}`} onClick={() => found.run()}>
              {words}
            </button>
            <span id={`way-${command}`}>{about}</span>
          </li>
        );
      })}
    </ul>
  );
}
