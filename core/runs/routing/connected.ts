import type { Vec3 } from '../../base/vec';
import type { Panel, PanelHole } from '../../shape/layout/types';
import { carriedOnly, couldHold, type InHole, missingWidth } from './hole-room';
import type { HoseClass } from './nodes';
import { inHoleSeen } from './seats';
import { insetOutline, type PortalFrame, type Structure } from './structure';
import type { RoutingLine, RoutingView } from './types';

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
}

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
  inHole: (hole: PanelHole, frame: PortalFrame) => InHole | null = () => null,
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
      const isOpen = !panel || mayPass(withoutFull(panel, frame, hose, inHole), outline, hose);
      const shortByM = isOpen || !panel ? 0 : holeShortage(panel, frame, hose, inHole);
      const sum = (cost.get(cell) as number) + shortByM;
      if (sum >= (cost.get(next) ?? Number.POSITIVE_INFINITY)) continue;
      cost.set(next, sum);
      cameBy.set(next, { cell, link: isOpen || !panel ? null : { panelId: panel.id, at: origin, shortByM } });
    }
  }
  let first: MissingLink | null = null;
  for (let back = cameBy.get(to); back; back = cameBy.get(back.cell)) if (back.link) first = back.link;
  return first;
}

/**
 * The same for a line that finds no way since the holes are full of runs of earlier rank: null where all cells are joined by holes with
 * room, or by panels that may be drilled.
 */
export function fullLink(
  view: RoutingView,
  line: RoutingLine,
  structure: Structure,
  hose: HoseClass,
  [from, to]: readonly [number, number],
  isAllowed: (cell: number) => boolean,
): MissingLink | null {
  return missingLink(structure, hose, from, to, isAllowed, (hole, frame) => inHoleSeen(view, line, hole, frame));
}

/** The panel as if the holes that have no room were not there. */
function withoutFull(
  panel: Panel,
  frame: PortalFrame,
  hose: HoseClass,
  inHole: (hole: PanelHole, frame: PortalFrame) => InHole | null,
): Panel {
  const open = panel.holes.filter((hole) => {
    const seen = inHole(hole, frame);
    return !seen || missingWidth(hole.diameterM, hose, seen) === 0;
  });
  return open.length === panel.holes.length ? panel : { ...panel, holes: open };
}

/** How much wider the best hole of a panel would have to be; the whole hole where it has none. */
const holeShortage = (
  panel: Panel,
  frame: PortalFrame,
  hose: HoseClass,
  inHole: (hole: PanelHole, frame: PortalFrame) => InHole | null,
): number =>
  panel.holes.reduce(
    (least, hole) => Math.min(least, missingWidth(hole.diameterM, hose, inHole(hole, frame) ?? carriedOnly(hole))),
    2 * hose.holeRadiusM,
  );
