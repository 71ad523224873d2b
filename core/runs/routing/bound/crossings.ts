import { angleBetween, distance } from '../../../base/vec';
import type { Layout, PanelHole } from '../../../shape/layout/types';
import { holeStraightM } from '../straights';
import { structureOf } from '../structure';
import type { RoutingLine } from '../types';
import { type Domain, domainDistance, domainOf, squareAbout } from './domain';
import type { BoundEvent } from './dual';
import { BESIDE_M, clearOfWalls, type Rim, rimOf, withinEdges } from './insets';

/** One way of getting from one cell into the next: an open portal, an existing hole, or a hole to be drilled. */
export interface Way {
  readonly portal: number;
  readonly cells: readonly [number, number];
  /** Events of the two senses: from cells[0] into cells[1], and back. */
  readonly events: readonly [BoundEvent, BoundEvent];
  readonly costM: number;
  /** An existing hole: one place, and not somewhere in its portal. */
  readonly isHole: boolean;
  /** How far it may lie beside the polygon of its portal, metres. */
  readonly besideM: number;
}

/** A way and its sense: 2 k into cells[1], 2 k + 1 into cells[0]. */
export const intoCell = (ways: readonly Way[], node: number): number =>
  (ways[node >> 1] as Way).cells[node & 1 ? 0 : 1];
export const outOfCell = (ways: readonly Way[], node: number): number =>
  (ways[node >> 1] as Way).cells[node & 1 ? 1 : 0];
export const eventOf = (ways: readonly Way[], node: number): BoundEvent =>
  (ways[node >> 1] as Way).events[node & 1 ? 1 : 0];

/**
 * Compartments that share space let a run change over anywhere in it: their cells count as one. Gives each cell the number
 * that stands for all cells joined with it.
 */
export function roomOf(layout: Layout): (cell: number) => number {
  const known = rooms.get(layout);
  if (known) return known;
  const parent = layout.cells.map((_, k) => k);
  const top = (k: number): number => {
    let at = k;
    while (parent[at] !== at) at = parent[at] as number;
    return at;
  };
  for (const { between } of layout.overlaps) {
    const all = between.flatMap((id) => layout.cellsOf[id] ?? []);
    for (const cell of all) parent[top(cell)] = top(all[0] as number);
  }
  const room = layout.cells.map((_, k) => top(k));
  const find = (cell: number): number => room[cell] as number;
  rooms.set(layout, find);
  return find;
}
const rooms = new WeakMap<Layout, (cell: number) => number>();

/** All ways that this line may use. Holes carry other things, edges and hulls are near: leaving that out only adds ways. */
export function waysFor(line: RoutingLine, layout: Layout): Ways {
  let known = waysOf.get(layout);
  if (!known) {
    known = new Map();
    waysOf.set(layout, known);
  }
  const key = [line.radiusM, line.holeRadiusM, ...line.forbiddenCompartments].join('|');
  const found = known.get(key) ?? derivedWays(line, layout);
  known.set(key, found);
  return found;
}

export interface Ways {
  readonly ways: readonly Way[];
  /** Nodes that leave a room, and nodes that arrive in it. */
  readonly leaving: ReadonlyMap<number, readonly number[]>;
  readonly arriving: ReadonlyMap<number, readonly number[]>;
}
/** Lines of one size share their ways. */
const waysOf = new WeakMap<Layout, Map<string, Ways>>();

function derivedWays(line: RoutingLine, layout: Layout): Ways {
  const forbidden = new Set(line.forbiddenCompartments);
  const shut = layout.cells.map(({ compartment }) => forbidden.has(compartment));
  const ways = allWays(line, layout).filter(({ portal }) => !layout.portals[portal]?.cells.some((cell) => shut[cell]));
  const leaving = new Map<number, number[]>();
  const arriving = new Map<number, number[]>();
  for (let node = 0; node < 2 * ways.length; node++) {
    const [out, into] = [outOfCell(ways, node), intoCell(ways, node)];
    put(leaving, out, node);
    put(arriving, into, node);
  }
  return { ways, leaving, arriving };
}

