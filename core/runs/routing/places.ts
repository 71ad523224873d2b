import type { Vec3 } from '../../base/vec';
import type { Nodes } from './nodes';

/** All nodes of one search in columns: those of the layout first, then start and goal, then those beside things. */
export class Places {
  count: number;
  at: Float64Array;
  cell: Int32Array;
  /** Relaxed way to the goal; not a number until it is asked for. */
  guide: Float64Array;
  /** By state, two to a node: where in the list of states reached for good it stands, -1 for those not reached. */
  reached: Int32Array;

  constructor(nodes: Nodes, field: Float64Array) {
    const room = nodes.count + 1024;
    this.count = nodes.count;
    this.at = new Float64Array(3 * room);
    this.cell = new Int32Array(room);
    this.guide = new Float64Array(room).fill(Number.NaN);
    this.reached = new Int32Array(2 * room).fill(-1);
    this.at.set(nodes.at);
    this.cell.set(nodes.cell);
    this.guide.set(field);
  }

  add(p: Vec3, cell: number): number {
    if (this.count === this.cell.length) this.grow();
    const k = this.count;
    this.at.set(p, 3 * k);
    this.cell[k] = cell;
    this.count = k + 1;
    return k;
  }

  private grow(): void {
    const { at, cell, guide, reached } = this;
    const room = 2 * this.count;
    this.at = new Float64Array(3 * room);
    this.cell = new Int32Array(room);
    this.guide = new Float64Array(room).fill(Number.NaN);
    this.reached = new Int32Array(2 * room).fill(-1);
    this.at.set(at);
    this.cell.set(cell);
    this.guide.set(guide);
    this.reached.set(reached);
  }
}
