/**
 * Offers of a way to a state, in columns. All offers out of one state lie side by side; only the best of them that is left
 * stands in the heap, for most are never looked at.
 */
export class Offers {
  count = 0;
  state = new Int32Array(4096);
  cost = new Float64Array(4096);
  /** Cost so far and the guide's estimate of the rest. */
  total = new Float64Array(4096);
  /** Tangent length taken at the parent's end of this edge. */
  tangent = new Float64Array(4096);
  /** Offers that are left, as one heap for each state they lead out of. */
  order = new Int32Array(4096);

  add(state: number, cost: number, total: number, tangent: number): void {
    if (this.count === this.state.length) this.grow();
    const k = this.count;
    this.state[k] = state;
    this.cost[k] = cost;
    this.total[k] = total;
    this.tangent[k] = tangent;
    this.count = k + 1;
  }

  /** Makes [from, to) of `order` a heap, so that the best offer, the first of equals, comes first. */
  arrange(from: number, to: number): void {
    for (let k = from; k < to; k += 1) this.order[k] = k;
    for (let k = from + ((to - from) >> 1) - 1; k >= from; k -= 1) this.sink(k, from, to);
  }

  /** Takes the best offer out of the heap in [from, to); returns its new end. */
  take(from: number, to: number): number {
    this.order[from] = this.order[to - 1] as number;
    this.sink(from, from, to - 1);
    return to - 1;
  }

  private sink(start: number, from: number, to: number): void {
    const { order, total } = this;
    const moved = order[start] as number;
    const weight = total[moved] as number;
    let k = start;
    for (;;) {
      let child = 2 * (k - from) + 1 + from;
      if (child >= to) break;
      let other = order[child] as number;
      let least = total[other] as number;
      if (child + 1 < to) {
        const second = order[child + 1] as number;
        const there = total[second] as number;
        if (there < least || (there === least && second < other)) {
          child += 1;
          other = second;
          least = there;
        }
      }
      if (weight < least || (weight === least && moved < other)) break;
      order[k] = other;
      k = child;
    }
    if (k < to) order[k] = moved;
  }

  private grow(): void {
    const state = new Int32Array(2 * this.count);
    const cost = new Float64Array(2 * this.count);
    const total = new Float64Array(2 * this.count);
    const tangent = new Float64Array(2 * this.count);
    state.set(this.state);
    cost.set(this.cost);
    total.set(this.total);
    tangent.set(this.tangent);
    const order = new Int32Array(2 * this.count);
    order.set(this.order);
    this.order = order;
    this.state = state;
    this.cost = cost;
    this.total = total;
    this.tangent = tangent;
  }
}
