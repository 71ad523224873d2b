import type { ArmPose, BodySizes, Grasp, Side } from '@core/assess/access/reach/types';
import type { Solid } from '@core/shape/space/solids';
import { convexGap, middleOf, type PlainSolid, pointGap } from '../convex-gap';
import { angleBetween, gap, inner, minus, normalised, outer, type P3, plus, size, times } from '../geometry-oracle';
import type { ArmScene, Attitude } from './arm-scene';

/** The arm as its makers promise it: limits in degrees, lengths in metres. */
export const WRIST_DEG = 60;
export const ELBOW_DEG = 145;
export const SHOULDER_DEG = 110;
const TOOL_RADIUS_M = 0.008;
/** Hand and tool may touch the thing that is worked at while the grip is so much farther from the place than it will be. */
const OWN_M = 0.06;
/** Neck above the upper end of the trunk's axis, and above the hips, along the spine. */
const TRUNK_FROM_M = 0.1;
const TRUNK_TO_M = 0.45;

/** Cosine between where the body looks and the way out of the opening, at most. */
const TURNED_AWAY = 0.1;

const DEGREE = Math.PI / 180;

export interface Body {
  readonly neck: P3;
  readonly hips: P3;
  readonly head: P3;
}

export const handWay = (pose: ArmPose): P3 => normalised(minus(pose.grip, pose.wrist));

export function handBox(pose: ArmPose, body: BodySizes): Extract<PlainSolid, { type: 'box' }> {
  const u = handWay(pose);
  const [along, wide, thick] = body.handBoxM;
  const third = outer(u, pose.palm);
  return {
    type: 'box',
    centre: minus(pose.grip, times(u, 0.25 * body.handM)),
    half: [along / 2, wide / 2, thick / 2],
    axes: [u, pose.palm, third],
  };
}

/** The way the body looks, by which arm works. */
const facingOf = ({ spine, across }: Attitude, side: Side): P3 =>
  side === 'right' ? outer(across, spine) : outer(spine, across);

/** Nobody works through an opening with the back to it. */
export const isTurnedAway = ({ posture }: ArmScene, attitude: Attitude, side: Side): boolean =>
  posture.gate !== null && inner(facingOf(attitude, side), posture.gate.out) > TURNED_AWAY + 1e-6;

/** The way the shoulder would rather let the arm point: half forwards, half outwards. */
export const shoulderWay = (attitude: Attitude, side: Side): P3 =>
  normalised(minus(facingOf(attitude, side), attitude.across));

export function bodyAt(shoulder: P3, { spine, across }: Attitude, body: BodySizes): Body {
  const neck = plus(shoulder, times(across, body.shouldersM / 2));
  return { neck, hips: minus(neck, times(spine, TRUNK_TO_M)), head: plus(neck, times(spine, body.eyeOverShoulderM)) };
}

/** Exact free distance of a segment with a radius: the distance along it is convex. */
export function capsuleGap(solid: PlainSolid, a: P3, b: P3, radius: number): number {
  const at = (t: number): number => pointGap(solid, plus(a, times(minus(b, a), t)));
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [0, 1];
  let [p, q] = [high - ratio, low + ratio];
  let [gp, gq] = [at(p), at(q)];
  let least = Math.min(at(0), at(1), gp, gq);
  // Where it is inside the distance is level: nothing more is to be found.
  while ((high - low) * gap(a, b) > 1e-5 && least > 0) {
    if (gp <= gq) {
      high = q;
      [q, gq] = [p, gp];
      p = high - ratio * (high - low);
      gp = at(p);
    } else {
      low = p;
      [p, gp] = [q, gq];
      q = low + ratio * (high - low);
      gq = at(q);
    }
    least = Math.min(least, gp, gq);
  }
  return least - radius;
}

const isNear = (solid: Solid, p: P3, within: number): boolean => pointGap(solid, p) <= within;

/** How a tool lies in the hand: unit, from the grip to its tip, along the hand, the palm and the third of its axes. */
export type ToolInHand = P3;

/** A tool stands on the place, along its normal; where there is none it goes on along the hand. */
export function toolInHand(pose: ArmPose, grasp: Grasp): ToolInHand {
  const u = handWay(pose);
  const way = grasp.normal ? times(grasp.normal, -1) : u;
  return [inner(way, u), inner(way, pose.palm), inner(way, outer(u, pose.palm))];
}

/**
 * What of the arm comes nearest to something, up to 0.1 m; under nothing at the least where the hand overlaps, however deep. Looks no
 * further once it is no more than `enough`.
 */
