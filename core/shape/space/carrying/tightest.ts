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
  /** Index of what is nearest there, THE_HULL, or null: the opening. */
  readonly index: number | null;
  readonly pose: CarriedPose;
}

/**
 * The tightest place of a way. What comes no nearer on the way than it stands at the place itself is a matter of the place, not of the
 * way. `isStraight`: the body does not turn, so that what is left of the opening beside it is what is to spare there.
 */
export function tightestOf(
  room: ClearRoom,
  body: CarriedBody,
  gate: Gate,
  path: readonly CarriedPose[],
  isStraight: boolean,
  isFromPlace: boolean,
): Tightest {
  room.carry(body);
  const reachM = reachOfBody(body);
  const start = path[0] as CarriedPose;
  const atPlace = new Map<number, number>();
  if (isFromPlace) room.eachNear(start, ROOMY_M, (index, d) => atPlace.set(index, d));
  const gateSpareM = isStraight ? gateSpare(gate, body, room.spreadOf(path.at(-1) as CarriedPose)) : null;
  let best: Tightest = { spareM: 2 * ROOMY_M, index: null, pose: path.at(-1) as CarriedPose };
  if (gateSpareM !== null && gateSpareM >= 0)
    best = {
      spareM: gateSpareM,
      index: null,
      pose: { ...start, at: [path.at(-1)?.at[0] ?? 0, path.at(-1)?.at[1] ?? 0, 0] },
    };
  const framesCount = gateSpareM === null || gateSpareM < 0;
  path.slice(1).forEach((to, n) => {
    const from = path[n] as CarriedPose;
    const looks = Math.min(MOST_LOOKS_A_LEG, Math.max(1, Math.ceil(legLength(from, to, reachM) / LOOK_M)));
    for (let k = 0; k <= looks; k += 1) {
      if (k === 0 && n > 0) continue;
      const pose = onLeg(from, to, k / looks);
      room.eachNear(pose, best.spareM / 2, (index, d) => {
        if (room.isFrame[index] && !framesCount) return;
        if (d >= (atPlace.get(index) ?? Number.POSITIVE_INFINITY) - NEARER_M) return;
        if (2 * d < best.spareM) best = { spareM: Math.max(0, 2 * d), index: room.isFrame[index] ? null : index, pose };
      });
    }
  });
  return best;
}

/** What is left of an opening beside a body that goes straight through it; negative where only a body that is turned in it may pass. */
function gateSpare(gate: Gate, { round }: CarriedBody, [pu, pv]: readonly [number, number, number]): number {
  if (!gate.isRound) return Math.min(gate.widthM - 2 * pu, gate.heightM - 2 * pv);
  const leastM = Math.min(gate.widthM, gate.heightM);
  const isDisc = round !== null && Math.abs(pu - pv) < 1e-9;
  return leastM - 2 * (isDisc ? pu : portable.hypot(pu, pv));
}