function put(lists: Map<number, number[]>, key: number, node: number): void {
  const list = lists.get(key);
  if (list) list.push(node);
  else lists.set(key, [node]);
}

/** Radii of a hose and of the hole that it needs. */
type Bore = Pick<RoutingLine, 'radiusM' | 'holeRadiusM'>;

/** Ways for hoses of one size, whichever compartments are forbidden. */
function allWays(bore: Bore, layout: Layout): readonly Way[] {
  let known = waysOfSize.get(layout);
  if (!known) {
    known = new Map();
    waysOfSize.set(layout, known);
  }
  const key = `${bore.radiusM}|${bore.holeRadiusM}`;
  const found = known.get(key) ?? listedWays(bore, layout);
  known.set(key, found);
  return found;
}
const waysOfSize = new WeakMap<Layout, Map<string, readonly Way[]>>();

/** Whole portals, the same for every line. */
function portalDomains(layout: Layout): readonly Domain[] {
  const known = domains.get(layout);
  if (known) return known;
  const found = layout.portals.map(({ polygon, normal }) => domainOf(polygon, normal));
  domains.set(layout, found);
  return found;
}
const domains = new WeakMap<Layout, readonly Domain[]>();

function portalRims(layout: Layout): readonly Rim[] {
  const known = rimsOf.get(layout);
  if (known) return known;
  const structure = structureOf(layout);
  const wholes = portalDomains(layout);
  const found = layout.portals.map((portal) =>
    rimOf(
      wholes[portal.index] as Domain,
      portal,
      portal.kind === 'panel' ? layout.panels[portal.panelId] : undefined,
      structure,
    ),
  );
  rimsOf.set(layout, found);
  return found;
}
const rimsOf = new WeakMap<Layout, readonly Rim[]>();

/**
 * Where the spaces of open panels meet, a run may round the end of what parts two compartments without passing their middle planes:
 * it is then at most so far from them. By portal, metres.
 */
function looseOpenings(layout: Layout): ReadonlyMap<number, number> {
  const known = looseOf.get(layout);
  if (known) return known;
  const wholes = portalDomains(layout);
  const open = layout.portals.flatMap(({ kind, panelId, index }) => {
    const panel = kind === 'panel' ? layout.panels[panelId] : undefined;
    return panel?.rule === 'open' ? [{ index, gapM: Math.abs(panel.gapM) }] : [];
  });
  const loose = new Map<number, number>();
  for (const one of open)
    for (const other of open) {
      const gapM = Math.max(one.gapM, other.gapM);
      if (one === other || gapM === 0) continue;
      if (domainDistance(wholes[one.index] as Domain, wholes[other.index] as Domain) < gapM + BESIDE_M)
        loose.set(one.index, Math.max(gapM, loose.get(one.index) ?? 0));
    }
  looseOf.set(layout, loose);
  return loose;
}
const looseOf = new WeakMap<Layout, ReadonlyMap<number, number>>();

/** Rods beside each other in a hole: the widest two side by side, and all of them by area. What they carry lies how it will. */
function isFull({ diameterM, carries }: PanelHole, holeRadiusM: number): boolean {
  const widest = carries.reduce((most, one) => Math.max(most, one.diameterM), 0);
  const area = carries.reduce((sum, one) => sum + one.diameterM ** 2, 4 * holeRadiusM ** 2);
  return 2 * holeRadiusM + widest > diameterM + 1e-6 || area > diameterM ** 2 + 1e-9;
}

