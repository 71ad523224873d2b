import * as portable from '../../../base/portable';
import { radians, UNIT_AXES, type Vec3 } from '../../../base/vec';
import {
  aboutAxis,
  type CarriedBody,
  type CarriedPose,
  grownBody,
  legLength,
  onLeg,
  type Quaternion,
  reachOfBody,
  timesQuaternion,
  unitQuaternion,
} from './carried-body';
import type { ClearRoom } from './clear-room';
import { type GateTurn, gateTurns } from './gate-turns';
import { type Gate, OUTSIDE_M } from './straight-moves';

/** The trees grow with a body that is so much larger all round: what they find may begin to move, and holds between two looks (metres). */
const GROWN_M = 0.0025;
/** Room is asked for up to here (metres). */
const ROOM_M = 0.1;
/** A branch grows by no more at a time, and by no less to count (metres of the body's farthest point). */
const BRANCH_M = 0.25;
const LEAST_BRANCH_M = 0.004;
/** Ways off its place that are tried, and how far (metres). */
const OFF_M = [0.004, 0.008, 0.016, 0.03, 0.06, 0.12, 0.25];
const MOST_OFF_M = 0.4;
/** A gate that was reached is pushed on inwards and kept at such steps (metres). */
const PUSHED_M = 0.08;
const OUTSIDE_TRIES = 40;
/** The longest side is led in straight, or leant over so far (degrees). */
const LEANS_DEG = [15, 30, 45, 60, 75];
/** Share of the looks that are spent on drawing the way straight. */
const STRAIGHTENING_LOOKS = 400;

interface Knot {
  readonly pose: CarriedPose;
  readonly roomM: number;
  readonly from: Knot | null;
}

export interface TreeAsk {
  readonly room: ClearRoom;
  readonly body: CarriedBody;
  readonly gate: Gate;
  readonly start: CarriedPose;
  /** Where the middle of the body may be, in the frame of the opening. */
  readonly low: Vec3;
  readonly high: Vec3;
  /** Poses that may be looked at. */
  readonly looks: number;
  readonly random: () => number;
}

/**
 * A way out by two trees, one grown from the pose and one from outside, in which the body is turned as well as shifted. Counted, and the same
 * for the same numbers of `random`. Null: none was found, which says nothing of whether there is one.
 */
export function treesOut(ask: TreeAsk): readonly CarriedPose[] | null {
  const { room, body, gate, start } = ask;
  const grown = grownBody(body, GROWN_M);
  const reachM = reachOfBody(grown);
  const last = room.looks + ask.looks;
  const gates = gateTurns(grown, gate);
  const inner = offItsPlace(room, body, grown, start);
  if (inner.length === 0) return null;
  room.carry(grown);
  const outer = outsideRoots(ask, gates);
  if (outer.length === 0) return null;

  /** As far towards a pose as nothing is met; between two looks no point moves farther than there is room about both. */
  const advance = (from: Knot, to: CarriedPose, mostM: number): { knot: Knot; isThere: boolean } => {
    const wholeM = legLength(from.pose, to, reachM);
    const endM = Math.min(wholeM, mostM);
    let s = 0;
    let knot = from;
    while (s < endM) {
      const next = Math.min(endM, s + knot.roomM + 2 * GROWN_M);
      const pose = next === wholeM ? to : onLeg(from.pose, to, next / wholeM);
      const roomM = room.room(pose, ROOM_M);
      if (roomM <= 0) break;
      s = next;
      knot = { pose, roomM, from };
    }
    return { knot, isThere: s >= wholeM };
  };
  const nearest = (tree: readonly Knot[], to: CarriedPose): Knot => {
    let best = tree[0] as Knot;
    let leastM = Number.POSITIVE_INFINITY;
    for (const knot of tree) {
      const m = nearness(knot.pose, to, reachM);
      if (m < leastM) {
        leastM = m;
        best = knot;
      }
    }
    return best;
  };
  const linked = (a: Knot, b: Knot, isInnerFirst: boolean): CarriedPose[] => {
    const [fromInner, fromOuter] = isInnerFirst ? [a, b] : [b, a];
    return [...trace(fromInner).reverse(), ...trace(fromOuter)];
  };

  let growing = inner;
  let other = outer;
  const meet = (knot: Knot): CarriedPose[] | null => {
    const { knot: end, isThere } = advance(nearest(other, knot.pose), knot.pose, Number.POSITIVE_INFINITY);
    if (end.from) other.push(end);
    return isThere ? linked(knot, end, growing === inner) : null;
  };
  const finish = (path: readonly CarriedPose[]): readonly CarriedPose[] => {
    const clean = path.filter((pose, i) => i === 0 || legLength(path[i - 1] as CarriedPose, pose, reachM) > 1e-9);
    return straightened(clean, room, advance);
  };
  // What stands before the opening may be all that it takes.
  for (const knot of [...inner]) {
    const path = meet(knot);
    if (path) return finish(path);
    if (room.looks >= last) return null;
  }
  while (room.looks < last) {
    const sample = sampled(ask, gates, growing, other);
    const { knot } = advance(nearest(growing, sample), sample, BRANCH_M);
    if (knot.from && legLength(knot.from.pose, knot.pose, reachM) >= LEAST_BRANCH_M) {
      growing.push(knot);
      const path = meet(knot);
      if (path) return finish(path);
    }
    [growing, other] = [other, growing];
  }
  return null;
}

