import type { JSX } from 'react';
import { setSections, useSections } from '../../../sections/store';
import { Panel } from '../../inspector/parts';

/** What the stage says before there is a hull: what it takes to begin, and where that is done. */
export function NoHull(): JSX.Element {
  const board = useSections((state) => state.board);
  return (
    <Panel title="Hull" aside="none yet">
      <p className="sub">
        Enough to begin: length, beam, draught and displacement; or half-breadths at three places along the boat; or an
        offset table; or a picture with one known length.
      </p>
      <p className="sub">Displacement, heel and freeboards come with the first two stations.</p>
      {board === 'sections' ? null : (
        <div className="actions">
          <button type="button" className="button" onClick={() => setSections({ board: 'sections', dialog: null })}>
            Ways to a hull
          </button>
        </div>
      )}
    </Panel>
  );
}
