import { along, type Vec3 } from '../base/vec';
import { LIVING_SPACES } from '../boat/kinds';
import { sameValue } from '../boat/schema-walk';
import { pinnedRun } from '../runs/pinned/pinned-run';
import { runCapsules } from '../runs/routing/capsules';
import { repair } from '../runs/routing/repair';
import { rankKey, rankLines } from '../runs/routing/route';
import type { Blocked, RoutingLine, RoutingView, RunOutcome } from '../runs/routing/types';
import type { WishZone } from '../runs/routing/wishes/zones';
import type { CapsuleSolid, Solid } from '../shape/space/solids';
import { isSuction } from './circuit-stages';
import { LaidRun, NO_RUNS, sortedById } from './laid-run';
import { routePasses } from './route-passes';
import { holeDiameter, type LineFacts, routingLine, type Wish } from './routing-line';
import { hull, hullWithinRibs, layout } from './shape-stages';
import { solidsInCell } from './solid-stages';
import {
  clipPoints,
  compartmentData,
  effort,
  forbidden,
  line,
  lineIds,
  lineKind,
  newHoles,
  pin,
  pose,
  thing,
  wishesAsked,
} from './source';
import { type ComputedStage, identical, type Read, sameItems } from './store';
import { attitude } from './water-stages';
import { lineWishes, zonesInCell } from './zone-stages';

/** What the router is asked for a line, or why it cannot be asked. */
export const wish: ComputedStage<Wish> = {
  id: 'wish',
  compute: (lineId, read) => {
    const what = read(line, lineId);
    const kind = what && read(lineKind, what.kind);
    const from = what && read(thing, what.from.thing);
    const to = what && read(thing, what.to.thing);
    if (!what || !kind || !from || !to)
      throw new Error(`wish: expected a line whose ends and kind exist, got ${lineId}`);
    const points = Object.entries(read(clipPoints, lineId)).sort(
      ([a, p], [b, q]) => p.order - q.order || (a < b ? -1 : 1),
    );
    return routingLine({
      id: lineId,
      line: what,
      kind,
      from: { thing: from, pose: read(pose, what.from.thing) },
      to: { thing: to, pose: read(pose, what.to.thing) },
      suction: read(isSuction, lineId),
      wishes: read(wishesAsked) === 'all' ? read(lineWishes, lineId) : null,
      clipPoints: points.map(([, point]) => point.at),
      forbiddenCompartments: [...read(forbidden, lineId)].sort(),
      keptInHoles: read(keptInHoles, lineId),
      others: points.length === 0 ? [] : othersInClips(lineId, read),
    });
  },
  same: sameValue,
};

/** Clip points and thickness of all lines but one. */
const othersInClips = (lineId: string, read: Read): NonNullable<LineFacts['others']> =>
  read(lineIds).flatMap((id) => {
    const what = id === lineId ? undefined : read(line, id);
    const kind = what && read(lineKind, what.kind);
    return kind
      ? [{ clipPoints: Object.values(read(clipPoints, id)).map(({ at }) => at), outsideM: kind.outsideM }]
      : [];
  });

/** What other lines need in the holes that are planned for them. */
const keptInHoles: ComputedStage<Readonly<Record<string, Readonly<Record<string, number>>>>> = {
  id: 'keptInHoles',
  compute: (lineId, read) => {
    const kept: Record<string, Record<string, number>> = {};
    for (const [holeId, hole] of Object.entries(read(newHoles)))
      for (const other of hole.for) {
        const what = other === lineId ? undefined : read(line, other);
        const kind = what && read(lineKind, what.kind);
        if (what && kind) kept[holeId] = { ...kept[holeId], [other]: holeDiameter(what, kind) };
      }
    return kept;
  },
  same: sameValue,
};

/** Just outside a port, on the way of its hose. */
const BEFORE_PORT_M = 0.02;

/**
 * Living spaces that a line should not hang in: those that hold neither an end of it nor a clip point.
 */
export const avoided: ComputedStage<readonly string[]> = {
  id: 'avoided',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line' || read(wishesAsked) === 'none') return [];
    const cells = read(layout);
    const entered = new Set(pointsOf(asked.line).map((point) => cells.compartmentAt(point)));
    return Object.entries(read(compartmentData))
      .filter(([id, { kind }]) => LIVING_SPACES.has(kind) && !entered.has(id))
      .map(([id]) => id)
      .sort();
  },
  same: sameItems,
};

