import { byId } from '../../base/order';
import * as portable from '../../base/portable';
import { dot, unit, type Vec3 } from '../../base/vec';
import type { Boat, Opening } from '../../boat/schema/boat';
import type { WaterPlane } from '../../shape/hull/types';
import type { Layout } from '../../shape/layout/types';
import { openingFrame } from '../../shape/space/ways-in';

/** Where water gets from one compartment into another. Plain data. */
export interface Waterway {
  /** Opening, panel, limber hole; of a hole, `PANEL/HOLE`. */
  readonly id: string;
  readonly kind: 'openPanel' | 'opening' | 'hole' | 'limberHole';
  readonly between: readonly [string, string];
  readonly rim: Rim;
}

/** What the water passes: a flat shape by its corners, or an ellipse by its half axes. */
export type Rim =
  | { readonly type: 'corners'; readonly points: readonly Vec3[] }
  | { readonly type: 'round'; readonly at: Vec3; readonly half: readonly [Vec3, Vec3] };

/** A hole that a run needs and that is not drilled yet. */
export interface DrilledHole {
  readonly panelId: string;
  readonly at: Vec3;
  readonly diameterM: number;
}

/** All of them, sorted by id. What is sealed, or shuts tight, is none. */
export function waterways(input: {
  readonly layout: Layout;
  readonly openings: Boat['openings'];
  readonly limberHoles: NonNullable<NonNullable<Boat['flooding']>['limberHoles']>;
  readonly drilled: readonly DrilledHole[];
}): readonly Waterway[] {
  const { layout } = input;
  const found: Waterway[] = [];
  for (const panel of Object.values(layout.panels)) {
    const { id, between, normal } = panel;
    if (panel.rule === 'open')
      found.push({ id, kind: 'openPanel', between, rim: { type: 'corners', points: panel.pieces.flat() } });
    for (const hole of panel.holes)
      if (!hole.sealed)
        found.push({ id: `${id}/${hole.id}`, kind: 'hole', between, rim: disc(hole.at, normal, hole.diameterM) });
  }
  for (const { panelId, at, diameterM } of input.drilled) {
    const panel = layout.panels[panelId];
    if (!panel) continue;
    found.push({
      id: `${panelId}/${at.join(',')}`,
      kind: 'hole',
      between: panel.between,
      rim: disc(at, panel.normal, diameterM),
    });
  }
  for (const [id, opening] of Object.entries(input.openings)) {
    const { compartment, to } = opening;
    if (opening.watertight || !layout.cellsOf[compartment] || !layout.cellsOf[to]) continue;
    found.push({ id, kind: 'opening', between: [compartment, to], rim: rimOf(opening) });
  }
  for (const [id, { between, at, diameterM }] of Object.entries(input.limberHoles))
    found.push({ id, kind: 'limberHole', between, rim: disc(at, null, diameterM) });
  return found.sort(byId);
}

/** A round hole; without a normal it may look any way, and its lowest point is straight below its middle. */
function disc(at: Vec3, normal: Vec3 | null, diameterM: number): Rim {
  const r = diameterM / 2;
  if (!normal)
    return {
      type: 'round',
      at,
      half: [
        [0, 0, r],
        [0, r, 0],
      ],
    };
  const n = unit(normal);
  const level: Vec3 = Math.abs(n[2]) > 0.999 ? [1, 0, 0] : unit([-n[1], n[0], 0]);
  const steep: Vec3 = [
    n[1] * level[2] - n[2] * level[1],
    n[2] * level[0] - n[0] * level[2],
    n[0] * level[1] - n[1] * level[0],
  ];
  return {
    type: 'round',
    at,
    half: [
      [level[0] * r, level[1] * r, level[2] * r],
      [steep[0] * r, steep[1] * r, steep[2] * r],
    ],
  };
}

/** The clear opening, as it is drawn. */
export function rimOf(opening: Opening): Rim {
  const { up, across } = openingFrame(opening);
  const [w, h] = [opening.widthM / 2, opening.heightM / 2];
  const { at } = opening;
  if (opening.shape === 'round')
    return {
      type: 'round',
      at,
      half: [
        [across[0] * w, across[1] * w, across[2] * w],
        [up[0] * h, up[1] * h, up[2] * h],
      ],
    };
  const corner = (a: number, b: number): Vec3 => [
    at[0] + across[0] * w * a + up[0] * h * b,
    at[1] + across[1] * w * a + up[1] * h * b,
    at[2] + across[2] * w * a + up[2] * h * b,
  ];
  return { type: 'corners', points: [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)] };
}