/** As legLength, for comparing alone: the chord of the turn instead of its angle. */
function nearness(from: CarriedPose, to: CarriedPose, reachM: number): number {
  const dx = to.at[0] - from.at[0];
  const dy = to.at[1] - from.at[1];
  const dz = to.at[2] - from.at[2];
  const [p, q] = [from.turn, to.turn];
  const cosine = Math.abs(p[0] * q[0] + p[1] * q[1] + p[2] * q[2] + p[3] * q[3]);
  return Math.sqrt(dx * dx + dy * dy + dz * dz) + reachM * Math.sqrt(8 * Math.max(0, 1 - cosine));
}

/** Poses from a knot back to its root. */
function trace(knot: Knot): CarriedPose[] {
  const out: CarriedPose[] = [];
  for (let k: Knot | null = knot; k; k = k.from) out.push(k.pose);
  return out;
}

/**
 * Poses near the place with room all round, each reached by one straight pull: out, up, aside, along its own axes. What stands on its shelf
 * touches it, and must be off it before it can be turned.
 */
function offItsPlace(room: ClearRoom, body: CarriedBody, grown: CarriedBody, start: CarriedPose): Knot[] {
  const root: Knot = { pose: start, roomM: 0, from: null };
  room.carry(grown);
  const free = room.room(start, ROOM_M);
  if (free > 0) return [{ ...root, roomM: free }];
  const own = [0, 1, 2].map((k) => rotated(start.turn, UNIT_AXES[k] as Vec3));
  const ways: Vec3[] = [
    [0, 0, 1],
    [0, 1, 0],
    [1, 0, 0],
    [-1, 0, 0],
    [0, -1, 0],
    [0, 0, -1],
    ...own,
    ...own.map(([u, v, w]): Vec3 => [-u, -v, -w]),
  ];
  const knots: Knot[] = [];
  for (const way of ways) {
    room.carry(body);
    const { freeM } = room.travel(start, way, MOST_OFF_M);
    room.carry(grown);
    for (const byM of [...OFF_M.filter((m) => m < freeM), freeM]) {
      if (byM <= 0) continue;
      const pose: CarriedPose = {
        at: [start.at[0] + way[0] * byM, start.at[1] + way[1] * byM, start.at[2] + way[2] * byM],
        turn: start.turn,
      };
      const roomM = room.room(pose, ROOM_M);
      if (roomM <= 0) continue;
      knots.push({ pose, roomM, from: root });
      break;
    }
  }
  return knots;
}

function rotated([w, x, y, z]: Quaternion, [a, b, c]: Vec3): Vec3 {
  const [tx, ty, tz] = [2 * (y * c - z * b), 2 * (z * a - x * c), 2 * (x * b - y * a)];
  return [a + w * tx + y * tz - z * ty, b + w * ty + z * tx - x * tz, c + w * tz + x * ty - y * tx];
}

/**
 * Poses outside, each pushed inwards as far as it goes: in every gate turn right before the opening, and along the longest side aslant, as
 * what is longer than the room behind is led in; where none of them is free, anyhow outside.
 */
