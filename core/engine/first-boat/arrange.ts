import { depthFromOpening } from '../../assess/access/opening-reach';
import * as portable from '../../base/portable';
import {
  add,
  directionInBoat,
  distance,
  dot,
  norm,
  type Pose,
  pointInBoat,
  scale,
  subtract,
  unit,
  type Vec3,
} from '../../base/vec';
import type { Opening, Service, Thing } from '../../boat/schema/boat';
import { isOpenToWater } from '../../runs/routing/wishes/zones';
import type { HullSurface } from '../../shape/hull/types';
import type { Room } from '../../shape/layout/room';
import type { Layout } from '../../shape/layout/types';
import { serviceSolid, servicesWithRoom, solidBounds, thingSolids } from '../../shape/space/things';
import { openingFrame } from '../../shape/space/ways-in';

/** What things are arranged in. */
export interface Yard {
  readonly layout: Layout;
  readonly hull: HullSurface;
  readonly openings: Readonly<Record<string, Opening>>;
  readonly rooms: Readonly<Record<string, Room>>;
}

/** Where a thing would like to be. Costs are metres of hose. */
export interface Wish {
  /** Compartments that may hold it, each with what it costs to be there. */
  readonly rooms: Readonly<Record<string, number>>;
  /** Places that it, or the end of the lead of one of its ports, should be near to, and how much that counts. */
  readonly near: readonly Near[];
  /** Height that it would like to be at, and how much that counts. */
  readonly height?: { readonly z: number; readonly weight: number } | undefined;
  /** free: anywhere in the room; seabed: on the hull, pointing up; skin: on the ship's side; bottom, top: at that end of the room. */
  readonly stand?: 'free' | 'seabed' | 'skin' | 'bottom' | 'top';
  /** Room that a hose needs before each port, by port. */
  readonly leads?: Readonly<Record<string, Lead>>;
  /** The place must keep at least so many wishes: 0 none, 1 short leads, 2 all. */
  readonly least?: 0 | 1 | 2;
  /** An arm must reach this from an opening: farther is not considered. */
  readonly reachM?: number;
  readonly yaws?: readonly number[];
}

export interface Near {
  readonly at: Vec3;
  readonly weight: number;
  /** Own port that is joined to it, and the way in which the lead at the other end points. */
  readonly port?: string;
  readonly way?: Vec3;
}

/** Straight start of a line at a port. */
export interface Lead {
  readonly line: string;
  readonly lengthM: number;
  readonly outsideM: number;
  /** Whether water runs in it, which may drip. */
  readonly isWet: boolean;
}

interface Box {
  readonly owner: string;
  /** Of a lead: its line, whose two leads may meet, and whether it may drip. */
  readonly line?: string;
  readonly isWet?: boolean;
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Clear space kept round a body, for hoses and fingers; to hull and walls. */
const GAP_M = 0.03;
const SKIN_M = 0.004;
/** Places tried along each side of a room, and how far apart they are at least. */
const PLACES = [13, 5, 5] as const;
const LEAST_STEP_M = 0.04;
/** How far the end of a skin fitting may stand off the skin, and in which steps it is brought to it. */
const MOST_OFF_SKIN_M = 0.12;
const OFF_SKIN_STEP_M = 0.004;
/** Ways outward and down in which the hull is asked, unit lengths. */
const OUTWARD = [
  [1, 0],
  [0.71, 0.71],
  [0.26, 0.97],
  [0, 1],
] as const;
/** Where along an edge the hull is asked. */
const SHARES = [-1, -0.5, 0, 0.5, 1] as const;
/** Rooms looked at, cheapest first. */
const MOST_ROOMS = 9;
/** What a lead that overruns the other end costs, each metre. */
const OVERRUN = 3;
/** What a service task without room costs, in metres of hose. */
const NO_SERVICE_M = 3;
/** What each hose over electrics costs, in metres of hose, and how far from above them it is led. Common practice, no source. */
const DRIPS_M = 2;
const DRIP_ASIDE_M = 0.15;
/** How far apart the straight way between two ends is asked what lies under it. */
const WAY_STEP_M = 0.1;
const HIGHEST_ROOM_M = 10;

interface Candidate {
  readonly room: string;
  readonly pose: Pose;
  readonly costM: number;
}

/** Places things one after another: none overlaps, hose ends and service tasks keep their room where there is some. */
export class Arranger {
  private readonly bodies: Box[] = [];
  private readonly kept: Box[] = [];
  /** Where drips would fall on electrics, up to the top of their compartment. */
  private readonly columns: { readonly box: Box; readonly room: string | null }[] = [];
  /** Straight ways between the ends of hoses whose two things are placed. */
  private readonly ways: { readonly from: Vec3; readonly to: Vec3 }[] = [];
  readonly places: Record<string, Pose> = {};