const pointsOf = ({ from, to, clipPoints: points }: RoutingLine): readonly Vec3[] => [
  ...[from, to].flatMap(({ at, direction }) => [at, along(at, direction, BEFORE_PORT_M)]),
  ...points,
];

/** The answer for a line that is not routed because one of its ends is not there. */
export function blockedByWish(asked: Exclude<Wish, { outcome: 'line' }>): Blocked {
  return { status: 'blocked', proved: true, reason: asked.reason, lowerBoundM: 0 };
}

interface Rankable {
  readonly line: RoutingLine;
  readonly existing: boolean;
  readonly pinned: boolean;
}

/** What the rank of a line goes by. Null: it cannot be asked for. */
const rankable: ComputedStage<Rankable | null> = {
  id: 'rankable',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return null;
    return { line: asked.line, existing: read(line, lineId)?.existing === true, pinned: read(pin, lineId) !== null };
  },
  same: (a, b) =>
    a?.existing === b?.existing &&
    a?.pinned === b?.pinned &&
    a?.line.id === b?.line.id &&
    sameValue(a && rankKey(a.line), b && rankKey(b.line)),
};

/** Lines that can be asked for, in the one order in which they are routed: each sees the runs before it. */
export const ranked: ComputedStage<readonly string[]> = {
  id: 'ranked',
  compute: (_, read) => rankOf(read(lineIds).flatMap((id) => read(rankable, id) ?? [])),
  same: sameItems,
};

/** Runs that are pinned lie already and go first, then existing lines; then as the router ranks them. */
function rankOf(lines: readonly Rankable[]): readonly string[] {
  const turn = ({ pinned, existing }: Rankable): number => (pinned ? 0 : existing ? 1 : 2);
  return [0, 1, 2].flatMap((own) =>
    rankLines(lines.filter((one) => turn(one) === own).map(({ line: asked }) => asked)).map(({ id }) => id),
  );
}

/** The line that is routed just before this one, null for the first. */
const predecessor: ComputedStage<string | null> = {
  id: 'predecessor',
  compute: (lineId, read) => {
    const order = read(ranked);
    return order[order.indexOf(lineId) - 1] ?? null;
  },
  same: identical,
};

/** A line's run in the fixed order as the lines after it see it; null where there is none. */
export const laidRun: ComputedStage<LaidRun | null> = {
  id: 'laidRun',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    const outcome = read(baseRun, lineId);
    if (asked.outcome !== 'line' || outcome.status !== 'routed') return null;
    return new LaidRun(read(layout), runCapsules(asked.line, outcome));
  },
  same: (a, b) => a === b,
};

/** Runs in a cell up to and with one line, sorted by id. Key: `LINE|CELL`. */
const runsUpTo: ComputedStage<readonly CapsuleSolid[]> = {
  id: 'runsUpTo',
  compute: (key, read) => {
    const cut = key.lastIndexOf('|');
    const lineId = key.slice(0, cut);
    const cell = key.slice(cut + 1);
    const before = read(predecessor, lineId);
    const earlier = before === null ? NO_RUNS : read(runsUpTo, `${before}|${cell}`);
    const own = read(laidRun, lineId)?.inCell(Number(cell)) ?? NO_RUNS;
    return own.length > 0 ? sortedById([...earlier, ...own]) : earlier;
  },
  same: sameValue,
};

const up: ComputedStage<Vec3> = { id: 'up', compute: (_, read) => read(attitude).up, same: sameValue };
const waterLevel: ComputedStage<number> = {
  id: 'waterLevel',
  compute: (_, read) => read(attitude).levelM,
  same: identical,
};

