import { byId } from '../base/order';
import type { Vec3 } from '../base/vec';
import type { Layout } from '../shape/layout/types';
import type { CapsuleSolid } from '../shape/space/solids';
import { cellsTouching } from '../shape/space/things';
import { CELL_MARGIN_M } from './solid-stages';

export const NO_RUNS: readonly CapsuleSolid[] = [];
export const sortedById = (capsules: readonly CapsuleSolid[]): readonly CapsuleSolid[] => [...capsules].sort(byId);

/** Runs as others see them: capsules, the box around them, and the cells that they touch, which are found when first asked for. */
export class LaidRun {
  readonly low: Vec3;
  readonly high: Vec3;
  private byCell: ReadonlyMap<number, readonly CapsuleSolid[]> | null = null;

  constructor(
    private readonly layout: Layout,
    readonly capsules: readonly CapsuleSolid[],
  ) {
    const low: [number, number, number] = [
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
    ];
    const high: [number, number, number] = [
      Number.NEGATIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
    ];
    for (const { from, to, radius } of capsules)
      for (const axis of [0, 1, 2] as const) {
        low[axis] = Math.min(low[axis], from[axis] - radius, to[axis] - radius);
        high[axis] = Math.max(high[axis], from[axis] + radius, to[axis] + radius);
      }
    this.low = low;
    this.high = high;
  }

  /** Capsules that touch a cell, sorted by id. */
  inCell(cell: number): readonly CapsuleSolid[] {
    return this.cells().get(cell) ?? NO_RUNS;
  }

  cells(): ReadonlyMap<number, readonly CapsuleSolid[]> {
    if (this.byCell) return this.byCell;
    const byCell = new Map<number, CapsuleSolid[]>();
    for (const capsule of sortedById(this.capsules)) {
      for (const cell of cellsTouching(this.layout, capsule, CELL_MARGIN_M)) {
        const list = byCell.get(cell);
        if (list) list.push(capsule);
        else byCell.set(cell, [capsule]);
      }
    }
    this.byCell = byCell;
    return byCell;
  }
}
