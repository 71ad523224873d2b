import type { Vec3 } from '../../../base/vec';
import { type CarriedBody, type CarriedPose, grownBody } from './carried-body';
import type { ClearRoom } from './clear-room';

/** A body is outside when it is so far beyond the opening's plane, and is led to it from so far behind it (metres). */
export const OUTSIDE_M = 0.005;
const STAYS_M = 1e-6;

/** Clear size of an opening, along the first two axes of its frame. */
export interface Gate {
  readonly widthM: number;
  readonly heightM: number;
  readonly isRound: boolean;
}

/** Room that is wanted all round on the way, but not about what stands nearer than that at the place itself. */
export interface WantedRoom {
  readonly aboutM: number;
  readonly except: ReadonlySet<number>;
}

/** What stands nearer to a pose than so much: its neighbours there. */
export function neighboursAt(room: ClearRoom, body: CarriedBody, pose: CarriedPose, withinM: number): Set<number> {
  const near = new Set<number>();
  room.carry(body);
  room.eachNear(pose, withinM, (index) => near.add(index));
  return near;
}

/** The three orders in which a body that stays turned as it is may be led before the opening: across, up and out of it, each in all orders. */
const ORDERS: readonly (readonly [0 | 1 | 2, 0 | 1 | 2, 0 | 1 | 2])[] = [
  [0, 1, 2],
  [1, 0, 2],
  [0, 2, 1],
  [1, 2, 0],
  [2, 0, 1],
  [2, 1, 0],
];

/**
 * Straight legs from a pose out through the opening, without any turning: out at once, or before the opening's middle, the nearest place in it,
 * its sides or corners, and out. Null when none of them is free. The body may slide along what it touches; with `wanted` it keeps that room as well.
 */
export function straightOut(
  room: ClearRoom,
  body: CarriedBody,
  gate: Gate,
  start: CarriedPose,
  wanted?: WantedRoom,
): readonly CarriedPose[] | null {
  const aboutM = wanted?.aboutM ?? 0;
  const larger = wanted && grownBody(body, aboutM);
  room.carry(body);
  const [pu, pv, pw] = room.spreadOf(start);
  const endM = pw + OUTSIDE_M + room.frameM[1];
  const insideM = -(pw + OUTSIDE_M + room.frameM[0]);
  const leg = (from: CarriedPose, k: 0 | 1 | 2, to: number): CarriedPose | null => {
    const by = to - from.at[k];
    if (Math.abs(by) < STAYS_M) return from;
    const direction: Vec3 = [k === 0 ? Math.sign(by) : 0, k === 1 ? Math.sign(by) : 0, k === 2 ? Math.sign(by) : 0];
    if (room.travel(from, direction, Math.abs(by)).stop !== -1) return null;
    if (larger) {
      room.carry(larger);
      const isClear = room.travel(from, direction, Math.abs(by), wanted.except).stop === -1;
      room.carry(body);
      if (!isClear) return null;
    }
    return { at: [0, 1, 2].map((n) => (n === k ? to : from.at[n])) as unknown as Vec3, turn: from.turn };
  };
  for (const [u, v] of placesBefore(gate, [pu + aboutM, pv + aboutM], start.at)) {
    const depthM = Math.min(start.at[2], insideM);
    // What does not go out from there need not be led there.
    if (!leg({ at: [u, v, depthM], turn: start.turn }, 2, endM)) continue;
    const to: Vec3 = [u, v, start.at[2] > insideM ? start.at[2] : insideM];
    const tried = new Set<string>();
    for (const order of ORDERS) {
      const moving = order.filter((k) => Math.abs(to[k] - start.at[k]) > STAYS_M);
      const key = moving.join('');
      if (tried.has(key)) continue;
      tried.add(key);
      const path = [start];
      let now: CarriedPose | null = start;
      for (const k of moving) {
        now = leg(now, k, to[k]);
        if (!now) break;
        path.push(now);
      }
      const end = now && leg(now, 2, endM);
      if (end) return withoutStops([...path, end]);
    }
  }
  return null;
}

/** Places before the opening: its middle, the nearest in it, and its sides and corners. */
function placesBefore(
  gate: Gate,
  [pu, pv]: readonly [number, number],
  [u, v]: Vec3,
): readonly (readonly [number, number])[] {
  const sideM = Math.max(0, gate.widthM / 2 - pu);
  const riseM = Math.max(0, gate.heightM / 2 - pv);
  const along = (at: number, byM: number): readonly number[] => [0, Math.max(-byM, Math.min(byM, at)), byM, -byM];
  const places: (readonly [number, number])[] = [];
  for (const i of [0, 1, 2, 3])
    for (const j of [0, 1, 2, 3]) {
      const p = [along(u, sideM)[i] as number, along(v, riseM)[j] as number] as const;
      const isKnown = places.some((q) => Math.abs(p[0] - q[0]) < STAYS_M && Math.abs(p[1] - q[1]) < STAYS_M);
      if (!isKnown) places.push(p);
    }
  return places;
}

/** Two legs in one line are one. */
function withoutStops(path: readonly CarriedPose[]): readonly CarriedPose[] {
  return path.filter((pose, i) => {
    const [before, after] = [path[i - 1], path[i + 1]];
    if (!before || !after) return true;
    const moved = [0, 1, 2].map((k) => [
      (pose.at[k] as number) - (before.at[k] as number),
      (after.at[k] as number) - (pose.at[k] as number),
    ]);
    const isOneLine = moved.every(([a, b]) => Math.abs(a as number) < STAYS_M === Math.abs(b as number) < STAYS_M);
    return !isOneLine || moved.some(([a, b]) => (a as number) * (b as number) < 0);
  });
}