/** Height of the lower edge above the water, metres. */
export function sillHeight({ rim }: Waterway, water: WaterPlane): number {
  const { up, levelM } = water;
  if (rim.type === 'corners') return Math.min(...rim.points.map((point) => dot(point, up))) - levelM;
  const [a, b] = rim.half;
  return dot(rim.at, up) - portable.hypot(dot(a, up), dot(b, up)) - levelM;
}

/**
 * What ways come to for water that rises from a level: what is joined at that level already, and at what heights more is. How low an edge
 * lies below the level makes no difference, and so a hole that moves with a run there changes nothing. Plain data.
 */
export interface Spread {
  /** Compartments that are joined below the level, each group sorted, by its first. */
  readonly groups: readonly (readonly string[])[];
  /** Ways above it by which groups are joined as the water rises, lowest first: the first of each group, and the height over the level. */
  readonly links: readonly { readonly between: readonly [string, string]; readonly sillM: number }[];
}

/** Compartments that are one water already at a level, and the sills over which they become one as it rises. */
export function spreadOf(ways: readonly Waterway[], level: WaterPlane): Spread {
  const first = new Map<string, string>();
  const rootOf = (id: string): string => {
    let root = id;
    for (let up = first.get(root); up !== undefined && up !== root; up = first.get(root)) root = up;
    return root;
  };
  /** Joins two groups under their first by id; false where they are one already. */
  const join = (a: string, b: string): boolean => {
    const [one, other] = [rootOf(a), rootOf(b)].sort() as [string, string];
    first.set(one, one);
    first.set(other, one);
    return one !== other;
  };
  const heights = ways
    .map(({ between, ...way }) => ({ between, sillM: sillHeight({ between, ...way }, level) }))
    .sort((a, b) => a.sillM - b.sillM);
  for (const { between, sillM } of heights) if (sillM < 0) join(...between);
  const members = new Map<string, string[]>();
  for (const id of [...first.keys()].sort()) {
    const root = rootOf(id);
    members.set(root, [...(members.get(root) ?? []), id]);
  }
  const rootsBelow = new Map([...first.keys()].map((id) => [id, rootOf(id)]));
  const below = (id: string): string => rootsBelow.get(id) ?? id;
  const links = heights.flatMap(({ between: [a, b], sillM }) =>
    sillM >= 0 && join(a, b) ? [{ between: [below(a), below(b)].sort() as [string, string], sillM }] : [],
  );
  return { groups: [...members.values()], links };
}

/** Compartments that are joined to one of them when the water stands so high over the level, sorted. */
export function joinedAt(start: string, { groups, links }: Spread, aboveM: number): readonly string[] {
  const groupOf = (id: string): readonly string[] => groups.find((group) => group.includes(id)) ?? [id];
  const found = new Set<string>();
  const queue = [groupOf(start)];
  for (let head = 0; head < queue.length; head += 1) {
    const group = queue[head] as readonly string[];
    const [root = ''] = group;
    if (found.has(root)) continue;
    for (const id of group) found.add(id);
    for (const { between, sillM } of links)
      if (sillM < aboveM && between.includes(root)) queue.push(...between.map(groupOf));
  }
  return [...found].sort();
}

/** A compartment that the water comes to, and through what. */
export interface Reached {
  readonly compartment: string;
  /** Null where it starts. */
  readonly through: string | null;
  readonly from: string | null;
}

/** Compartments that water at a level gets to from one of them, nearest first: over every lower edge that lies below the level. */
export function reachedAt(start: string, ways: readonly Waterway[], water: WaterPlane): readonly Reached[] {
  return reachedBy(
    start,
    ways.filter((way) => sillHeight(way, water) < 0),
  );
}

/** The same by ways that are passed from a compartment whenever `isPassed` says so; default always. */
export function reachedBy(
  start: string,
  ways: readonly Waterway[],
  isPassed: (from: string, way: Waterway) => boolean = () => true,
): readonly Reached[] {
  const found: Reached[] = [{ compartment: start, through: null, from: null }];
  const seen = new Set([start]);
  for (let head = 0; head < found.length; head += 1) {
    const { compartment } = found[head] as Reached;
    for (const way of ways) {
      const [a, b] = way.between;
      const to = a === compartment ? b : b === compartment ? a : null;
      if (to === null || seen.has(to) || !isPassed(compartment, way)) continue;
      seen.add(to);
      found.push({ compartment: to, through: way.id, from: compartment });
    }
  }
  return found;
}
