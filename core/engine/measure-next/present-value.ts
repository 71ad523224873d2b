import { along, dot } from '../../base/vec';
import { type DrawnFace, facesOf, sideWord } from '../../boat/interior/faces';
import type { Boat } from '../../boat/schema/boat';
import type { NextReading } from '../../rules/next-reading';
import { heightAbove, referenceAttitude } from '../../shape/hull/attitude';
import { hullSurface } from '../../shape/hull/surface';
import type { HullSurface } from '../../shape/hull/types';
import { pathOfSide } from '../../shape/layout/faces';
import { solidBounds, thingSolids } from '../../shape/space/things';

/** What of a reading says where its value stands in the boat. */
export type ReadingPlace = Pick<NextReading, 'kind' | 'record' | 'from' | 'paths'>;

/** What the tape would show if the boat were as drawn, in the unit of the reading; null where nothing is entered. */
export function presentValue(boat: Boat, { kind, record, from, paths }: ReadingPlace): number | null {
  const [path = ''] = paths;
  switch (kind) {
    case 'openingWidth':
    case 'openingHeight':
    case 'partSize':
      return numberAt(boat, path);
    case 'freeboard':
      return boat.reference.freeboards[record]?.freeboardM ?? null;
    case 'hullBreadth': {
      const breadths = boat.hull?.stations[record]?.points.map(([breadth]) => breadth) ?? [];
      return breadths.length === 0 ? null : Math.max(...breadths);
    }
    case 'heightAboveWater': {
      const fixture = boat.fixtures[record];
      const surface = boat.hull ? hullSurface(boat.hull) : null;
      return fixture ? heightAbove(referenceAttitude(boat, surface), fixture.pose.at) : null;
    }
    case 'clearLength':
      return clearLength(boat, record, paths);
    case 'thingPlace':
      return gapFrom(boat, record, from, Number(path.slice(path.lastIndexOf('.') + 1)));
    case 'missing':
      return path === '' ? null : numberAt(boat, path);
  }
}

/**
 * Between the two sides of a compartment that stand at the paths, along the normal of the second; of one path from the skin of
 * the hull, where that is what bounds the compartment.
 */
function clearLength(boat: Boat, record: string, paths: readonly string[]): number | null {
  const own = boat.compartments[record];
  const faces = own ? facesOf(own) : [];
  const [near, far] = paths.map((path) => faces.find(({ key }) => pathOfSide(record, key) === path));
  if (near && far) return far.offset - dot(far.normal, near.centre);
  return near && paths.length === 1 && boat.hull ? skinBehind(hullSurface(boat.hull), near) : null;
}

/** No compartment is deeper. */
const FARTHEST_M = 20;
const NEAR_ENOUGH_M = 1e-7;

/** From the middle of a face back into its compartment to the skin of the hull, metres; null where the face is not inside it. */
export function skinBehind(hull: HullSurface, { centre, normal }: Pick<DrawnFace, 'centre' | 'normal'>): number | null {
  const isInside = (depth: number): boolean => {
    const p = along(centre, normal, -depth);
    return hull.clearance(p, p, 0) >= 0;
  };
  if (!isInside(0)) return null;
  let [inside, outside] = [0, NEAR_ENOUGH_M];
  while (outside < FARTHEST_M && isInside(outside)) [inside, outside] = [outside, outside + STEP_M];
  if (outside >= FARTHEST_M) return null;
  while (outside - inside > NEAR_ENOUGH_M) {
    const middle = (inside + outside) / 2;
    if (isInside(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}
/** The skin is looked for in steps of this length. */
const STEP_M = 0.05;

/** From the nearest side of that name of a compartment to the near side of a fixture. */
function gapFrom(boat: Boat, record: string, from: NextReading['from'], axis: number): number | null {
  const fixture = boat.fixtures[record];
  const home = boat.compartments[from.record];
  const body = fixture && thingSolids(record, fixture, fixture.pose)[0];
  if (!home || !body) return null;
  const { low, high } = solidBounds(body);
  const gaps = facesOf(home).flatMap(({ normal, offset }) => {
    const step = normal[axis] ?? 0;
    if (Math.abs(step) < 0.99 || sideWord(normal) !== from.side) return [];
    return [offset - step * ((step > 0 ? high : low)[axis] ?? 0)];
  });
  const ahead = gaps.filter((gap) => gap >= -NEARLY_IN_M);
  return ahead.length === 0 ? null : Math.min(...ahead);
}

/** A fixture that is drawn this far through the side that it stands at still stands at it. */
export const NEARLY_IN_M = 0.02;

function numberAt(boat: object, path: string): number | null {
  let at: unknown = boat;
  for (const key of path.split('.')) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, key)) return null;
    at = (at as Record<string, unknown>)[key];
  }
  return typeof at === 'number' ? at : null;
}
