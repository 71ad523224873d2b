import { type ServicedRoom, serviceRoom } from '../../assess/access/service-room';
import { inOrder } from '../../base/order';
import {
  add,
  along,
  directionInBoat,
  dot,
  type Pose,
  pointInBoat,
  rotationOf,
  scale,
  subtract,
  unit,
  type Vec3,
} from '../../base/vec';
import type { Opening, Part, Service } from '../../boat/schema/boat';
import type { HullSurface } from '../../shape/hull/types';
import type { Layout } from '../../shape/layout/types';
import { convexOf } from '../../shape/space/convex';
import { overlap } from '../../shape/space/overlap';
import type { Solid } from '../../shape/space/solids';
import { servicesWithRoom, solidBounds, thingSolids } from '../../shape/space/things';
import { sidesForPart } from './body';
import type { ConvexRoom, WayRound } from './fit';
import { cornersBetween, type Side } from './largest';
import { turnedness } from './turns';

/** What a search stands in: the room, how one looks into it, what stands there already. */
export interface Stand {
  readonly room: ConvexRoom;
  readonly layout: Layout;
  readonly openings: Readonly<Record<string, Opening>>;
  readonly solids: readonly Solid[];
  /** Bounds the room of tasks, where there is one besides the walls. */
  readonly hull?: HullSurface | null;
}

/** How one service task stands at a place. */
export interface TaskRoom {
  readonly key: string;
  readonly service: Service;
  readonly freeM: number;
  /** What stops it; null when nothing does as far as was looked. */
  readonly blocker: string | null;
}

export interface Placed {
  readonly pose: Pose;
  readonly way: WayRound;
  /** One for each task, of alternatives the roomiest. */
  readonly tasks: readonly TaskRoom[];
  readonly met: number;
}

/** A task with this much to spare needs no better place (metres). */
const PLENTY_M = 0.02;

/**
 * Service tasks of a part at a pose, among what stands there; of alternatives the one that suffices, or comes nearest, speaks. `quick`: of
 * alternatives the first with plenty of room does, and the others are not asked.
 */
export function tasksAt(
  part: Part,
  pose: Pose,
  stand: Omit<Stand, 'room'>,
  how: 'whole' | 'quick' = 'whole',
): readonly TaskRoom[] {
  const room: ServicedRoom = {
    layout: stand.layout,
    hull: stand.hull ?? null,
    openings: stand.openings,
    solidsIn: (low, high) =>
      stand.solids.filter((solid) => {
        const near = convexOf(solid);
        return ([0, 1, 2] as const).every((k) => near.low[k] <= high[k] && near.high[k] >= low[k]);
      }),
  };
  const ask = (key: string): TaskRoom => {
    const service = part.services[key] as Service;
    const { free } = serviceRoom(service, pose, room);
    return { key, service, freeM: free.freeM, blocker: free.blocker?.owner ?? null };
  };
  const isBetter = (a: TaskRoom, b: TaskRoom): boolean =>
    (Number(isMet(a)) - Number(isMet(b)) || shareOf(a) - shareOf(b)) > 0;
  return groupsOf(part).map((keys) => {
    let best = ask(keys[0] as string);
    for (const key of keys.slice(1)) {
      if (how === 'quick' && best.freeM >= best.service.clearM + PLENTY_M) break;
      const other = ask(key);
      if (isBetter(other, best)) best = other;
    }
    return best;
  });
}

/** Keys of the tasks of a part, alternatives together: what is cheap to ask first. */
function groupsOf(part: Part): readonly (readonly string[])[] {
  const groups = new Map<string, string[]>();
  for (const [key, { either }] of inOrder(servicesWithRoom(part))) {
    const name = either === undefined ? `task ${key}` : `either ${either}`;
    groups.set(name, [...(groups.get(name) ?? []), key]);
  }
  const isRound = (key: string): number => Number(part.services[key]?.round === true);
  return [...groups.values()].map((keys) => keys.sort((a, b) => isRound(a) - isRound(b) || (a < b ? -1 : 1)));
}

/** How many tasks a part asks for, alternatives counted once. */
export const tasksWanted = (part: Part): number => groupsOf(part).length;

