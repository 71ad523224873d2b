import { seatOn } from '../../assess/access/seat';
import {
  add,
  along,
  directionInBoat,
  distance,
  dot,
  ORIGIN,
  type Pose,
  pointInBoat,
  scale,
  squareTo,
  subtract,
  type Turn,
  type Vec3,
} from '../../base/vec';
import { outOf } from '../../boat/catalogue/face-places';
import { quantisedTree } from '../../boat/quantise';
import type { MountingSurface, Opening } from '../../boat/schema/boat';
import type { HullSurface } from '../../shape/hull/types';
import { bounds } from '../../shape/layout/prism';
import type { Layout, Plane } from '../../shape/layout/types';
import { convexOf } from '../../shape/space/convex';
import { freeDepth } from '../../shape/space/free-depth';
import { overlapWithHull, overlapWithWall } from '../../shape/space/overlap';
import type { Solid } from '../../shape/space/solids';
import { leastAlong, type PushedFace, servicesWithRoom } from '../../shape/space/things';
import { wallsNear } from '../../shape/space/walls-near';
import { openingFrame } from '../../shape/space/ways-in';
import { isFree, isMet, tasksAt, tasksWanted } from '../fit/places';
import { turnedness } from '../fit/turns';
import type { MovedGroup } from './moved-group';

/** What a search for places in one compartment stands in. */
export interface Ground {
  readonly compartment: string;
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly openings: Readonly<Record<string, Opening>>;
  /** Surfaces that look into the compartment, by id. */
  readonly surfaces: readonly (readonly [string, MountingSurface])[];
  /** Envelopes and sweeps of all that stands there and is not moved. */
  readonly solids: readonly Solid[];
  /** Metres of hose that a place costs, and what it cannot reach. */
  readonly leads: readonly GroupLead[];
  /** Height that a place should not be under, where water harms what is moved; null: none. */
  readonly dryFrom: ((low: Vec3, high: Vec3) => number) | null;
  /** Metres by which a place is outside of what is demanded. */
  readonly outsideBy: (pose: Pose) => number;
}

/** A line that ends at one of the parts, with its other end where that stays. */
export interface GroupLead {
  readonly line: string;
  readonly member: string;
  readonly port: Vec3;
  readonly direction: Vec3;
  /** What the line needs before the port until it has turned aside: its rigid end and a bend, metres; and how thick it is there. */
  readonly roomM: number;
  readonly radiusM: number;
  readonly other: Vec3;
  /** Length of a hose that is there, less what must be to spare; null: it is cut to length. */
  readonly usableM: number | null;
}

export interface FreePlace {
  readonly lead: Pose;
  readonly mountedOn: string | null;
  /** Metres of straight way of its lines. */
  readonly hoseM: number;
  readonly tasksMissing: number;
  /** Metres that lines lack before their ports. */
  readonly leadsShortM: number;
}

/** Places along each side of a room. */
const STEPS_X = 7;
const STEPS_Y = 5;
const STEPS_Z = 4;
/** Places along each side of a surface. */
const STEPS_ON = 5;
/** A part may be larger than its surface by so much at each edge, and stand off it by no more than this: the rule asks the same. */
const OVERHANG_M = 0.02;
const GAPS_M = [0, 0.005, 0.01, 0.015];
/** What is heavier wants a face to be screwed to: the rule asks the same. */
const HEAVY_KG = 10;
/** Free places that are looked at, those of which tasks are weighed, and how far two of one way round are apart. */
const FREE = 14;
const WEIGHED = 6;
const APART_M = 0.08;
/** Places returned. */
const KEPT = 2;
/** What it is worth in metres of hose: to stand as drawn, not laid over; against a wall, not in mid-air. Project judgement, no source. */
const TURN_M = 0.05;
const LOOSE_M = 0.15;
/** What stands nearer to a side leans against it. */
const TOUCHES_M = 0.006;
/** Contact as the rule for overlaps allows it. */
const CONTACT_M = 0.0005;
const DUST_M = 1e-7;
/** How close the lowest free height is found. */
const HEIGHT_FINE_M = 0.002;

interface RoomOf {
  readonly planes: readonly Plane[];
  readonly low: Vec3;
  readonly high: Vec3;
  /** Whoever stands within the planes meets no wall. */
  readonly isWhole: boolean;
}

interface Candidate {
  readonly pose: Pose;
  readonly mountedOn: string | null;
  readonly room: RoomOf | null;
  readonly hoseM: number;
  readonly key: readonly number[];
}

