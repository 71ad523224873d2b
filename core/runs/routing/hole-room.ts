/**
 * Room in a hole that is there already, or that is planned. What lies in it is a set of discs, seen along the hole: what the boat
 * file says it carries rests at its bottom, runs of earlier rank are where they pass, and what it is kept for rests beside them.
 * A run that comes now lies against the rim, or beside two of them, so that the room that is left stays in one piece. It is drawn
 * in after the others: the whole of what must pass, its end fitting if that is crimped on, has to go by them.
 */
import * as portable from '../../base/portable';
import { cross, distance, dot, subtract, unit, type Vec3 } from '../../base/vec';
import type { Panel, PanelHole } from '../../shape/layout/types';
import type { CapsuleSolid } from '../../shape/space/solids';
import type { PortalFrame } from './structure';
import type { RoutingLine } from './types';
import { lineOfCapsule, RUN_GAP_M } from './world';

/** A round thing in a hole: centre from that of the hole, and radius with the room that it keeps. */
interface Disc {
  readonly x: number;
  readonly y: number;
  readonly radiusM: number;
}
/** A place for the middle of a run, from the centre of the hole. */
type Place = readonly [number, number];

/** Radius of a run and of what must pass with it. */
interface Passer {
  readonly radiusM: number;
  readonly holeRadiusM: number;
}

/** In a hole with less play than this nothing passes beside the run: it goes through the middle. */
const SNUG_M = 0.0015;
const RIM_PLACES = 8;
/** Most places that one hole offers. */
const MOST_PLACES = 8;
const ROUNDING_M = 1e-9;
/** Where there is room for it, runs lie this much freer: the band then has nothing to correct. */
const EASE_M = 0.0002;

/** Places for a disc in a round hole beside what lies there: beside others first, then along the rim. */
function placesIn(diameterM: number, radiusM: number, discs: readonly Disc[]): readonly Place[] {
  const play = diameterM / 2 - radiusM;
  if (play < -ROUNDING_M) return [];
  if (discs.length === 0 && play < SNUG_M) return [[0, 0]];
  const rim = Math.max(0, play);
  const places = besideOthers(rim, radiusM, discs);
  for (let k = 0; k < RIM_PLACES; k += 1) {
    const angle = (2 * Math.PI * k) / RIM_PLACES;
    places.push([rim * portable.cos(angle), rim * portable.sin(angle)]);
  }
  const free: Place[] = [];
  for (const place of places) {
    const [x, y] = place;
    if (portable.hypot(x, y) > rim + ROUNDING_M) continue;
    if (discs.some((disc) => portable.hypot(x - disc.x, y - disc.y) < radiusM + disc.radiusM - ROUNDING_M)) continue;
    if (!free.some(([a, b]) => portable.hypot(x - a, y - b) < 1e-4)) free.push(place);
  }
  return free.slice(0, MOST_PLACES);
}

/** Where a disc touches the rim and another, or two others. */
function besideOthers(rim: number, radiusM: number, discs: readonly Disc[]): Place[] {
  const places: Place[] = [];
  discs.forEach((one, k) => {
    places.push(...meetings(0, 0, rim, one.x, one.y, radiusM + one.radiusM));
    for (const other of discs.slice(k + 1))
      places.push(...meetings(one.x, one.y, radiusM + one.radiusM, other.x, other.y, radiusM + other.radiusM));
  });
  return places;
}

/** Points at distance a of one point and b of another. */
function meetings(ax: number, ay: number, a: number, bx: number, by: number, b: number): Place[] {
  const apart = portable.hypot(bx - ax, by - ay);
  if (apart < 1e-9 || apart > a + b + ROUNDING_M || apart < Math.abs(a - b) - ROUNDING_M) return [];
  const along = (apart * apart + a * a - b * b) / (2 * apart);
  const aside = Math.sqrt(Math.max(0, a * a - along * along));
  const [ux, uy] = [(bx - ax) / apart, (by - ay) / apart];
  const [mx, my] = [ax + ux * along, ay + uy * along];
  return [
    [mx - uy * aside, my + ux * aside],
    [mx + uy * aside, my - ux * aside],
  ];
}

/** Things of these diameters at rest at the bottom of a hole, beside what lies in it: the largest first, each as low as it can. */
function resting(
  diameterM: number,
  diameters: readonly number[],
  beside: readonly Disc[] = [],
): readonly Disc[] | null {
  const discs: Disc[] = [...beside];
  for (const d of [...diameters].sort((a, b) => b - a)) {
    const rim = diameterM / 2 - d / 2;
    const bottom: Place[] = rim > -ROUNDING_M ? [[0, -Math.max(0, rim)]] : [];
    const places = [...bottom, ...placesIn(diameterM, d / 2, discs)];
    let lowest: Place | null = null;
    for (const place of places) {
      if (
        discs.some((disc) => portable.hypot(place[0] - disc.x, place[1] - disc.y) < d / 2 + disc.radiusM - ROUNDING_M)
      )
        continue;
      if (!lowest || place[1] < lowest[1] - ROUNDING_M) lowest = place;
    }
    if (!lowest) return null;
    discs.push({ x: lowest[0], y: lowest[1], radiusM: d / 2 });
  }
  return discs;
}

/** What lies in a hole when a line comes to it. */
export interface InHole {
  /** Lines of earlier rank that pass. */
  readonly runs: ReadonlySet<string>;
  readonly discs: readonly Disc[];
  /** Diameters of what rests at its bottom besides: carried already, or kept for lines to come. */
  readonly resting: readonly number[];
}

