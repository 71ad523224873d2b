import * as portable from '../../base/portable';
import { along, dot, type Vec2, type Vec3 } from '../../base/vec';
import type { HullSurface, WaterPlane } from '../../shape/hull/types';
import { clipHalfPlane } from '../../shape/layout/polygon';
import { area, type Primitive, project, SECTION, stroke } from './drawing';
import type { Ring } from './polygons';

/** Sections that a long line of the hull is drawn through: 5 cm apart on an 11 m boat. */
const SAMPLES = 220;

/** Places along the hull, ends included, for lines that run along it. */
export function placesAlong(hull: HullSurface, samples = SAMPLES): number[] {
  // Cosine spacing puts points where stem and stern curve most.
  return Array.from({ length: samples + 1 }, (_, i) => {
    const t = (1 - portable.cos((Math.PI * i) / samples)) / 2;
    return hull.aftM + (hull.forwardM - hull.aftM) * t;
  });
}

/** A section as lines along the hull ask for it. */
interface SectionLine {
  readonly points: readonly Vec2[];
  readonly sheerM: number;
  /** The half at +y, from the keel outwards. */
  readonly half: readonly Vec2[];
}

const sections = new WeakMap<HullSurface, Map<number, SectionLine | null>>();

/** The section at a place. Those of `placesAlong`, which every line and every compartment goes through, are kept. */
function sectionLine(hull: HullSurface, xM: number): SectionLine {
  const kept = sections.get(hull) ?? new Map(placesAlong(hull).map((x) => [x, null]));
  sections.set(hull, kept);
  const known = kept.get(xM);
  if (known) return known;
  const points = hull.sectionAt(xM);
  const half = points.filter(([y]) => y - hull.offsetM >= -1e-9);
  if (half.length > 1 && (half[0] as Vec2)[1] > (half[half.length - 1] as Vec2)[1]) half.reverse();
  const line = { points, sheerM: hull.sheerAt(xM), half };
  if (kept.has(xM)) kept.set(xM, line);
  return line;
}

/** Greatest half-breadth of a section between two heights, from the hull's centre. */
export function halfBreadthWithin(hull: HullSurface, xM: number, lowM: number, highM: number): number {
  const { points, sheerM } = sectionLine(hull, xM);
  const low = Math.min(lowM, sheerM);
  const high = Math.min(highM, sheerM);
  let most = Math.max(hull.halfBreadthAt(xM, low), hull.halfBreadthAt(xM, high));
  for (const [y, z] of points) {
    const b = Math.abs(y - hull.offsetM);
    if (z >= low && z <= high && b > most) most = b;
  }
  return most;
}

/** Lowest height of the hull within `b0` to `b1` from its centre, null where the section is narrower. */
export function floorWithin(hull: HullSurface, xM: number, b0: number, b1: number): number | null {
  const { half: up } = sectionLine(hull, xM);
  let lowest: number | null = null;
  const consider = (z: number) => {
    if (lowest === null || z < lowest) lowest = z;
  };
  for (let i = 0; i < up.length; i++) {
    const [y, z] = up[i] as Vec2;
    const b = y - hull.offsetM;
    if (b >= b0 && b <= b1) consider(z);
    const next = up[i + 1];
    if (!next) continue;
    const c = next[0] - hull.offsetM;
    for (const bound of [b0, b1])
      if (b < bound !== c < bound && b !== c) consider(z + ((next[1] - z) * (bound - b)) / (c - b));
  }
  return lowest;
}

/** Side view of the hull: keel line, stem, stern and sheer. */
export function profileLines(hull: HullSurface): Primitive[] {
  const xs = placesAlong(hull);
  const sheer = xs.map((x): Vec2 => [x, hull.sheerAt(x)]);
  const keel = xs.map((x): Vec2 => [x, hull.keelAt(x)]);
  const ring = [...sheer, ...keel.reverse()];
  return [
    area('hull/profile', 'hull', 'hullInside', [ring]),
    stroke('hull/keel', 'hull', 'hullOutline', ring, true),
    stroke('hull/sheer', 'hull', 'sheer', sheer),
  ];
}