/** Free places of a group in a compartment, the most promising first; and how many were tried. */
export function freePlaces(
  group: MovedGroup,
  ground: Ground,
): { readonly places: readonly FreePlace[]; readonly tried: number } {
  let tried = 0;
  const found: FreePlace[] = [];
  const wanted = group.members.reduce((sum, { part }) => sum + tasksWanted(part), 0);
  for (const turns of group.turns) {
    const candidates = candidatesOf(group, ground, turns);
    tried += candidates.length;
    found.push(...weighed(group, ground, candidates, wanted));
    // laid over only where no place does as drawn
    if (found.some(isPlenty)) break;
  }
  return { places: found.sort(byRoom).slice(0, KEPT), tried };
}

const isPlenty = ({ tasksMissing, leadsShortM }: FreePlace): boolean =>
  tasksMissing === 0 && leadsShortM < A_MILLIMETRE;

/** Tasks first, then room for the ends of hoses; of equals the order in which they were found. */
const byRoom = (a: FreePlace, b: FreePlace): number =>
  a.tasksMissing - b.tasksMissing || stepped(a.leadsShortM - b.leadsShortM);

/** The first candidates that are really free, spread out, with the room for ends of hoses and for tasks weighed. */
function weighed(
  group: MovedGroup,
  ground: Ground,
  candidates: readonly Candidate[],
  wanted: number,
): readonly FreePlace[] {
  const withoutRoom: Omit<FreePlace, 'tasksMissing'>[] = [];
  const taken: Pose[] = [];
  const found: FreePlace[] = [];
  const weigh = (place: Omit<FreePlace, 'tasksMissing'>): number => {
    found.push({ ...place, tasksMissing: wanted - tasksDone(group, ground, place.lead) });
    return found.filter(isPlenty).length;
  };
  for (const { pose, mountedOn, room, hoseM } of candidates) {
    if (taken.length >= FREE) break;
    if (taken.some((other) => sameTurn(other, pose) && distance(other.at, pose.at) < APART_M)) continue;
    const lead = quantisedTree(pose);
    if (!standsFree(group, ground, lead, room)) continue;
    taken.push(lead);
    const place = { lead, mountedOn, hoseM, leadsShortM: leadsShort(group, ground, lead) };
    // what has room for its hoses is weighed as it comes: with enough of it there is no need to look on
    if (place.leadsShortM >= A_MILLIMETRE) withoutRoom.push(place);
    else if (found.length < WEIGHED && weigh(place) >= KEPT) return found;
  }
  for (const place of withoutRoom.sort((a, b) => a.leadsShortM - b.leadsShortM)) {
    if (found.length >= WEIGHED) break;
    weigh(place);
  }
  return found;
}

/** Less decides nothing. */
const A_MILLIMETRE = 1e-3;
const stepped = (difference: number): number => (Math.abs(difference) < A_MILLIMETRE ? 0 : difference);

const sameTurn = (a: Turn, b: Turn): boolean =>
  a.yawDeg === b.yawDeg && a.pitchDeg === b.pitchDeg && a.rollDeg === b.rollDeg;

/** Clear of things, walls and hull, all of it inside its compartment. */
function standsFree(group: MovedGroup, ground: Ground, lead: Pose, room: RoomOf | null = null): boolean {
  const { layout, hull, compartment } = ground;
  const poses = group.posesWith(lead);
  if (Object.values(poses).some(({ at }) => layout.compartmentAt(at) !== compartment)) return false;
  const bodies = group.bodiesWith(lead);
  if (!isFree(bodies, ground.solids)) return false;
  if (!room?.isWhole)
    for (const body of bodies) {
      const { low, high } = convexOf(body);
      for (const { wall } of wallsNear(layout, low, high))
        if ((overlapWithWall(body, wall, layout.panels)?.depthM ?? 0) > CONTACT_M) return false;
    }
  return hull === null || bodies.every((body) => (overlapWithHull(body, hull)?.depthM ?? 0) <= CONTACT_M);
}

function tasksDone(group: MovedGroup, ground: Ground, lead: Pose): number {
  const { layout, openings, hull } = ground;
  return group.members.reduce((sum, { id, part, poseWith }) => {
    const others = group.members.length === 1 ? [] : group.bodiesWith(lead).filter(({ owner }) => owner !== id);
    const solids = [...ground.solids, ...others];
    return sum + tasksAt(part, poseWith(lead), { layout, openings, hull, solids }, 'quick').filter(isMet).length;
  }, 0);
}

