/**
 * What a line must pass on its way, in the order that makes the way shortest: its clip points, whose order is given, and the holes that
 * are planned for it, whichever way round.
 */
import { along, distance, scale, type Vec3 } from '../../base/vec';
import type { Panel, PanelHole } from '../../shape/layout/types';
import type { Task } from './attempt';
import { goalField } from './field';
import { couldHold, holeInPlane, holesFor, missingWidth, placesBeside, pointInHole } from './hole-room';
import { sharedOwner } from './leads';
import { type Nodes, nodesOf, stubOf } from './nodes';
import { inHoleSeen, Seats } from './seats';
import type { Stop, StretchEnd } from './stretch';
import { frameOfHole, type PortalFrame } from './structure';
import type { BlockReason, Lead } from './types';
import type { Obstacle } from './world';

/** What stands between two stretches of a way. */
export type Between = Extract<Stop, { kind: 'passage' }> | { readonly kind: 'clip'; readonly at: Vec3 };

/** An end of two stretches: where the way arrives, and where it goes on. */
export interface Mark {
  readonly arrive: StretchEnd;
  readonly depart: StretchEnd;
  /** Null at the two ends of the line. */
  readonly between: Between | null;
}

interface WaypointBlock {
  readonly reason: BlockReason;
  readonly proved: boolean;
}

/** Looks at this many sequences at most. */
const MOST_LOOKS = 20000;

/** Start, waypoints in their order and goal; or why there is no such order. */
export function marksOf(task: Task, isAllowed: (cell: number) => boolean): readonly Mark[] | WaypointBlock {
  const { world, line, ends } = task;
  const clips: Mark[] = [];
  for (const at of line.clipPoints) {
    const cell = world.view.layout.cellAt(at);
    if (cell === null) return { reason: reason('portOutside', at, null, null), proved: false };
    clips.push(atPlace({ at, cell, direction: null, exempt: never }, { kind: 'clip', at }));
  }
  const start = atPlace(
    { at: ends[0].tip, cell: ends[0].cell, direction: line.from.direction, exempt: besidePort(line.from) },
    null,
  );
  const goal = atPlace(
    { at: ends[1].tip, cell: ends[1].cell, direction: scale(line.to.direction, -1), exempt: besidePort(line.to) },
    null,
  );
  const holes: (readonly [Mark, Mark])[] = [];
  for (const panelId of world.structure.panelIds) {
    const panel = world.structure.layout.panels[panelId] as Panel;
    for (const hole of holesFor(panel, line.id)) {
      const found = throughHole(task, panel, hole);
      if ('reason' in found) return found;
      holes.push(found);
    }
  }
  if (holes.length === 0) return [start, ...clips, goal];
  const order = shortestOrder(task, start, clips, holes, goal, isAllowed);
  const first = holes[0]?.[0] as Mark;
  return order ?? { reason: reason('disconnected', first.arrive.at, null, null), proved: false };
}

const never = (): boolean => false;
const besidePort =
  (lead: Lead) =>
  (obstacle: Obstacle): boolean =>
    obstacle.kind === 'run' && obstacle.owner === sharedOwner(lead);
const atPlace = (end: StretchEnd, between: Between | null): Mark => ({ arrive: end, depart: end, between });
const reason = (kind: BlockReason['kind'], at: Vec3, blocker: string | null, shortByM: number | null): BlockReason => ({
  kind,
  at,
  blocker,
  shortByM,
  tries: 0,
});

