/**
 * Shapes that take up spare length beside a straight. All are straights and circular bends no tighter than allowed, so that they are
 * drawn and judged as any run is.
 */
import * as portable from '../../base/portable';
import { cross, type Vec3 } from '../../base/vec';
import type { Walk } from './walk';

export interface SpareShape {
  readonly kind: 'bulge' | 'coil';
  /** Straight that it takes up, and how far it stands out, metres, along the middle of the hose. */
  readonly spanM: number;
  readonly heightM: number;
  /** Tightest bend, metres. */
  readonly radiusM: number;
  /** Bulges side by side, or turns of the coil. */
  readonly count: number;
  /** Lays it from where the walk is; `side`: unit, square to the way, to which it stands out. */
  lay(walk: Walk, heading: Vec3, side: Vec3): void;
}

/**
 * A bulge of four bends out and back, or several in a row, that takes up the excess. The angle t of each bend follows from
 * 4 R (t - sin t) = excess; beyond a right angle, straights between the bends take up the rest. For a shallow bulge this is the
 * sine of height (2 / pi) sqrt(excess span) to first order.
 */
export function bulge(excessM: number, radiusM: number, count: number): SpareShape {
  const each = excessM / count;
  const most = 4 * radiusM * (Math.PI / 2 - 1);
  const angle = each >= most ? Math.PI / 2 : bendOf(each / (4 * radiusM));
  const legM = each > most ? (each - most) / 2 : 0;
  return {
    kind: 'bulge',
    spanM: count * 4 * radiusM * portable.sin(angle),
    heightM: 2 * radiusM * (1 - portable.cos(angle)) + legM,
    radiusM,
    count,
    lay(walk, _heading, side) {
      const down: Vec3 = [-side[0], -side[1], -side[2]];
      for (let k = 0; k < count; k += 1) {
        legUp(walk, side, angle, radiusM, legM);
        legUp(walk, down, angle, radiusM, legM);
      }
    },
  };
}

/** Out to the side: a bend, a straight, the bend back. */
function legUp(walk: Walk, side: Vec3, angle: number, radiusM: number, legM: number): void {
  const inward = walk.turn(side, angle, radiusM);
  walk.straight(legM);
  walk.turn([-inward[0], -inward[1], -inward[2]], angle, radiusM);
}

/** The angle t with t - sin t = value, up to a right angle. */
function bendOf(value: number): number {
  let [low, high] = [0, Math.PI / 2];
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (middle - portable.sin(middle) < value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * A flat coil of as many turns as the excess makes with bends no tighter than allowed: two half circles and two legs a turn, the leg
 * on the far side shifting the hose beside the turn before. Null where the excess makes no turn, or the turns shift the hose by
 * more than one pair of bends brings back. `apartM`: least distance between the middles of two turns.
 */
export function coil(excessM: number, radiusM: number, hoseRadiusM: number, apartM: number): SpareShape | null {
  for (let turns = Math.floor(excessM / (2 * Math.PI * radiusM)); turns >= 1; turns -= 1) {
    const found = coilOf(turns, excessM, radiusM, hoseRadiusM, apartM);
    if (found) return found;
  }
  return null;
}

function coilOf(
  turns: number,
  excessM: number,
  radiusM: number,
  hoseRadiusM: number,
  apartM: number,
): SpareShape | null {
  // Legs that shift by one pitch run askew by the angle of their bends: side by side they come nearer by its cosine.
  let pitchM = apartM;
  for (let step = 0; step < 20; step += 1) pitchM = apartM / portable.cos(shiftAngle(pitchM, radiusM));
  const angle = shiftAngle(pitchM, radiusM);
  const back = shiftAngle(turns * pitchM, radiusM);
  if (!(back <= Math.PI / 2)) return null;
  const legM = 2 * radiusM * portable.sin(angle);
  const backSpanM = 2 * radiusM * portable.sin(back);
  const inLegs = turns * (2 * radiusM * angle + legM) + (2 * radiusM * back - backSpanM);
  const loopM = (excessM - inLegs) / (2 * Math.PI * turns);
  if (!(loopM >= radiusM)) return null;
  const beyondM = loopM + hoseRadiusM + apartM;
  return {
    kind: 'coil',
    spanM: legM + beyondM + backSpanM,
    heightM: 2 * loopM,
    radiusM,
    count: turns,
    lay(walk, heading, side) {
      const axis = cross(heading, side);
      walk.straight(legM);
      for (let turn = 0; turn < turns; turn += 1) {
        const inward = walk.turn(side, Math.PI, loopM);
        walk.shift(axis, angle, radiusM);
        walk.turn(inward, Math.PI, loopM);
        walk.straight(legM);
      }
      walk.straight(beyondM);
      walk.shift([-axis[0], -axis[1], -axis[2]], back, radiusM);
    },
  };
}

/** Angle of two opposite bends that shift a hose aside by that much; not a number beyond what two right angles do. */
const shiftAngle = (asideM: number, radiusM: number): number => portable.acos(1 - asideM / (2 * radiusM));