/** What the lines of the parts lack of room before their ports, together. */
function leadsShort(group: MovedGroup, ground: Ground, lead: Pose): number {
  const { layout, hull } = ground;
  const bodies = group.members.length === 1 ? [] : group.bodiesWith(lead);
  return ground.leads.reduce((sum, { member, port, direction, roomM, radiusM }) => {
    const pose = group.members.find(({ id }) => id === member)?.poseWith(lead);
    if (!pose) return sum;
    const at = pointInBoat(pose, port);
    const way = directionInBoat(pose, direction);
    const face: PushedFace = {
      at,
      direction: way,
      across: squareTo(way),
      sizeM: [2 * radiusM, 2 * radiusM],
      round: true,
    };
    const end = along(at, way, roomM);
    const solids = [...ground.solids, ...bodies.filter(({ owner }) => owner !== member)].filter((solid) => {
      const near = convexOf(solid);
      return ([0, 1, 2] as const).every(
        (k) => near.low[k] < Math.max(at[k], end[k]) + radiusM && near.high[k] > Math.min(at[k], end[k]) - radiusM,
      );
    });
    const { freeM } = freeDepth(face, roomM, { layout, hull: null, solids });
    return sum + roomM - Math.min(freeM, hull ? hullRoom(hull, at, way, roomM, radiusM) : roomM);
  }, 0);
}

/** Steps in which the hull is asked how far a hose goes on. */
const HULL_STEPS = 4;

/** How far a hose goes on before it meets the hull, in quarters of what it needs. */
function hullRoom(hull: HullSurface, at: Vec3, way: Vec3, roomM: number, radiusM: number): number {
  for (let k = HULL_STEPS; k > 0; k--) {
    const freeM = (roomM * k) / HULL_STEPS;
    if (hull.clearance(at, along(at, way, freeM), radiusM) >= radiusM - 1e-3) return freeM;
  }
  return 0;
}

function candidatesOf(group: MovedGroup, ground: Ground, turns: readonly Turn[]): readonly Candidate[] {
  const rooms = roomsOf(ground);
  const found: Candidate[] = [];
  for (const turn of turns) {
    const bodies = group.bodiesWith({ at: ORIGIN, ...turn });
    const around = bounds(cornersOf(bodies));
    const take = (at: Vec3, room: RoomOf | null, mountedOn: string | null): void => {
      found.push(candidate(group, ground, around, { at, ...turn }, room, mountedOn));
    };
    for (const [id, surface] of ground.surfaces) onSurface(group, ground, surface, turn, (at) => take(at, null, id));
    for (const room of rooms) inRoom(group, ground, bodies, room, (at) => take(at, room, null));
  }
  return found.sort(byKey);
}

const byKey = (a: Candidate, b: Candidate): number => {
  for (const [k, value] of a.key.entries()) {
    const other = b.key[k] ?? 0;
    if (Math.abs(value - other) > 1e-6) return value - other;
  }
  return 0;
};

/** Convex pieces of the compartment; of several also the box around them, in which a body may stand in more than one. */
function roomsOf({ compartment, layout }: Ground): readonly RoomOf[] {
  const cells = (layout.cellsOf[compartment] ?? []).flatMap((index) => layout.cells[index] ?? []);
  const pieces = cells.map(({ planes, low, high }): RoomOf => ({ planes, low, high, isWhole: cells.length === 1 }));
  if (cells.length < 2) return pieces;
  const [low, high] = bounds(cells.flatMap((cell) => [cell.low, cell.high]));
  const planes = ([0, 1, 2] as const).flatMap((k): Plane[] => {
    const normal: Vec3 = [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];
    return [
      { normal, offset: high[k] },
      { normal: scale(normal, -1), offset: -low[k] },
    ];
  });
  return [...pieces, { planes, low, high, isWhole: false }];
}

/** How far the bodies reach from their origin along a direction. */
const reachAlong = (bodies: readonly Solid[], way: Vec3): number =>
  Math.max(...bodies.map((body) => -leastAlong(body, scale(way, -1))));

