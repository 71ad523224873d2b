/** Binary heap of numbered entries by cost; equal costs come out by their number, the lowest first, so that answers repeat. */
export class CostHeap {
  private costs = new Float64Array(256);
  private entries = new Float64Array(256);
  private count = 0;

  get size(): number {
    return this.count;
  }

  push(cost: number, entry: number): void {
    if (this.count === this.costs.length) this.grow();
    const { costs, entries } = this;
    let k = this.count;
    this.count = k + 1;
    while (k > 0) {
      const parent = (k - 1) >> 1;
      const above = costs[parent] as number;
      if (!(cost < above || (cost === above && entry < (entries[parent] as number)))) break;
      costs[k] = above;
      entries[k] = entries[parent] as number;
      k = parent;
    }
    costs[k] = cost;
    entries[k] = entry;
  }

  /** The cheapest entry, -1 when there is none. */
  pop(): number {
    if (this.count === 0) return -1;
    const { costs, entries } = this;
    const top = entries[0] as number;
    const count = this.count - 1;
    this.count = count;
    const cost = costs[count] as number;
    const entry = entries[count] as number;
    let k = 0;
    for (;;) {
      let child = 2 * k + 1;
      if (child >= count) break;
      let least = costs[child] as number;
      if (child + 1 < count) {
        const other = costs[child + 1] as number;
        if (other < least || (other === least && (entries[child + 1] as number) < (entries[child] as number))) {
          child += 1;
          least = other;
        }
      }
      if (!(least < cost || (least === cost && (entries[child] as number) < entry))) break;
      costs[k] = least;
      entries[k] = entries[child] as number;
      k = child;
    }
    costs[k] = cost;
    entries[k] = entry;
    return top;
  }

  private grow(): void {
    const costs = new Float64Array(2 * this.count);
    const entries = new Float64Array(2 * this.count);
    costs.set(this.costs);
    entries.set(this.entries);
    this.costs = costs;
    this.entries = entries;
  }
}
