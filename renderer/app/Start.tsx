import type { JSX } from 'react';
import { commandOf } from './commands';

/** Nothing is open: two ways to begin. */
export function Start(): JSX.Element {
  return (
    <div className="start">
      <h2 className="title">No boat is open</h2>
      <p>Open a boat file, drop one here, or begin with a sample boat.</p>
      <div className="choices">
        <button type="button" className="button" onClick={() => commandOf('open')?.run()}>
          Open
        </button>
        <button type="button" className="button" onClick={() => commandOf('sample')?.run()}>
          New from sample
        </button>
      </div>
    </div>
  );
}