  constructor(private readonly yard: Yard) {}

  /** Finds a place, cheapest first, with fewer and fewer wishes; null where nothing fits. */
  place(id: string, thing: Thing, wish: Wish): Pose | null {
    const candidates = this.candidates(thing, wish);
    for (const strict of ([2, 1, 0] as const).filter((level) => level >= (wish.least ?? 0))) {
      let best: { pose: Pose; costM: number } | null = null;
      for (const candidate of candidates) {
        if (best && candidate.costM >= best.costM) break;
        if (!this.fits(id, thing, candidate, wish, strict)) continue;
        const costM =
          candidate.costM +
          NO_SERVICE_M * this.missingService(id, thing, candidate) +
          DRIPS_M * this.drips(id, thing, candidate, wish);
        if (best && costM >= best.costM) continue;
        if (this.isInHull(thing, candidate.pose)) best = { pose: candidate.pose, costM };
      }
      if (best) {
        this.put(id, thing, best.pose, wish);
        return best.pose;
      }
    }
    return null;
  }

  /** Keeps the room of what stands already. */
  keep(id: string, thing: Thing, pose: Pose): void {
    this.put(id, thing, pose, { rooms: {}, near: [] });
  }

  private put(id: string, thing: Thing, pose: Pose, wish: Wish): void {
    this.places[id] = pose;
    const solids = thingSolids(id, thing, pose);
    for (const solid of solids) {
      if (solid.layer === 'serviceKeepOut') continue;
      this.bodies.push({ owner: id, ...solidBounds(solid) });
    }
    this.kept.push(...leadBoxes(id, thing, pose, wish.leads ?? {}, 1), ...this.serviceBoxes(id, thing, pose));
    this.ways.push(...wetWays(thing, pose, wish));
    const column = columnOver(id, thing, pose);
    if (column) this.columns.push({ box: column, room: this.yard.layout.compartmentAt(pose.at) });
  }

  /** Hoses that would lie over electrics: their straight starts, and the straight ways between their ends. */
  private drips(id: string, thing: Thing, { room, pose }: Candidate, wish: Wish): number {
    let count = 0;
    const isUnder = (box: Box, at: string | null, from: Vec3, to: Vec3): boolean => {
      const steps = Math.max(1, Math.ceil(distance(from, to) / WAY_STEP_M));
      for (let step = 0; step <= steps; step += 1) {
        const point = add(from, scale(subtract(to, from), step / steps));
        if (isWithin(point, box) && this.yard.layout.compartmentAt(point) === at) return true;
      }
      return false;
    };
    const leads = leadBoxes(id, thing, pose, wish.leads ?? {}, 1).filter(({ isWet }) => isWet);
    const ways = wetWays(thing, pose, wish);
    for (const { box, room: at } of this.columns) {
      if (at === room) count += leads.filter((lead) => meets(lead, box, 0)).length;
      count += ways.filter(({ from, to }) => isUnder(box, at, from, to)).length;
    }
    const own = columnOver(id, thing, pose);
    if (!own) return count;
    for (const lead of this.kept)
      if (lead.isWet && meets(lead, own, 0) && this.yard.layout.compartmentAt(lead.low) === room) count += 1;
    return count + this.ways.filter(({ from, to }) => isUnder(own, room, from, to)).length;
  }

