import { turnOf } from '../../base/turning';
import {
  add,
  dot,
  ORIGIN,
  type Pose,
  type Rotation,
  rotate,
  rotationOf,
  subtract,
  type Turn,
  type Vec3,
} from '../../base/vec';
import { poseOf } from '../../boat/edits';
import { quantisedTree } from '../../boat/quantise';
import type { Boat, Part } from '../../boat/schema/boat';
import type { Solid } from '../../shape/space/solids';
import { bodiesAt } from '../fit/places';
import { AXIS_TURNS } from '../fit/turns';

/** One part of what is moved, and where it goes with the first one. */
interface Member {
  readonly id: string;
  readonly part: Part;
  /** Its place now; null while it is not placed. */
  readonly now: Pose | null;
  poseWith(lead: Pose): Pose;
}

/** Parts that move as one body: each keeps its offset from the first, which turns with it. */
export interface MovedGroup {
  readonly ids: readonly string[];
  readonly lead: Member;
  readonly members: readonly Member[];
  /** Ways round in which the first may stand, the likeliest first; those as drawn before those laid over. */
  readonly turns: readonly (readonly Turn[])[];
  posesWith(lead: Pose): Readonly<Record<string, Pose>>;
  bodiesWith(lead: Pose): readonly Solid[];
}

/** What a question names that cannot be asked for. */
export class NoSuchGroup extends Error {}

/**
 * The named parts as one body. Every part but the first must be placed with the first: offsets are kept. Throws NoSuchGroup, naming the part
 * that is unknown, named twice or not placed.
 */
export function movedGroup(boat: Boat, arrangementId: string | null, ids: readonly string[]): MovedGroup {
  const [first] = ids;
  if (first === undefined) throw new NoSuchGroup('a part is needed, got none');
  for (const [k, id] of ids.entries()) {
    if (!Object.hasOwn(boat.parts, id)) throw new NoSuchGroup(`parts.${id} is missing`);
    if (ids.indexOf(id) !== k) throw new NoSuchGroup(`parts.${id} is named twice`);
    if (ids.length > 1 && !poseOf(boat, arrangementId, id))
      throw new NoSuchGroup(`parts.${id} is not placed: a group keeps the offsets of its parts`);
  }
  const leadNow = bare(poseOf(boat, arrangementId, first));
  const members = ids.map((id): Member => {
    const part = boat.parts[id] as Part;
    const now = bare(poseOf(boat, arrangementId, id));
    return { id, part, now, poseWith: (lead) => (id === first ? lead : carried(leadNow ?? lead, now ?? lead, lead)) };
  });
  const posesWith = (lead: Pose): Readonly<Record<string, Pose>> =>
    Object.fromEntries(members.map((member) => [member.id, member.poseWith(lead)]));
  return {
    ids,
    lead: members[0] as Member,
    members,
    turns: turnsOf(members, leadNow),
    posesWith,
    bodiesWith: (lead) => members.flatMap(({ id, part, poseWith }) => bodiesAt(id, part, poseWith(lead))),
  };
}

const bare = (pose: Pose | null): Pose | null =>
  pose && { at: pose.at, yawDeg: pose.yawDeg, pitchDeg: pose.pitchDeg, rollDeg: pose.rollDeg };

/** Where a pose comes to rest when the body it belongs to goes from one pose to another. */
function carried(from: Pose, own: Pose, to: Pose): Pose {
  const [a, b] = [rotationOf(from), rotationOf(to)];
  const turn: Rotation = [0, 1, 2].map((k) =>
    rotate(b, within(a, [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0])),
  ) as unknown as Rotation;
  const at = add(to.at, rotate(turn, subtract(own.at, from.at)));
  const columns = rotationOf(own).map((column) => rotate(turn, column)) as unknown as Rotation;
  return quantisedTree({ at, ...turnOf(columns) });
}

/** A direction of the boat in the axes of a body. */
const within = (axes: Rotation, way: Vec3): Vec3 => [dot(axes[0], way), dot(axes[1], way), dot(axes[2], way)];

const YAWS: readonly Turn[] = AXIS_TURNS.filter(({ pitchDeg, rollDeg }) => pitchDeg === 0 && rollDeg === 0);
const LAID: readonly Turn[] = AXIS_TURNS.filter((turn) => !YAWS.includes(turn));

/** The way it stands now and upright ones, then laid over; parts that must stand upright are not laid over. */
function turnsOf(members: readonly Member[], now: Pose | null): readonly (readonly Turn[])[] {
  const own: readonly Turn[] = now ? [{ yawDeg: now.yawDeg, pitchDeg: now.pitchDeg, rollDeg: now.rollDeg }] : [];
  const upright = members.some(({ part }) => part.mounting?.upright === true);
  if (members.length > 1) {
    // a group is turned about the vertical, from the way it stands
    const lead = now ?? { at: ORIGIN, yawDeg: 0, pitchDeg: 0, rollDeg: 0 };
    return [
      [0, 180, 90, 270]
        .map((deg) => ({ ...lead, yawDeg: wrapped(lead.yawDeg + deg) }))
        .map(({ yawDeg, pitchDeg, rollDeg }) => ({ yawDeg, pitchDeg, rollDeg })),
    ];
  }
  const standing = distinct([...own, ...YAWS]);
  const laid = LAID.filter((turn) => !standing.some((other) => isSame(other, turn)));
  return upright ? [standing] : [standing, laid];
}

const wrapped = (deg: number): number => ((((deg + 180) % 360) + 360) % 360) - 180;

const distinct = (turns: readonly Turn[]): readonly Turn[] =>
  turns.filter((turn, k) => !turns.slice(0, k).some((other) => isSame(other, turn)));

/** Two ways round that are the same rotation. */
const isSame = (a: Turn, b: Turn): boolean => {
  const [p, q] = [rotationOf(a), rotationOf(b)];
  return p.every((column, k) => dot(column, q[k] as Vec3) > 1 - 1e-9);
};
