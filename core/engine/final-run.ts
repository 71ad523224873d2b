import { sameValue } from '../boat/schema-walk';
import { BOUND_STEPS, type Bound, plainBound, startLengthBound } from '../runs/routing/bound/bound';
import { whyImpossible } from '../runs/routing/bound/impossible';
import { runCapsules } from '../runs/routing/capsules';
import type { Blocked, BlockReason, Proof, RoutingLine, RoutingView, RunOutcome } from '../runs/routing/types';
import type { CapsuleSolid } from '../shape/space/solids';
import { LaidRun, NO_RUNS, sortedById } from './laid-run';
import { startPasses } from './route-passes';
import type { Wish } from './routing-line';
import {
  avoided,
  baseRun,
  blockedByWish,
  laidRun,
  ranked,
  rankedView,
  repaired,
  sameRun,
  viewOver,
  wish,
} from './run-stages';
import { layout } from './shape-stages';
import { deeper, effort, held, lineIds, type Source } from './source';
import { type ComputedStage, type Read, type Store, sameItems, slicedStage } from './store';

/** Certified bound of every run of a line: of its ends and the layout alone, so that it outlives most edits. */
export const bound: ComputedStage<Bound | null> = {
  id: 'bound',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    return asked.outcome === 'line' ? plainBound(asked.line, { layout: read(layout) }) : null;
  },
  same: sameValue,
};

/** One chain of the bound takes about as long as so many steps of a search. */
const STEPS_A_CHAIN = 8;

/** The bound that knows bends and what stands in the compartments: for whoever asks deeper. */
export const closeBound = slicedStage<Bound>({
  id: 'closeBound',
  start: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return { step: () => ({ lengthM: 0, costM: 0, reachable: true }) };
    const search = startLengthBound(
      asked.line,
      viewOver(read, () => NO_RUNS),
    );
    let left: number = BOUND_STEPS.deep;
    return {
      step: (steps) => {
        const chains = Math.min(left, Math.max(1, Math.round(steps / STEPS_A_CHAIN)));
        left -= chains;
        const { lengthM, costM, reachable, closed } = search.step(chains);
        return closed || left <= 0 ? { lengthM, costM, reachable } : null;
      },
    };
  },
  same: sameValue,
});

/** The run of a line after the repair, with the best bound that is known. */
const repairedRun: ComputedStage<RunOutcome> = {
  id: 'repairedRun',
  compute: (lineId, read) => {
    const outcome = read(repaired).get(lineId) ?? read(baseRun, lineId);
    return told(outcome, lineId, read(effort), read);
  },
  same: sameRun,
};

function told(outcome: RunOutcome, lineId: string, tried: Blocked['effort'], read: Read): RunOutcome {
  // A run that was found knows the plain bound already.
  const certified = outcome.status === 'blocked' || outcome.pinned ? read(bound, lineId) : null;
  const asked = read(wish, lineId);
  const bounded = proven(certified ? withBound(outcome, certified) : outcome, asked, read);
  if (bounded.status === 'routed') return bounded;
  const { reason } = bounded;
  const neededM = asked.outcome === 'line' ? neededFor(reason.kind, asked.line) : null;
  return {
    ...bounded,
    ...(bounded.proved ? { proof: proofOf(bounded, certified) } : reason.tries > 0 && tried ? { effort: tried } : {}),
    reason: neededM === null ? reason : { ...reason, neededM },
  };
}

/** Why a line can have no run, whatever other runs are there; null where that cannot be said. Asked for lines that were not found. */
const impossible: ComputedStage<BlockReason | null> = {
  id: 'impossible',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return null;
    return whyImpossible(
      asked.line,
      viewOver(read, () => NO_RUNS),
    );
  },
  same: sameValue,
};

/** A line that was not found, with the proof that there is nothing to be found, where there is one. */
function proven(outcome: RunOutcome, asked: Wish, read: Read): RunOutcome {
  if (outcome.status === 'routed' || outcome.proved || asked.outcome !== 'line') return outcome;
  const reason = read(impossible, asked.line.id);
  return reason ? { ...outcome, proved: true, reason: { ...reason, tries: outcome.reason.tries } } : outcome;
}

