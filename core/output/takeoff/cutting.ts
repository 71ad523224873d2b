/**
 * Which piece is cut from which length, so that the least is bought. Exact: depth-first branch and bound; where the bound on
 * the work is met first, the plan says how much it may be above the least possible. All lengths in whole units of one size.
 */

/** Sold in fixed lengths, or off the reel in multiples of a step. */
export type Sold = { readonly lengths: readonly number[] } | { readonly step: number };

export interface CuttingQuestion {
  /** Pieces by what must be there for them. */
  readonly needs: readonly number[];
  /** Lengths that are there already: free, each once. */
  readonly onHand: readonly number[];
  readonly sold: Sold;
  /** Nodes of the search; more than the default for nobody but tests. */
  readonly mostNodes?: number;
}

export interface CutStock {
  /** Place among `onHand`; null: bought. */
  readonly onHand: number | null;
  readonly length: number;
  /** Places among `needs`. */
  readonly pieces: readonly number[];
  /** Longer than any length that is sold: to be ordered in one piece. */
  readonly isSpecial: boolean;
}

export interface CuttingPlan {
  readonly stocks: readonly CutStock[];
  readonly bought: number;
  /** No plan buys less. */
  readonly leastBought: number;
}

/** A kind of hose of a whole set has a dozen pieces; all that people ask is proved with less. Project judgement. */
const MOST_NODES = 20_000;
/** Table of what fixed lengths add up to; beyond, the greatest common step serves. */
const MOST_SUMS = 200_000;

interface Bin {
  readonly onHand: number | null;
  readonly capacity: number;
  readonly isSpecial: boolean;
  load: number;
  readonly pieces: number[];
}

/** What counts, in this order: length bought, length cut from what is bought, number of lengths bought. */
type Worth = readonly [bought: number, taken: number, count: number];

/** The plan that buys least; of equals the one that cuts most from what is there, then the one with fewer lengths. */
export function cuttingPlan({ needs, onHand, sold, mostNodes = MOST_NODES }: CuttingQuestion): CuttingPlan {
  const order = needs.map((_, i) => i).sort((a, b) => (needs[b] ?? 0) - (needs[a] ?? 0) || a - b);
  const shop = shopOf(
    sold,
    needs.reduce((sum, need) => sum + need, 0),
  );
  const there: Bin[] = onHand
    .map((length, i): Bin => ({ onHand: i, capacity: length, isSpecial: false, load: 0, pieces: [] }))
    .sort((a, b) => a.capacity - b.capacity || (a.onHand ?? 0) - (b.onHand ?? 0));
  const bins: Bin[] = [...there];
  const rest = suffixSums(order.map((i) => needs[i] ?? 0));
  const specialRest = suffixSums(order.map((i) => ((needs[i] ?? 0) > shop.longest ? (needs[i] ?? 0) : 0)));
  let best: { worth: Worth; stocks: CutStock[] } | null = null;
  let nodes = 0;
  let isCut = false;

  const costOf = (bin: Bin): number => (bin.onHand !== null ? 0 : bin.isSpecial ? bin.load : shop.costOf(bin.load));
  /** No completion of what is laid so far is worth more. */
  const bestPossible = (depth: number): Worth => {
    const free = there.reduce((sum, bin) => sum + bin.capacity - bin.load, 0);
    let cost = 0;
    let special = 0;
    let load = 0;
    let count = 0;
    for (const bin of bins) {
      if (bin.onHand !== null) continue;
      count += 1;
      if (bin.isSpecial) special += bin.load;
      else {
        cost += costOf(bin);
        load += bin.load;
      }
    }
    const left = rest[depth] ?? 0;
    const plainLeft = left - (specialRest[depth] ?? 0);
    const plain = load + Math.max(0, plainLeft - free);
    const taken = special + load + Math.max(0, left - free);
    const leastCount = bins.length - there.length - count + Math.max(count, Math.ceil(plain / shop.longest));
    return [special + Math.max(cost, shop.cover(plain)), taken, leastCount];
  };
  const root = bestPossible(0);

  const visit = (depth: number, from: number): void => {
    if (best && isNoWorse(best.worth, root)) return;
    if (best && nodes >= mostNodes) {
      isCut = true;
      return;
    }
    nodes += 1;
    if (best && isNoWorse(best.worth, bestPossible(depth))) return;
    const index = order[depth];
    if (index === undefined) {
      best = { worth: worthOf(bins, costOf), stocks: stocksOf(bins, costOf) };
      return;
    }
    const need = needs[index] ?? 0;
    // Pieces of one length may be exchanged: the next goes into no earlier length than the one before.
    const alike = (needs[order[depth + 1] ?? -1] ?? Number.NaN) === need;
    const tried = new Set<string>();
    const put = (bin: Bin, at: number): void => {
      bin.load += need;
      bin.pieces.push(index);
      visit(depth + 1, alike ? at : 0);
      bin.pieces.pop();
      bin.load -= need;
    };
    for (let at = from; at < bins.length; at += 1) {
      const bin = bins[at] as Bin;
      if (bin.isSpecial || bin.load + need > bin.capacity) continue;
      const state = `${bin.onHand === null ? 'bought' : 'there'} ${bin.capacity} ${bin.load}`;
      if (tried.has(state)) continue;
      tried.add(state);
      put(bin, at);
    }
    const isSpecial = need > shop.longest;
    const isOpen = bins.some((bin) => bin.onHand === null && !bin.isSpecial);
    if (shop.isReel && isOpen) return;
    bins.push({ onHand: null, capacity: shop.longest, isSpecial, load: 0, pieces: [] });
    put(bins[bins.length - 1] as Bin, bins.length - 1);
    bins.pop();
  };
  visit(0, 0);
  // The search always reaches one end before it may stop.
  const found = best as { worth: Worth; stocks: CutStock[] } | null;
  if (!found) throw new Error('cuttingPlan: expected a plan, got none');
  return { stocks: found.stocks, bought: found.worth[0], leastBought: isCut ? root[0] : found.worth[0] };
}

