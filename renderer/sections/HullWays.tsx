import type { JSX } from 'react';
import { setSections } from './store';

/** A boat without a hull: the ways to one, from what the owner has at hand. */
export function HullWays(): JSX.Element {
  return (
    <div className="hull-ways">
      <h2 className="title">No hull yet</h2>
      <p>Begin with what you have. Every way ends in stations that can be corrected one by one.</p>
      <ul>
        <Way
          title="Its form"
          text="What kind of boat it is, with length, beam, draught and displacement: a usual hull to begin with."
          go={() => setSections({ dialog: 'form' })}
        />
        <Way
          title="A tape, from inside"
          text="Half-breadths at a few heights, taken at three or more places. Lining and shell are added outwards."
          go={() => setSections({ dialog: 'inside' })}
        />
        <Way
          title="An offset table"
          text="Paste it or open a CSV: metres, millimetres, or feet, inches and eighths."
          go={() => setSections({ dialog: 'offsets' })}
        />
        <Way
          title="A picture"
          text="A photograph or an old drawing of the profile, the plan or a section: scale it, straighten it, click along it."
          go={() => setSections({ dialog: 'trace' })}
        />
      </ul>
    </div>
  );
}

function Way({ title, text, go }: { readonly title: string; readonly text: string; go(): void }): JSX.Element {
  return (
    <li>
      <button type="button" className="way" onClick={go}>
        <b>{title}</b>
        <span>{text}</span>
      </button>
    </li>
  );
}
