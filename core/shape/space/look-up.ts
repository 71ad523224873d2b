import type { Vec3 } from '../../base/vec';

/** Edge of a brick of the grid, metres; larger where the scene is so large that there would be too many. */
const BRICK_M = 0.5;
const MOST_BRICKS_A_SIDE = 64;
/** More than the bricks along any side. */
const KEY = 128;

/** Boxes by place: a grid of bricks, each with the items that touch it. Answers come in ascending order, each item once. */
export class LookUp {
  private readonly bricks = new Map<number, number[]>();
  private readonly brickM: number;
  private readonly low: Vec3;
  private readonly high: Vec3;

  constructor(private readonly bounds: readonly (readonly [low: Vec3, high: Vec3])[]) {
    const reduce = (pick: 0 | 1, k: 0 | 1 | 2, choose: (a: number, b: number) => number): number =>
      bounds.reduce((m, b) => choose(m, b[pick][k]), bounds[0]?.[pick][k] ?? 0);
    this.low = [reduce(0, 0, Math.min), reduce(0, 1, Math.min), reduce(0, 2, Math.min)];
    this.high = [reduce(1, 0, Math.max), reduce(1, 1, Math.max), reduce(1, 2, Math.max)];
    const longest = Math.max(...this.high.map((value, k) => value - (this.low[k] as number)));
    this.brickM = Math.max(BRICK_M, longest / MOST_BRICKS_A_SIDE);
    bounds.forEach(([low, high], item) => {
      for (const key of this.bricksOf(low, high)) {
        const list = this.bricks.get(key);
        if (list) list.push(item);
        else this.bricks.set(key, [item]);
      }
    });
  }

  /** Items whose bounds meet the box. */
  within(low: Vec3, high: Vec3): number[] {
    const found = new Set<number>();
    for (const key of this.bricksOf(low, high))
      for (const item of this.bricks.get(key) ?? []) {
        const [itemLow, itemHigh] = this.bounds[item] as readonly [Vec3, Vec3];
        const meets =
          itemLow[0] <= high[0] &&
          itemHigh[0] >= low[0] &&
          itemLow[1] <= high[1] &&
          itemHigh[1] >= low[1] &&
          itemLow[2] <= high[2] &&
          itemHigh[2] >= low[2];
        if (meets) found.add(item);
      }
    return [...found].sort((a, b) => a - b);
  }

  /** Bricks of the grid that a box meets. */
  private bricksOf(low: Vec3, high: Vec3): number[] {
    const range = (k: 0 | 1 | 2): number[] => {
      const from = Math.floor((Math.max(low[k], this.low[k]) - this.low[k]) / this.brickM);
      const to = Math.floor((Math.min(high[k], this.high[k]) - this.low[k]) / this.brickM);
      return Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
    };
    const [xs, ys, zs] = [range(0), range(1), range(2)];
    const keys: number[] = [];
    for (const x of xs) for (const y of ys) for (const z of zs) keys.push((x * KEY + y) * KEY + z);
    return keys;
  }
}
