import { distanceToRegion, distanceToSegment, distanceToTriangle, type P3 } from '../geometry-oracle';
import type { HullMesh } from '../hull-oracle';
import type { Interior, OracleRun } from '../run-oracle';

/** What a hose must clear, each with bounds; distances are less what that thing itself adds to the hose's radius. */
interface Item {
  readonly low: P3;
  readonly high: P3;
  /** Beyond the surface of the item itself: lining of the hull, radius of another run and the gap to it. */
  readonly lessM: number;
  /** Thing that it belongs to, or panel as `panel 3`; '' for what counts everywhere. */
  readonly owner: string;
  distance(p: P3): number;
}

const BUCKET = 0.1;
/** Hoses and fittings are thinner than this in radius. */
export const REACH = 0.06;

/** Exact distances near a place: the oracle's own functions over what is close enough to matter. */
export class Near {
  private readonly fixed: Map<number, Item[]>;
  private readonly moving = new Map<number, Item[]>();
  private readonly lists = new Map<number, readonly Item[]>();

  constructor(fixed: Map<number, Item[]>, others: readonly OracleRun[]) {
    this.fixed = fixed;
    for (const item of others.flatMap(itemsOfRun)) enter(this.moving, item);
  }

  /** Distance from a point to the nearest thing, at most REACH; what belongs to one of `except` does not count. */
  at(p: P3, except: readonly string[]): number {
    const key = keyOf(Math.floor(p[0] / BUCKET), Math.floor(p[1] / BUCKET), Math.floor(p[2] / BUCKET));
    let list = this.lists.get(key);
    if (!list) {
      list = [...(this.fixed.get(key) ?? []), ...(this.moving.get(key) ?? [])];
      this.lists.set(key, list);
    }
    let best = REACH;
    for (const item of list) {
      const cut = best + item.lessM;
      if (
        p[0] < item.low[0] - cut ||
        p[0] > item.high[0] + cut ||
        p[1] < item.low[1] - cut ||
        p[1] > item.high[1] + cut ||
        p[2] < item.low[2] - cut ||
        p[2] > item.high[2] + cut ||
        except.includes(item.owner)
      )
        continue;
      best = Math.min(best, item.distance(p) - item.lessM);
    }
    return best;
  }
}

const keyOf = (i: number, j: number, k: number): number => (i + 512) * 1048576 + (j + 512) * 1024 + k + 512;

function enter(buckets: Map<number, Item[]>, item: Item): void {
  const range = [0, 1, 2].map((axis) => [
    Math.floor(((item.low[axis] as number) - REACH - item.lessM) / BUCKET),
    Math.floor(((item.high[axis] as number) + REACH + item.lessM) / BUCKET),
  ]) as [[number, number], [number, number], [number, number]];
  for (let i = range[0][0]; i <= range[0][1]; i++)
    for (let j = range[1][0]; j <= range[1][1]; j++)
      for (let k = range[2][0]; k <= range[2][1]; k++) {
        const key = keyOf(i, j, k);
        const list = buckets.get(key);
        if (list) list.push(item);
        else buckets.set(key, [item]);
      }
}

/** Things, walls and the hull of a boat in buckets of 100 mm. */
export function fixedItems(interior: Interior, hull: HullMesh): Map<number, Item[]> {
  const buckets = new Map<number, Item[]>();
  for (const { owner, low, high, distance } of interior.solids)
    enter(buckets, { owner, low, high, lessM: 0, distance });
  for (const { region, panel, low, high } of interior.walls)
    enter(buckets, {
      owner: panel === null ? '' : `panel ${panel}`,
      low,
      high,
      lessM: 0,
      distance: (p) => distanceToRegion(region, p),
    });
  for (let t = 0; t < hull.triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => {
      const i = 3 * (hull.triangles[t + k] as number);
      return [hull.vertices[i], hull.vertices[i + 1], hull.vertices[i + 2]] as unknown as P3;
    }) as [P3, P3, P3];
    const bound = (pick: (...v: number[]) => number): P3 =>
      [0, 1, 2].map((k) => pick(a[k] as number, b[k] as number, c[k] as number)) as unknown as P3;
    enter(buckets, {
      owner: '',
      low: bound(Math.min),
      high: bound(Math.max),
      lessM: hull.insetM,
      distance: (p) => distanceToTriangle(p, a, b, c),
    });
  }
  return buckets;
}

const CHORD = 0.008;
const GAP_BETWEEN_RUNS = 0.002;
/** Chords cut arcs: by less than this at 25 mm radius. */
const SAGITTA = 0.0004;

function itemsOfRun({ trace, radius }: OracleRun): Item[] {
  const count = Math.max(1, Math.ceil(trace.lengthM / CHORD));
  const points = Array.from({ length: count + 1 }, (_, k) => trace.at((trace.lengthM * k) / count));
  const items: Item[] = [];
  for (let i = 0; i < count; i += 8) {
    const some = points.slice(i, Math.min(count, i + 8) + 1);
    const bound = (pick: (...v: number[]) => number): P3 =>
      [0, 1, 2].map((k) => pick(...some.map((p) => p[k] as number))) as unknown as P3;
    items.push({
      owner: '',
      low: bound(Math.min),
      high: bound(Math.max),
      lessM: radius + GAP_BETWEEN_RUNS + SAGITTA,
      distance(p) {
        let best = Number.POSITIVE_INFINITY;
        for (let k = 0; k + 1 < some.length; k++)
          best = Math.min(best, distanceToSegment(p, some[k] as P3, some[k + 1] as P3));
        return best;
      },
    });
  }
  return items;
}
export type FixedItems = ReturnType<typeof fixedItems>;
