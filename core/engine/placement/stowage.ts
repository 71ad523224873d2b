import { add, distance, midpoint, norm, type Pose, scale, subtract, type Vec3 } from '../../base/vec';
import { LIVING_SPACES } from '../../boat/kinds';
import type { Boat, Opening } from '../../boat/schema/boat';
import { part as partSchema } from '../../boat/schema/things';
import { filledVolume } from '../../shape/space/net-volume';
import type { CapsuleSolid, Solid } from '../../shape/space/solids';
import { laidAtRest } from '../final-run';
import { hull, layout } from '../shape-stages';
import { solidsOf } from '../solid-stages';
import { compartment, hullData, lineIds, openings, partIds, type Source, thingIds } from '../source';
import type { ComputedStage, Read, Store } from '../store';
import { boxOf } from './first-tints';
import { freePlaces, type Ground } from './free-places';
import { movedGroup } from './moved-group';

/** What the plan takes of the stowage, and where what must be stowed still finds room. */
export interface StowageReport {
  /** By compartment: litres that parts, hoses, tubes and cables of the plan fill there. */
  readonly lostL: Readonly<Record<string, number>>;
  /** By box: its place; null where no compartment has a free one. */
  readonly boxes: Readonly<Record<string, BoxPlace | null>>;
}

export interface BoxPlace {
  readonly compartment: string;
  /** Its middle and how it is turned. */
  readonly pose: Pose;
  /** In the very compartment that it should be near; true where it need be near nothing. */
  readonly isNear: boolean;
}

/**
 * Litres of a compartment that the bodies of some parts and some lines fill, each litre of parts once. Room that service needs is not
 * counted: gear may lie there and be moved.
 */
export function takenL(read: Read, id: string, parts: readonly string[], lines: readonly string[]): number {
  const cells = read(layout);
  const { shellM = 0, liningM = 0 } = read(hullData) ?? {};
  const insetM = shellM + (read(compartment, id)?.liningM ?? liningM);
  const bodies = parts.flatMap((part) => read(solidsOf, part).filter(({ layer }) => layer === 'furnishing'));
  const partsM3 = filledVolume(bodies, cells, read(hull), id, insetM);
  const runsM3 = lines.reduce(
    (sum, line) =>
      (read(laidAtRest, line)?.capsules ?? []).reduce(
        (all, capsule) => all + capsuleIn(capsule, id, cells.compartmentAt),
        sum,
      ),
    0,
  );
  return (partsM3 + runsM3) * 1000;
}

/** A run is looked at in steps of this, metres. */
const STEP_M = 0.01;

/** Volume of a piece of a run as far as its middle line lies in a compartment; its round ends belong to the pieces beside it. */
function capsuleIn({ from, to, radius }: CapsuleSolid, id: string, at: (point: Vec3) => string | null): number {
  const way = subtract(to, from);
  const longM = norm(way);
  const steps = Math.max(1, Math.ceil(longM / STEP_M));
  let inside = 0;
  for (let k = 0; k < steps; k++) if (at(add(from, scale(way, (k + 0.5) / steps))) === id) inside += 1;
  return ((Math.PI * radius * radius * longM) / steps) * inside;
}

/** Litres that the plan takes of a compartment. Key: its id. */
const stowageLost: ComputedStage<number> = {
  id: 'stowageLost',
  compute: (id, read) => takenL(read, id, read(partIds), read(lineIds)),
  same: (a, b) => a === b,
};

