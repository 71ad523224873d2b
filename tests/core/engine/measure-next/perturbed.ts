import { add, dot, scale, type Vec3 } from '@core/base/vec';
import { edit } from '@core/boat/edits';
import { beyond, type DrawnFace, facesOf } from '@core/boat/interior/faces';
import { facesMoved } from '@core/boat/interior/shaping';
import { checkBoat } from '@core/boat/read';
import type { Boat, Compartment, Grade } from '@core/boat/schema/boat';
import { gradeAt } from '@core/engine/grade-stages';
import { groupMoved, type Side, sidesWith } from '@core/engine/measure-next/face-groups';
import { hullSurface } from '@core/shape/hull/surface';
import type { HullSurface } from '@core/shape/hull/types';
import { deriveLayout } from '@core/shape/layout/derive';
import { pathOfSide } from '@core/shape/layout/faces';
import { solidBounds, thingSolids } from '@core/shape/space/things';
import { randomFrom } from '../../../support/random';

export const KINDS = ['hull', 'compartments', 'fixtures', 'parts', 'openings', 'reference'] as const;
export type Kind = (typeof KINDS)[number];

/**
 * A boat that may be the true one, given the readings in the file: every measured value is off by an independent normal error
 * with its grade as two standard deviations. What the drawing shows to be one thing stays one:
 *
 * - Each side of a compartment moves along its normal; sides that stand against one another (both faces of a bulkhead) as one.
 *   Two compartments never come to share space: sides whose errors would do that keep their place.
 * - A fixture moves in x, y and z. What stood inside its compartment and the hull is pushed back in as far as it got out; a
 *   through-hull stays at the skin.
 * - A part has no error of place, since that is chosen: it is put where the plan says, or as near as the walls let it.
 *   Its envelope is off in each size.
 * - An opening is off in width and height and in its place along its wall, and goes with the wall.
 * - Each station of the hull is off in breadth and in height; freeboards and level marks in theirs.
 *
 * With `only`, the errors of all other kinds of record are left out: the rest are the same as without.
 */
export function perturbed(boat: Boat, seed: number, only?: Kind): Boat {
  const random = randomFrom(Math.imul(seed + 1, 0x9e3779b1));
  const normal = (): number => {
    const u = Math.max(random(), 1e-12);
    return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random());
  };
  const error = (grade: number, kind: Kind): number => {
    const slip = (grade / 2) * normal();
    return only === undefined || only === kind ? slip : 0;
  };
  const off = (path: string, otherwise: Grade): number =>
    error(gradeAt(boat, path, otherwise), path.slice(0, path.indexOf('.')) as Kind);

  const framed = withWallsMoved(boat, (grade) => error(grade, 'compartments'));
  const { compartments } = framed;
  const hull = boat.hull && movedHull(boat.hull, off);
  const surfaces = [boat.hull, hull].map((data) => (data ? hullSurface(data) : null)) as [
    HullSurface | null,
    HullSurface | null,
  ];

  const placed = (
    at: Vec3,
    thing: Boat['parts'][string] | Boat['fixtures'][string],
    pose: Boat['fixtures'][string]['pose'],
  ): [number, number, number] =>
    pushedIn({ before: boat.compartments, after: compartments, surfaces }, { at, thing, pose });
  const fixtures: Record<string, Boat['fixtures'][string]> = {};
  for (const [id, fixture] of Object.entries(boat.fixtures)) {
    const grade = fixture.pose.grade ?? fixture.grade ?? 'taped';
    const at = fixture.pose.at.map((v, k) => v + off(`fixtures.${id}.pose.at.${k}`, grade)) as [number, number, number];
    fixtures[id] = { ...fixture, pose: { ...fixture.pose, at: placed(at, fixture, fixture.pose) } };
  }
  const parts: Record<string, Boat['parts'][string]> = {};
  for (const [id, part] of Object.entries(boat.parts))
    parts[id] = {
      ...part,
      shape: movedShape(part.shape, (key) => off(`parts.${id}.shape.${key}`, part.grade ?? 'measured')),
    };
  const arrangements: Record<string, Boat['arrangements'][string]> = {};
  for (const [id, arrangement] of Object.entries(framed.arrangements)) {
    const places: Record<string, Boat['arrangements'][string]['places'][string]> = {};
    for (const [partId, place] of Object.entries(arrangement.places)) {
      const part = boat.parts[partId];
      places[partId] = part ? { ...place, at: placed(place.at, part, place) } : place;
    }
    arrangements[id] = { ...arrangement, places };
  }
  const openings: Record<string, Boat['openings'][string]> = {};
  for (const [id, opening] of Object.entries(framed.openings)) {
    const size = (key: 'widthM' | 'heightM'): number =>
      Math.max(0.01, opening[key] + off(`openings.${id}.${key}`, opening.grade));
    const slip = opening.at.map((_, k) => off(`openings.${id}.at.${k}`, opening.grade)) as unknown as Vec3;
    const length = Math.hypot(...opening.normal);
    const n = scale(opening.normal, 1 / length);
    const along = add(slip, scale(n, -dot(slip, n)));
    openings[id] = {
      ...opening,
      at: add(opening.at, along) as [number, number, number],
      widthM: size('widthM'),
      heightM: size('heightM'),
    };
  }
  const freeboards: Record<string, Boat['reference']['freeboards'][string]> = {};
  for (const [id, record] of Object.entries(boat.reference.freeboards))
    freeboards[id] = {
      ...record,
      freeboardM: Math.max(0, record.freeboardM + off(`reference.freeboards.${id}`, record.grade ?? 'taped')),
    };
  const levelMarks: Record<string, Boat['reference']['levelMarks'][string]> = {};
  for (const [id, record] of Object.entries(boat.reference.levelMarks))
    levelMarks[id] = {
      ...record,
      at: [record.at[0], record.at[1], record.at[2] + off(`reference.levelMarks.${id}`, record.grade ?? 'taped')],
    };

  const result = checkBoat({
    ...framed,
    ...(hull ? { hull } : {}),
    fixtures,
    parts,
    arrangements,
    openings,
    reference: { ...boat.reference, freeboards, levelMarks },
  });
  if (!result.ok) throw new Error(`perturbed: ${result.problems.map(({ message }) => message).join('; ')}`);
  return result.boat;
}

