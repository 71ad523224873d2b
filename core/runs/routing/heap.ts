/** Binary heap of numbered entries by cost; equal costs come out in the order in which they went in, so that answers repeat. */
export class CostHeap {
  private readonly costs: number[] = [];
  private readonly entries: number[] = [];

  get size(): number {
    return this.costs.length;
  }

  push(cost: number, entry: number): void {
    let k = this.costs.length;
    this.costs.push(cost);
    this.entries.push(entry);
    while (k > 0) {
      const parent = (k - 1) >> 1;
      if (!this.before(k, parent)) break;
      this.swap(k, parent);
      k = parent;
    }
  }

  /** The cheapest entry, -1 when there is none. */
  pop(): number {
    const top = this.entries[0];
    if (top === undefined) return -1;
    const cost = this.costs.pop() as number;
    const entry = this.entries.pop() as number;
    const count = this.costs.length;
    if (count > 0) {
      this.costs[0] = cost;
      this.entries[0] = entry;
      let k = 0;
      for (;;) {
        const left = 2 * k + 1;
        if (left >= count) break;
        const child = left + 1 < count && this.before(left + 1, left) ? left + 1 : left;
        if (!this.before(child, k)) break;
        this.swap(k, child);
        k = child;
      }
    }
    return top;
  }

  private before(a: number, b: number): boolean {
    const one = this.costs[a] as number;
    const other = this.costs[b] as number;
    return one < other || (one === other && (this.entries[a] as number) < (this.entries[b] as number));
  }

  private swap(a: number, b: number): void {
    const cost = this.costs[a] as number;
    this.costs[a] = this.costs[b] as number;
    this.costs[b] = cost;
    const entry = this.entries[a] as number;
    this.entries[a] = this.entries[b] as number;
    this.entries[b] = entry;
  }
}
