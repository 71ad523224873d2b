import { CostHeap } from './heap';
import type { Nodes } from './nodes';

/** Nodes of one cell beyond the first few settled hardly shorten anything; this keeps the field cheap in large boats. */
const SETTLED_PER_CELL = 10;
/** Nodes from which the goal is farther than this share of the shortest way, and this, are no use even as a detour. */
const DETOUR = 1.7;
const DETOUR_M = 1.5;

/**
 * Least length plus hole costs from every node of the layout to a goal, with nothing standing in the cells: the guide of the
 * search, and infinite where no chain of panels leads.
 */
export function goalField(
  nodes: Nodes,
  goal: { readonly x: number; readonly y: number; readonly z: number; readonly cell: number },
  isAllowed: (cell: number) => boolean,
  holeWeight: number,
  startCell: number,
  settledPerCell = SETTLED_PER_CELL,
): Float64Array {
  const { at, cell, mate, passage, ofCell } = nodes;
  const cost = new Float64Array(nodes.count).fill(Number.POSITIVE_INFINITY);
  const settled = new Uint8Array(nodes.count);
  const perCell = new Int32Array(ofCell.length);
  const heap = new CostHeap();
  for (const k of ofCell[goal.cell] ?? []) {
    const dx = (at[3 * k] as number) - goal.x;
    const dy = (at[3 * k + 1] as number) - goal.y;
    const dz = (at[3 * k + 2] as number) - goal.z;
    cost[k] = Math.sqrt(dx * dx + dy * dy + dz * dz);
    heap.push(cost[k] as number, k);
  }
  let limit = Number.POSITIVE_INFINITY;
  for (let k = heap.pop(); k >= 0; k = heap.pop()) {
    if (settled[k]) continue;
    settled[k] = 1;
    if (!nodes.isFree(k)) {
      cost[k] = Number.POSITIVE_INFINITY;
      continue;
    }
    const here = cost[k] as number;
    if (here > limit) break;
    if (cell[k] === startCell && limit === Number.POSITIVE_INFINITY) limit = DETOUR * here + DETOUR_M;
    const other = mate[k] as number;
    if (other >= 0 && isAllowed(cell[other] as number)) {
      const way = passage[k];
      const through = here + (way ? 2 * way.stubM + holeWeight * way.costM : 0);
      if (through < (cost[other] as number)) {
        cost[other] = through;
        heap.push(through, other);
      }
    }
    const home = cell[k] as number;
    if (home === goal.cell || (perCell[home] as number) >= settledPerCell) continue;
    perCell[home] = (perCell[home] as number) + 1;
    const x = at[3 * k] as number;
    const y = at[3 * k + 1] as number;
    const z = at[3 * k + 2] as number;
    for (const n of ofCell[home] as readonly number[]) {
      if (settled[n]) continue;
      const dx = (at[3 * n] as number) - x;
      const dy = (at[3 * n + 1] as number) - y;
      const dz = (at[3 * n + 2] as number) - z;
      const there = here + Math.sqrt(dx * dx + dy * dy + dz * dz);
      if (there < (cost[n] as number)) {
        cost[n] = there;
        heap.push(there, n);
      }
    }
  }
  return cost;
}
