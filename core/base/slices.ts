import type { Vec3 } from './vec';

/** Thickness of a slice: about that of a locker. */
const SLICE_M = 0.5;

interface Bounded {
  readonly low: Vec3;
  readonly high: Vec3;
}

const NONE: readonly never[] = [];

/** Bounded things by slices of the boat along x, since a boat grows in length: a question about one place does not scan all of it. */
export class Slices<T extends Bounded> {
  private readonly slices = new Map<number, number[]>();

  /** Numbers of the slices that a box meets, ascending. */
  static across({ low, high }: Bounded): readonly number[] {
    const first = sliceOf(low[0]);
    return Array.from({ length: sliceOf(high[0]) - first + 1 }, (_, k) => first + k);
  }

  constructor(private readonly items: readonly T[]) {
    items.forEach(({ low, high }, index) => {
      for (let slice = sliceOf(low[0]); slice <= sliceOf(high[0]); slice++) {
        const list = this.slices.get(slice);
        if (list) list.push(index);
        else this.slices.set(slice, [index]);
      }
    });
  }

  /** Things in one slice, in the order in which they were given. */
  slice(index: number): readonly T[] {
    return this.slices.get(index)?.map((item) => this.items[item] as T) ?? NONE;
  }

  /** Things whose bounds meet the box, grown by a margin, in the order in which they were given. */
  meeting({ low, high }: Bounded, marginM = 0): readonly T[] {
    const first = sliceOf(low[0] - marginM);
    const last = sliceOf(high[0] + marginM);
    const near: number[] = [];
    for (let slice = first; slice <= last; slice++) {
      const list = this.slices.get(slice);
      if (!list) continue;
      for (const index of list) {
        const item = this.items[index] as T;
        // What lies in several slices is met in the first of them that is looked at.
        if (slice > first && sliceOf(item.low[0]) < slice) continue;
        if (meets(item, low, high, marginM)) near.push(index);
      }
    }
    if (last > first) near.sort((a, b) => a - b);
    return near.map((index) => this.items[index] as T);
  }
}

const sliceOf = (x: number): number => Math.floor(x / SLICE_M);

/** Whether two boxes meet, the second grown by a margin. */
export const meets = (item: Bounded, low: Vec3, high: Vec3, margin = 0): boolean =>
  item.low[0] <= high[0] + margin &&
  item.high[0] >= low[0] - margin &&
  item.low[1] <= high[1] + margin &&
  item.high[1] >= low[1] - margin &&
  item.low[2] <= high[2] + margin &&
  item.high[2] >= low[2] - margin;