/** Places in a room: a grid within what walls and hull leave, at the lowest free height and above it. */
function inRoom(
  group: MovedGroup,
  { hull }: Ground,
  bodies: readonly Solid[],
  room: RoomOf,
  take: (at: Vec3) => void,
): void {
  const sides = room.planes.map(({ normal, offset }) => ({ normal, roomM: offset - reachAlong(bodies, normal) }));
  const span = (k: 0 | 1 | 2): readonly [number, number] => {
    const way: Vec3 = [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];
    return [room.low[k] + reachAlong(bodies, scale(way, -1)), room.high[k] - reachAlong(bodies, way)];
  };
  const [xs, ys] = [stepsBetween(span(0), STEPS_X), span(1)];
  if (ys[0] > ys[1] + DUST_M || span(2)[0] > span(2)[1] + DUST_M) return;
  const corners = cornersOf(bodies);
  const isIn = (x: number, y: number, z: number): boolean => hull === null || isInHull(corners, [x, y, z], hull);
  const belowM = group.members.flatMap(({ part }) =>
    Object.values(servicesWithRoom(part)).flatMap(({ direction, clearM }) => (direction[2] < -0.7 ? [clearM] : [])),
  );
  for (const x of xs) {
    const [aft, fore] = hullSpan(x, ys, sides, isIn);
    for (const y of stepsBetween([aft, fore], STEPS_Y)) {
      const heights = heightsAt(x, y, sides);
      if (!heights) continue;
      const [, top] = heights;
      let [foot] = heights;
      if (!isIn(x, y, foot)) {
        if (!isIn(x, y, top)) continue;
        let high = top;
        while (high - foot > HEIGHT_FINE_M) {
          const middle = (foot + high) / 2;
          if (isIn(x, y, middle)) high = middle;
          else foot = middle;
        }
        foot = high;
      }
      const zs = [...stepsBetween([foot, top], STEPS_Z), ...belowM.map((clearM) => foot + clearM + 0.005)];
      for (const z of zs) if (z <= top + DUST_M) take([x, y, z]);
    }
  }
}

/** Heights at which a centre stands between the sides; null where it never does. */
function heightsAt(
  x: number,
  y: number,
  sides: readonly { readonly normal: Vec3; readonly roomM: number }[],
): readonly [number, number] | null {
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const { normal, roomM } of sides) {
    const left = roomM - normal[0] * x - normal[1] * y;
    if (Math.abs(normal[2]) < 1e-9) {
      if (left < -DUST_M) return null;
    } else if (normal[2] > 0) high = Math.min(high, left / normal[2]);
    else low = Math.max(low, left / normal[2]);
  }
  return low <= high + DUST_M && Number.isFinite(low) && Number.isFinite(high) ? [Math.min(low, high), high] : null;
}

/** What the hull leaves of a span across the boat, at the greatest height that the sides allow there. */
function hullSpan(
  x: number,
  [from, to]: readonly [number, number],
  sides: readonly { readonly normal: Vec3; readonly roomM: number }[],
  isIn: (x: number, y: number, z: number) => boolean,
): readonly [number, number] {
  const isFreeAt = (y: number): boolean => {
    const heights = heightsAt(x, y, sides);
    return heights !== null && isIn(x, y, heights[1]);
  };
  const coarse = stepsBetween([from, to], 2 * STEPS_Y).filter(isFreeAt);
  const [first, last] = [coarse[0], coarse[coarse.length - 1]];
  if (first === undefined || last === undefined) return [to, from - 1];
  const edge = (inside: number, limit: number): number => {
    if (isFreeAt(limit)) return limit;
    let [yes, no] = [inside, limit];
    while (Math.abs(no - yes) > HEIGHT_FINE_M) {
      const middle = (yes + no) / 2;
      if (isFreeAt(middle)) yes = middle;
      else no = middle;
    }
    return yes;
  };
  return [edge(first, from), edge(last, to)];
}

function stepsBetween([from, to]: readonly [number, number], most: number): readonly number[] {
  if (from > to + DUST_M) return [];
  if (to - from < 1e-4) return [(from + to) / 2];
  return Array.from({ length: most }, (_, k) => from + ((to - from) * k) / (most - 1));
}

/** Corners of the boxes around bodies, as offsets from their origin. */
function cornersOf(bodies: readonly Solid[]): readonly Vec3[] {
  return bodies.flatMap((body) => {
    const { low, high } = convexOf(body);
    return [low[0], high[0]].flatMap((x) =>
      [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z): Vec3 => [x, y, z])),
    );
  });
}

/** Ways outward and down in which the hull is asked, unit lengths. */
const OUTWARD = [
  [1, 0],
  [Math.SQRT1_2, Math.SQRT1_2],
  [0, 1],
] as const;