  /** Room of the tasks that must be done; of alternatives none is kept free. */
  private serviceBoxes(id: string, thing: Thing, pose: Pose): Box[] {
    return Object.values(servicesWithRoom(thing)).flatMap((service) =>
      service.either ? [] : [serviceBox(id, service, pose)],
    );
  }

  private candidates(thing: Thing, wish: Wish): Candidate[] {
    const rooms = Object.entries(wish.rooms)
      .flatMap(([id, costM]) => {
        const room = this.yard.rooms[id];
        return room && Object.hasOwn(this.yard.layout.cellsOf, id)
          ? [{ id, room, costM, leastM: costM + leastDistance(room, wish) }]
          : [];
      })
      .sort((a, b) => a.leastM - b.leastM || (a.id < b.id ? -1 : 1))
      .slice(0, MOST_ROOMS);
    const found = rooms.flatMap(({ id, room, costM }) =>
      (wish.yaws ?? [0, 90, 180, 270]).flatMap((yawDeg) => this.inRoom(thing, wish, id, room, costM, yawDeg)),
    );
    return found.sort((a, b) => a.costM - b.costM);
  }

  private inRoom(thing: Thing, wish: Wish, id: string, room: Room, costM: number, yawDeg: number): Candidate[] {
    const half = halfOf(thing, yawDeg);
    const steps = ([0, 1, 2] as const).map((k) => places(room.low[k] + half[k], room.high[k] - half[k], PLACES[k]));
    const [xs, ys, zs] = steps;
    if (!xs || !ys || !zs) return [];
    const candidates: Candidate[] = [];
    const take = (at: Vec3): void => {
      const pose: Pose = { at: [tidy(at[0]), tidy(at[1]), tidy(at[2])], yawDeg, pitchDeg: 0, rollDeg: 0 };
      let cost = costM;
      for (const near of wish.near) cost += near.weight * apart(thing, pose, near, wish);
      if (wish.height) cost += wish.height.weight * Math.abs(at[2] - wish.height.z);
      candidates.push({ room: id, pose, costM: cost });
    };
    for (const x of xs) {
      if (wish.stand === 'skin') {
        for (const z of zs) this.onSkin(room, half, x, z, yawDeg, take);
        continue;
      }
      for (const y of ys) {
        if (wish.stand === 'seabed') {
          const z = this.onSeabed(room, half, x, y);
          if (z !== null) take([x, y, z]);
        } else if (wish.stand === 'bottom') {
          const z = this.onSeabed(room, half, x, y);
          if (z !== null) take([x, y, Math.max(z, zs[0] ?? z)]);
        } else if (wish.stand === 'top') take([x, y, zs[zs.length - 1] ?? 0]);
        else for (const z of zs) take([x, y, z]);
      }
    }
    return candidates;
  }

  /** Lowest height of the centre at which the foot stands inside the hull; null where it never does. */
  private onSeabed(room: Room, half: Vec3, x: number, y: number): number | null {
    const inside = (z: number): boolean =>
      [-1, 1].every((i) => [-1, 1].every((j) => this.isInside(x + i * half[0], y + j * half[1], z)));
    let low = room.low[2] - 0.3;
    let high = room.high[2];
    if (!inside(high)) return null;
    for (let step = 0; step < 14; step += 1) {
      const middle = (low + high) / 2;
      if (inside(middle)) high = middle;
      else low = middle;
    }
    return Math.max(high, room.low[2]) + half[2] + 0.002;
  }

