import { type JSX, lazy, Suspense, useEffect } from 'react';
import { Board } from '../board/Board';
import { type Door, useDoor } from '../doors/door';
import { Drawer } from '../panels/Drawer';
import { Side } from '../panels/Side';
import { HullArea } from '../sections/HullArea';
import { useApp } from '../store/app';
import { useService } from '../store/service';
import { listenToClipboard } from './clipboard';
import { Dialogs } from './Dialogs';
import { listenToDrops } from './drops';
import { Guard } from './Guard';
import { listenToKeys } from './keys';
import { ProblemBanner } from './ProblemBanner';
import { Rail } from './Rail';
import { Start } from './Start';
import { TitleBlock } from './TitleBlock';
import { TopBar } from './TopBar';

const RehearsalBoard = lazy(() =>
  import('../board/rehearsal/RehearsalBoard').then((board) => ({ default: board.RehearsalBoard })),
);
const OneLocker = lazy(() => import('../doors/one-locker/OneLocker').then((page) => ({ default: page.OneLocker })));
const TenMinutes = lazy(() => import('../doors/ten-minutes/TenMinutes').then((page) => ({ default: page.TenMinutes })));

export function App(): JSX.Element {
  useEffect(() => listenToKeys(window), []);
  useEffect(() => listenToDrops(window), []);
  useEffect(() => listenToClipboard(window), []);
  const door = useDoor((state) => state.door);
  return (
    <div className="app">
      <TopBar />
      {door === null ? <Desk /> : <Doors door={door} />}
      <Dialogs />
      <Notice />
    </div>
  );
}

/** Tools, board, side panel, tables and title block: the boat that is open. */
function Desk(): JSX.Element {
  return (
    <>
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
    </>
  );
}

/** A page on which a boat begins, in place of the desk. Loaded when it is first opened. */
function Doors({ door }: { readonly door: NonNullable<Door> }): JSX.Element {
  return (
    <main className="door-area" aria-label="A new boat">
      <Guard name="The door">
        <Suspense fallback={<p className="quiet">Being opened.</p>}>
          {door === 'tenMinutes' ? <TenMinutes /> : <OneLocker />}
        </Suspense>
      </Guard>
      <ProblemBanner />
    </main>
  );
}

/** What is drawn on: a rehearsal while a task is chosen, at stage Hull the sections, else the general drawing; without a boat the ways to one. */
function Area(): JSX.Element {
  const boat = useApp((state) => state.boat);
  const stage = useApp((state) => state.stage);
  const rehearsed = useService((state) => state.chosen);
  if (!boat) return <Start />;
  if (rehearsed !== null)
    return (
      <Suspense fallback={null}>
        <RehearsalBoard boat={boat} />
      </Suspense>
    );
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