/** Contact as the service rule reads it: a micrometre less is no less. */
export const isMet = ({ freeM, service }: TaskRoom): boolean => freeM >= service.clearM - 1e-9;
const shareOf = ({ freeM, service }: TaskRoom): number => freeM / service.clearM;
/** What a task lacks, metres. */
const missingOf = (task: TaskRoom): number => Math.max(0, task.service.clearM - task.freeM);

/** Places within the room worth trying for one way round: its corners, middles, beside what stands there, and in line with the openings. */
export function placesOf(part: Part, way: WayRound, stand: Stand): readonly Vec3[] {
  const axes = rotationOf(way.turn);
  const sides = sidesForPart(part, way.turn, axes, stand.room.planes);
  const corners = cornersBetween(sides);
  if (corners.length === 0) return [way.at];
  const middle = meanOf(corners);
  const faces = sides.flatMap((side) => {
    const on = corners.filter((p) => dot(side.normal, p) >= side.roomM - 1e-6);
    return on.length >= 2 ? [meanOf(on)] : [];
  });
  const base = [...corners, middle, ...faces];
  const isIn = (p: Vec3): boolean => sides.every((side) => dot(side.normal, p) <= side.roomM + 1e-7);
  const tasks = Object.values(servicesWithRoom(part));
  const aligned = tasks.flatMap((service) => inLine(service, way, stand, middle, sides));
  const beside = stand.solids.flatMap((solid) => besideSolid(part, way, solid, [...corners, middle]));
  const spared = tasks.flatMap((service) => sparing(service, way, [...faces, middle], sides));
  return distinct([...base, ...[...aligned, ...beside, ...spared].filter(isIn)]);
}

/** Places no further from the side that a task works towards than its room and a little more. */
function sparing(service: Service, way: WayRound, from: readonly Vec3[], sides: readonly Side[]): Vec3[] {
  const direction = directionInBoat({ at: way.at, ...way.turn }, unit(service.direction));
  return from.flatMap((at) => {
    const far = farthest(at, direction, sides);
    const room = service.clearM + PLENTY_M;
    return far !== null && far > room + 1e-6 ? [along(at, direction, far - room)] : [];
  });
}

/** The middle of the room shifted so that a task is done through the middle of an opening, and as far from or near to it as the room allows. */
function inLine(service: Service, way: WayRound, stand: Stand, middle: Vec3, sides: readonly Side[]): Vec3[] {
  const pose: Pose = { at: middle, ...way.turn };
  const direction = directionInBoat(pose, unit(service.direction));
  const face = pointInBoat(pose, service.at);
  return Object.values(stand.openings).flatMap((opening) => {
    const off = subtract(opening.at, face);
    const at = add(middle, along(off, direction, -dot(off, direction)));
    const shifted = [at];
    for (const way of [direction, scale(direction, -1)]) {
      const far = farthest(at, way, sides);
      if (far !== null && far > 1e-6) shifted.push(along(at, way, far));
    }
    return shifted;
  });
}

/** How far a centre may go along a direction; null when it stands outside. */
function farthest(at: Vec3, direction: Vec3, sides: readonly Side[]): number | null {
  let far = Number.POSITIVE_INFINITY;
  for (const { normal, roomM } of sides) {
    const room = roomM - dot(normal, at);
    if (room < -1e-7) return null;
    const speed = dot(normal, direction);
    if (speed > 1e-9) far = Math.min(far, Math.max(0, room) / speed);
  }
  return Number.isFinite(far) ? far : null;
}

/** Against each side of the bounds of what stands there, with the other two coordinates of the places that are there anyhow. */
function besideSolid(part: Part, way: WayRound, solid: Solid, base: readonly Vec3[]): Vec3[] {
  const own = thingSolids('part', { ...part, services: {} }, { at: [0, 0, 0], ...way.turn }).map(solidBounds);
  const there = solidBounds(solid);
  const out: Vec3[] = [];
  for (const k of [0, 1, 2] as const) {
    const low = Math.min(...own.map((bounds) => bounds.low[k]));
    const high = Math.max(...own.map((bounds) => bounds.high[k]));
    for (const value of [there.high[k] - low, there.low[k] - high])
      for (const p of base) {
        const q: [number, number, number] = [...p];
        q[k] = value;
        out.push(q);
      }
  }
  return out;
}