  private onSkin(room: Room, half: Vec3, x: number, z: number, yawDeg: number, take: (at: Vec3) => void): void {
    const { hull } = this.yard;
    const middle = (room.low[1] + room.high[1]) / 2;
    const centre = hull.offsetM === 0 ? 0 : Math.sign(middle) * hull.offsetM;
    const side = middle >= centre ? 1 : -1;
    if (side > 0 ? yawDeg !== 0 : yawDeg !== 180) return;
    // From the skin inward until the whole outer end is clear of it: the side is neither flat nor upright.
    const outer = Math.max(this.breadthAt(x - half[0], z + half[2]), this.breadthAt(x + half[0], z + half[2]));
    for (let back = 0; back <= MOST_OFF_SKIN_M; back += OFF_SKIN_STEP_M) {
      const end = centre + side * (outer - SKIN_M - back);
      const isClear = [-1, 1].every((i) => [-1, 1].every((k) => this.isInside(x + i * half[0], end, z + k * half[2])));
      if (isClear) {
        take([x, end - side * half[1], z]);
        return;
      }
    }
  }

  private breadthAt(x: number, z: number): number {
    const { hull } = this.yard;
    return hull.halfBreadthAt(x, Math.min(z, hull.sheerAt(x))) - hull.insetM;
  }

  /** Clear of the inner face, which stands off the skin square to it: asked sideways, down, and between the two. */
  private isInside(x: number, y: number, z: number): boolean {
    const { hull } = this.yard;
    const off = hull.insetM + SKIN_M;
    if (x < hull.aftM + off) return false;
    const fromCentre = hull.offsetM === 0 ? Math.abs(y) : Math.abs(Math.abs(y) - hull.offsetM);
    return OUTWARD.every(
      ([out, down]) =>
        fromCentre + out * off <= hull.halfBreadthAt(x, Math.min(z, hull.sheerAt(x) - 0.001) - down * off),
    );
  }

  private fits(id: string, thing: Thing, { room, pose }: Candidate, wish: Wish, strict: 0 | 1 | 2): boolean {
    const half = halfOf(thing, pose.yawDeg);
    const own: Box = { owner: id, low: add(pose.at, scale(half, -1)), high: add(pose.at, half) };
    if (!this.inOneCell(room, own)) return false;
    for (const x of [own.low[0], own.high[0]])
      for (const y of [own.low[1], own.high[1]])
        for (const z of [own.low[2], own.high[2]]) if (!this.isInside(x, y, z)) return false;
    const gap = strict === 0 ? 0.005 : GAP_M;
    if (this.bodies.some((body) => meets(body, own, gap))) return false;
    if (strict > 0 && this.kept.some((box) => meets(box, own, 0))) return false;
    if (wish.reachM !== undefined && this.reachFrom(room, thing, pose) > wish.reachM) return false;
    if (strict === 0) return true;
    return leadBoxes(id, thing, pose, wish.leads ?? {}, strict === 2 ? 1 : 0.6).every(
      (lead) =>
        this.isRoom(room, lead) &&
        !this.bodies.some((body) => meets(body, lead, 0)) &&
        !(
          strict === 2 &&
          this.kept.some((box) => box.line !== undefined && box.line !== lead.line && meets(box, lead, 0))
        ),
    );
  }

  /** Corners alone do not see a hollow section: the sides of the envelope are asked too. */
  private isInHull(thing: Thing, pose: Pose): boolean {
    const half = halfOf(thing, pose.yawDeg);
    return SHARES.every((i) =>
      [-1, 1].every((j) =>
        SHARES.every((k) =>
          this.isInside(pose.at[0] + i * half[0], pose.at[1] + j * half[1], pose.at[2] + k * half[2]),
        ),
      ),
    );
  }

  private reachFrom(room: string, thing: Thing, pose: Pose): number {
    const handle = pointInBoat(pose, thing.valve?.handle?.at ?? [0, 0, 0]);
    let least = Number.POSITIVE_INFINITY;
    for (const opening of Object.values(this.yard.openings))
      if (opening.compartment === room && opening.how !== 'screwed')
        least = Math.min(least, depthFromOpening(opening, handle).distanceM);
    return least;
  }