/** Sides of the compartments moved by their errors; what hangs on them goes along. */
function withWallsMoved(boat: Boat, error: (grade: number) => number): Boat {
  const groups: (readonly Side[])[] = [];
  const known = new Set<string>();
  for (const id of Object.keys(boat.compartments).sort())
    for (const { key } of facesOf(boat.compartments[id] as Compartment)) {
      if (known.has(`${id}/${key}`)) continue;
      const group = sidesWith(boat.compartments, { id, key });
      for (const side of group) known.add(`${side.id}/${side.key}`);
      groups.push(group);
    }
  const gradeOf = ({ id, key }: Side): number =>
    gradeAt(boat, pathOfSide(id, key), boat.compartments[id]?.grade ?? 'taped');
  const slips = groups.map((group) => error(Math.min(...group.map(gradeOf))));
  const sharing = ({ compartments }: Boat): Set<string> =>
    new Set(
      deriveLayout({ compartments, panels: {}, newHoles: {}, newHoleCostM: boat.newHoleCostM }).overlaps.map(
        ({ between }) => [...between].sort().join('|'),
      ),
    );
  const allowed = sharing(boat);
  for (let attempt = 0; ; attempt++) {
    const moves = groups.flatMap((group, index) => groupMoved(boat.compartments, group, slips[index] as number));
    const result = edit(boat, facesMoved(moves));
    if (!result.ok) throw new Error(`perturbed: ${result.problems.map(({ message }) => message).join('; ')}`);
    const clash = [...sharing(result.boat)].filter((pair) => !allowed.has(pair)).flatMap((pair) => pair.split('|'));
    if (clash.length === 0) return result.boat;
    if (attempt > 8) throw new Error(`perturbed: ${clash.join(', ')} still share space`);
    groups.forEach((group, index) => {
      if (group.some(({ id }) => clash.includes(id))) slips[index] = attempt < 4 ? (slips[index] as number) / 2 : 0;
    });
  }
}