const meanOf = (points: readonly Vec3[]): Vec3 =>
  scale(
    points.reduce((a, b) => add(a, b)),
    1 / points.length,
  );

function distinct(points: readonly Vec3[]): Vec3[] {
  const seen = new Set<string>();
  return points.filter((p) => {
    const key = p.map((v) => Math.round(v * 1e5)).join(' ');
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Bodies that share space beyond this are in each other's way (metres); the rule for overlaps allows as much. */
const CONTACT_M = 0.0005;

/** Envelope and sweeps of a part at a pose. */
export const bodiesAt = (id: string, part: Part, pose: Pose): readonly Solid[] =>
  thingSolids(id, { ...part, services: {} }, pose);

export function isFree(own: readonly Solid[], others: readonly Solid[]): boolean {
  return own.every((solid) =>
    others.every((other) => {
      const [a, b] = [convexOf(solid), convexOf(other)];
      for (const k of [0, 1, 2] as const)
        if (a.low[k] >= b.high[k] - CONTACT_M || b.low[k] >= a.high[k] - CONTACT_M) return true;
      const shared = overlap(solid, other);
      return !shared || shared.depthM <= CONTACT_M;
    }),
  );
}

/** Order of places: more tasks done, less missing, then standing lower, the way it is drawn, and roomier. */
function compare(a: Found, b: Found): number {
  return (
    b.met - a.met ||
    stepped(a.missingM - b.missingM) ||
    stepped(b.plentyM - a.plentyM) ||
    stepped(a.footM - b.footM) ||
    stepped(turnedness(a.pose) - turnedness(b.pose)) ||
    stepped(b.way.spareM - a.way.spareM)
  );
}

interface Found extends Placed {
  readonly missingM: number;
  /** Least that a task has to spare, as far as it matters. */
  readonly plentyM: number;
  /** Height of its lowest point. */
  readonly footM: number;
}

/** Less than a tenth of a millimetre decides nothing. */
const stepped = (difference: number): number => (Math.abs(difference) < 1e-4 ? 0 : difference);
export interface PlaceSearch {
  /** Best first. */
  readonly places: readonly Placed[];
  readonly tried: number;
}

/**
 * The best places of a part for the ways round in which it fits, clear of what stands there, at most so many tried. The way it is drawn comes
 * first; when it leaves enough places with plenty of room for every task, no other way round is tried.
 */
export function bestPlaces(
  id: string,
  part: Part,
  ways: readonly WayRound[],
  stand: Stand,
  { most, budget }: { readonly most: number; readonly budget: number },
): PlaceSearch {
  let tried = 0;
  const found: Found[] = [];
  const wanted = tasksWanted(part);
  const inOrder = [...ways].sort((a, b) => stepped(turnedness(a.turn) - turnedness(b.turn)) || b.spareM - a.spareM);
  const isEnough = (): boolean =>
    found.filter((p) => p.met === wanted && p.plentyM >= PLENTY_M && p.footM < lowestOf(stand) + PLENTY_M).length >=
    most;
  for (const way of inOrder) {
    if (tried >= budget || isEnough()) break;
    for (const at of placesOf(part, way, stand)) {
      if (tried >= budget) break;
      tried++;
      const pose: Pose = { at, ...way.turn };
      const bodies = bodiesAt(id, part, pose);
      if (!isFree(bodies, stand.solids)) continue;
      const tasks = tasksAt(part, pose, stand, 'quick');
      found.push({
        pose,
        way,
        tasks,
        met: tasks.filter(isMet).length,
        missingM: tasks.reduce((sum, task) => sum + missingOf(task), 0),
        plentyM: Math.min(PLENTY_M, ...tasks.map((task) => task.freeM - task.service.clearM)),
        footM: Math.min(...bodies.map((solid) => solidBounds(solid).low[2])),
      });
    }
  }
  return { places: found.sort(compare).slice(0, most), tried };
}

const lowestOf = ({ room }: Stand): number => Math.min(...room.corners.map(([, , z]) => z));
