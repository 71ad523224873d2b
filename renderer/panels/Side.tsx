import type { Boat } from '@core/boat/schema/boat';
import { type JSX, lazy, Suspense, useEffect, useRef } from 'react';
import { FairnessPanel } from '../sections/FairnessPanel';
import { HullsPanel } from '../sections/HullsPanel';
import { useApp } from '../store/app';
import { usePlacing } from '../store/placing';
import { useService } from '../store/service';
import type { Selection, Stage } from '../store/types';
import { FileNotes } from './FileNotes';
import { Findings } from './findings/Findings';
import { Inspector } from './inspector/Inspector';
import { MeasureNext, MeasureNextHint } from './measure-next/MeasureNext';
import { SampleNote } from './SampleNote';
import { AddLine } from './stages/AddLine';
import { AddThing } from './stages/AddThing';
import { HullStage } from './stages/HullStage';
import { SheetsStage } from './stages/SheetsStage';
import { CompartmentsOverview, EquipmentOverview, RunsOverview } from './stages/StageOverview';
import { WhichHole } from './stages/WhichHole';
import { SurveyPanel } from './survey/SurveyPanel';

const Placing = lazy(() => import('./placing/Placing').then((panel) => ({ default: panel.Placing })));

const ServiceOverview = lazy(() =>
  import('./service/ServiceOverview').then((panel) => ({ default: panel.ServiceOverview })),
);
const TaskPanel = lazy(() => import('./service/TaskPanel').then((panel) => ({ default: panel.TaskPanel })));

/** One column: what is selected, else what the stage is about; the findings below. In Checks the findings come first. */
export function Side(): JSX.Element {
  const boat = useApp((state) => state.boat);
  const stage = useApp((state) => state.stage);
  const selection = useApp((state) => state.selection);
  const isPlacing = usePlacing((state) => state.parts.length > 0);
  const rehearsed = useService((state) => state.chosen);
  const column = useRef<HTMLElement>(null);
  // What was picked stands at the top; a finding brings itself into view.
  const picked = selection === null ? '' : `${selection.kind} ${selection.id}`;
  const subject = rehearsed ?? (selection?.kind === 'finding' ? null : `${stage} ${picked}`);
  useEffect(() => {
    if (subject !== null) column.current?.scrollTo?.({ top: 0 });
  }, [subject]);
  if (!boat) return <aside className="side" aria-label="Inspector" />;
  if (rehearsed !== null) {
    return (
      <aside className="side" aria-label="Service task" ref={column}>
        <Suspense fallback={null}>
          <TaskPanel boat={boat} />
        </Suspense>
      </aside>
    );
  }
  if (isPlacing)
    return (
      <aside className="side placing" aria-label="Where can it go?" ref={column}>
        <Suspense fallback={<p className="quiet">Being opened.</p>}>
          <Placing />
        </Suspense>
      </aside>
    );
  if (stage === 'checks') {
    return (
      <aside className="side" aria-label="Findings" ref={column}>
        <SampleNote />
        <FileNotes />
        <MeasureNext boat={boat} />
        <WhichHole boat={boat} />
        <Suspense fallback={null}>
          <ServiceOverview boat={boat} />
        </Suspense>
        <Findings whole />
      </aside>
    );
  }
  return (
    <aside className="side" aria-label="Inspector" ref={column}>
      {inspected(selection) ? null : <SampleNote />}
      {stage === 'sheets' ? <SheetsStage boat={boat} /> : null}
      <Inspector />
      {inspected(selection) ? null : <FileNotes />}
      {stage === 'hull' ? <FairnessPanel boat={boat} /> : null}
      {stage === 'hull' ? <HullStage boat={boat} /> : inspected(selection) ? null : overviewOf(stage, boat)}
      {stage === 'hull' ? <HullsPanel boat={boat} /> : null}
      {stage === 'sheets' ? null : (
        <>
          <MeasureNextHint />
          <Findings />
        </>
      )}
    </aside>
  );
}

const inspected = (selection: Selection | null): boolean => selection !== null;

function overviewOf(stage: Stage, boat: Boat): JSX.Element | null {
  const hasSurvey = Object.keys(boat.survey?.readings ?? {}).length > 0;
  switch (stage) {
    case 'equipment':
      return (
        <>
          <EquipmentOverview boat={boat} />
          <AddThing />
        </>
      );
    case 'runs':
      return (
        <>
          <RunsOverview />
          <AddLine boat={boat} />
        </>
      );
    case 'compartments':
      return (
        <>
          {hasSurvey ? <SurveyPanel boat={boat} /> : null}
          <CompartmentsOverview boat={boat} />
          {hasSurvey ? null : <SurveyPanel boat={boat} />}
        </>
      );
    default:
      return null;
  }
}
