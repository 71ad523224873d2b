import * as portable from '../../../base/portable';
import { radians, UNIT_AXES, unit, type Vec3 } from '../../../base/vec';
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

/** The trees grow with a body that is larger all round by no less: what they find may begin to move, and holds between two looks (metres). */
export const LEAST_GROWN_M = 0.0025;
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
/** Ways aslant are worth their looks in a long search alone. */
const ASLANT_LOOKS = 1000;
/** From so many poses off its place it is led before the opening in one go. */
const MOST_STARTS = 3;
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
  /** Room that is kept all round once it is off its place, LEAST_GROWN_M or more. */
  readonly aboutM: number;
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
  const { aboutM } = ask;
  const grown = grownBody(body, aboutM);
  const reachM = reachOfBody(grown);
  const last = room.looks + ask.looks;
  const snug = gateTurns(body, gate);
  const gates = snug.filter(({ slackM }) => slackM > aboutM);
  const inner = offItsPlace(room, body, grown, start);
  if (inner.length === 0) return null;
  const straightOn = snugRoots(ask, snug, grown);
  const outer = [...straightOn, ...outsideRoots(ask, gates, grown)];
  if (outer.length === 0) return null;

  /** As far towards a pose as nothing is met; between two looks no point moves farther than there is room about both. */
  const advance = (from: Knot, to: CarriedPose, mostM: number): { knot: Knot; isThere: boolean } => {
    const wholeM = legLength(from.pose, to, reachM);
    const endM = Math.min(wholeM, mostM);
    let s = 0;
    let knot = from;
    while (s < endM) {
      const next = Math.min(endM, s + knot.roomM + 2 * aboutM);
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
    return straightened(clean, room, advance, goesStraightFrom(clean));
  };
  // Turned in its locker and straight out may be all that it takes, the roomiest way round first.
  for (const root of straightOn)
    for (const knot of [...inner].slice(0, MOST_STARTS)) {
      if (room.looks >= last) return null;
      const { knot: end, isThere } = advance(knot, root.pose, Number.POSITIVE_INFINITY);
      if (isThere) return finish(linked(end, root, true));
      if (end.from) inner.push(end);
    }
  for (const knot of [...inner]) {
    const path = meet(knot);
    if (path) return finish(path);
    if (room.looks >= last) return null;
  }
  while (room.looks < last) {
    const sample = sampled(ask, snug, growing, other);
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
  const straight: Vec3[] = [
    [0, 0, 1],
    [0, 1, 0],
    [1, 0, 0],
    [-1, 0, 0],
    [0, -1, 0],
    [0, 0, -1],
    ...own,
    ...own.map(([u, v, w]): Vec3 => [-u, -v, -w]),
  ];
  // In a corner it touches two or three sides at once.
  const aslantWays = [1, 0, -1]
    .flatMap((w) => [1, 0, -1].flatMap((v) => [0, 1, -1].map((u): Vec3 => [u, v, w])))
    .filter((way) => way.filter((c) => c !== 0).length > 1)
    .map(unit);
  /** Pulled one way until there is room all round; null where there is none, with how far it went. */
  const pulled = (from: Knot, way: Vec3): { readonly off: Knot | null; readonly freeM: number } => {
    room.carry(body);
    const { freeM } = room.travel(from.pose, way, MOST_OFF_M);
    room.carry(grown);
    for (const byM of [...OFF_M.filter((m) => m < freeM), freeM]) {
      if (byM <= 0) continue;
      const pose = shifted(from.pose, way, byM);
      const roomM = room.room(pose, ROOM_M);
      if (roomM > 0) return { off: { pose, roomM, from }, freeM };
    }
    return { off: null, freeM };
  };
  const once = straight.map((way) => ({ way, ...pulled(root, way) }));
  const knots = once.flatMap(({ off }) => off ?? []);
  for (const way of knots.length === 0 ? aslantWays : []) {
    const { off } = pulled(root, way);
    if (off) knots.push(off);
  }
  if (knots.length > 0) return knots;
  // Between two sides that part as it rises: one way first, then another.
  for (const { way, freeM } of once)
    for (const share of freeM > LEAST_BRANCH_M ? [0.5, 1] : []) {
      const stop: Knot = { pose: shifted(start, way, freeM * share), roomM: 0, from: root };
      for (const next of [...straight, ...aslantWays]) {
        const { off } = pulled(stop, next);
        if (off) knots.push(off);
      }
    }
  return knots;
}

const shifted = ({ at, turn }: CarriedPose, way: Vec3, byM: number): CarriedPose => ({
  at: [at[0] + way[0] * byM, at[1] + way[1] * byM, at[2] + way[2] * byM],
  turn,
});

function rotated([w, x, y, z]: Quaternion, [a, b, c]: Vec3): Vec3 {
  const [tx, ty, tz] = [2 * (y * c - z * b), 2 * (z * a - x * c), 2 * (x * b - y * a)];
  return [a + w * tx + y * tz - z * ty, b + w * ty + z * tx - x * tz, c + w * tz + x * ty - y * tx];
}

/**
 * Poses outside, each pushed inwards as far as it goes: in every gate turn right before the opening, and along the longest side aslant, as
 * what is longer than the room behind is led in; where none of them is free, anyhow outside.
 */
function outsideRoots(ask: TreeAsk, gates: readonly GateTurn[], grown: CarriedBody): Knot[] {
  const { room, low, high, aboutM, random } = ask;
  room.carry(grown);
  const knots: Knot[] = [];
  const pushed = (pose: CarriedPose, way: Vec3, mostM: number): void => {
    const roomM = room.room(pose, ROOM_M);
    if (roomM <= 0) return;
    let from: Knot = { pose, roomM, from: null };
    knots.push(from);
    let known = 0;
    let free = roomM;
    for (let m = 0; m < mostM; ) {
      m = Math.min(mostM, m + free + 2 * aboutM);
      const next = shifted(pose, way, m);
      free = room.room(next, ROOM_M);
      if (free <= 0) break;
      if (m - known < PUSHED_M) continue;
      known = m;
      from = { pose: next, roomM: free, from };
      knots.push(from);
    }
  };
  for (const { turn, spreadM } of gates) {
    const pose: CarriedPose = { at: [0, 0, spreadM[2] + OUTSIDE_M + room.frameM[1] + aboutM], turn };
    pushed(pose, [0, 0, -1], pose.at[2] - low[2]);
  }
  if (ask.looks >= ASLANT_LOOKS) for (const { pose, way, mostM } of aslant(ask, gates)) pushed(pose, way, mostM);
  if (knots.length > 0) return knots;
  for (let n = 0; n < OUTSIDE_TRIES; n += 1) {
    const turn = gates.length > 0 && random() < 0.5 ? tilted(gates, random) : anyTurn(random);
    const spreadW = room.spreadOf({ at: [0, 0, 0], turn })[2];
    const at: Vec3 = [
      between(low[0], high[0], random()),
      between(low[1], high[1], random()),
      spreadW + OUTSIDE_M + room.frameM[1] + random() * Math.max(0, high[2] - spreadW),
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
        const clearM = (spread[2] + OUTSIDE_M + room.frameM[1]) / cos;
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

/**
 * Poses wholly inside from which the body goes straight out, though it may fit the opening to a hair: there it needs no more room than it
 * takes.
 */
function snugRoots({ room, body, gate, aboutM, low }: TreeAsk, gates: readonly GateTurn[], grown: CarriedBody): Knot[] {
  const knots: Knot[] = [];
  for (const { turn, spreadM } of gates) {
    const [inM, outM] = room.frameM.map((m) => spreadM[2] + aboutM + OUTSIDE_M + m) as [number, number];
    const [aside, rise] = [gate.widthM / 2 - spreadM[0], gate.heightM / 2 - spreadM[1]].map((m) => Math.max(0, m)) as [
      number,
      number,
    ];
    const places = [0, -1, 1].flatMap((i) => [0, 1, -1].map((j) => [i * aside, j * rise] as const));
    const tried = new Set<string>();
    for (const [u, v] of places) {
      if (tried.has(`${u} ${v}`)) continue;
      tried.add(`${u} ${v}`);
      const inside: CarriedPose = { at: [u, v, -inM], turn };
      if (-inM < low[2]) break;
      room.carry(grown);
      const roomM = room.room(inside, ROOM_M);
      if (roomM <= 0) continue;
      room.carry(body);
      if (room.travel(inside, [0, 0, 1], inM + outM).stop !== -1) continue;
      room.carry(grown);
      const outside: Knot = { pose: { at: [u, v, outM], turn }, roomM: 0, from: null };
      knots.push({ pose: inside, roomM, from: outside });
      break;
    }
  }
  return knots;
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

/**
 * Shares of the samples: in a gate turn before the opening, leant over in the opening, between the trees, near a knot, on a lattice of
 * turns; the rest anyhow.
 */
const IN_GATE = 0.2;
const LEANT = 0.33;
const BETWEEN = 0.58;
const NEARBY = 0.78;
const ON_LATTICE = 0.9;
/** Leant over in the opening it stands no farther off its middle line (metres). */
const OFF_MIDDLE_M = 0.03;
const LATTICE_DEG = 15;
/** How far off those between the trees and near a knot are (metres, degrees). */
const OFF_BETWEEN_M = 0.05;
const NEARBY_M = 0.15;
const NEARBY_DEG = 25;

function sampled(
  { start, body: { half }, low, high, gate, random }: TreeAsk,
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
  if (kind < LEANT && gates.length > 0) {
    const reachM = Math.max(...half);
    const [u, v] = off([0, 0, 0], OFF_MIDDLE_M);
    return { at: [u, v, between(Math.max(low[2], -2 * reachM), reachM, random())], turn: tilted(gates, random) };
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

/** Index of the pose from which the body goes straight out of the opening. */
function goesStraightFrom(path: readonly CarriedPose[]): number {
  let first = path.length - 1;
  for (; first > 0; first -= 1) {
    const [a, b] = [path[first - 1] as CarriedPose, path[first] as CarriedPose];
    if (legLength({ ...a, at: [0, 0, 0] }, { ...b, at: [0, 0, 0] }, 1) > 1e-6) break;
    if (portable.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) > 1e-9 || a.at[2] > b.at[2]) break;
  }
  return first;
}

/** Stops are left out where the leg past them is free; the first leg, off the place, stays, and so does the last, straight out. */
function straightened(
  path: readonly CarriedPose[],
  room: ClearRoom,
  advance: (from: Knot, to: CarriedPose, mostM: number) => { isThere: boolean },
  straightFrom: number,
): readonly CarriedPose[] {
  const last = room.looks + STRAIGHTENING_LOOKS;
  const out: CarriedPose[] = [path[0] as CarriedPose];
  let i = 0;
  while (i < straightFrom) {
    let next = i + 1;
    const from = path[i] as CarriedPose;
    const roomM = room.room(from, ROOM_M);
    if (roomM > 0)
      for (let span = straightFrom - i; span > 1 && room.looks < last; span = Math.floor(span / 2)) {
        const j = i + span;
        if (advance({ pose: from, roomM, from: null }, path[j] as CarriedPose, Number.POSITIVE_INFINITY).isThere) {
          next = j;
          break;
        }
      }
    out.push(path[next] as CarriedPose);
    i = next;
  }
  if (straightFrom < path.length - 1) out.push(path.at(-1) as CarriedPose);
  return out;
}