/** A hole that must be passed, there and back. */
function throughHole(task: Task, panel: Panel, hole: PanelHole): readonly [Mark, Mark] | WaypointBlock {
  const { world, line, hose } = task;
  const index = frameOfHole(world.structure, panel, hole);
  const frame = world.structure.frames[index] as PortalFrame;
  const centre = holeInPlane(hole, frame);
  const seen = inHoleSeen(world.view, line, hole, frame);
  const wanted = scale(
    [line.from.at[0] + line.to.at[0], line.from.at[1] + line.to.at[1], line.from.at[2] + line.to.at[2]],
    0.5,
  );
  let at: Vec3 | null = null;
  for (const place of placesBeside(hole.diameterM, hose, seen)) {
    const one = pointInHole(centre, frame, place);
    if (!at || distance(one, wanted) < distance(at, wanted)) at = one;
  }
  if (!at)
    return {
      reason: reason('hole', centre, panel.id, missingWidth(hole.diameterM, hose, seen)),
      proved: !couldHold(hole, hose.holeRadiusM),
    };
  const stubM = stubOf(panel, hose);
  const passage = { frame: index, panel, hole, at, stubM, costM: 0 };
  const isBeside = (obstacle: Obstacle): boolean => obstacle.kind === 'run' && seen.runs.has(obstacle.id);
  const tip = (side: 1 | -1, direction: Vec3): StretchEnd => ({
    at: along(at, frame.n, side * stubM),
    cell: frame.portal.cells[side < 0 ? 0 : 1],
    direction,
    exempt: isBeside,
  });
  const pass = (forward: boolean): Mark => {
    const side = forward ? 1 : -1;
    const direction = scale(frame.n, side);
    return {
      arrive: tip(forward ? -1 : 1, direction),
      depart: tip(side, direction),
      between: { kind: 'passage', passage, forward },
    };
  };
  return [pass(true), pass(false)];
}

function shortestOrder(
  task: Task,
  start: Mark,
  clips: readonly Mark[],
  holes: readonly (readonly [Mark, Mark])[],
  goal: Mark,
  isAllowed: (cell: number) => boolean,
): readonly Mark[] | null {
  const ways = new RelaxedWays(task, isAllowed);
  let best: readonly Mark[] | null = null;
  let bestM = Number.POSITIVE_INFINITY;
  let looks = 0;
  const extend = (done: readonly Mark[], lengthM: number, clip: number, left: ReadonlySet<number>): void => {
    looks += 1;
    if (looks > MOST_LOOKS) return;
    const last = done.at(-1) as Mark;
    const next: { mark: Mark; hole: number; wayM: number }[] = [];
    const add = (mark: Mark, hole: number): void => {
      const wayM = ways.from(last.depart, mark);
      if (lengthM + wayM < bestM) next.push({ mark, hole, wayM });
    };
    if (clip < clips.length) add(clips[clip] as Mark, -1);
    for (const hole of left) for (const mark of holes[hole] as readonly Mark[]) add(mark, hole);
    if (next.length === 0 && clip === clips.length && left.size === 0) {
      const wayM = ways.from(last.depart, goal);
      if (lengthM + wayM < bestM) [best, bestM] = [[...done, goal], lengthM + wayM];
      return;
    }
    next.sort((a, b) => a.wayM - b.wayM);
    for (const { mark, hole, wayM } of next) {
      const rest = hole < 0 ? left : new Set([...left].filter((one) => one !== hole));
      extend([...done, mark], lengthM + wayM, hole < 0 ? clip + 1 : clip, rest);
    }
  };
  extend([start], 0, 0, new Set(holes.keys()));
  return best;
}

/** Lengths of ways by the nodes of the layout, whatever stands in the cells. */
class RelaxedWays {
  private readonly nodes: Nodes;
  private readonly fields = new Map<Mark, Float64Array>();

  constructor(
    task: Task,
    private readonly isAllowed: (cell: number) => boolean,
  ) {
    const { world, line, hose } = task;
    const nodes = nodesOf(world.view.layout, world.hull, hose);
    const shut = new Set(new Seats(world.view, line, world.structure, nodes, hose).shutNodes());
    this.nodes = { ...nodes, isFree: (node) => !shut.has(node) && nodes.isFree(node) };
  }

  from(end: StretchEnd, mark: Mark): number {
    const to = mark.arrive;
    if (end.cell === to.cell) return distance(end.at, to.at);
    let field = this.fields.get(mark);
    if (!field) {
      const [x, y, z] = to.at;
      field = goalField(this.nodes, { x, y, z, cell: to.cell }, this.isAllowed, 1, -1);
      this.fields.set(mark, field);
    }
    const { at } = this.nodes;
    let least = Number.POSITIVE_INFINITY;
    for (const n of this.nodes.ofCell[end.cell] ?? []) {
      const beyond = field[n] as number;
      if (beyond >= least) continue;
      const place: Vec3 = [at[3 * n] as number, at[3 * n + 1] as number, at[3 * n + 2] as number];
      least = Math.min(least, beyond + distance(end.at, place));
    }
    return least;
  }
}
