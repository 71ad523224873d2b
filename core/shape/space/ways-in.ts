import { inOrder } from '../../base/order';
import * as portable from '../../base/portable';
import { add, along, cross, distance, dot, subtract, UP, unit, type Vec3 } from '../../base/vec';
import { LIVING_SPACES } from '../../boat/kinds';
import type { Boat, Opening } from '../../boat/schema/boat';
import { nearestOnPolygon } from '../layout/polygon';
import type { Layout } from '../layout/types';
import { wallsNear } from './walls-near';

/** Counted limits of the search for ways. */
const MOST_OPENINGS = 5;
const MOST_WAYS = 64;
/** The plate that an opening is cut into stands no further inside or outside of it, and no more aslant. */
export const OWN_WALL_INSIDE_M = 0.05;
export const OWN_WALL_OUTSIDE_M = 0.15;
export const OWN_WALL_COS = 0.85;

export interface WayIn {
  /** From where the person stands to the compartment. */
  readonly openings: readonly string[];
  /** Where it starts: 'outside' or a compartment in which people stand; then every compartment that it leads through. */
  readonly through: readonly string[];
  /** Open panels passed on the way. */
  readonly openPanels: readonly string[];
}

interface Step {
  readonly to: string;
  readonly opening: string | null;
  readonly panel: string | null;
}

/**
 * Chains of openings from where a person stands to the compartment, fewest openings first, then by their names. A compartment
 * in which people stand has the empty way. Open panels are passed without an opening. At most five openings and 64 ways.
 */
export function waysIn(
  layout: Layout,
  boat: {
    readonly compartments: Readonly<Record<string, { readonly kind: string }>>;
    readonly openings: Boat['openings'];
  },
  compartment: string,
): readonly WayIn[] {
  const steps = stepsBetween(layout, boat.openings);
  const isStanding = (id: string): boolean => id === 'outside' || LIVING_SPACES.has(boat.compartments[id]?.kind ?? '');
  const found: WayIn[] = [];
  let level: WayIn[] = [{ openings: [], through: [compartment], openPanels: [] }];
  for (let n = 0; n <= MOST_OPENINGS && found.length < MOST_WAYS; n++) {
    const reached = level.flatMap((way) => throughOpenPanels(way, steps)).sort(compareWays);
    found.push(...reached.filter((way) => isStanding(way.through[0] as string)));
    level = reached
      .filter((way) => !isStanding(way.through[0] as string))
      .flatMap((way) =>
        (steps.get(way.through[0] as string) ?? [])
          .filter((step) => step.opening !== null && !way.through.includes(step.to))
          .map((step) => ({
            openings: [step.opening as string, ...way.openings],
            through: [step.to, ...way.through],
            openPanels: way.openPanels,
          })),
      )
      .slice(0, MOST_WAYS * 4);
  }
  return found.slice(0, MOST_WAYS);
}

const compareWays = (p: WayIn, q: WayIn): number => {
  const key = (w: WayIn): string =>
    [w.openings.join(' '), String(w.openPanels.length).padStart(3, '0'), w.through.join(' ')].join('\n');
  return key(p) < key(q) ? -1 : 1;
};

/** The way itself and all that lead on through open panels, nearest first, each compartment once. */
function throughOpenPanels(way: WayIn, steps: ReadonlyMap<string, readonly Step[]>): WayIn[] {
  const out: WayIn[] = [way];
  const seen = new Set(way.through);
  for (let i = 0; i < out.length; i++) {
    const at = out[i] as WayIn;
    for (const step of steps.get(at.through[0] as string) ?? []) {
      if (step.panel === null || seen.has(step.to)) continue;
      seen.add(step.to);
      out.push({ ...at, through: [step.to, ...at.through], openPanels: [step.panel, ...at.openPanels] });
    }
  }
  return out;
}

const STEPS = new WeakMap<Layout, WeakMap<Boat['openings'], ReadonlyMap<string, readonly Step[]>>>();

function stepsBetween(layout: Layout, openings: Boat['openings']): ReadonlyMap<string, readonly Step[]> {
  let byOpenings = STEPS.get(layout);
  if (!byOpenings) {
    byOpenings = new WeakMap();
    STEPS.set(layout, byOpenings);
  }
  const steps = byOpenings.get(openings) ?? allSteps(layout, openings);
  byOpenings.set(openings, steps);
  return steps;
}

function allSteps(layout: Layout, openings: Boat['openings']): ReadonlyMap<string, readonly Step[]> {
  const steps = new Map<string, Step[]>();
  const join = (from: string, step: Step): void => {
    steps.set(from, [...(steps.get(from) ?? []), step]);
  };
  for (const [id, { compartment, to }] of inOrder(openings)) {
    join(compartment, { to, opening: id, panel: null });
    // Nobody carries a part into a locker to come out of its other end onto the deck: outside is only ever a start.
    if (to !== 'outside') join(to, { to: compartment, opening: id, panel: null });
  }
  for (const [id, panel] of inOrder(layout.panels)) {
    if (panel.rule !== 'open') continue;
    const [a, b] = panel.between;
    join(a, { to: b, opening: null, panel: id });
    join(b, { to: a, opening: null, panel: id });
  }
  return steps;
}

/** Unit directions of an opening: out of its compartment, along its height, along its width. */
export function openingFrame(opening: Pick<Opening, 'normal' | 'up'>): {
  readonly out: Vec3;
  readonly up: Vec3;
  readonly across: Vec3;
} {
  const out = unit(opening.normal);
  const flat = (v: Vec3): Vec3 => along(v, out, -dot(v, out));
  const wish = opening.up ? flat(unit(opening.up)) : flat(UP);
  const isUsable = portable.hypot(...wish) > 0.05;
  const up = unit(isUsable ? wish : flat([1, 0, 0]));
  return { out, up, across: cross(up, out) };
}

const OWN_WALLS = new WeakMap<Layout, WeakMap<Opening, ReadonlySet<string>>>();

/** Walls that the opening is cut into: near to its middle and nearly in its plane. */
export function wallsOfOpening(layout: Layout, opening: Opening): ReadonlySet<string> {
  let known = OWN_WALLS.get(layout);
  if (!known) {
    known = new WeakMap();
    OWN_WALLS.set(layout, known);
  }
  const walls = known.get(opening) ?? ownWalls(layout, opening);
  known.set(opening, walls);
  return walls;
}

function ownWalls(layout: Layout, opening: Opening): ReadonlySet<string> {
  const { out } = openingFrame(opening);
  const near = ([-OWN_WALL_OUTSIDE_M, OWN_WALL_OUTSIDE_M] as const).map((by) => add(opening.at, [by, by, by]));
  const own = wallsNear(layout, near[0] as Vec3, near[1] as Vec3).filter(({ wall: { polygon, normal } }) => {
    if (Math.abs(dot(normal, out)) < OWN_WALL_COS) return false;
    const nearest = nearestOnPolygon(polygon, normal, opening.at);
    const away = distance(opening.at, nearest);
    return away <= (dot(subtract(nearest, opening.at), out) < 0 ? OWN_WALL_INSIDE_M : OWN_WALL_OUTSIDE_M);
  });
  return new Set(own.map(({ wall }) => wall.id));
}

/** Greatest distance between two corners of the compartment's cells: nothing longer lies in it. */
export function diagonalOf(layout: Layout, compartment: string): number {
  const corners = (layout.cellsOf[compartment] ?? []).flatMap((i) => layout.cells[i]?.corners ?? []);
  let most = 0;
  for (const p of corners) for (const q of corners) most = Math.max(most, portable.hypot(...subtract(p, q)));
  return most;
}
