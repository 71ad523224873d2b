import { viewOver, wish } from '@core/engine/run-stages';
import { sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import { type BendBound, BOUND_STEPS, lengthBound } from '@core/runs/routing/bound/bound';
import { routeLine } from '@core/runs/routing/route';
import type { Effort, Routed, RoutingLine, RoutingView } from '@core/runs/routing/types';
import { radiusOf, suiteScene } from '../support/suite-scene';
import { boatOf } from './judged';
import { NEAR, quantile, RADIUS_CLASSES } from './suite-table';

/**
 * Why a run with no other line aboard costs more than its certified bound, found by solving it again with one thing after the other
 * taken away, in this order:
 *
 * steps: the bound had not closed, and with many more steps it is near. effort: a deep search comes near. things, hull, walls: without
 * them the run comes near the bound that knows of none of them; what is left is what a bent hose keeps clear of them.
 * sequence: in the empty boat the run passes other panels than the bound does. legs: the same panels, with a leg shorter than four radii,
 * where the bound is known to be loose. bends: the same panels and long legs.
 */
export const CAUSES = ['steps', 'effort', 'things', 'hull', 'walls', 'sequence', 'legs', 'bends'] as const;
export type GapCause = (typeof CAUSES)[number];

export interface LineGap {
  readonly seed: number;
  readonly line: string;
  readonly radiusMm: number;
  /** Cost over bound, minus 1. */
  readonly gap: number;
  /** Null where the gap is small. */
  readonly cause: GapCause | null;
  /** Bound over cost, where there should be none. */
  readonly isAbove: boolean;
}

const MANY_STEPS = 8 * BOUND_STEPS.deep;
const SHORT_LEG_RADII = 4;

export function gapOf(
  line: RoutingLine,
  view: RoutingView,
  effort: Effort,
): Omit<LineGap, 'seed' | 'line' | 'radiusMm'> | null {
  const run = routeLine(view, line, effort);
  if (run.status !== 'routed') return null;
  const bound = lengthBound(line, view, BOUND_STEPS.deep);
  const gap = run.costM / bound.costM - 1;
  return { gap, isAbove: gap < 0, cause: gap > NEAR ? causeOf(line, view, run, bound, effort) : null };
}

function causeOf(line: RoutingLine, view: RoutingView, run: Routed, bound: BendBound, effort: Effort): GapCause {
  const isNear = (one: ReturnType<typeof routeLine>, costM: number): boolean =>
    one.status === 'routed' && one.costM <= (1 + NEAR) * costM;
  if (!bound.closed && isNear(run, lengthBound(line, view, MANY_STEPS).costM)) return 'steps';
  if (effort === 'fast' && isNear(routeLine(view, line, 'deep'), bound.costM)) return 'effort';
  const bare: RoutingView = { ...view, thingsIn: () => [] };
  const free = lengthBound(line, bare, BOUND_STEPS.deep);
  if (isNear(routeLine(bare, line, 'deep'), free.costM)) return 'things';
  const open: RoutingView = { ...bare, hull: null };
  if (isNear(routeLine(open, line, 'deep'), free.costM)) return 'hull';
  const empty = routeLine({ ...open, layout: { ...view.layout, walls: [] } }, line, 'deep');
  if (isNear(empty, free.costM)) return 'walls';
  if (empty.status !== 'routed' || !samePanels(empty, free, view)) return 'sequence';
  return shortestLeg(line, free) < SHORT_LEG_RADII * line.bendRadiusM ? 'legs' : 'bends';
}

/** Whether the run passes the holes and drilled panels of the bound's cheapest sequence. */
function samePanels({ crossings }: Routed, { suggestions }: BendBound, { layout }: RoutingView): boolean {
  const panels = (suggestions[0] ?? []).flatMap(({ portal, direction }) =>
    portal !== null && direction ? [layout.portals[portal]?.panelId] : [],
  );
  return crossings.map((one) => one.panelId).join(' ') === panels.join(' ');
}

function shortestLeg(line: RoutingLine, { suggestions }: BendBound): number {
  const places = [line.from.at, ...(suggestions[0] ?? []).map(({ at }) => at), line.to.at];
  return places.slice(1).reduce((least, p, k) => {
    const q = places[k] as typeof p;
    return Math.min(least, Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]));
  }, Number.POSITIVE_INFINITY);
}

/** The gaps of all lines of a scene, each alone, with preferences off. */
export function sceneGaps(seed: number, effort: Effort): LineGap[] {
  const boat = boatOf(suiteScene(seed).boat);
  const store = new Store({ ...sourceOf(boat), wishes: 'none' as const });
  const view = viewOver(
    (stage, key) => store.read(stage, key),
    () => [],
  );
  return Object.keys(boat.lines).flatMap((id) => {
    const asked = store.read(wish, id);
    const found = asked.outcome === 'line' ? gapOf({ ...asked.line, suction: false }, view, effort) : null;
    return found ? [{ seed, line: id, radiusMm: radiusOf(boat.lines[id]?.kind ?? ''), ...found }] : [];
  });
}

/** Gaps and their causes by radius class; shares are of 1. */
export function gapTable(gaps: readonly LineGap[]) {
  return RADIUS_CLASSES.map(([radiusMm, isIn]) => {
    const some = gaps.filter((one) => isIn(one.radiusMm));
    const sizes = some.map(({ gap }) => gap);
    const causes: Partial<Record<GapCause, number>> = {};
    for (const { cause } of some) if (cause) causes[cause] = (causes[cause] ?? 0) + 1;
    return {
      radiusMm,
      lines: some.length,
      median: quantile(sizes, 0.5),
      p90: quantile(sizes, 0.9),
      near: sizes.filter((gap) => gap <= NEAR).length / Math.max(1, sizes.length),
      causes,
    };
  });
}
