import { type BoatRecipe, edit as edited } from '@core/boat/edits';
import type { RunReport } from '@core/engine/report';
import { obstacleName } from '@core/output/text/names';
import { create } from 'zustand';
import { blockWords } from '../panels/run-words';
import { useApp } from './app';
import { engineNow, runsNow } from './connections';
import { markOf } from './select';

/** What became of an edit that was looked at first. */
export type Judged = 'made' | 'refused' | 'overtaken';

export interface JudgedEdit {
  readonly label: string;
  readonly line: string;
  readonly recipe: BoatRecipe;
  /** As in `edit` of the store: steps in a row become one. */
  readonly merge?: string;
  /** The line must have a run after it, also where it had none before: of edits that promise one. */
  readonly mustRoute?: boolean;
  /** Heads the words when the run cannot follow: `Clip point not set`. */
  readonly refusal: string;
  done?(judged: Judged): void;
}

/** Whether an edit is being looked at: what the drawing shows is then about to change. */
export const useJudging = create<{ readonly isJudging: boolean }>()(() => ({ isJudging: false }));

/**
 * An edit that shapes a run, made only when the line still has a run after it; a line that had none may be edited freely. What
 * stands in the way is said with its millimetres, and the boat stays as it was.
 */
export function judgedEdit({ label, line, recipe, merge, mustRoute = false, refusal, done }: JudgedEdit): void {
  const { boat, edit, report } = useApp.getState();
  const result = boat ? edited(boat, recipe) : null;
  const make = (): void => {
    const isMade = edit(label, recipe, merge);
    done?.(isMade ? 'made' : 'refused');
  };
  const hadRun = report?.runs.find(({ lineId }) => lineId === line)?.status === 'routed';
  if (!result?.ok || !(hadRun || mustRoute)) {
    make();
    return;
  }
  useJudging.setState({ isJudging: true });
  runsNow().trial(line, result.patches, (run) => {
    useJudging.setState({ isJudging: false });
    // Another edit came in between: what was tried is no longer what would be made.
    if (run === 'failed') done?.('refused');
    else if (useApp.getState().boat !== boat) done?.('overtaken');
    else if (run?.status === 'blocked') {
      engineNow().endWhatIf();
      refuse(refusal, run);
      done?.('refused');
    } else make();
  });
}

function refuse(refusal: string, run: RunReport): void {
  const { boat, displayUnits, showProblem } = useApp.getState();
  if (!boat) return;
  const mark = markOf(run.lineId, boat.lines[run.lineId] ?? null);
  const why = blockWords(run, (id) => obstacleName(boat, id), displayUnits);
  showProblem({ title: refusal, lines: [`${mark} has no run there. ${why} It stays as it was.`] });
}