/** What the router sees: every cell that it looks into is a recorded read. */
export function viewOver(read: Read, runsIn: (cell: number) => readonly CapsuleSolid[]): RoutingView {
  const things = new Map<number, readonly Solid[]>();
  const runs = new Map<number, readonly CapsuleSolid[]>();
  const zones = new Map<number, readonly WishZone[]>();
  return {
    layout: read(layout),
    hull: read(hullWithinRibs),
    skin: read(hull),
    up: read(up),
    thingsIn: (cell) => remembered(things, cell, () => read(solidsInCell, String(cell))),
    runsIn: (cell) => remembered(runs, cell, () => runsIn(cell)),
    zonesIn: (cell) => remembered(zones, cell, () => read(zonesInCell, String(cell))),
    waterLevelM: read(waterLevel),
  };
}

function remembered<T>(known: Map<number, T>, cell: number, find: () => T): T {
  const found = known.get(cell);
  if (found !== undefined) return found;
  const value = find();
  known.set(cell, value);
  return value;
}

/** The view of a line in the fixed order: it sees the runs before it. */
export function rankedView(lineId: string, read: Read): RoutingView {
  const before = read(predecessor, lineId);
  return viewOver(read, (cell) => (before === null ? NO_RUNS : read(runsUpTo, `${before}|${cell}`)));
}

/** The run of a line in the fixed order, before the repair. */
export const baseRun: ComputedStage<RunOutcome> = {
  id: 'baseRun',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return blockedByWish(asked);
    const built = read(pin, lineId);
    if (built) return pinnedRun(rankedView(lineId, read), asked.line, built);
    return routePasses(asked.line, read(avoided, lineId), rankedView(lineId, read), read(effort));
  },
  same: sameRun,
};

/** The run that a line would have if no other were there; asked only for lines that are blocked. */
const alone: ComputedStage<RunOutcome> = {
  id: 'alone',
  compute: (lineId, read) => {
    const asked = read(wish, lineId);
    if (asked.outcome !== 'line') return blockedByWish(asked);
    return routePasses(
      asked.line,
      read(avoided, lineId),
      viewOver(read, () => NO_RUNS),
      read(effort),
    );
  },
  same: sameRun,
};

const NO_REPAIR: ReadonlyMap<string, RunOutcome> = new Map();

/** Runs that the repair changes, by line: a second pass over the base runs that never feeds back into them. */
export const repaired: ComputedStage<ReadonlyMap<string, RunOutcome>> = {
  id: 'repaired',
  compute: (_, read) => {
    const lines: RoutingLine[] = [];
    const outcomes = new Map<string, RunOutcome>();
    for (const id of read(ranked)) {
      const asked = read(wish, id);
      if (asked.outcome !== 'line') continue;
      lines.push(asked.line);
      outcomes.set(id, read(baseRun, id));
    }
    if (![...outcomes.values()].some((outcome) => outcome.status === 'blocked' && !outcome.proved)) return NO_REPAIR;
    const unhindered = new WeakSet<RoutingView>();
    return repair({
      ranked: lines,
      outcomes,
      fixed: new Set(read(ranked).filter((id) => read(pin, id) !== null)),
      viewOf: (line, runs) => {
        const view = viewAmong(read, line, runs);
        if (runs.size === 0) unhindered.add(view);
        return view;
      },
      route: (view, line) =>
        unhindered.has(view) ? read(alone, line.id) : routePasses(line, read(avoided, line.id), view, read(effort)),
    });
  },
  same: (a, b) => a.size === b.size && [...a].every(([id, outcome]) => sameOptional(outcome, b.get(id))),
};

/** What a line sees among given runs, whatever their rank. */
function viewAmong(read: Read, line: RoutingLine, runs: ReadonlyMap<string, readonly CapsuleSolid[]>): RoutingView {
  let others: LaidRun | null = null;
  return viewOver(read, (cell) => {
    if (runs.size === 0) return NO_RUNS;
    others ??= new LaidRun(
      read(layout),
      [...runs].filter(([id]) => id !== line.id).flatMap(([, capsules]) => capsules),
    );
    return others.inCell(cell);
  });
}

const sameOptional = (a: RunOutcome, b: RunOutcome | undefined): boolean => b !== undefined && sameRun(a, b);

/** The seed follows from the rest. */
export function sameRun(a: RunOutcome, b: RunOutcome): boolean {
  if (a === b) return true;
  if (a.status !== 'routed' || b.status !== 'routed') return sameValue(a, b);
  const { seed: _, ...restA } = a;
  const { seed: __, ...restB } = b;
  return sameValue(restA, restB);
}