/** Plan: greatest breadth, and the sheer where the sides tumble home. */
export function planLines(hull: HullSurface): Primitive[] {
  const xs = placesAlong(hull);
  const both = (half: (x: number) => number): Ring => {
    const port = xs.map((x): Vec2 => [x, hull.offsetM + half(x)]);
    const starboard = xs.map((x): Vec2 => [x, hull.offsetM - half(x)]);
    return [...port, ...starboard.reverse()];
  };
  const widest = both((x) => halfBreadthWithin(hull, x, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY));
  const sheer = both((x) => hull.halfBreadthAt(x, hull.sheerAt(x)));
  const rings = (ring: Ring) => (hull.offsetM === 0 ? [ring] : [ring, acrossCentre(ring)]);
  return [
    area('hull/plan', 'hull', 'hullInside', rings(widest)),
    ...rings(widest).map((ring, i) => stroke(`hull/breadth${i}`, 'hull', 'hullOutline', ring, true)),
    ...rings(sheer).map((ring, i) => stroke(`hull/sheer${i}`, 'hull', 'sheer', ring, true)),
  ];
}

/** A ring of plan on the other side of the centreline: the second hull of a catamaran. */
export const acrossCentre = (ring: Ring): Ring => ring.map(([x, y]): Vec2 => [x, -y]).reverse();

/** Trace of a water plane on the skin, aft to forward, on each side. Empty where the plane misses the hull. */
export function waterTrace(
  hull: HullSurface,
  water: WaterPlane,
): { readonly port: readonly Vec3[]; readonly starboard: readonly Vec3[] } {
  const port: Vec3[] = [];
  const starboard: Vec3[] = [];
  for (const x of placesAlong(hull)) {
    const { points: section } = sectionLine(hull, x);
    const middle = section.length > 0 ? lowestIndex(section) : 0;
    const onPort = highestCrossing(x, section.slice(0, middle + 1), water);
    const onStarboard = highestCrossing(x, section.slice(middle), water);
    if (onPort) port.push(onPort);
    if (onStarboard) starboard.push(onStarboard);
  }
  return { port, starboard };
}

function lowestIndex(section: readonly Vec2[]): number {
  let at = 0;
  for (let i = 1; i < section.length; i++) {
    const z = (section[i] as Vec2)[1];
    const best = (section[at] as Vec2)[1];
    // A flat bottom has many lowest points: the middle of the list is on the centre.
    if (z < best || (z === best && Math.abs(i - (section.length - 1) / 2) < Math.abs(at - (section.length - 1) / 2)))
      at = i;
  }
  return at;
}

function highestCrossing(x: number, side: readonly Vec2[], water: WaterPlane): Vec3 | null {
  let found: Vec3 | null = null;
  for (let i = 0; i + 1 < side.length; i++) {
    const a: Vec3 = [x, ...(side[i] as Vec2)];
    const b: Vec3 = [x, ...(side[i + 1] as Vec2)];
    const da = dot(a, water.up) - water.levelM;
    const db = dot(b, water.up) - water.levelM;
    if (da < 0 === db < 0) continue;
    const t = da / (da - db);
    const p = along(a, [0, b[1] - a[1], b[2] - a[2]], t);
    if (!found || p[2] > found[2]) found = p;
  }
  return found;
}

/** Height of the water at a place of the centreline or beside it. */
export const waterHeight = (water: WaterPlane, xM: number, yM: number): number =>
  (water.levelM - water.up[0] * xM - water.up[1] * yM) / water.up[2];

/** The sea outside a section, within a frame of paper: even-odd, so the hull below the water is left out. */
export function seaInSection(
  hull: HullSurface,
  water: WaterPlane,
  xM: number,
  within: { readonly low: Vec2; readonly high: Vec2 },
): Primitive | null {
  const { low, high } = within;
  const sheet: Vec2[] = [low, [high[0], low[1]], high, [low[0], high[1]]];
  // On paper u = -y, so the plane's y part changes sign.
  const below = (ring: Ring) => clipHalfPlane(ring, -water.up[1], water.up[2], water.levelM - water.up[0] * xM);
  const sea = below(sheet);
  if (sea.length < 3) return null;
  const section = hull.sectionAt(xM);
  const sides = hull.offsetM === 0 ? [section] : [section, section.map(([y, z]): Vec2 => [-y, z])];
  const inside = sides
    .map((side) => below(side.map(([y, z]) => project(SECTION, [xM, y, z]))))
    .filter((ring) => ring.length > 2);
  return area('water/sea', 'water', 'sea', [sea, ...inside]);
}
