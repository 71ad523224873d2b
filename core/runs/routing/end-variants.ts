/**
 * How a line may end: an elbow is turned before it is tightened, and of two crimped ends either may lead through the holes. Each way is a
 * line of its own; the cheapest run counts.
 */
import { BOUND_STEPS, lengthBound, plainBound } from './bound/bound';
import type { Effort, Lead, Routed, RoutingLine, RoutingView, RunOutcome } from './types';

/** Ways that are routed however good the first is: of elbows two; of feeds the one with the smaller holes, at first. */
const MOST_ROUTED = 2;
const FEEDS_ONLY = 2;
/** Ways that are routed at most while none is found. */
const MOST_TRIED = 12;

interface Variant {
  readonly line: RoutingLine;
  readonly turns: readonly [number, number];
  readonly isOtherFeed: boolean;
}

/** The cheapest run over the ways to end it, by a search for one of them. */
export function* overVariants(
  view: RoutingView,
  line: RoutingLine,
  effort: Effort,
  search: (view: RoutingView, line: RoutingLine, effort: Effort) => Generator<number, RunOutcome>,
): Generator<number, RunOutcome> {
  const variants = variantsOf(line);
  if (variants.length === 1) return yield* search(view, (variants[0] as Variant).line, effort);
  const promising = variants
    .map((variant) => ({
      variant,
      costM: lengthBound(variant.line, { layout: view.layout }, BOUND_STEPS.glance).costM,
    }))
    .sort((a, b) => a.costM - b.costM)
    .slice(0, MOST_TRIED);
  const mostRouted = effort === 'fast' && variants.length === FEEDS_ONLY ? 1 : MOST_ROUTED;
  let best: Routed | null = null;
  let first: RunOutcome | null = null;
  let areProved = promising.length === variants.length;
  for (const [k, { variant, costM }] of promising.entries()) {
    if (best && (k >= mostRouted || costM >= best.costM)) break;
    const outcome = yield* search(view, variant.line, effort);
    first ??= outcome;
    if (outcome.status === 'blocked') areProved &&= outcome.proved;
    else if (!best || outcome.costM < best.costM)
      best = {
        ...outcome,
        ...(line.from.turns || line.to.turns ? { turns: variant.turns } : {}),
        ...(variant.isOtherFeed ? { isOtherFeed: true } : {}),
      };
  }
  // What is certified for one way to end it says nothing of the others.
  const { lengthM, costM } = plainBound(line, view);
  if (best) return { ...best, lowerBoundM: lengthM, costBoundM: costM };
  return { ...(first as Extract<RunOutcome, { status: 'blocked' }>), proved: areProved, lowerBoundM: lengthM };
}

function variantsOf(line: RoutingLine): readonly Variant[] {
  const variants: Variant[] = [];
  for (const [a] of (line.from.turns ?? [line.from.direction]).entries())
    for (const [b] of (line.to.turns ?? [line.to.direction]).entries())
      for (const isOtherFeed of line.otherFeed ? [false, true] : [false]) {
        const turns: [number, number] = [a, b];
        variants.push({ line: withEnds(line, turns, isOtherFeed), turns, isOtherFeed });
      }
  return variants;
}

/** The line with its ends as a run of it has them. */
export const asLaid = (
  line: RoutingLine,
  { turns, isOtherFeed }: Pick<Routed, 'turns' | 'isOtherFeed'>,
): RoutingLine => (turns || isOtherFeed ? withEnds(line, turns ?? [0, 0], isOtherFeed ?? false) : line);

function withEnds(line: RoutingLine, [a, b]: readonly [number, number], isOtherFeed: boolean): RoutingLine {
  const { otherFeed, ...rest } = line;
  return {
    ...rest,
    from: turned(line.from, a),
    to: turned(line.to, b),
    ...(otherFeed && isOtherFeed ? { feed: otherFeed, holeRadiusM: otherFeed.holeRadiusM } : {}),
  };
}

function turned(lead: Lead, turn: number): Lead {
  const { turns, ...rest } = lead;
  return turns ? { ...rest, direction: turns[turn] ?? lead.direction } : lead;
}
