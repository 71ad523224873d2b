import { type JSX, useEffect } from 'react';
import { Board } from '../board/Board';
import { Drawer } from '../panels/Drawer';
import { Side } from '../panels/Side';
import { HullArea } from '../sections/HullArea';
import { useApp } from '../store/app';
import { Dialogs } from './Dialogs';
import { listenToDrops } from './drops';
import { Guard } from './Guard';
import { listenToKeys } from './keys';
import { ProblemBanner } from './ProblemBanner';
import { Rail } from './Rail';
import { Start } from './Start';
import { TitleBlock } from './TitleBlock';
import { TopBar } from './TopBar';

export function App(): JSX.Element {
  useEffect(() => listenToKeys(window), []);
  useEffect(() => listenToDrops(window), []);
  return (
    <div className="app">
      <TopBar />
      <Rail />
      <main className="board-area" aria-label="Drawing board">
        <Guard name="The drawing board">
          <Area />
        </Guard>
        <ProblemBanner />
      </main>
      <Guard name="The side panel">
        <Side />
      </Guard>
      <Guard name="The tables">
        <Drawer />
      </Guard>
      <TitleBlock />
      <Dialogs />
      <Notice />
    </div>
  );
}

/** What is drawn on: at stage Hull the sections, else the general drawing; without a boat the ways to one. */
function Area(): JSX.Element {
  const boat = useApp((state) => state.boat);
  const stage = useApp((state) => state.stage);
  if (!boat) return <Start />;
  return stage === 'hull' ? <HullArea boat={boat} /> : <Board />;
}

/** Results of edits for whoever does not see the drawing. */
function Notice(): JSX.Element {
  const notice = useApp((state) => state.notice);
  return (
    <output className="spoken" aria-live="polite">
      {notice ?? ''}
    </output>
  );
}
