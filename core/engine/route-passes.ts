import { startSearch } from '../runs/routing/route';
import type { Effort, RoutingLine, RoutingView, RunOutcome } from '../runs/routing/types';

/**
 * What is asked of the router for one line, one pass after the other:
 *
 * 1. clear of living spaces; only when that cannot be done, through them, and then that answer counts;
 * 2. a supplied hose that turns out too short is routed again for length alone. When it does not reach, the shortest run
 *    that was found stands, so that it can be drawn and the missing length be told.
 */
function* passes(asked: RoutingLine, living: readonly string[]): Generator<RoutingLine, RunOutcome, RunOutcome> {
  const { lengthLimitM, ...free } = asked;
  const usual = yield* avoiding(free, living);
  if (lengthLimitM === undefined || usual.status === 'blocked' || usual.lengthM <= lengthLimitM) return usual;
  // Where it is proved that none reaches, none was looked for: the bound is then what to come near to.
  let limitM = lengthLimitM;
  let short = yield* avoiding(asked, living);
  if (short.status === 'blocked' && short.proved) {
    limitM = short.lowerBoundM + ROUNDING_M;
    short = yield* avoiding({ ...asked, lengthLimitM: limitM }, living);
  }
  if (short.status === 'blocked') {
    const { kind, shortByM } = short.reason;
    if (kind !== 'reach' || shortByM === null) return usual;
    // The shortest that was found shows how much is missing.
    short = yield* avoiding({ ...asked, lengthLimitM: limitM + shortByM + ROUNDING_M }, living);
  }
  return short.status === 'routed' && short.lengthM < usual.lengthM ? short : usual;
}

function* avoiding(asked: RoutingLine, living: readonly string[]): Generator<RoutingLine, RunOutcome, RunOutcome> {
  if (living.length > 0) {
    const clear = yield withoutLiving(asked, living);
    if (clear.status === 'routed') return clear;
  }
  return yield asked;
}

const ROUNDING_M = 1e-6;

const withoutLiving = (asked: RoutingLine, living: readonly string[]): RoutingLine =>
  living.length === 0
    ? asked
    : { ...asked, forbiddenCompartments: [...new Set([...asked.forbiddenCompartments, ...living])].sort() };

/** About 8 ms of searching, in the steps of a search. */
export const STEPS_A_SLICE = 2000;

/** The passes as one search that can be put down and taken up again. */
export function startPasses(
  asked: RoutingLine,
  living: readonly string[],
  view: RoutingView,
  effort: Effort,
): { step(steps: number): RunOutcome | null } {
  const wanted = passes(asked, living);
  let next = wanted.next();
  let search = next.done ? null : startSearch(view, next.value, effort);
  return {
    step(steps) {
      if (next.done) return next.value;
      const outcome = search?.step(steps) ?? null;
      if (!outcome) return null;
      next = wanted.next(outcome);
      if (next.done) return next.value;
      search = startSearch(view, next.value, effort);
      return null;
    },
  };
}

/** All passes at once. */
export function routePasses(
  asked: RoutingLine,
  living: readonly string[],
  view: RoutingView,
  effort: Effort,
): RunOutcome {
  const search = startPasses(asked, living, view, effort);
  for (;;) {
    const outcome = search.step(Number.POSITIVE_INFINITY);
    if (outcome) return outcome;
  }
}