function listedWays({ radiusM, holeRadiusM }: Bore, layout: Layout): Way[] {
  const ways: Way[] = [];
  const wholes = portalDomains(layout);
  const room = roomOf(layout);
  const rims = portalRims(layout);
  const loose = looseOpenings(layout);
  for (const portal of layout.portals) {
    const cells: readonly [number, number] = [room(portal.cells[0]), room(portal.cells[1])];
    if (cells[0] === cells[1]) continue;
    const panel = portal.kind === 'panel' ? layout.panels[portal.panelId] : undefined;
    const whole = wholes[portal.index] as Domain;
    if (!panel || panel.rule === 'open') {
      const free = clearOfWalls(whole, rims[portal.index] as Rim, radiusM);
      if (!free) continue;
      const roundM = loose.get(portal.index) ?? 0;
      const event: BoundEvent = { domain: { ...free, roundM }, tangent: null, stub: 0 };
      ways.push({ portal: portal.index, cells, events: [event, event], costM: 0, isHole: false, besideM: roundM });
      continue;
    }
    const square = (domain: Domain): readonly [BoundEvent, BoundEvent] => {
      const [x, y, z] = portal.normal;
      const stub = holeStraightM(panel, radiusM);
      return [
        { domain, tangent: portal.normal, stub },
        { domain, tangent: [-x, -y, -z], stub },
      ];
    };
    for (const hole of panel.holes) {
      const play = hole.diameterM / 2 - holeRadiusM;
      if (isFull(hole, holeRadiusM)) continue;
      const besideM = domainDistance(whole, domainOf([hole.at], portal.normal));
      if (play < -1e-9 || besideM > hole.diameterM / 2 + BESIDE_M) continue;
      const domain = squareAbout(hole.at, portal.normal, Math.max(0, play));
      ways.push({
        portal: portal.index,
        cells,
        events: square(domain),
        costM: 0,
        isHole: true,
        besideM: besideM + domain.size + BESIDE_M,
      });
    }
    if (panel.rule !== 'drill') continue;
    const free = withinEdges(whole, rims[portal.index] as Rim, panel.edgeM + holeRadiusM);
    if (free)
      ways.push({
        portal: portal.index,
        cells,
        events: square(free),
        costM: Math.max(0, panel.newHoleCostM),
        isHole: false,
        besideM: 0,
      });
  }
  return ways;
}

/** Least distances between whole portals of one cell, the same for every line. */
const portalGaps = new WeakMap<Layout, Map<number, number>>();

export function gapsOf(layout: Layout): (a: number, b: number) => number {
  let gaps = portalGaps.get(layout);
  if (!gaps) {
    gaps = new Map();
    portalGaps.set(layout, gaps);
  }
  const known = gaps;
  const wholes = portalDomains(layout);
  const count = layout.portals.length;
  return (a, b) => {
    const [low, high] = a < b ? [a, b] : [b, a];
    const key = low * count + high;
    const found = known.get(key);
    if (found !== undefined) return found;
    // Always from the lower to the higher: the certified distance depends a little on where its search starts, and what is
    // kept must not depend on which line asked first.
    const gap = domainDistance(wholes[low] as Domain, wholes[high] as Domain);
    known.set(key, gap);
    return gap;
  };
}

/** Least leg between two ways: two holes by their places, all else by their portals, whose distances are looked up. */
export function leastBetween(
  ways: readonly Way[],
  a: number,
  b: number,
  radius: number,
  gap: (p: number, q: number) => number,
): number {
  const [wa, wb] = [ways[a >> 1] as Way, ways[b >> 1] as Way];
  const [ea, eb] = [eventOf(ways, a), eventOf(ways, b)];
  let apart = gap(wa.portal, wb.portal) - wa.besideM - wb.besideM;
  if (wa.isHole && wb.isHole)
    apart = Math.max(apart, distance(ea.domain.centre, eb.domain.centre) - ea.domain.size - eb.domain.size);
  const turn = ea.tangent && eb.tangent ? radius * angleBetween(ea.tangent, eb.tangent) : 0;
  return Math.max(0, apart - ea.stub - eb.stub, turn);
}