/** What the boat file says that a hole carries, no run yet. */
export const carriedOnly = (hole: PanelHole): InHole => ({
  runs: NO_LINES,
  discs: [],
  resting: hole.carries.map(({ diameterM }) => diameterM),
});
const NO_LINES: ReadonlySet<string> = new Set();

/** Places for a run in a hole, none when it is full. */
export function placesBeside(diameterM: number, { radiusM, holeRadiusM }: Passer, inHole: InHole): readonly Place[] {
  for (const ease of inHole.discs.length > 0 ? [EASE_M, 0] : [0]) {
    const runs = inHole.discs.map((disc) => ({
      ...disc,
      // Its surface keeps the gap between runs from ours, and our end goes by it.
      radiusM: Math.max(disc.radiusM + RUN_GAP_M + radiusM - holeRadiusM, disc.radiusM) + ease,
    }));
    const discs = resting(diameterM, inHole.resting, runs);
    const places = discs ? placesIn(diameterM, holeRadiusM, discs) : [];
    if (places.length > 0) return places;
  }
  return [];
}

/** How much wider a hole would have to be for one more, all in it laid anew, to a hundredth of a millimetre; 0 when there is room. */
export function missingWidth(diameterM: number, passer: Passer, seen: InHole): number {
  if (placesBeside(diameterM, passer, seen).length > 0) return 0;
  const inHole = {
    ...seen,
    discs: [],
    resting: [...seen.resting, ...seen.discs.map((disc) => 2 * disc.radiusM + RUN_GAP_M)],
  };
  let enough = 2 * passer.holeRadiusM;
  for (const d of inHole.resting) enough += d;
  let [low, high] = [0, Math.max(enough - diameterM, 2 * passer.holeRadiusM)];
  while (high - low > 1e-5) {
    const middle = (low + high) / 2;
    if (placesBeside(diameterM + middle, passer, inHole).length > 0) high = middle;
    else low = middle;
  }
  return high;
}

/** Whether what a hole carries could lie in it together with one more at all: a no is a proof. */
export function couldHold(hole: PanelHole, holeRadiusM: number): boolean {
  const all = [2 * holeRadiusM, ...hole.carries.map(({ diameterM }) => diameterM)].sort((a, b) => b - a);
  const [first = 0, second = 0] = all;
  if (first + second > hole.diameterM + ROUNDING_M) return false;
  return all.reduce((sum, d) => sum + d * d, 0) <= hole.diameterM ** 2 + ROUNDING_M;
}

/** Directions in the plane of a hole, the second as nearly upright as it goes. */
function planeOf(n: Vec3, v: Vec3): readonly [Vec3, Vec3] {
  const upright: Vec3 = [-n[2] * n[0], -n[2] * n[1], 1 - n[2] * n[2]];
  const y = portable.hypot(...upright) > 0.05 ? unit(upright) : v;
  return [cross(y, n), y];
}

/** A place in a hole as a point of the boat. */
export function pointInHole(centre: Vec3, { n, v }: Pick<PortalFrame, 'n' | 'v'>, [x, y]: Place): Vec3 {
  const [across, upright] = planeOf(n, v);
  return [
    centre[0] + across[0] * x + upright[0] * y,
    centre[1] + across[1] * x + upright[1] * y,
    centre[2] + across[2] * x + upright[2] * y,
  ];
}

/** Centre of a hole in the middle plane of its panel: the file's point may lie off it by the accuracy of a tape. */
export function holeInPlane(hole: PanelHole, { origin, n }: Pick<PortalFrame, 'origin' | 'n'>): Vec3 {
  const off = dot(subtract(hole.at, origin), n);
  return [hole.at[0] - n[0] * off, hole.at[1] - n[1] * off, hole.at[2] - n[2] * off];
}

/** What a line keeps free in holes that are planned for others: diameters by the id of the planned hole and of the line. */
type KeptInHoles = NonNullable<RoutingLine['keptInHoles']>;

/** What lies in a hole for a line that sees these runs. */
export function inHoleFor(
  hole: PanelHole,
  frame: Pick<PortalFrame, 'origin' | 'n' | 'v'>,
  runs: readonly CapsuleSolid[],
  kept: KeptInHoles,
): InHole {
  const centre = holeInPlane(hole, frame);
  const { n, v } = frame;
  const [across, upright] = planeOf(n, v);
  const level = dot(n, centre);
  const lines = new Set<string>();
  const discs: Disc[] = [];
  for (const { id, from, to, radius } of runs) {
    const line = lineOfCapsule(id);
    if (lines.has(line)) continue;
    const [a, b] = [dot(n, from) - level, dot(n, to) - level];
    if (a * b > 0 || Math.abs(a - b) < 1e-9) continue;
    const t = a / (a - b);
    const at: Vec3 = [
      from[0] + (to[0] - from[0]) * t,
      from[1] + (to[1] - from[1]) * t,
      from[2] + (to[2] - from[2]) * t,
    ];
    if (distance(at, centre) > hole.diameterM / 2) continue;
    lines.add(line);
    const off = subtract(at, centre);
    discs.push({ x: dot(off, across), y: dot(off, upright), radiusM: radius });
  }
  const planned = hole.newHoleId === undefined ? undefined : kept[hole.newHoleId];
  const keptM = Object.entries(planned ?? {}).flatMap(([line, diameterM]) => (lines.has(line) ? [] : [diameterM]));
  return { runs: lines, discs, resting: [...hole.carries.map(({ diameterM }) => diameterM), ...keptM] };
}

/** Holes of a panel that are planned for a line: it passes the panel through them and nowhere else. */
export const holesFor = (panel: Panel, lineId: string): readonly PanelHole[] =>
  panel.holes.filter(({ forLines }) => forLines?.includes(lineId));