  private inOneCell(room: string, box: Box): boolean {
    const { layout } = this.yard;
    return (layout.cellsOf[room] ?? []).some((index) =>
      layout.cells[index]?.planes.every(
        ({ normal, offset }) =>
          dot(normal, [
            normal[0] > 0 ? box.high[0] : box.low[0],
            normal[1] > 0 ? box.high[1] : box.low[1],
            normal[2] > 0 ? box.high[2] : box.low[2],
          ]) <=
          offset - 1e-4,
      ),
    );
  }

  /** A hose's lead stays in its compartment and inside the hull. */
  private isRoom(room: string, lead: Box): boolean {
    return (
      [lead.low, lead.high].every((p) => this.yard.layout.compartmentAt(p) === room) &&
      [lead.low[1], lead.high[1]].every((y) =>
        [lead.low[0], lead.high[0]].every((x) => this.isInside(x, y, lead.low[2])),
      )
    );
  }

  /** Service tasks without their room, by bounds; of alternatives the best counts. */
  private missingService(id: string, thing: Thing, { room, pose }: Candidate): number {
    let missing = 0;
    const alternatives = new Map<string, boolean>();
    for (const service of Object.values(servicesWithRoom(thing))) {
      const box = serviceBox(id, service, pose);
      const met =
        !this.bodies.some((body) => meets(body, box, 0)) &&
        (this.isRoom(room, box) || this.leavesByOpening(room, box, service, pose));
      if (service.either) alternatives.set(service.either, (alternatives.get(service.either) ?? false) || met);
      else if (!met) missing += 1;
    }
    return missing + [...alternatives.values()].filter((met) => !met).length;
  }

