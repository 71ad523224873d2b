import { sameValue } from '../boat/schema-walk';
import { runCapsules } from '../runs/routing/capsules';
import { type Spare, spareOf } from '../runs/spare/spare';
import type { CapsuleSolid } from '../shape/space/solids';
import { finalRun, viewAmongAll } from './final-run';
import { LaidRun, NO_RUNS, sortedById } from './laid-run';
import { ranked, wish } from './run-stages';
import { layout } from './shape-stages';
import { held, heldSpare, line } from './source';
import { type ComputedStage, sameItems } from './store';

/** Supplied hoses that have a run, in the order of routing: each sees where those before it laid what they have to spare. */
const supplied: ComputedStage<readonly string[]> = {
  id: 'supplied',
  compute: (_, read) => read(ranked).filter((id) => read(line, id)?.supplied && read(finalRun, id).status === 'routed'),
  same: sameItems,
};

/** Where the length of a supplied hose goes that its run does not need; null for others. While something is dragged, what lies at rest keeps it. */
export const spare: ComputedStage<Spare | null> = {
  id: 'spare',
  compute: (lineId, read) => {
    if (read(held, lineId)) return read(heldSpare, lineId);
    const length = read(line, lineId)?.supplied;
    const asked = read(wish, lineId);
    const run = read(finalRun, lineId);
    if (!length || asked.outcome !== 'line' || run.status !== 'routed') return null;
    const order = read(supplied);
    const before = order.slice(0, order.indexOf(lineId));
    const view = viewAmongAll(lineId, read);
    const runsIn = (cell: number): readonly CapsuleSolid[] => {
      const laid = before.flatMap((id) => read(spareLaid, id)?.inCell(cell) ?? NO_RUNS);
      return laid.length === 0 ? view.runsIn(cell) : sortedById([...view.runsIn(cell), ...laid]);
    };
    return spareOf({ ...view, runsIn }, asked.line, run, length);
  },
  same: sameValue,
};

/** A hose with its spare length as others see it; null where none is laid. */
const spareLaid: ComputedStage<LaidRun | null> = {
  id: 'spareLaid',
  compute: (lineId, read) => {
    const laid = read(spare, lineId);
    const asked = read(wish, lineId);
    const run = read(finalRun, lineId);
    if (!laid || !('prims' in laid) || asked.outcome !== 'line' || run.status !== 'routed') return null;
    // Told apart from the run itself, which stays in the view.
    const capsules = runCapsules({ ...asked.line, id: `${lineId}/spare` }, { ...run, prims: laid.prims });
    return new LaidRun(read(layout), capsules);
  },
  same: (a, b) => a === b,
};
