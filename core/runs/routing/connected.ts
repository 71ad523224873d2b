import type { Vec3 } from '../../base/vec';
import type { Panel, PanelHole } from '../../shape/layout/types';
import type { Task } from './attempt';
import { FeedRoom } from './feed-room';
import { carriedOnly, couldHold, holeInPlane, missingWidth, placesBeside, pointInHole } from './hole-room';
import type { HoseClass } from './nodes';
import { inHoleSeen } from './seats';
import { insetOutline, type PortalFrame, type Structure } from './structure';

/**
 * Whether any chain of panels could let the hose from one cell to another, whatever stands in the cells. Errs towards yes:
 * a no is a proof.
 */
export function mayConnect(
  structure: Structure,
  hose: HoseClass,
  from: number,
  to: number,
  isAllowed: (cell: number) => boolean,
): boolean {
  if (!isAllowed(from) || !isAllowed(to)) return false;
  const neighbours = neighboursFor(structure, hose);
  const seen = new Set([from]);
  const open = [from];
  for (let cell = open.pop(); cell !== undefined; cell = open.pop()) {
    if (cell === to) return true;
    for (const next of neighbours[cell] as number[])
      if (!seen.has(next) && isAllowed(next)) {
        seen.add(next);
        open.push(next);
      }
  }
  return false;
}

/** Cells that a hose of this class may pass into from each cell, the same for all its lines. */
function neighboursFor(structure: Structure, hose: HoseClass): readonly (readonly number[])[] {
  const classes = neighboursOf.get(structure) ?? new Map<string, readonly (readonly number[])[]>();
  neighboursOf.set(structure, classes);
  const key = `${hose.radiusM}|${hose.holeRadiusM}`;
  const known = classes.get(key);
  if (known) return known;
  const { layout } = structure;
  const neighbours: number[][] = layout.cells.map(() => []);
  const join = (a: number, b: number): void => {
    neighbours[a]?.push(b);
    neighbours[b]?.push(a);
  };
  for (const { panel, portal, outline } of structure.frames)
    if (!panel || mayPass(panel, outline, hose)) join(portal.cells[0], portal.cells[1]);
  for (const { between } of layout.overlaps)
    for (const a of layout.cellsOf[between[0]] ?? []) for (const b of layout.cellsOf[between[1]] ?? []) join(a, b);
  classes.set(key, neighbours);
  return neighbours;
}
const neighboursOf = new WeakMap<Structure, Map<string, readonly (readonly number[])[]>>();

function mayPass(panel: Panel, outline: Parameters<typeof insetOutline>[0], hose: HoseClass): boolean {
  // Several patches make one sheet: a hole may lie across their seams, so their own widths say nothing.
  const isOnePiece = panel.pieces.length === 1;
  if (panel.rule === 'open') return !isOnePiece || insetOutline(outline, hose.radiusM * 0.999).length > 0;
  if (panel.holes.some((hole) => couldHold(hole, hose.holeRadiusM))) return true;
  if (panel.rule === 'noDrill') return false;
  return !isOnePiece || insetOutline(outline, (hose.holeRadiusM + panel.edgeM) * 0.999).length > 0;
}

export interface MissingLink {
  readonly panelId: string;
  readonly at: Vec3;
  /** How much wider a hole in it would have to be: the whole hole where there is none. */
  readonly shortByM: number;
  /** What stands in the way of a crimped end that has to come through its hole, where that is what lacks. */
  readonly blocker: string | null;
}

/** What a hole lacks for a line: width, or room beside it for what stands there. */
type Lack = Pick<MissingLink, 'shortByM' | 'blocker'> & { readonly at?: Vec3 };
type LackOf = (hole: PanelHole, frame: PortalFrame) => Lack | null;

/**
 * Of two cells that nothing connects: the panel whose better hole would join them for the least widening in all, the first of that chain.
 * Null when no chain of panels leads across at all.
 */