function outsideRoots(ask: TreeAsk, gates: readonly GateTurn[]): Knot[] {
  const { room, low, high, random } = ask;
  const knots: Knot[] = [];
  const pushed = (pose: CarriedPose, way: Vec3, mostM: number): void => {
    const roomM = room.room(pose, ROOM_M);
    if (roomM <= 0) return;
    let from: Knot = { pose, roomM, from: null };
    knots.push(from);
    const { freeM } = room.travel(pose, way, mostM);
    for (let m = PUSHED_M; m < freeM; m += PUSHED_M) {
      const next: CarriedPose = {
        at: [pose.at[0] + way[0] * m, pose.at[1] + way[1] * m, pose.at[2] + way[2] * m],
        turn: pose.turn,
      };
      const free = room.room(next, ROOM_M);
      if (free <= 0) break;
      from = { pose: next, roomM: free, from };
      knots.push(from);
    }
  };
  for (const { turn, spreadM } of gates) {
    const pose: CarriedPose = { at: [0, 0, spreadM[2] + OUTSIDE_M], turn };
    pushed(pose, [0, 0, -1], pose.at[2] - low[2]);
  }
  for (const { pose, way, mostM } of aslant(ask, gates)) pushed(pose, way, mostM);
  if (knots.length > 0) return knots;
  for (let n = 0; n < OUTSIDE_TRIES; n += 1) {
    const turn = gates.length > 0 && random() < 0.5 ? tilted(gates, random) : anyTurn(random);
    const spreadW = room.spreadOf({ at: [0, 0, 0], turn })[2];
    const at: Vec3 = [
      between(low[0], high[0], random()),
      between(low[1], high[1], random()),
      spreadW + OUTSIDE_M + random() * Math.max(0, high[2] - spreadW),
    ];
    const roomM = room.room({ at, turn }, ROOM_M);
    if (roomM > 0) knots.push({ pose: { at, turn }, roomM, from: null });
  }
  return knots;
}

/** Ways of the longest side through the middle or near either edge of the opening, leant over to every side. */
function aslant(
  { room, body, gate, low }: TreeAsk,
  gates: readonly GateTurn[],
): readonly { readonly pose: CarriedPose; readonly way: Vec3; readonly mostM: number }[] {
  const longestM = Math.max(...body.half);
  const straight = gates.find(({ spreadM }) => spreadM[2] >= longestM);
  if (!straight) return [];
  return LEANS_DEG.flatMap((deg) =>
    ([0, 1] as const).flatMap((across) =>
      [-1, 1].flatMap((side) => {
        const angle = radians(side * deg);
        const [cos, sin] = [portable.cos(angle), portable.sin(angle)];
        // About the second axis the longest side leans along the first, and the other way round.
        const turn = timesQuaternion(aboutAxis(across === 0 ? [0, 1, 0] : [1, 0, 0], angle), straight.turn);
        const out: Vec3 = across === 0 ? [sin, 0, cos] : [0, -sin, cos];
        const spread = room.spreadOf({ at: [0, 0, 0], turn });
        const clearM = (spread[2] + OUTSIDE_M) / cos;
        const edgeM = (across === 0 ? gate.widthM : gate.heightM) / 2 - straight.spreadM[across] / cos;
        return (edgeM > 0.02 ? [0, edgeM - 0.005, 0.005 - edgeM] : [0]).map((at) => ({
          pose: {
            at: [
              (across === 0 ? at : 0) + out[0] * clearM,
              (across === 1 ? at : 0) + out[1] * clearM,
              out[2] * clearM,
            ] as Vec3,
            turn,
          },
          way: [-out[0], -out[1], -out[2]] as Vec3,
          mostM: clearM - low[2] / cos,
        }));
      }),
    ),
  );
}

const between = (low: number, high: number, share: number): number => low + (high - low) * share;

/** A gate turn, leant over by up to a right angle about an axis in the opening's plane. */
function tilted(gates: readonly GateTurn[], random: () => number): Quaternion {
  const gate = gates[Math.floor(random() * gates.length)] as GateTurn;
  const about: Vec3 = random() < 0.5 ? [1, 0, 0] : [0, 1, 0];
  return timesQuaternion(aboutAxis(about, radians(between(-90, 90, random()))), gate.turn);
}