const isNoWorse = (a: Worth, b: Worth): boolean =>
  a[0] !== b[0] ? a[0] < b[0] : a[1] !== b[1] ? a[1] < b[1] : a[2] <= b[2];

const suffixSums = (values: readonly number[]): number[] => {
  const sums = [...values, 0];
  for (let i = values.length - 1; i >= 0; i -= 1) sums[i] = (sums[i + 1] ?? 0) + (values[i] ?? 0);
  return sums;
};

function worthOf(bins: readonly Bin[], costOf: (bin: Bin) => number): Worth {
  const bought = bins.filter(({ onHand }) => onHand === null);
  return [
    bought.reduce((sum, bin) => sum + costOf(bin), 0),
    bought.reduce((sum, { load }) => sum + load, 0),
    bought.length,
  ];
}

const stocksOf = (bins: readonly Bin[], costOf: (bin: Bin) => number): CutStock[] =>
  bins
    .filter(({ pieces }) => pieces.length > 0)
    .map((bin) => ({
      onHand: bin.onHand,
      length: bin.onHand === null ? costOf(bin) : bin.capacity,
      pieces: [...bin.pieces],
      isSpecial: bin.isSpecial,
    }));

interface Shop {
  readonly isReel: boolean;
  /** What a length that is bought can hold at most. */
  readonly longest: number;
  /** What holding so much costs in one length. */
  costOf(load: number): number;
  /** The least that must be bought to hold so much in any number of lengths. */
  cover(load: number): number;
}

function shopOf(sold: Sold, total: number): Shop {
  if ('step' in sold) {
    const step = Math.max(1, sold.step);
    const whole = (load: number): number => Math.ceil(load / step) * step;
    return { isReel: true, longest: Number.MAX_SAFE_INTEGER, costOf: whole, cover: whole };
  }
  const lengths = [...new Set(sold.lengths)].sort((a, b) => a - b);
  const longest = lengths[lengths.length - 1];
  if (longest === undefined) throw new Error('cuttingPlan: expected lengths that are sold, got none');
  const step = lengths.reduce(greatestCommon);
  const reachable = sumsOf(
    lengths.map((length) => length / step),
    Math.ceil(total / step) + longest / step,
  );
  return {
    isReel: false,
    longest,
    costOf: (load) => lengths.find((length) => length >= load) ?? longest,
    cover(load) {
      if (load <= 0) return 0;
      let sum = Math.ceil(load / step);
      if (reachable) while (sum < reachable.length && reachable[sum] !== 1) sum += 1;
      return Math.max(sum * step, lengths[0] ?? 0);
    },
  };
}

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b));

/** Which whole numbers up to `most` are sums of the given ones, each as often as one likes; null where that is too long a table. */
function sumsOf(values: readonly number[], most: number): Uint8Array | null {
  if (most > MOST_SUMS) return null;
  const sums = new Uint8Array(most + 1);
  sums[0] = 1;
  for (let sum = 1; sum <= most; sum += 1)
    if (values.some((value) => value <= sum && sums[sum - value] === 1)) sums[sum] = 1;
  return sums;
}