export function missingLink(
  structure: Structure,
  hose: HoseClass,
  from: number,
  to: number,
  isAllowed: (cell: number) => boolean,
  lackOf?: LackOf,
): MissingLink | null {
  const { frames } = structure;
  const cost = new Map<number, number>([[from, 0]]);
  const cameBy = new Map<number, { readonly cell: number; readonly link: MissingLink | null }>();
  const done = new Set<number>();
  for (;;) {
    let cell = -1;
    for (const [one, sum] of cost) if (!done.has(one) && (cell < 0 || sum < (cost.get(cell) as number))) cell = one;
    if (cell < 0) return null;
    if (cell === to) break;
    done.add(cell);
    for (const frame of frames) {
      const { panel, portal, outline, origin } = frame;
      const [a, b] = portal.cells;
      if (a !== cell && b !== cell) continue;
      const next = a === cell ? b : a;
      if (done.has(next) || !isAllowed(next)) continue;
      const isOpen = !panel || mayPass(lackOf ? passable(panel, frame, lackOf) : panel, outline, hose);
      const lack = isOpen || !panel ? NO_LACK : leastLack(panel, frame, hose, lackOf);
      const sum = (cost.get(cell) as number) + lack.shortByM;
      if (sum >= (cost.get(next) ?? Number.POSITIVE_INFINITY)) continue;
      cost.set(next, sum);
      cameBy.set(next, { cell, link: isOpen || !panel ? null : { panelId: panel.id, at: origin, ...lack } });
    }
  }
  let first: MissingLink | null = null;
  for (let back = cameBy.get(to); back; back = cameBy.get(back.cell)) if (back.link) first = back.link;
  return first;
}

/**
 * The same for a line that finds no way since the holes are full of runs of earlier rank, or its end has no room to come through them:
 * null where all cells are joined by holes that it can pass, or by panels that may be drilled.
 */
export function fullLink(
  { world, line, hose }: Task,
  [from, to]: readonly [number, number],
  isAllowed: (cell: number) => boolean,
): MissingLink | null {
  const { view, structure } = world;
  return missingLink(structure, hose, from, to, isAllowed, (hole, frame) => {
    const seen = inHoleSeen(view, line, hole, frame);
    const shortByM = missingWidth(hole.diameterM, hose, seen);
    if (shortByM > 0) return { shortByM, blocker: null };
    if (!line.feed || line.feed.rigidM === 0 || !frame.panel) return null;
    const room = new FeedRoom(world, line.feed, frame, frame.panel);
    const centre = holeInPlane(hole, frame);
    let least: Lack | null = null;
    for (const place of placesBeside(hole.diameterM, hose, seen)) {
      const short = room.shortage(pointInHole(centre, frame, place));
      if (!short) return null;
      if (!least || short.byM < least.shortByM) least = { shortByM: short.byM, blocker: short.blocker };
    }
    return least;
  });
}

const NO_LACK: Lack = { shortByM: 0, blocker: null };

/** The panel as if the holes that lack something were not there. */
function passable(panel: Panel, frame: PortalFrame, lackOf: LackOf): Panel {
  const open = panel.holes.filter((hole) => !lackOf(hole, frame));
  return open.length === panel.holes.length ? panel : { ...panel, holes: open };
}

/** What the best hole of a panel lacks; the whole hole where it has none. */
function leastLack(panel: Panel, frame: PortalFrame, hose: HoseClass, lackOf?: LackOf): Lack {
  let least: Lack = { shortByM: 2 * hose.holeRadiusM, blocker: null };
  for (const hole of panel.holes) {
    const lack = lackOf
      ? lackOf(hole, frame)
      : { shortByM: missingWidth(hole.diameterM, hose, carriedOnly(hole)), blocker: null };
    if (lack && lack.shortByM < least.shortByM) least = { ...lack, at: hole.at };
  }
  return least;
}