function movedHull(
  hull: NonNullable<Boat['hull']>,
  off: (path: string, otherwise: Grade) => number,
): NonNullable<Boat['hull']> {
  const stations: Record<string, (typeof hull.stations)[string]> = {};
  for (const [id, station] of Object.entries(hull.stations)) {
    const widest = Math.max(...station.points.map(([breadth]) => breadth));
    const slip = off(`hull.stations.${id}`, station.grade ?? hull.grade);
    // A station between the ends keeps some breadth, however coarsely it is known.
    const broader = widest > 0.05 ? Math.max(-0.9, slip / widest) : 0;
    const higher = off(`hull.stations.${id}`, station.grade ?? hull.grade);
    stations[id] = {
      ...station,
      points: station.points.map(([b, z]): [number, number] => [Math.max(0, b * (1 + broader)), z + higher]),
    };
  }
  return { ...hull, stations };
}

function movedShape(
  shape: Boat['parts'][string]['shape'],
  off: (key: string) => number,
): Boat['parts'][string]['shape'] {
  const size = (value: number, key: string): number => Math.max(0.002, value + off(key));
  return shape.type === 'box'
    ? { ...shape, sizeM: shape.sizeM.map((side, k) => size(side, `sizeM.${k}`)) as [number, number, number] }
    : { ...shape, diameterM: size(shape.diameterM, 'diameterM'), lengthM: size(shape.lengthM, 'lengthM') };
}

interface Interior {
  readonly before: Boat['compartments'];
  readonly after: Boat['compartments'];
  readonly surfaces: readonly [HullSurface | null, HullSurface | null];
}

/** How far the thing reaches beyond a face, metres; negative inside. */
const reachBeyond = (corners: readonly Vec3[], face: DrawnFace): number =>
  Math.max(...corners.map((p) => beyond(face, p)));

function pushedIn(
  { before, after, surfaces }: Interior,
  {
    at,
    thing,
    pose,
  }: { at: Vec3; thing: Boat['parts'][string] | Boat['fixtures'][string]; pose: Boat['fixtures'][string]['pose'] },
): [number, number, number] {
  const cornersAt = (centre: Vec3): Vec3[] => {
    const body = thingSolids(
      'x',
      { ...thing, services: {}, sweeps: {} },
      { ...pose, at: [...centre] as [number, number, number] },
    )[0];
    if (!body) return [];
    const { low, high } = solidBounds(body);
    return [0, 1, 2, 3, 4, 5, 6, 7].map(
      (i): Vec3 => [(i & 1 ? high : low)[0], (i & 2 ? high : low)[1], (i & 4 ? high : low)[2]],
    );
  };
  const drawn = cornersAt(pose.at);
  let now = at;
  const home = Object.keys(before).find((id) =>
    facesOf(before[id] as Compartment).every((face) => beyond(face, pose.at) < 0),
  );
  const walls =
    home === undefined
      ? []
      : facesOf(before[home] as Compartment).flatMap((face, i) =>
          reachBeyond(drawn, face) <= 1e-4 ? [facesOf(after[home] as Compartment)[i] as DrawnFace] : [],
        );
  for (let round = 0; round < 3; round++)
    for (const wall of walls) {
      const out = reachBeyond(cornersAt(now), wall);
      if (out > 0) now = add(now, scale(wall.normal, -out));
    }
  const [old, hull] = surfaces;
  if (!old || !hull) return [...now] as [number, number, number];
  const room = (surface: HullSurface, corners: readonly Vec3[]): number =>
    Math.min(...corners.map((p) => surface.clearance(p, p, 0.3)));
  // A through-hull was measured where it is: the skin is at it, whatever the lines say, and a thing that was drawn through the skin stays so.
  if (thing.opensToSea || room(old, drawn) < 0) return [...now] as [number, number, number];
  for (let round = 0; round < 4; round++) {
    const short = -room(hull, cornersAt(now));
    if (short <= 0) break;
    const step = 0.002;
    const slope = [0, 1, 2].map((k) => {
      const by = [0, 1, 2].map((j) => (j === k ? step : 0)) as unknown as Vec3;
      return (room(hull, cornersAt(add(now, by))) - room(hull, cornersAt(add(now, scale(by, -1))))) / (2 * step);
    }) as unknown as Vec3;
    const steep = dot(slope, slope);
    if (steep < 0.05) break;
    now = add(now, scale(slope, short / steep));
  }
  return [...now] as [number, number, number];
}