/** Uniform over all turns (Shoemake, Graphics Gems III, 1992). */
function anyTurn(random: () => number): Quaternion {
  const u = random();
  const [a, b] = [2 * Math.PI * random(), 2 * Math.PI * random()];
  const [p, q] = [Math.sqrt(1 - u), Math.sqrt(u)];
  return unitQuaternion([q * portable.cos(b), p * portable.sin(a), p * portable.cos(a), q * portable.sin(b)]);
}

/** Shares of the samples: in a gate turn before the opening, between the trees, near a knot, on a lattice of turns; the rest anyhow. */
const IN_GATE = 0.25;
const BETWEEN = 0.5;
const NEARBY = 0.7;
const ON_LATTICE = 0.85;
const LATTICE_DEG = 15;
/** How far off those between the trees and near a knot are (metres, degrees). */
const OFF_BETWEEN_M = 0.05;
const NEARBY_M = 0.15;
const NEARBY_DEG = 25;

function sampled(
  { start, low, high, gate, random }: TreeAsk,
  gates: readonly GateTurn[],
  growing: readonly Knot[],
  other: readonly Knot[],
): CarriedPose {
  const anywhere = (): Vec3 => [
    between(low[0], high[0], random()),
    between(low[1], high[1], random()),
    between(low[2], high[2], random()),
  ];
  const off = ([u, v, w]: Vec3, byM: number): Vec3 => [
    u + between(-byM, byM, random()),
    v + between(-byM, byM, random()),
    w + between(-byM, byM, random()),
  ];
  const oneOf = (tree: readonly Knot[]): CarriedPose => (tree[Math.floor(random() * tree.length)] as Knot).pose;
  const kind = random();
  if (kind < IN_GATE && gates.length > 0) {
    const one = gates[Math.floor(random() * gates.length)] as GateTurn;
    const aside = Math.max(0, gate.widthM / 2 - one.spreadM[0]);
    const rise = Math.max(0, gate.heightM / 2 - one.spreadM[1]);
    return {
      at: [between(-aside, aside, random()), between(-rise, rise, random()), between(low[2], high[2], random())],
      turn: one.turn,
    };
  }
  if (kind < BETWEEN) {
    const pose = onLeg(oneOf(growing), oneOf(other), random());
    return { at: off(pose.at, OFF_BETWEEN_M), turn: pose.turn };
  }
  if (kind < NEARBY) {
    const { at, turn } = oneOf(growing);
    const axis = UNIT_AXES[Math.floor(random() * 3)] as Vec3;
    const angle = radians(between(-NEARBY_DEG, NEARBY_DEG, random()));
    return { at: off(at, NEARBY_M), turn: timesQuaternion(aboutAxis(axis, angle), turn) };
  }
  if (kind < ON_LATTICE) {
    const axis = UNIT_AXES[Math.floor(random() * 3)] as Vec3;
    const steps = Math.floor(random() * (180 / LATTICE_DEG));
    return { at: anywhere(), turn: timesQuaternion(aboutAxis(axis, radians(LATTICE_DEG * steps)), start.turn) };
  }
  return { at: anywhere(), turn: random() < 0.5 && gates.length > 0 ? tilted(gates, random) : anyTurn(random) };
}

/** Stops are left out where the leg past them is free; the first leg, off the place, stays. */
function straightened(
  path: readonly CarriedPose[],
  room: ClearRoom,
  advance: (from: Knot, to: CarriedPose, mostM: number) => { isThere: boolean },
): readonly CarriedPose[] {
  const last = room.looks + STRAIGHTENING_LOOKS;
  const out: CarriedPose[] = [path[0] as CarriedPose];
  let i = 0;
  while (i < path.length - 1) {
    let next = i + 1;
    const from = path[i] as CarriedPose;
    const roomM = room.room(from, ROOM_M);
    if (roomM > 0)
      for (let span = path.length - 1 - i; span > 1 && room.looks < last; span = Math.floor(span / 2)) {
        const j = i + span;
        if (advance({ pose: from, roomM, from: null }, path[j] as CarriedPose, Number.POSITIVE_INFINITY).isThere) {
          next = j;
          break;
        }
      }
    out.push(path[next] as CarriedPose);
    i = next;
  }
  return out;
}
