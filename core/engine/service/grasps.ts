import type { PostureRegion } from '../../assess/access/reach/posture-region';
import type { Grasp } from '../../assess/access/reach/types';
import type { ToolSwing } from '../../assess/access/tool-swing';
import { along, cross, norm, subtract, unit, type Vec3 } from '../../base/vec';
import type { PushedFace } from '../../shape/space/things';
import type { PlacedTask } from './task-stages';

/** Middle of the grip outside the skin of what is held around, metres: half a hand about it. */
const ROUND_IT_M = 0.02;
/** A driver is held in line with its screw, within a little. */
const IN_LINE_DEG = 30;

/** Of a bowl, a cartridge or whatever else is taken hold of around its body. */
const isHeldAround = ({ needs: { withdraw, tool, massKg } }: PlacedTask): boolean =>
  withdraw !== null && massKg !== null && (withdraw.tiltOk || tool?.kind === 'strap');

/** What the hands do at the place of a task from where somebody is, one or two; none where only eyes are needed. */
export function graspsOf(task: PlacedTask, region: PostureRegion): readonly Grasp[] {
  const { face, hands, needs, thing } = task;
  if (isHeldAround(task)) {
    const backM = (needs.withdraw?.longM ?? 0) / 2;
    const middle = along(face.at, face.direction, -backM);
    const radiusM = Math.max(...face.sizeM) / 2;
    const around = { normal: null, coneDeg: needs.coneDeg, toolM: 0, own: thing };
    if (hands.length < 2) return hands.map(() => ({ ...around, point: middle, standOffM: radiusM + ROUND_IT_M }));
    // One hand to either side, as seen by whoever holds it.
    const side = sideways(face, towardsPerson(middle, region));
    return [-1, 1].map((sign) => ({
      ...around,
      point: along(middle, side, sign * (radiusM + ROUND_IT_M)),
      standOffM: ROUND_IT_M,
    }));
  }
  const isDriver = needs.tool?.kind === 'driver';
  return hands.map((point, k) => ({
    point,
    normal: face.direction,
    standOffM: needs.standOffM,
    coneDeg: isDriver && k === 0 ? Math.min(needs.coneDeg, IN_LINE_DEG) : needs.coneDeg,
    toolM: isDriver && k === 0 ? (needs.tool?.lengthM ?? 0) : 0,
    own: thing,
  }));
}

const towardsPerson = (from: Vec3, { gate, shoulders }: PostureRegion): Vec3 =>
  gate ? gate.out : subtract(shoulders[0]?.centre ?? from, from);

/** Square to the axis of what is held and to the way to the person; without one along its width. */
function sideways({ direction, across }: PushedFace, towards: Vec3): Vec3 {
  const side = cross(direction, towards);
  return norm(side) > 0.1 ? unit(side) : across;
}

/** The hand at the handle of a spanner, at both ends of the arc that it is swung through; a strap is held as its bowl is. */
export function swingGrasps({ needs, thing }: PlacedTask, swing: ToolSwing): readonly Grasp[] {
  if (needs.tool?.kind !== 'spanner') return [];
  const ends = [swing.grips[0], swing.grips.at(-1)].filter((grip) => grip !== undefined);
  return ends.map(({ at }) => ({
    point: at,
    normal: swing.axis,
    standOffM: HANDLE_M,
    coneDeg: SWUNG_CONE_DEG,
    toolM: 0,
    own: thing,
  }));
}
/** A handle lies in the hand. */
const HANDLE_M = 0.01;
/** Who swings a spanner comes at it from in front or well aslant. */
const SWUNG_CONE_DEG = 80;

/** The hand that holds a mirror by its handle, from whatever side. */
export const mirrorGrasp = ({ thing }: PlacedTask, at: Vec3): Grasp => ({
  point: at,
  normal: null,
  standOffM: MIRROR_HANDLE_M,
  coneDeg: 180,
  toolM: 0,
  own: thing,
});
/** From the middle of a hand mirror to the grip, metres. From memory. */
const MIRROR_HANDLE_M = 0.12;