/** What the plan takes, and where the boxes find room, the largest first; of each the nearest compartment that takes it. */
export function stowageOf(store: Store<Source>, { boat, arrangementId }: Source): StowageReport {
  const ids = Object.keys(boat.compartments).sort();
  const lostL = Object.fromEntries(ids.map((id) => [id, store.read(stowageLost, id)]));
  const stowed: Solid[] = [];
  const boxes = Object.entries(boat.stowageBoxes ?? {}).sort(
    ([a, { sizeM: p }], [b, { sizeM: q }]) => q[0] * q[1] * q[2] - p[0] * p[1] * p[2] || (a < b ? -1 : 1),
  );
  const found = boxes.map(([id, box]): readonly [string, BoxPlace | null] => {
    const near = nearOf(store, boat, box.near);
    const part = partSchema.parse({
      name: box.name,
      kind: 'sparesBox',
      shape: { type: 'box', sizeM: box.sizeM },
      massKg: box.massKg,
    });
    const key = `stowageBoxes/${id}`;
    const group = movedGroup({ ...boat, parts: { [key]: part } }, arrangementId, [key]);
    for (const room of roomsByDistance(store, boat, ids, near)) {
      if (!comesIn(store.read(openings), room, box.sizeM)) continue;
      const [place] = freePlaces(group, groundOf(store, room, near?.at ?? null, stowed)).places;
      if (!place) continue;
      stowed.push(...group.bodiesWith(place.lead));
      return [id, { compartment: room, pose: place.lead, isNear: near === null || near.compartment === room }];
    }
    return [id, null];
  });
  return { lostL, boxes: Object.fromEntries(found.sort(([a], [b]) => (a < b ? -1 : 1))) };
}

interface Near {
  readonly at: Vec3;
  readonly compartment: string | null;
}

/** What a box should be near: a compartment by its middle, or a thing where it stands. Null: nothing, or what is not drawn. */
function nearOf(store: Store<Source>, boat: Boat, near: string | undefined): Near | null {
  if (near === undefined) return null;
  const cells = store.read(layout);
  if (Object.hasOwn(boat.compartments, near)) {
    const box = boxOf(cells, near);
    return box && { at: midpoint(...box), compartment: near };
  }
  const [solid] = store.read(solidsOf, near);
  if (!solid) return null;
  const at = solid.type === 'box' ? solid.centre : midpoint(solid.from, solid.to);
  return { at, compartment: cells.compartmentAt(at) };
}

/** Nothing is stowed where people live, where bilge water stands, at the chain or the engine. */
const NO_STOWAGE: ReadonlySet<string> = new Set([...LIVING_SPACES, 'bilge', 'chainLocker', 'engineSpace']);

/** Compartments in which gear may lie, the nearest first. */
function roomsByDistance(
  store: Store<Source>,
  boat: Boat,
  ids: readonly string[],
  near: Near | null,
): readonly string[] {
  const cells = store.read(layout);
  const awayM = (id: string): number => {
    if (near === null || near.compartment === id) return 0;
    const box = boxOf(cells, id);
    return box ? distance(midpoint(...box), near.at) : Number.POSITIVE_INFINITY;
  };
  return ids
    .filter((id) => boat.compartments[id]?.stowage === true || !NO_STOWAGE.has(boat.compartments[id]?.kind ?? ''))
    .map((id) => ({ id, awayM: awayM(id) }))
    .sort((a, b) => a.awayM - b.awayM || (a.id < b.id ? -1 : 1))
    .map(({ id }) => id);
}

/** Whether the two smaller sides of a box pass an opening that needs no tool; where none is drawn nothing is known against it. */
function comesIn(all: Readonly<Record<string, Opening>>, room: string, sizeM: readonly number[]): boolean {
  const own = Object.values(all).filter(({ compartment: of, to }) => of === room || to === room);
  const [small = 0, middle = 0] = [...sizeM].sort((a, b) => a - b);
  return (
    own.length === 0 ||
    own.some(({ how, widthM, heightM }) => {
      const [least, most] = [Math.min(widthM, heightM), Math.max(widthM, heightM)];
      return how !== 'screwed' && small <= least && middle <= most;
    })
  );
}

function groundOf(store: Store<Source>, room: string, near: Vec3 | null, stowed: readonly Solid[]): Ground {
  const things = store
    .read(thingIds)
    .flatMap((id) => store.read(solidsOf, id).filter(({ layer }) => layer !== 'serviceKeepOut'));
  const runs = store.read(lineIds).flatMap((id) => store.read(laidAtRest, id)?.capsules ?? []);
  return {
    compartment: room,
    layout: store.read(layout),
    hull: store.read(hull),
    openings: store.read(openings),
    surfaces: [],
    solids: [...things, ...runs, ...stowed],
    leads: [],
    dryFrom: null,
    outsideBy: ({ at }) => (near === null ? 0 : distance(at, near)),
  };
}