/** Whether points stand off the skin by shell and lining, as far as sideways and downward questions tell: what passes is looked at closely. */
function isInHull(corners: readonly Vec3[], at: Vec3, hull: HullSurface): boolean {
  const { insetM, offsetM } = hull;
  return corners.every((corner) => {
    const [x, y, z] = add(corner, at);
    if (x < hull.aftM || x > hull.forwardM) return false;
    const breadth = Math.abs(offsetM === 0 ? y : Math.abs(y) - offsetM);
    const top = hull.sheerAt(x) - 1e-3;
    return OUTWARD.every(
      ([out, down]) => breadth + out * insetM <= hull.halfBreadthAt(x, Math.min(z, top) - down * insetM) + 1e-3,
    );
  });
}

/** Places on a surface: the face by which the first part is fixed against it, over all of its area. */
function onSurface(
  { lead: { part } }: MovedGroup,
  { layout, compartment }: Ground,
  surface: MountingSurface,
  turn: Turn,
  take: (at: Vec3) => void,
): void {
  const { out: normal, up, across } = openingFrame({ normal: surface.normal });
  const face = part.mounting?.face;
  const flat: Pose = { at: surface.at, ...turn };
  const seat = seatOn(part.shape, flat, face, surface);
  if (seat.aslantDeg > 1) return;
  if (face && dot(directionInBoat(flat, outOf(face)), normal) > -0.99) return;
  const depth = dot(subtract(flat.at, seat.at), normal);
  const isFlat = Math.abs(normal[2]) > 0.9;
  const sizes = isFlat
    ? [
        [surface.widthM, surface.heightM],
        [surface.heightM, surface.widthM],
      ]
    : [[surface.widthM, surface.heightM]];
  for (const [widthM = 0, heightM = 0] of sizes) {
    const free = [widthM / 2 - seat.halfM[0], heightM / 2 - seat.halfM[1]] as const;
    if (free[0] < -OVERHANG_M || free[1] < -OVERHANG_M) continue;
    for (const u of stepsBetween([-Math.max(0, free[0]), Math.max(0, free[0])], STEPS_ON))
      for (const v of stepsBetween([-Math.max(0, free[1]), Math.max(0, free[1])], STEPS_ON))
        for (const gap of GAPS_M) {
          const at = along(along(along(surface.at, normal, depth + gap), across, u), up, v);
          if (layout.compartmentAt(at) === compartment) take(at);
        }
  }
}

function candidate(
  group: MovedGroup,
  ground: Ground,
  around: readonly [Vec3, Vec3],
  pose: Pose,
  room: RoomOf | null,
  mountedOn: string | null,
): Candidate {
  let hoseM = 0;
  let shortM = 0;
  for (const { member, port, other, usableM } of ground.leads) {
    const own = group.members.find(({ id }) => id === member);
    if (!own) continue;
    const reachM = distance(pointInBoat(own.poseWith(pose), port), other);
    hoseM += reachM;
    if (usableM !== null) shortM += Math.max(0, reachM - usableM);
  }
  const [low, high] = [add(around[0], pose.at), add(around[1], pose.at)];
  const underM = ground.dryFrom === null ? 0 : Math.max(0, ground.dryFrom(low, high));
  const isLoose = mountedOn === null && !leans(low, high, room);
  const hangsOnNothing = mountedOn === null && ground.surfaces.length > 0 && wantsFace(group) ? 1 : 0;
  const costM = hoseM + TURN_M * (turnedness(pose) / 90) + (isLoose ? LOOSE_M : 0) + 0.1 * low[2];
  return {
    pose,
    mountedOn,
    room,
    hoseM,
    key: [ground.outsideBy(pose), shortM, hangsOnNothing, underM, mountedOn === null ? 1 : 0, costM],
  };
}

/** Whether the first part has to be screwed to something where there is something: the rule asks the same. */
const wantsFace = ({ lead: { part } }: MovedGroup): boolean =>
  part.mounting?.face !== undefined || part.massKg >= HEAVY_KG;

/** Whether a body touches a side of its room. */
function leans(low: Vec3, high: Vec3, room: RoomOf | null): boolean {
  if (!room) return true;
  return ([0, 1, 2] as const).some((k) => low[k] - room.low[k] < TOUCHES_M || room.high[k] - high[k] < TOUCHES_M);
}
