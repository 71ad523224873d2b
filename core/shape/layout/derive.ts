import { inOrder } from '../../base/order';
import { dot, type Vec3 } from '../../base/vec';
import type { Arrangement, Boat } from '../../boat/schema/boat';
import { bindPanels, pairKey } from './bind';
import { overlapOf } from './overlaps';
import { GREATEST_GAP_M, type SharedFace, sharedFaces } from './panels';
import { inPlaceOrder } from './portal-order';
import { type Prism, prismOf } from './prism';
import type { Cell, Layout, Panel, Portal } from './types';
import { wallsOf } from './walls';

export interface LayoutInput {
  readonly compartments: Boat['compartments'];
  readonly panels: Boat['panels'];
  /** Holes that the arrangement has decided on. */
  readonly newHoles: Arrangement['newHoles'];
  readonly newHoleCostM: number;
}

/** Faces further apart than this never share a panel. */
const NEAR = GREATEST_GAP_M + 0.001;

/**
 * The interior as convex cells, the panels between compartments and the walls around them. Compartments should not overlap:
 * where they do, the shared space belongs to both, no panel stands between faces that look the same way, and the overlap is
 * reported with its depth. The answer depends on the records alone, not on their order.
 */
export function deriveLayout(input: LayoutInput): Layout {
  const { prisms, flaws } = prismsOf(input.compartments);
  const { cells, cellsOf } = cellsFrom(prisms);
  const cellOf = (compartment: string, piece: number): number => cellsOf[compartment]?.[piece] ?? -1;

  const near = nearPairs(prisms);
  const pairs = new Map<string, readonly SharedFace[]>();
  const neighbours = new Map<Prism, Prism[]>(prisms.map((p) => [p, []]));
  for (const [a, b] of near) {
    neighbours.get(a)?.push(b);
    neighbours.get(b)?.push(a);
  }
  for (const [a, b] of near) {
    const others = (neighbours.get(a) as Prism[]).filter((p) => p !== b);
    const shared = sharedFaces(a, b, others);
    if (shared.length > 0) pairs.set(pairKey(a.compartment, b.compartment), shared);
  }
  const boat = { compartments: input.compartments, panels: input.panels, newHoleCostM: input.newHoleCostM };
  const bound = bindPanels(pairs, { boat, newHoles: input.newHoles });
  const { walls, orphans } = wallsOf({ prisms, panels: bound.panels, cellOf, boat });

  const found: Omit<Portal, 'index'>[] = [];
  for (const prism of prisms)
    for (const { pieces, polygon, normal } of prism.cuts)
      found.push({
        cells: [cellOf(prism.compartment, pieces[0]), cellOf(prism.compartment, pieces[1])],
        normal,
        polygon,
        kind: 'virtual',
        panelId: '',
      });
  for (const { panel, patches } of bound.panels)
    for (const { pieces, polygon } of patches)
      found.push({
        cells: [cellOf(panel.between[0], pieces[0]), cellOf(panel.between[1], pieces[1])],
        normal: panel.normal,
        polygon,
        kind: 'panel',
        panelId: panel.id,
      });

  const portals = inPlaceOrder(found);

  const panels: Record<string, Panel> = {};
  for (const { panel } of bound.panels) panels[panel.id] = panel;
  const byId = new Map(prisms.map((p) => [p.compartment, p]));
  const cellAt = cellFinder(cells, byId);
  return {
    cells,
    cellsOf,
    panels,
    portals,
    walls,
    orphans: [...bound.orphans, ...orphans],
    flaws,
    overlaps: near.flatMap(([a, b]) => overlapOf(a, b) ?? []),
    cellAt,
    compartmentAt: (point) => {
      const cell = cellAt(point);
      return cell === null ? null : (cells[cell] as Cell).compartment;
    },
    prismOf: (compartment) => ({ rings: byId.get(compartment)?.rings ?? [[], []] }),
  };
}

function prismsOf(compartments: Boat['compartments']): {
  readonly prisms: readonly Prism[];
  readonly flaws: Layout['flaws'];
} {
  const prisms: Prism[] = [];
  const flaws: { compartment: string; reason: 'noVolume' | 'crossesItself' }[] = [];
  for (const [id, compartment] of inOrder(compartments)) {
    const prism = prismOf(id, compartment);
    if (prism) prisms.push(prism);
    if (!prism) flaws.push({ compartment: id, reason: 'noVolume' });
    else if (prism.flaw) flaws.push({ compartment: id, reason: prism.flaw });
  }
  return { prisms, flaws };
}

function cellsFrom(prisms: readonly Prism[]): { cells: Cell[]; cellsOf: Record<string, readonly number[]> } {
  const cells: Cell[] = [];
  const cellsOf: Record<string, readonly number[]> = {};
  for (const { compartment, pieces } of prisms) {
    const first = cells.length;
    for (const piece of pieces) cells.push({ index: cells.length, compartment, ...piece });
    cellsOf[compartment] = pieces.map((_, k) => first + k);
  }
  return { cells, cellsOf };
}

/** Pairs of prisms whose bounds come near each other, in order of their ids. */
function nearPairs(prisms: readonly Prism[]): (readonly [Prism, Prism])[] {
  const rank = new Map(prisms.map((p, i) => [p, i]));
  const sorted = [...prisms].sort((p, q) => p.low[0] - q.low[0]);
  const pairs: (readonly [Prism, Prism])[] = [];
  sorted.forEach((a, i) => {
    for (let j = i + 1; j < sorted.length; j++) {
      const b = sorted[j] as Prism;
      if (b.low[0] > a.high[0] + NEAR) break;
      if (b.low[1] > a.high[1] + NEAR || a.low[1] > b.high[1] + NEAR) continue;
      if (b.low[2] > a.high[2] + NEAR || a.low[2] > b.high[2] + NEAR) continue;
      pairs.push((rank.get(a) as number) < (rank.get(b) as number) ? [a, b] : [b, a]);
    }
  });
  const order = (p: Prism): number => rank.get(p) as number;
  return pairs.sort((p, q) => order(p[0]) - order(q[0]) || order(p[1]) - order(q[1]));
}

function cellFinder(cells: readonly Cell[], prisms: ReadonlyMap<string, Prism>): (point: Vec3) => number | null {
  const size = new Map<string, number>();
  for (const { compartment, low, high } of prisms.values())
    size.set(compartment, (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2]));
  return (point) => {
    let best: number | null = null;
    let bestSize = Number.POSITIVE_INFINITY;
    for (const cell of cells) {
      const { low, high } = cell;
      if (point[0] < low[0] - 1e-9 || point[0] > high[0] + 1e-9) continue;
      if (point[1] < low[1] - 1e-9 || point[1] > high[1] + 1e-9) continue;
      if (point[2] < low[2] - 1e-9 || point[2] > high[2] + 1e-9) continue;
      const bounds = size.get(cell.compartment) as number;
      if (bounds >= bestSize) continue;
      if (cell.planes.every(({ normal, offset }) => dot(normal, point) <= offset + 1e-9)) {
        best = cell.index;
        bestSize = bounds;
      }
    }
    return best;
  };
}
