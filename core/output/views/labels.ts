import type { Vec2 } from '../../base/vec';

/** Words and marks that share a drawing: who gets which place. Places and sizes in the unit of the drawing, pixels or millimetres. */
export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** A word that wants a place on the drawing. */
export interface Candidate {
  readonly id: string;
  /** Lower survives first. */
  readonly rank: number;
  readonly width: number;
  readonly height: number;
  /** Middles to try, best first. */
  readonly places: readonly Vec2[];
  /** Drawn even where it lies over another: finding marks. */
  readonly always?: boolean;
}

/** Order of survival on a crowded drawing. */
export const RANK = {
  finding: 0,
  dimension: 1,
  runLetter: 2,
  partTag: 3,
  placeName: 4,
  balloon: 5,
  station: 6,
  gridValue: 7,
} as const;

const overlap = (a: Rect, b: Rect): boolean => a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
const around = ([x, y]: Vec2, w: number, h: number): Rect => ({ x: x - w / 2, y: y - h / 2, w, h });

/** One pass by rank, then by order: each word takes its first free place or drops out. */
export function placeLabels(candidates: readonly Candidate[], taken: readonly Rect[] = []): Map<string, Vec2> {
  const used = [...taken];
  const placed = new Map<string, Vec2>();
  const order = candidates.map((c, i) => ({ c, i })).sort((a, b) => a.c.rank - b.c.rank || a.i - b.i);
  for (const { c } of order) {
    const free = c.places.find((place) => {
      const box = around(place, c.width, c.height);
      return !used.some((other) => overlap(box, other));
    });
    const place = free ?? (c.always ? c.places[0] : undefined);
    if (!place) continue;
    placed.set(c.id, place);
    used.push(around(place, c.width, c.height));
  }
  return placed;
}

/** Places in a row with a least spacing, in order, each as near to its wish as the others allow. */
export function spread(wishes: readonly number[], spacing: number, low: number, high: number): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => (wishes[a] as number) - (wishes[b] as number) || a - b);
  // Pools of neighbours that touch, each around the mean of its wishes: the least squares answer for a chain.
  const pools: { sum: number; count: number }[] = [];
  const start = (p: { sum: number; count: number }) => p.sum / p.count - ((p.count - 1) * spacing) / 2;
  for (const i of order) {
    pools.push({ sum: wishes[i] as number, count: 1 });
    while (pools.length > 1) {
      const last = pools[pools.length - 1] as { sum: number; count: number };
      const before = pools[pools.length - 2] as { sum: number; count: number };
      if (start(before) + before.count * spacing <= start(last)) break;
      before.sum += last.sum;
      before.count += last.count;
      pools.pop();
    }
  }
  const places = pools.flatMap((pool) => Array.from({ length: pool.count }, (_, j) => start(pool) + j * spacing));
  // The ends push inwards; where there is not room for all, the row runs over its upper end.
  for (let k = places.length - 1, next = high + spacing; k >= 0; k--) {
    next = Math.min(places[k] as number, next - spacing);
    places[k] = next;
  }
  for (let k = 0, before = low - spacing; k < places.length; k++) {
    before = Math.max(places[k] as number, before + spacing);
    places[k] = before;
  }
  const out = new Array<number>(wishes.length).fill(0);
  for (const [k, i] of order.entries()) out[i] = places[k] as number;
  return out;
}

/**
 * Which end each start leads to, so that no two leaders cross. Two that cross are exchanged; each exchange makes their sum
 * shorter, so it comes to an end.
 */
export function uncrossed(starts: readonly Vec2[], ends: readonly Vec2[]): number[] {
  const leads = starts.map((_, i) => i);
  const end = (i: number): Vec2 => ends[leads[i] as number] as Vec2;
  for (let changed = true; changed; ) {
    changed = false;
    for (let i = 0; i < starts.length; i++)
      for (let j = i + 1; j < starts.length; j++) {
        if (!cross(starts[i] as Vec2, end(i), starts[j] as Vec2, end(j))) continue;
        const kept = leads[i] as number;
        leads[i] = leads[j] as number;
        leads[j] = kept;
        changed = true;
      }
  }
  return leads;
}

const sideOf = ([ax, ay]: Vec2, [bx, by]: Vec2, [px, py]: Vec2): number =>
  (bx - ax) * (py - ay) - (by - ay) * (px - ax);
/** True where the insides of two segments cross; touching ends and segments along one line do not. */
const cross = (a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean =>
  sideOf(a, b, c) * sideOf(a, b, d) < -1e-3 && sideOf(c, d, a) * sideOf(c, d, b) < -1e-3;

const SHORT: readonly (readonly [RegExp, string])[] = [
  [/\blocker\b/gi, 'lkr'],
  [/\bcompartment\b/gi, 'comp.'],
  [/\bstarboard\b/gi, 'stbd'],
  [/\bforward\b/gi, 'fwd'],
  [/\bengine\b/gi, 'eng.'],
  [/\bquarter\b/gi, 'qtr'],
  [/\bspace\b/gi, 'sp.'],
  [/\bunder\b/gi, 'u.'],
  [/\bport\b/gi, 'P'],
];

/** `Hanging lkr` for `Hanging locker`. */
export const abbreviated = (name: string): string =>
  SHORT.reduce((text, [word, short]) => text.replace(word, short), name);