function withBound(outcome: RunOutcome, certified: Bound): RunOutcome {
  // A run as built may break what the bound counts on.
  if (outcome.status === 'routed' && outcome.pinned)
    return {
      ...outcome,
      lowerBoundM: Math.min(certified.lengthM, outcome.lengthM),
      costBoundM: Math.min(certified.costM, outcome.costM),
    };
  const lowerBoundM = Math.max(outcome.lowerBoundM, certified.lengthM);
  if (outcome.status === 'blocked') {
    if (outcome.proved || certified.reachable) return { ...outcome, lowerBoundM };
    // What the search ran against is not the cause.
    const { at, tries } = outcome.reason;
    return {
      ...outcome,
      lowerBoundM,
      proved: true,
      reason: { kind: 'disconnected', at, blocker: null, shortByM: null, tries },
    };
  }
  return { ...outcome, lowerBoundM, costBoundM: Math.max(outcome.costBoundM, certified.costM) };
}

function proofOf({ reason: { kind } }: Blocked, certified: Bound | null): Proof {
  if (certified && !certified.reachable) return 'noPassage';
  switch (kind) {
    case 'lead':
      return 'noRoomAtEnd';
    case 'reach':
      return 'tooFar';
    case 'notPlaced':
    case 'noSuchPort':
    case 'portOutside':
      return 'noPort';
    default:
      return 'noPassage';
  }
}

/** What would do, where it is a size that is lacking. */
function neededFor(kind: Blocked['reason']['kind'], line: RoutingLine): number | null {
  return kind === 'hole' ? 2 * Math.max(line.holeRadiusM, line.radiusM) : null;
}

/** Lines that the repair leaves blocked without proof, in the order of routing. A search with all effort has nothing deeper. */
export const unsolved: ComputedStage<readonly string[]> = {
  id: 'unsolved',
  compute: (_, read) =>
    read(effort) === 'deep'
      ? []
      : read(ranked).filter((id) => {
          const outcome = read(repairedRun, id);
          return outcome.status === 'blocked' && !outcome.proved;
        }),
  same: sameItems,
};

/** A run after the repair as other lines see it; null where there is none. */
const repairedLaid: ComputedStage<LaidRun | null> = {
  id: 'repairedLaid',
  compute: (lineId, read) => {
    if (!read(repaired).has(lineId)) return read(laidRun, lineId);
    return laidOf(lineId, read(repairedRun, lineId), read);
  },
  same: (a, b) => a === b,
};

function laidOf(lineId: string, outcome: RunOutcome, read: Read): LaidRun | null {
  const asked = read(wish, lineId);
  if (asked.outcome !== 'line' || outcome.status !== 'routed') return null;
  return new LaidRun(read(layout), runCapsules(asked.line, outcome));
}

/** Runs after the repair that touch a cell. Key: index of the cell. */
const repairedInCell: ComputedStage<readonly CapsuleSolid[]> = {
  id: 'repairedInCell',
  compute: (cell, read) => {
    const found = read(lineIds).flatMap((id) => read(repairedLaid, id)?.inCell(Number(cell)) ?? NO_RUNS);
    return found.length === 0 ? NO_RUNS : sortedById(found);
  },
  same: sameItems,
};

const deepenedLaid: ComputedStage<LaidRun | null> = {
  id: 'deepenedLaid',
  compute: (lineId, read) => laidOf(lineId, read(deepened, lineId), read),
  same: (a, b) => a === b,
};

/** What a line sees that is tried again: all other runs, and what the tries before it came to. */
function deeperView(lineId: string, read: Read): RoutingView {
  const order = read(unsolved);
  const before = order.slice(0, order.indexOf(lineId));
  return viewOver(read, (cell) => {
    const all = read(repairedInCell, String(cell));
    const found = before.flatMap((id) => read(deepenedLaid, id)?.inCell(cell) ?? NO_RUNS);
    return found.length === 0 ? all : sortedById([...all, ...found]);
  });
}

