import type { Vec3 } from '@core/base/vec';
import { lineKindOf } from '@core/boat/catalogue/line-kinds';
import { poseOf } from '@core/boat/edits';
import type { Boat } from '@core/boat/schema/boat';
import { boatSchema } from '@core/boat/schema/boat';
import { routingLine } from '@core/engine/routing-line';
import { runCapsules } from '@core/runs/routing/capsules';
import { rankLines, routeLine } from '@core/runs/routing/route';
import type { Effort, Routed, RoutingLine, RoutingView, RunOutcome } from '@core/runs/routing/types';
import { NO_WISHES } from '@core/runs/routing/wishes/wishes';
import { ribsBeyondLining, withinRibs } from '@core/shape/hull/ribs';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Layout } from '@core/shape/layout/types';
import type { CapsuleSolid, Solid } from '@core/shape/space/solids';
import { cellsTouching, thingSolids } from '@core/shape/space/things';

/** A boat as the router sees it, without the engine: layout, hull, solids by cell and lines in rank order. */
export interface RoutedWorld {
  readonly boat: Boat;
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly lines: readonly RoutingLine[];
  viewOf(runs: ReadonlyMap<number, readonly CapsuleSolid[]>): RoutingView;
}

export function worldOf(draft: unknown): RoutedWorld {
  const boat = boatSchema.parse(draft);
  const arrangementId = boat.currentArrangement ?? Object.keys(boat.arrangements).sort()[0] ?? null;
  const arrangement = arrangementId === null ? undefined : boat.arrangements[arrangementId];
  const layout = deriveLayout({
    compartments: boat.compartments,
    panels: boat.panels,
    newHoles: arrangement?.newHoles ?? {},
    newHoleCostM: 0.3,
  });
  const skin = boat.hull ? hullSurface(boat.hull) : null;
  const hull = skin && boat.hull ? withinRibs(skin, ribsBeyondLining(boat.hull.ribs, boat.hull.liningM)) : null;
  const things = new Map<number, Solid[]>();
  for (const id of [...Object.keys(boat.fixtures), ...Object.keys(boat.parts)].sort()) {
    const thing = boat.fixtures[id] ?? boat.parts[id];
    const pose = poseOf(boat, arrangementId, id);
    if (!thing || !pose) continue;
    for (const solid of thingSolids(id, thing, pose))
      for (const cell of cellsTouching(layout, solid, 0.06)) things.set(cell, [...(things.get(cell) ?? []), solid]);
  }
  const lines = Object.keys(boat.lines)
    .sort()
    .flatMap((id): RoutingLine[] => {
      const line = boat.lines[id] as Boat['lines'][string];
      const kind = lineKindOf(boat.lineKinds, line.kind);
      const end = (which: 'from' | 'to') => ({
        thing: (boat.fixtures[line[which].thing] ?? boat.parts[line[which].thing]) as Boat['fixtures'][string],
        pose: poseOf(boat, arrangementId, line[which].thing),
      });
      if (!kind) return [];
      const clips = Object.values(arrangement?.clipPoints[id] ?? {}).sort((a, b) => a.order - b.order);
      const wish = routingLine({
        id,
        line,
        kind,
        from: end('from'),
        to: end('to'),
        suction: line.suction ?? false,
        clipPoints: clips.map((clip): Vec3 => clip.at),
        forbiddenCompartments: arrangement?.forbidden?.[id] ?? [],
        wishes: NO_WISHES,
        others: Object.keys(boat.lines)
          .filter((other) => other !== id)
          .map((other) => ({
            clipPoints: Object.values(arrangement?.clipPoints[other] ?? {}).map((clip): Vec3 => clip.at),
            outsideM: lineKindOf(boat.lineKinds, boat.lines[other]?.kind ?? '')?.outsideM ?? 0,
          })),
      });
      return wish.outcome === 'line' ? [wish.line] : [];
    });
  const none: readonly Solid[] = [];
  return {
    boat,
    layout,
    hull: skin,
    lines: rankLines(lines),
    viewOf: (runs) => ({
      layout,
      hull,
      skin,
      up: [0, 0, 1],
      thingsIn: (cell) => things.get(cell) ?? none,
      runsIn: (cell) => runs.get(cell) ?? NO_RUNS,
    }),
  };
}
const NO_RUNS: readonly CapsuleSolid[] = [];

/** Adds a run's capsules to those that later lines see. */
function withRun(
  runs: ReadonlyMap<number, readonly CapsuleSolid[]>,
  layout: Layout,
  line: RoutingLine,
  routed: Routed,
): Map<number, readonly CapsuleSolid[]> {
  const next = new Map(runs);
  for (const capsule of runCapsules(line, routed))
    for (const cell of cellsOfCapsule(layout, capsule))
      next.set(
        cell,
        [...(next.get(cell) ?? []), capsule].sort((a, b) => (a.id < b.id ? -1 : 1)),
      );
  return next;
}

/** All lines in rank order, each seeing the runs before it. */
export function routeAll(world: RoutedWorld, effort: Effort): Map<string, RunOutcome> {
  let runs: ReadonlyMap<number, readonly CapsuleSolid[]> = new Map();
  const outcomes = new Map<string, RunOutcome>();
  for (const line of world.lines) {
    const outcome = routeLine(world.viewOf(runs), line, effort);
    outcomes.set(line.id, outcome);
    if (outcome.status === 'routed') runs = withRun(runs, world.layout, line, outcome);
  }
  return outcomes;
}

/** The part of a report that the independent judge reads. */
export const reportOf = (outcomes: ReadonlyMap<string, RunOutcome>) => ({
  arrangement: null,
  runs: [...outcomes].map(([lineId, outcome]) =>
    outcome.status === 'routed'
      ? {
          lineId,
          status: 'routed' as const,
          lengthM: outcome.lengthM,
          lowerBoundM: outcome.lowerBoundM,
          costM: outcome.costM,
          costBoundM: outcome.costBoundM,
          prims: outcome.prims,
          holes: outcome.crossings.map((one) => ({
            panelId: one.panelId,
            at: one.holeAt ?? one.at,
            diameterM: one.diameterM,
            existing: one.holeId !== null && one.newHoleId === undefined,
            ...(one.fedFrom === undefined ? {} : { fedFrom: one.fedFrom }),
            ...(one.newHoleId === undefined ? {} : { newHoleId: one.newHoleId }),
          })),
          minClearanceM: outcome.minClearanceM,
        }
      : {
          lineId,
          status: 'blocked' as const,
          lengthM: null,
          lowerBoundM: outcome.lowerBoundM,
          prims: [],
          holes: [],
          minClearanceM: null,
        },
  ),
});

/** Cells of the layout that a capsule touches by its bounds, ascending: where `runsIn` must show it. */
export function cellsOfCapsule(layout: Layout, capsule: CapsuleSolid): number[] {
  const touched: number[] = [];
  for (const cell of layout.cells) {
    let apart = false;
    for (let axis = 0; axis < 3; axis += 1) {
      const low = Math.min(capsule.from[axis] as number, capsule.to[axis] as number) - capsule.radius;
      const high = Math.max(capsule.from[axis] as number, capsule.to[axis] as number) + capsule.radius;
      if (low > (cell.high[axis] as number) || high < (cell.low[axis] as number)) apart = true;
    }
    if (!apart) touched.push(cell.index);
  }
  return touched;
}