  /** Whether a service space goes out through the clear area of an opening of its room: a lid is lifted for it. */
  private leavesByOpening(room: string, box: Box, service: Service, pose: Pose): boolean {
    const way = directionInBoat(pose, service.direction);
    return Object.values(this.yard.openings).some((opening) => {
      if (opening.compartment !== room || opening.how === 'screwed') return false;
      if (dot(way, opening.normal) < 0.99 * portable.hypot(...way)) return false;
      // As the rule asks: the circle round the cross-section lies inside the clear area.
      const { up, across } = openingFrame(opening);
      const radius = service.round ? service.acrossM[0] / 2 : portable.hypot(...service.acrossM) / 2;
      const off = subtract(scale(add(box.low, box.high), 0.5), opening.at);
      return (
        Math.abs(dot(off, across)) + radius <= opening.widthM / 2 &&
        Math.abs(dot(off, up)) + radius <= opening.heightM / 2
      );
    });
  }
}

const serviceBox = (id: string, service: Service, pose: Pose): Box => ({
  owner: id,
  ...solidBounds(serviceSolid({ id, owner: id, label: id, layer: 'serviceKeepOut' }, service, pose)),
});

/** Where the lead of a port ends: there the other lead of the line should begin. */
export function leadEnd(thing: Thing, pose: Pose, portId: string, { leads }: Pick<Wish, 'leads'>): Vec3 {
  const port = thing.ports[portId];
  if (!port) return pose.at;
  const length = leads?.[portId]?.lengthM ?? 0;
  return pointInBoat(pose, add(port.at, scale(port.direction, length / portable.hypot(...port.direction))));
}

const tidy = (metres: number): number => Math.round(metres * 1000) / 1000;

/** Half sizes of the envelope along the boat's axes, turned by quarters. */
function halfOf({ shape }: Thing, yawDeg: number): Vec3 {
  const size: Vec3 =
    shape.type === 'box'
      ? shape.sizeM
      : (['x', 'y', 'z'].map((axis) => (axis === shape.axis ? shape.lengthM : shape.diameterM)) as unknown as Vec3);
  const [x, y, z] = scale(size, 0.5);
  return yawDeg % 180 === 0 ? [x, y, z] : [y, x, z];
}

function places(from: number, to: number, most: number): number[] {
  const low = from + 0.003;
  const high = to - 0.003;
  if (high < low) return [];
  const count = Math.min(most, Math.max(1, Math.floor((high - low) / LEAST_STEP_M) + 1));
  return count === 1
    ? [(low + high) / 2]
    : Array.from({ length: count }, (_, i) => low + ((high - low) * i) / (count - 1));
}

function leastDistance(room: Room, wish: Wish): number {
  return wish.near.reduce((sum, { at, weight }) => {
    const gap = [0, 1, 2].map((k) =>
      Math.max(0, (room.low[k] ?? 0) - (at[k] ?? 0), (at[k] ?? 0) - (room.high[k] ?? 0)),
    );
    return sum + weight * portable.hypot(...gap);
  }, 0);
}

const meets = (a: Box, b: Box, gap: number): boolean =>
  [0, 1, 2].every((k) => (a.low[k] ?? 0) < (b.high[k] ?? 0) + gap && (b.low[k] ?? 0) < (a.high[k] ?? 0) + gap);

/** What a joined pair is worth in metres: the way from lead to lead, and three times what one lead overruns the other. */
function apart(thing: Thing, pose: Pose, { at, port, way }: Near, wish: Wish): number {
  if (port === undefined) return distance(pose.at, at);
  const own = leadEnd(thing, pose, port, wish);
  const between = subtract(at, own);
  const direction = unit(directionInBoat(pose, thing.ports[port]?.direction ?? [1, 0, 0]));
  const overrun = Math.max(0, -dot(between, direction)) + (way ? Math.max(0, dot(between, way)) : 0);
  return norm(between) + OVERRUN * overrun;
}

/** The straight starts of hoses at the ports, as boxes. */
function leadBoxes(id: string, thing: Thing, pose: Pose, leads: Readonly<Record<string, Lead>>, share: number): Box[] {
  return Object.entries(leads).flatMap(([key, { line, lengthM, outsideM, isWet }]) => {
    const port = thing.ports[key];
    if (!port) return [];
    const from = pointInBoat(pose, port.at);
    const to = leadEnd(thing, pose, key, { leads: { [key]: { line, lengthM: lengthM * share, outsideM, isWet } } });
    const r = outsideM / 2 + 0.004;
    const bound = (pick: (a: number, b: number) => number, by: number): Vec3 =>
      [0, 1, 2].map((k) => {
        const [a, b] = [from[k] ?? 0, to[k] ?? 0];
        return pick(a, b) + (Math.abs(a - b) < 1e-6 ? by : 0);
      }) as unknown as Vec3;
    return [{ owner: id, line, isWet, low: bound(Math.min, -r), high: bound(Math.max, r) }];
  });
}

const isWithin = (point: Vec3, { low, high }: Box): boolean =>
  [0, 1, 2].every((k) => (point[k] ?? 0) > (low[k] ?? 0) && (point[k] ?? 0) < (high[k] ?? 0));

/** Where drips would fall on a thing, as high as any room; null for what is no electrics, or stands them. */
function columnOver(id: string, thing: Thing, pose: Pose): Box | null {
  if (isOpenToWater(thing) === false) return null;
  const half = halfOf(thing, pose.yawDeg);
  const aside: Vec3 = [half[0] + DRIP_ASIDE_M, half[1] + DRIP_ASIDE_M, half[2]];
  return { owner: id, low: subtract(pose.at, aside), high: add(pose.at, [aside[0], aside[1], HIGHEST_ROOM_M]) };
}

/** The straight ways from the ends of its hoses to those that stand. */
const wetWays = (thing: Thing, pose: Pose, wish: Wish): { from: Vec3; to: Vec3 }[] =>
  wish.near.flatMap(({ at, port, way }) => {
    const own = port === undefined ? undefined : wish.leads?.[port];
    if (port === undefined || way === undefined || !own?.isWet) return [];
    return [{ from: leadEnd(thing, pose, port, wish), to: at }];
  });
