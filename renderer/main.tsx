import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/App';
import { connectDocuments } from './app/commands';
import { documentsOver } from './app/document';
import { Guard } from './app/Guard';
import { followTextSize, followTheme } from './app/theme';
import { storageOf } from './bridge/storage-of';
import { engineWorker } from './early';
import { useApp } from './store/app';
import { connectEngine, connectQuestions, connectRuns, connectStudies } from './store/connections';
import { useDrag } from './store/drag';
import { useMeasureNext } from './store/measure-next';
import { engineOver } from './worker/client';
import { onFirstUse, studiesOver } from './worker/studies/client';
import './app/styles/base.css';
import './app/styles/shell.css';
import './app/styles/panels.css';
import './app/styles/record.css';
import './app/styles/data.css';
import './app/styles/findings.css';
import './app/styles/drawer.css';
import './app/styles/drawing-strip.css';
import './app/styles/interior.css';
import './app/styles/measure-next.css';
import './app/styles/sections.css';
import './app/styles/one-locker.css';
import './app/styles/charts.css';
import './app/styles/which-hole.css';
import './app/styles/doors.css';
import './app/styles/survey.css';
import './app/styles/work.css';
import './app/styles/finder.css';
import './app/styles/terms.css';
import './app/styles/hints.css';
import './app/styles/service.css';

followTheme(window);
followTextSize(document);

const engine = engineOver(engineWorker, {
  report: (sent, report) => useApp.getState().answered(sent, report),
  rests: (sent) => useApp.getState().rests(sent),
  delta: (seq, delta) => useDrag.getState().answeredStep(seq, delta),
  progress: (ask, progress) => useMeasureNext.getState().came(ask, progress),
  answer: (ask, readings) => useMeasureNext.getState().answered(ask, readings),
  crashed: (message) =>
    useApp.getState().showProblem({
      title: 'The checks stopped: a fault of the program. The boat is safe; save it.',
      lines: [message],
    }),
});
connectEngine(engine);
connectQuestions(engine);
connectRuns(engine);
connectStudies(
  studiesOver(onFirstUse(() => new Worker(new URL('./worker/studies/worker.ts', import.meta.url), { type: 'module' }))),
);

const documents = documentsOver(storageOf(window));
connectDocuments(documents);

const root = document.getElementById('root');
if (!root) throw new Error('main: expected #root in the page, got none');
createRoot(root).render(
  <StrictMode>
    <Guard name="The window">
      <App />
    </Guard>
  </StrictMode>,
);
void documents.start();
