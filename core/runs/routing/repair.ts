import { segmentSegmentSquared } from '../../shape/space/segment-distance';
import type { CapsuleSolid } from '../../shape/space/solids';
import { runCapsules } from './capsules';
import { routeLine } from './route';
import type { Effort, Routed, RoutingLine, RoutingView, RunOutcome } from './types';
import { RUN_GAP_M } from './world';

export interface RepairInput {
  /** In rank order. */
  readonly ranked: readonly RoutingLine[];
  /** Outcomes of the base pass, by line. */
  readonly outcomes: ReadonlyMap<string, RunOutcome>;
  /** The boat as a line sees it with the given runs in place, whatever their rank. */
  viewOf(line: RoutingLine, runs: ReadonlyMap<string, readonly CapsuleSolid[]>): RoutingView;
  /** Lines whose runs must stay: those pinned as built. */
  readonly fixed?: ReadonlySet<string>;
  /** Defaults to routeLine. */
  readonly route?: (view: RoutingView, line: RoutingLine, effort: Effort) => RunOutcome;
  readonly effort?: Effort;
}

/** A line for which more runs than this would have to move stays blocked. */
const MOST_BLOCKERS = 4;

/**
 * Second pass over the finished base pass: each blocked line in rank order is routed as if no run were there; the runs that
 * stand in its way are taken out, it is laid, and they are routed anew in rank order. Kept only if all of them find a way.
 * Returns the outcomes that changed. Never feeds back into the base pass.
 */
export function repair(input: RepairInput): ReadonlyMap<string, RunOutcome> {
  const { ranked, viewOf, fixed, route = routeLine, effort = 'fast' } = input;
  const outcomes = new Map(input.outcomes);
  const lineOf = new Map(ranked.map((line) => [line.id, line]));
  const runs = new Map<string, readonly CapsuleSolid[]>();
  for (const line of ranked) {
    const outcome = outcomes.get(line.id);
    if (outcome?.status === 'routed') runs.set(line.id, runCapsules(line, outcome));
  }
  const changed = new Map<string, RunOutcome>();
  for (const line of ranked) {
    const outcome = outcomes.get(line.id);
    if (outcome?.status !== 'blocked' || outcome.proved) continue;
    const alone = route(viewOf(line, new Map()), line, effort);
    if (alone.status !== 'routed') continue;
    const blockers = runsInTheWay(line, alone, runs);
    if (blockers.length === 0 || blockers.length > MOST_BLOCKERS || blockers.some((id) => fixed?.has(id))) continue;
    const moved = rerouted(line, alone, blockers, runs);
    if (!moved) continue;
    for (const [id, next] of moved) {
      outcomes.set(id, next);
      changed.set(id, next);
      runs.set(id, runCapsules(lineOf.get(id) as RoutingLine, next));
    }
  }
  return changed;

  function rerouted(
    line: RoutingLine,
    alone: Routed,
    blockers: readonly string[],
    standing: ReadonlyMap<string, readonly CapsuleSolid[]>,
  ): ReadonlyMap<string, Routed> | null {
    const trial = new Map(standing);
    for (const id of blockers) trial.delete(id);
    const moved = new Map<string, Routed>([[line.id, alone]]);
    trial.set(line.id, runCapsules(line, alone));
    for (const blocker of ranked.filter(({ id }) => blockers.includes(id))) {
      const next = route(viewOf(blocker, trial), blocker, effort);
      if (next.status !== 'routed') return null;
      moved.set(blocker.id, next);
      trial.set(blocker.id, runCapsules(blocker, next));
    }
    return moved;
  }
}

/** Lines whose runs come too near to the new one, in order of their ids. */
function runsInTheWay(
  line: RoutingLine,
  routed: Routed,
  runs: ReadonlyMap<string, readonly CapsuleSolid[]>,
): readonly string[] {
  const own = runCapsules(line, routed);
  return [...runs]
    .filter(([, capsules]) => capsules.some((other) => own.some((one) => tooNear(one, other))))
    .map(([id]) => id)
    .sort();
}

function tooNear(one: CapsuleSolid, other: CapsuleSolid): boolean {
  if (one.owner.startsWith('port:') && one.owner === other.owner) return false;
  const isShared = one.owner.startsWith('hole:') && one.owner === other.owner;
  const need = one.radius + other.radius + (isShared ? 0 : RUN_GAP_M);
  return segmentSegmentSquared(...one.from, ...one.to, ...other.from, ...other.to) < need * need;
}