export function armGap(
  scene: ArmScene,
  pose: ArmPose,
  tool: ToolInHand = toolInHand(pose, scene.grasp),
  enough = Number.NEGATIVE_INFINITY,
): { gapM: number; what: string } {
  const { body, grasp, solids } = scene;
  const hand = handBox(pose, body);
  const reachM = grasp.toolM > 0 ? grasp.toolM : grasp.standOffM;
  const mayTouch = gap(pose.grip, grasp.point) <= reachM + OWN_M;
  let least = { gapM: 0.1, what: '' };
  const tell = (gapM: number, part: string, solid: Solid): void => {
    if (gapM < least.gapM) least = { gapM, what: `${part} at ${solid.id}` };
  };
  const [s, e, w] = [pose.shoulder, pose.elbow, pose.wrist];
  for (const solid of solids) {
    if (least.gapM <= enough) return least;
    if (isNear(solid, mid(s, e), size(minus(e, s)) / 2 + body.upperArmRadiusM + least.gapM))
      tell(capsuleGap(solid, s, e, body.upperArmRadiusM), 'upper arm', solid);
    if (isNear(solid, mid(e, w), size(minus(w, e)) / 2 + body.forearmRadiusM + least.gapM))
      tell(capsuleGap(solid, e, w, body.forearmRadiusM), 'forearm', solid);
  }
  const way = plus(plus(times(hand.axes[0], tool[0]), times(hand.axes[1], tool[1])), times(hand.axes[2], tool[2]));
  const tip = plus(pose.grip, times(way, grasp.toolM));
  for (const solid of solids) {
    if (least.gapM <= enough) return least;
    if (solid.owner === grasp.own && mayTouch) continue;
    if (isNear(solid, hand.centre, size(hand.half) + least.gapM)) {
      const gapM = convexGap(hand, solid, middleOf(solid), 2000);
      tell(gapM === 0 ? -0.001 : gapM, 'hand', solid);
    }
    if (grasp.toolM > 0 && isNear(solid, mid(pose.grip, tip), grasp.toolM / 2 + TOOL_RADIUS_M + least.gapM))
      tell(capsuleGap(solid, pose.grip, tip, TOOL_RADIUS_M), 'tool', solid);
  }
  return least;
}

export function bodyGap(scene: ArmScene, { neck, hips, head }: Body): { gapM: number; what: string } {
  const spine = normalised(minus(neck, hips));
  const top = minus(neck, times(spine, TRUNK_FROM_M));
  let least = { gapM: 0.1, what: '' };
  for (const solid of scene.solids) {
    const trunk = capsuleGap(solid, top, hips, scene.body.trunkRadiusM);
    const skull = pointGap(solid, head) - scene.body.headRadiusM;
    if (trunk < least.gapM) least = { gapM: trunk, what: `trunk at ${solid.id}` };
    if (skull < least.gapM) least = { gapM: skull, what: `head at ${solid.id}` };
  }
  return least;
}

const mid = (a: P3, b: P3): P3 => times(plus(a, b), 0.5);

/** Lengths and joints of one pose that are not as promised. */
export function jointFaults(pose: ArmPose, body: BodySizes, toward: P3 | null): string[] {
  const faults: string[] = [];
  const [s, e, w, g] = [pose.shoulder, pose.elbow, pose.wrist, pose.grip];
  const length = (what: string, a: P3, b: P3, wanted: number): void => {
    if (Math.abs(gap(a, b) - wanted) > 1e-6) faults.push(`${what} is ${gap(a, b)} long, not ${wanted}`);
  };
  length('upper arm', s, e, body.upperArmM);
  length('forearm', e, w, body.forearmM);
  length('hand', w, g, body.handM);
  const within = (what: string, a: P3, b: P3, limit: number): void => {
    const angle = angleBetween(a, b) / DEGREE;
    if (angle > limit + 1e-3) faults.push(`${what} at ${angle.toFixed(2)} of ${limit}`);
  };
  within('wrist', minus(w, e), minus(g, w), WRIST_DEG);
  within('elbow', minus(e, s), minus(w, e), ELBOW_DEG);
  if (toward) within('shoulder', minus(e, s), toward, SHOULDER_DEG);
  if (Math.abs(size(pose.palm) - 1) > 1e-6 || Math.abs(inner(pose.palm, handWay(pose))) > 1e-6) faults.push('palm');
  return faults;
}

/** Whether the grip is where the task wants it. */
export function graspFaults(pose: ArmPose, grasp: Grasp): string[] {
  const faults: string[] = [];
  const u = handWay(pose);
  const reachM = grasp.toolM > 0 ? grasp.toolM : grasp.standOffM;
  const wanted = grasp.normal ? plus(grasp.point, times(grasp.normal, reachM)) : minus(grasp.point, times(u, reachM));
  if (gap(wanted, pose.grip) > 1e-6) faults.push(`grip is ${gap(wanted, pose.grip)} off`);
  if (grasp.normal && angleBetween(u, times(grasp.normal, -1)) / DEGREE > grasp.coneDeg + 1e-3)
    faults.push(`hand at ${angleBetween(u, times(grasp.normal, -1)) / DEGREE} of ${grasp.coneDeg}`);
  return faults;
}

export const isInRegion = ({ posture }: ArmScene, s: P3): boolean =>
  posture.shoulders.some(({ centre, half, axes }) =>
    axes.every((axis, k) => Math.abs(inner(minus(s, centre), axis)) <= (half[k] as number) + 1e-6),
  );

/** Whether the shoulder may be there. */
export function shoulderFaults(scene: ArmScene, s: P3): string[] {
  const { posture } = scene;
  const faults = isInRegion(scene, s) ? [] : ['shoulder is out of its region'];
  const { footing } = posture;
  if (footing) {
    const far = Math.hypot(s[0] - footing.at[0], s[1] - footing.at[1]);
    if (far > footing.farM + 1e-6) faults.push(`shoulder is ${far} from the feet`);
    if (s[2] < footing.lowM - 1e-6 || s[2] > footing.highM + 1e-6) faults.push('shoulder is too high or low');
  }
  return faults;
}
