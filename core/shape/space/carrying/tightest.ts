import * as portable from '../../../base/portable';
import { type CarriedBody, type CarriedPose, legLength, onLeg, reachOfBody } from './carried-body';
import type { ClearRoom } from './clear-room';
import type { Gate } from './straight-moves';

/** Room beyond this is room enough (metres). */
const ROOMY_M = 0.15;
/** Poses along the way at which room is measured are no farther apart (metres of its farthest point). */
const LOOK_M = 0.03;
const MOST_LOOKS_A_LEG = 24;
/** Nothing comes nearer on the way than it stands at the place unless by more than this (metres). */
const NEARER_M = 1e-4;

export interface Tightest {
  /** Every side of the body could be longer by this and pass the same way. */
  readonly spareM: number;
  /** Index of what is nearest there, or THE_HULL; null in the opening itself. */
  readonly index: number | null;
  readonly pose: CarriedPose;
}

export interface WayTightness {
  readonly gate: Tightest;
  /** Besides the opening; null where it is roomy everywhere. */
  readonly beside: Tightest | null;
}

/**
 * The tightest place of a way in the opening and beside it. What comes no nearer on the way than it stands at the place itself is a matter
 * of the place, not of the way, and so is what is in `except`. Where it goes straight through the opening, what is left of it beside the
 * body is what is to spare there.
 */
export function tightnessOf(
  room: ClearRoom,
  body: CarriedBody,
  gate: Gate,
  path: readonly CarriedPose[],
  except: ReadonlySet<number> | null,
): WayTightness {
  room.carry(body);
  const reachM = reachOfBody(body);
  const start = path[0] as CarriedPose;
  const end = path.at(-1) as CarriedPose;
  const atPlace = new Map<number, number>();
  if (except) room.eachNear(start, ROOMY_M, (index, d) => atPlace.set(index, except.has(index) ? -1 : d));
  const inGate: CarriedPose = { ...end, at: [end.at[0], end.at[1], 0] };
  const straightM = isLastStraight(path, room) ? gateSpare(gate, body, room.spreadOf(end)) : -1;
  const framesCount = straightM < 0;
  let inIt: Tightest = { spareM: framesCount ? 2 * ROOMY_M : straightM, index: null, pose: inGate };
  let beside: Tightest = { spareM: 2 * ROOMY_M, index: null, pose: inGate };
  path.slice(1).forEach((to, n) => {
    const from = path[n] as CarriedPose;
    const looks = Math.min(MOST_LOOKS_A_LEG, Math.max(1, Math.ceil(legLength(from, to, reachM) / LOOK_M)));
    for (let k = n === 0 ? 0 : 1; k <= looks; k += 1) {
      const pose = onLeg(from, to, k / looks);
      room.eachNear(pose, Math.max(beside.spareM, framesCount ? inIt.spareM : 0) / 2, (index, d) => {
        const isFrame = room.isFrame[index] === true;
        if (isFrame && !framesCount) return;
        if (d >= (atPlace.get(index) ?? Number.POSITIVE_INFINITY) - NEARER_M) return;
        const spareM = Math.max(0, 2 * d);
        if (isFrame && spareM < inIt.spareM) inIt = { spareM, index: null, pose };
        if (!isFrame && spareM < beside.spareM) beside = { spareM, index, pose };
      });
    }
  });
  return { gate: inIt, beside: beside.index === null ? null : beside };
}

/** Whether the last leg goes straight out from behind the opening. */
function isLastStraight(path: readonly CarriedPose[], room: ClearRoom): boolean {
  const [from, to] = [path.at(-2), path.at(-1)];
  if (!from || !to) return false;
  const isTurned = from.turn.some((q, k) => Math.abs(q - (to.turn[k] as number)) > 1e-9);
  const isAside = Math.abs(from.at[0] - to.at[0]) > 1e-9 || Math.abs(from.at[1] - to.at[1]) > 1e-9;
  return !isTurned && !isAside && from.at[2] <= -room.spreadOf(to)[2];
}

/** What is left of an opening beside a body that goes straight through it; negative where only a body that is turned in it may pass. */
function gateSpare(gate: Gate, { round }: CarriedBody, [pu, pv]: readonly [number, number, number]): number {
  if (!gate.isRound) return Math.min(gate.widthM - 2 * pu, gate.heightM - 2 * pv);
  const leastM = Math.min(gate.widthM, gate.heightM);
  const isDisc = round !== null && Math.abs(pu - pv) < 1e-9;
  return leastM - 2 * (isDisc ? pu : portable.hypot(pu, pv));
}
