import type { PostureRegion } from '@core/assess/access/reach/posture-region';
import { type ReachAsk, reachThrough } from '@core/assess/access/reach/reach-through';
import type { ArmAnswer, BodySizes, Grasp, Obstruction } from '@core/assess/access/reach/types';
import { cross, UNIT_AXES, type Vec3 } from '@core/base/vec';

/** A middling adult: links of common practice, girths from memory. */
export const BODY: BodySizes = {
  upperArmM: 0.33,
  forearmM: 0.27,
  handM: 0.1,
  upperArmRadiusM: 0.058,
  forearmRadiusM: 0.048,
  handBoxM: [0.095, 0.125, 0.12],
  trunkRadiusM: 0.105,
  headRadiusM: 0.095,
  shouldersM: 0.36,
  standingShoulderM: 1.4,
  standingEyeM: 1.6,
  kneelingShoulderM: 0.9,
  sittingShoulderM: 0.58,
  eyeOverShoulderM: 0.22,
};

/** A box between two corners. */
export const block = (owner: string, low: Vec3, high: Vec3): Obstruction => ({
  owner,
  label: owner,
  solid: {
    type: 'box',
    id: owner,
    owner,
    label: owner,
    layer: 'furnishing',
    centre: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2],
    half: [(high[0] - low[0]) / 2, (high[1] - low[1]) / 2, (high[2] - low[2]) / 2],
    axes: UNIT_AXES,
  },
});

/** A board in the plane x = 0, 12 mm thick, with a hole at y, z of the given width and height: the person is aft of it. */
export function boardWithHole(y: number, z: number, widthM: number, heightM: number): readonly Obstruction[] {
  const far = 3;
  const [left, right, low, high] = [y + widthM / 2, y - widthM / 2, z - heightM / 2, z + heightM / 2];
  const piece = (y0: number, y1: number, z0: number, z1: number): Obstruction =>
    block('board', [-0.006, y0, z0], [0.006, y1, z1]);
  return [
    piece(left, far, -far, far),
    piece(-far, right, -far, far),
    piece(right, left, high, far),
    piece(right, left, -far, low),
  ];
}

/** Leaning at such a hole: the side of the arm to the board, or facing it. */
export function leaningAt(y: number, z: number, widthM: number, heightM: number): PostureRegion {
  const [out, up]: [Vec3, Vec3] = [
    [-1, 0, 0],
    [0, 0, 1],
  ];
  const across = cross(up, out);
  const aside: Vec3 = [-across[0], -across[1], -across[2]];
  return {
    posture: 'lean',
    opening: 'hole',
    gate: { at: [0, y, z], out, across, up, widthM, heightM, outerM: 0.006 },
    shoulders: [
      { centre: [-0.115, y, z], half: [widthM / 2 + 0.1, heightM / 2 + 0.1, 0.091], axes: [across, up, out] },
    ],
    footing: null,
    attitudes: [
      { spine: up, across: out },
      { spine: up, across },
      { spine: up, across: aside },
    ],
    eyes: [],
  };
}

export const grasp = (point: Vec3, normal: Vec3 | null, more: Partial<Grasp> = {}): Grasp => ({
  point,
  normal,
  standOffM: 0.06,
  coneDeg: 60,
  toolM: 0,
  own: 'own',
  ...more,
});

/** Asks for an arm with the usual body, no hull, a seed of its own. */
export const reach = (ask: Pick<ReachAsk, 'grasp' | 'posture' | 'around'> & Partial<ReachAsk>): ArmAnswer =>
  reachThrough({ body: BODY, hull: null, seed: 'test', ...ask });
