import type { Part } from '../../boat/schema/boat';
import { girthOf } from './body';
import type { Fit } from './fit';
import { bestPlaces, bodiesAt, isMet, type Placed, type Stand, tasksAt, tasksWanted } from './places';

/** Counted limits of the search: places kept for each part at each step, and whole layouts that are weighed. */
const PLACES_KEPT = 3;
const MOST_LAYOUTS = 40;
/** Places tried for one part at one step, and in all. */
const STEP_PLACES = 400;
const MOST_PLACES = 6000;
/** Orders in which the parts are tried: the largest first, then with each of the others first. */
const MOST_ORDERS = 6;

export interface Together {
  /** Places of the parts that found one. */
  readonly places: Readonly<Record<string, Placed>>;
  readonly left: readonly string[];
  readonly tried: { readonly places: number; readonly layouts: number; readonly orders: number };
}

interface Weighed {
  readonly places: ReadonlyMap<string, Placed>;
  readonly met: number;
  readonly tightM: number;
}

/**
 * Places several parts in one room without overlap: the largest first, each at one of its best places among those before it, all combinations
 * up to a counted limit, in a few orders. Keeps the layout with most parts in it, then with most service tasks done. A search, not a proof: a
 * part that is left out may still find room.
 */
export function placedTogether(
  parts: Readonly<Record<string, Part>>,
  fits: Readonly<Record<string, Fit>>,
  stand: Stand,
): Together {
  const ids = Object.keys(parts)
    .filter((id) => (fits[id]?.ways.length ?? 0) > 0)
    .sort((a, b) => volumeOf(parts[b]) - volumeOf(parts[a]) || (a < b ? -1 : 1));
  let best: Weighed = { places: new Map(), met: 0, tightM: 0 };
  let tried = 0;
  let layouts = 0;
  let orders = 0;
  const wanted = ids.reduce((sum, id) => sum + tasksWanted(parts[id] as Part), 0);
  const isComplete = (): boolean => best.places.size === ids.length && best.met === wanted;

  const isOver = (): boolean => layouts >= MOST_LAYOUTS || (layouts > 0 && tried >= MOST_PLACES) || isComplete();

  const step = (order: readonly string[], places: ReadonlyMap<string, Placed>): void => {
    const id = order[0];
    if (id === undefined) {
      layouts++;
      const layout = weighed(places, parts, stand);
      if (isBetter(layout, best)) best = layout;
      return;
    }
    const part = parts[id] as Part;
    const solids = [...places].flatMap(([other, placed]) => bodiesAt(other, parts[other] as Part, placed.pose));
    const search = bestPlaces(
      id,
      part,
      fits[id]?.ways ?? [],
      { ...stand, solids },
      {
        most: PLACES_KEPT,
        budget: Math.min(STEP_PLACES, Math.max(1, MOST_PLACES - tried)),
      },
    );
    tried += search.tried;
    if (search.places.length === 0) step(order.slice(1), places);
    for (const placed of search.places) {
      if (isOver()) return;
      step(order.slice(1), new Map([...places, [id, placed]]));
    }
  };
  for (const order of ordersOf(ids)) {
    if (isOver()) break;
    orders++;
    step(order, new Map());
  }
  return {
    places: Object.fromEntries(best.places),
    left: Object.keys(parts)
      .filter((id) => !best.places.has(id))
      .sort(),
    tried: { places: tried, layouts, orders },
  };
}

const volumeOf = (part: Part | undefined): number => (part ? girthOf(part.shape).volumeM3 : 0);

function* ordersOf(ids: readonly string[]): Generator<readonly string[]> {
  yield ids;
  for (const id of ids.slice(1, MOST_ORDERS)) yield [id, ...ids.filter((other) => other !== id)];
}

/** Tasks counted again with every part in place: a later one may stand in an earlier one's room. */
function weighed(places: ReadonlyMap<string, Placed>, parts: Readonly<Record<string, Part>>, stand: Stand): Weighed {
  const settled = new Map<string, Placed>();
  let met = 0;
  let tightM = Number.POSITIVE_INFINITY;
  for (const [id, placed] of places) {
    const solids = [...places]
      .filter(([other]) => other !== id)
      .flatMap(([other, there]) => bodiesAt(other, parts[other] as Part, there.pose));
    const tasks = tasksAt(parts[id] as Part, placed.pose, { ...stand, solids });
    const done = tasks.filter(isMet).length;
    met += done;
    for (const task of tasks) tightM = Math.min(tightM, task.freeM - task.service.clearM);
    settled.set(id, { ...placed, tasks, met: done });
  }
  return { places: settled, met, tightM };
}

const isBetter = (a: Weighed, b: Weighed): boolean =>
  (a.places.size - b.places.size || a.met - b.met || (a.met > 0 ? a.tightM - b.tightM : 0)) > 0;
