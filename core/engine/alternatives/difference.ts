import type { Difference } from '../../runs/alternative';
import type { Routed } from '../../runs/routing/types';
import type { RunCosts } from '../../runs/routing/wishes/wishes';
import type { Layout } from '../../shape/layout/types';
import { samplesOf } from './distinct';

/** Costs that differ by less than this, metres of hose, are the same. */
const SAME_M = 0.005;

/** What tells one run from another. */
export function differenceOf(present: Routed, run: Routed, layout: Layout): Difference {
  const panels = (one: Routed): string[] => [...new Set(one.crossings.map(({ panelId }) => panelId))];
  const rooms = (one: Routed): string[] => [...new Set(samplesOf(one).flatMap((p) => layout.compartmentAt(p) ?? []))];
  const drilled = (one: Routed): number => one.crossings.filter(({ holeId }) => holeId === null).length;
  const without = (all: readonly string[], others: readonly string[]): string[] =>
    all.filter((id) => !others.includes(id)).sort();
  return {
    longerM: run.lengthM - present.lengthM,
    moreHoles: drilled(run) - drilled(present),
    dearerM: run.costM - present.costM,
    through: without(panels(run), panels(present)),
    notThrough: without(panels(present), panels(run)),
    into: without(rooms(run), rooms(present)),
    notInto: without(rooms(present), rooms(run)),
    paidFor: paidFor(present.costs, run.costs),
  };
}

function paidFor(present: RunCosts, costs: RunCosts): keyof RunCosts | null {
  let most: keyof RunCosts | null = null;
  let by = SAME_M;
  for (const name of Object.keys(costs) as (keyof RunCosts)[]) {
    const more = Math.abs((costs[name] ?? 0) - (present[name] ?? 0));
    if (more > by) [most, by] = [name, more];
  }
  return most;
}