/**
 * Third pass: a line that is blocked without proof is tried again with more effort among all other runs, which stay where they
 * are. Asked for `unsolved` lines only; never feeds back into the passes before it.
 */
export const deepened = slicedStage<RunOutcome>({
  id: 'deepened',
  start: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return { step: () => blockedByWish(asked) };
    const search = startPasses(asked.line, read(avoided, lineId), deeperView(lineId, read), 'deep');
    return { step: (steps) => search.step(steps) };
  },
  same: sameRun,
});

/** The run of a line at rest. */
export const finalRun: ComputedStage<RunOutcome> = {
  id: 'finalRun',
  compute: (lineId, read) => {
    const outcome = read(repairedRun, lineId);
    if (!read(deeper)) return outcome;
    const last = read(unsolved).includes(lineId) ? told(read(deepened, lineId), lineId, 'deep', read) : outcome;
    return boundClosely(last, read(wish, lineId), read(closeBound, lineId));
  },
  same: sameRun,
};

/** With the closer bound; where that is longer than the hose that is there, no more search is needed. */
function boundClosely(outcome: RunOutcome, asked: Wish, certified: Bound): RunOutcome {
  const bounded = withBound(outcome, certified);
  const limitM = asked.outcome === 'line' ? asked.line.lengthLimitM : undefined;
  if (bounded.status === 'routed' || bounded.proved || limitM === undefined || certified.lengthM <= limitM)
    return bounded;
  const { tries } = bounded.reason;
  const at = asked.outcome === 'line' ? asked.line.to.at : null;
  return {
    ...bounded,
    proved: true,
    proof: 'tooFar',
    reason: { kind: 'reach', at, blocker: null, shortByM: certified.lengthM - limitM, tries },
  };
}

/** The runs among which a line at rest was laid. */
export function viewAtRest(lineId: string, read: Read): RoutingView {
  return read(deeper) && read(unsolved).includes(lineId) ? deeperView(lineId, read) : rankedView(lineId, read);
}

/** Runs at rest that touch a cell. Key: index of the cell. */
const atRestInCell: ComputedStage<readonly CapsuleSolid[]> = {
  id: 'atRestInCell',
  compute: (cell, read) => {
    const found = read(lineIds).flatMap((id) => read(laidAtRest, id)?.inCell(Number(cell)) ?? NO_RUNS);
    return found.length === 0 ? NO_RUNS : sortedById(found);
  },
  same: sameItems,
};

export const laidAtRest: ComputedStage<LaidRun | null> = {
  id: 'laidAtRest',
  compute: (lineId, read) => {
    const outcome = read(finalRun, lineId);
    return outcome.status === 'routed' && read(repairedRun, lineId).status === 'blocked'
      ? read(deepenedLaid, lineId)
      : read(repairedLaid, lineId);
  },
  same: (a, b) => a === b,
};

/** All that a line at rest must clear: every other run where it lies, whatever its rank. */
export const viewAmongAll = (lineId: string, read: Read): RoutingView =>
  viewOver(read, (cell) => {
    const all = read(atRestInCell, String(cell));
    const own = `${lineId}/`;
    return all.some(({ id }) => id.startsWith(own)) ? all.filter(({ id }) => !id.startsWith(own)) : all;
  });

/** The run of a line: during a drag the one that is shown, else the one at rest. */
export const run: ComputedStage<RunOutcome> = {
  id: 'run',
  compute: (lineId, read) => read(held, lineId) ?? read(finalRun, lineId),
  same: sameRun,
};

/** The base pass, a line at a step: the rest of the answer, and lines of later rank, wait for it anyway. */
export function* allRouted(store: Pick<Store<Source>, 'read'>): Generator<null, void> {
  for (const id of store.read(ranked)) {
    store.read(baseRun, id);
    yield null;
  }
}
