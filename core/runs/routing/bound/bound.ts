import type { Vec3 } from '../../../base/vec';
import type { RoutingLine, RoutingView } from '../types';
import { BranchSearch } from './branches';
import { clutterOf } from './obstacles';
import { askStretches, fieldToGoal, straightAcross } from './question';

/**
 * Certified lower bounds of a run's length and of its length plus hole costs. They look at panels, holes, radius and the
 * directions of ports and holes, and at the things in the compartments where those are given. What else is in the way only makes a
 * run longer.
 *
 * Other runs and the hull are left out, which is sound.
 */
export interface Bound {
  readonly lengthM: number;
  /** Of length plus the cost of drilled holes. */
  readonly costM: number;
  /** False with proof: no chain of panels and holes joins the two ends at this diameter. */
  readonly reachable: boolean;
}
export interface BendBound extends Bound {
  /** True when the search ended by itself; more steps would not raise the bound. */
  readonly closed: boolean;
  readonly steps: number;
  /**
   * Crossings of the sequence that the bound of length plus costs rests on, with the places that it would choose: where a
   * router that found nothing, or stuck on worse holes, may begin. Null while no sequence is complete.
   */
  readonly suggestion: readonly SuggestedCrossing[] | null;
  /** The first few complete sequences, the cheapest first. */
  readonly suggestions: readonly (readonly SuggestedCrossing[])[];
  /** The same for each stretch from clip point to clip point; a stretch that is not searched has the straight one. */
  readonly suggestionsByStretch: readonly (readonly (readonly SuggestedCrossing[])[])[];
}

export interface SuggestedCrossing {
  /** Index of the layout's portal; null for a place beside a thing. */
  readonly portal: number | null;
  readonly at: Vec3;
  /** Direction of travel, null in an open panel or between cells of one compartment. */
  readonly direction: Vec3 | null;
}

/** What the bound looks at: the layout, and the things in it where they are given. */
export type BoundView = Pick<RoutingView, 'layout'> & Partial<Pick<RoutingView, 'thingsIn'>>;

/** Steps of the bend-aware bound: each is one optimised chain, a fraction of a millisecond. */
export const BOUND_STEPS = { glance: 20, fast: 100, deep: 1500 } as const;

/** Results are lowered by a hair: rounding never lifts a bound above a run. */
const DUST = 1e-7;

/** Cheap: portal to portal distances, and the two ends with their directions as if nothing were between. */
export function plainBound(line: RoutingLine, view: Pick<RoutingView, 'layout'>): Bound {
  const parts = askStretches(line, view.layout).map((question) => {
    const direct = question.leads + straightAcross(question).value;
    if (question.adrift) return { lengthM: direct, costM: direct, reachable: true };
    const length = fieldToGoal(question, false).fromStart;
    if (!Number.isFinite(length)) return { lengthM: direct, costM: direct, reachable: false };
    const cost = fieldToGoal(question, true).fromStart;
    return {
      lengthM: Math.max(direct, question.leads + length),
      costM: Math.max(direct, question.leads + cost),
      reachable: true,
    };
  });
  return bounds(
    sumOf(parts, ({ lengthM }) => lengthM),
    sumOf(parts, ({ costM }) => costM),
    parts.every(({ reachable }) => reachable),
  );
}

/** Bend-aware: the bound after so many steps. */
export function lengthBound(line: RoutingLine, view: BoundView, steps: number): BendBound {
  return startLengthBound(line, view).step(steps);
}

/** A bound that rises with the work that is put into it, and never falls. */
export interface BoundInSlices {
  /** Up to so many more chains, for each of length and cost and for each stretch between clip points; the bound so far. */
  step(steps: number): BendBound;
}

/** A stretch of the line under search; where there is nothing to search, its bound. */
type Stretch =
  | { readonly settledM: number; readonly reachable: boolean }
  | { readonly length: BranchSearch; readonly cost: BranchSearch };

export function startLengthBound(line: RoutingLine, view: BoundView): BoundInSlices {
  const clutter = view.thingsIn ? clutterOf({ layout: view.layout, thingsIn: view.thingsIn }, line.radiusM) : null;
  const stretches = askStretches(line, view.layout).map((question): Stretch => {
    const direct = question.leads + straightAcross(question).value;
    if (question.adrift) return { settledM: direct, reachable: true };
    const field = fieldToGoal(question, false);
    if (!Number.isFinite(field.fromStart)) return { settledM: direct, reachable: false };
    const length = new BranchSearch(question, field, clutter, false, direct);
    const hasCosts = question.ways.some((way) => way.costM > 0);
    const cost = hasCosts ? new BranchSearch(question, fieldToGoal(question, true), clutter, true, direct) : length;
    return { length, cost };
  });
  return { step: (steps) => stepped(stretches, steps) };
}

function stepped(stretches: readonly Stretch[], steps: number): BendBound {
  let [lengthM, costM, taken] = [0, 0, 0];
  let [reachable, closed] = [true, true];
  for (const stretch of stretches) {
    if ('settledM' in stretch) {
      lengthM += stretch.settledM;
      costM += stretch.settledM;
      reachable &&= stretch.reachable;
      continue;
    }
    const { length, cost } = stretch;
    const isLengthDone = length.step(steps);
    const isCostDone = cost === length ? isLengthDone : cost.step(steps);
    lengthM += length.value;
    costM += Math.max(cost.value, length.value);
    closed &&= isLengthDone && isCostDone;
    taken += length.steps + (cost === length ? 0 : cost.steps);
  }
  const suggestionsByStretch = stretches.map((one) => ('cost' in one ? one.cost.ways() : [[]]));
  // Ways of single stretches are no way of the line.
  const only = stretches.length === 1 ? stretches[0] : undefined;
  const suggestions = only && 'cost' in only ? (suggestionsByStretch[0] ?? []) : [];
  return {
    ...bounds(lengthM, costM, reachable),
    closed,
    steps: taken,
    suggestion: only && 'cost' in only && only.cost.isClosed ? (suggestions[0] ?? null) : null,
    suggestions,
    suggestionsByStretch,
  };
}

const sumOf = <T>(some: readonly T[], value: (one: T) => number): number =>
  some.reduce((sum, one) => sum + value(one), 0);
const lowered = (value: number): number => Math.max(0, value * (1 - 1e-9) - DUST);
const bounds = (lengthM: number, costM: number, reachable: boolean): Bound => ({
  lengthM: lowered(lengthM),
  costM: lowered(costM),
  reachable,
});
