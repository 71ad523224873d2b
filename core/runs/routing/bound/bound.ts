import type { Vec3 } from '../../../base/vec';
import type { RoutingLine, RoutingView } from '../types';
import { BranchSearch } from './branches';
import { clutterOf } from './obstacles';
import { ask, type Field, fieldToGoal, straightAcross } from './question';

/**
 * Certified lower bounds of a run's length and of its length plus hole costs. They look at panels, holes, radius and the
 * directions of ports and holes, and at the things in the compartments where those are given. What else is in the way only makes a
 * run longer.
 *
 * Clip points, other runs and the hull are left out, which is sound.
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
  const question = ask(line, view.layout);
  const direct = question.leads + straightAcross(question).value;
  if (question.adrift) return bounds(direct, direct, true);
  const length = fieldToGoal(question, false);
  const cost = fieldToGoal(question, true);
  const reachable = Number.isFinite(length.fromStart);
  return reachable
    ? bounds(
        Math.max(direct, question.leads + length.fromStart),
        Math.max(direct, question.leads + cost.fromStart),
        true,
      )
    : bounds(direct, direct, false);
}

/** Bend-aware: the bound after so many steps. */
export function lengthBound(line: RoutingLine, view: BoundView, steps: number): BendBound {
  return startLengthBound(line, view).step(steps);
}

/** A bound that rises with the work that is put into it, and never falls. */
export interface BoundInSlices {
  /** Up to so many more chains for each of length and cost; the bound so far. */
  step(steps: number): BendBound;
}

export function startLengthBound(line: RoutingLine, view: BoundView): BoundInSlices {
  const question = ask(line, view.layout);
  const direct = question.leads + straightAcross(question).value;
  const settled = (reachable: boolean): BoundInSlices => ({
    step: () => ({ ...bounds(direct, direct, reachable), closed: true, steps: 0, suggestion: null, suggestions: [] }),
  });
  if (question.adrift) return settled(true);
  const field = fieldToGoal(question, false);
  if (!Number.isFinite(field.fromStart)) return settled(false);
  const clutter = view.thingsIn ? clutterOf({ layout: view.layout, thingsIn: view.thingsIn }, line.radiusM) : null;
  const searchOf = (withCosts: boolean, one: Field): BranchSearch =>
    new BranchSearch(question, one, clutter, withCosts, direct);
  const length = searchOf(false, field);
  const cost = question.ways.some((way) => way.costM > 0) ? searchOf(true, fieldToGoal(question, true)) : length;
  return { step: (steps) => stepped(length, cost, steps) };
}

function stepped(length: BranchSearch, cost: BranchSearch, steps: number): BendBound {
  const isLengthDone = length.step(steps);
  const isCostDone = cost === length ? isLengthDone : cost.step(steps);
  const suggestions = cost.ways();
  return {
    ...bounds(length.value, Math.max(cost.value, length.value), true),
    closed: isLengthDone && isCostDone,
    steps: length.steps + (cost === length ? 0 : cost.steps),
    suggestion: cost.isClosed ? (suggestions[0] ?? null) : null,
    suggestions,
  };
}

const lowered = (value: number): number => Math.max(0, value * (1 - 1e-9) - DUST);
const bounds = (lengthM: number, costM: number, reachable: boolean): Bound => ({
  lengthM: lowered(lengthM),
  costM: lowered(costM),
  reachable,
});
