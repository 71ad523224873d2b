import type { Rotation, Vec3 } from '../../../base/vec';
import { type AnySolid, boundsOf } from '../../../shape/space/kernel';
import type { Attitude, Gate, PostureRegion, Region } from './posture-region';
import type { ArmAnswer, ArmPose, Grasp, Obstruction } from './types';

/*
 * A boat mirrored about its centre plane is the same boat: every task is judged on one side of it, and the answer mirrored back. A search
 * that steps and draws lots would otherwise find another pose on the other side, now and then another verdict. Hulls are their own mirror
 * images.
 */

/** Nearer to the centre plane than this the side is told by something else, metres. */
const ON_PLANE_M = 1e-9;

/** Whether a task is judged in the mirror: the first thing off the centre plane decides. */
export function isJudgedMirrored(grasp: Grasp, region: PostureRegion, around: readonly Obstruction[]): boolean {
  const sides = [
    grasp.point[1],
    grasp.normal?.[1] ?? 0,
    region.gate?.at[1] ?? 0,
    region.gate?.out[1] ?? 0,
    region.footing?.at[1] ?? 0,
  ];
  const told = sides.find((y) => Math.abs(y) > ON_PLANE_M);
  if (told !== undefined) return told < 0;
  let sum = 0;
  for (const { solid } of around) {
    const [, lowY, , , highY] = boundsOf(solid);
    sum += lowY + highY;
  }
  return sum < -ON_PLANE_M;
}

const mirrored = (v: Vec3): Vec3 => [v[0], -v[1], v[2]];

export const mirroredGrasp = (grasp: Grasp): Grasp => ({
  ...grasp,
  point: mirrored(grasp.point),
  normal: grasp.normal && mirrored(grasp.normal),
});

const mirroredAxes = ([a, b, c]: Rotation): Rotation => [mirrored(a), mirrored(b), mirrored(c)];
const mirroredBox = ({ centre, half, axes }: Region): Region => ({
  centre: mirrored(centre),
  half,
  axes: mirroredAxes(axes),
});
const mirroredGate = (gate: Gate): Gate => ({
  ...gate,
  at: mirrored(gate.at),
  out: mirrored(gate.out),
  across: mirrored(gate.across),
  up: mirrored(gate.up),
});
const mirroredAttitude = ({ spine, across }: Attitude): Attitude => ({
  spine: mirrored(spine),
  across: mirrored(across),
});

const REGIONS = new WeakMap<PostureRegion, PostureRegion>();
const ORDERED = new WeakMap<PostureRegion, PostureRegion>();

export function mirroredRegion(region: PostureRegion): PostureRegion {
  const known = REGIONS.get(region);
  if (known) return known;
  const made: PostureRegion = {
    ...region,
    gate: region.gate && mirroredGate(region.gate),
    shoulders: region.shoulders.map(mirroredBox),
    footing: region.footing && { ...region.footing, at: mirrored(region.footing.at) },
    attitudes: region.attitudes.map(mirroredAttitude),
  };
  REGIONS.set(region, made);
  return made;
}

/** The same region told in one order: boxes and attitudes by where they are, axes of boxes pointing one way, whatever way they were made. */
export function inOneOrder(region: PostureRegion): PostureRegion {
  const known = ORDERED.get(region);
  if (known) return known;
  const made: PostureRegion = {
    ...region,
    shoulders: region.shoulders
      .map(({ centre, half, axes }) => ({ centre, half, axes: axes.map(pointingOneWay) as unknown as Rotation }))
      .sort((a, b) => compared(a.centre, b.centre)),
    attitudes: [...region.attitudes].sort((a, b) => compared(a.spine, b.spine) || compared(a.across, b.across)),
  };
  ORDERED.set(region, made);
  return made;
}

const SAME = 1e-9;

/** Upwards first, then forward, then to port. */
function compared(a: Vec3, b: Vec3): number {
  for (const k of [2, 0, 1] as const) if (Math.abs(a[k] - b[k]) > SAME) return b[k] - a[k];
  return 0;
}

const pointingOneWay = (axis: Vec3): Vec3 => (compared(axis, [0, 0, 0]) > 0 ? [-axis[0], -axis[1], -axis[2]] : axis);

function mirroredSolid(solid: AnySolid): AnySolid {
  switch (solid.type) {
    case 'box':
      return { ...solid, centre: mirrored(solid.centre), axes: mirroredAxes(solid.axes) };
    case 'plate':
      return { ...solid, polygon: solid.polygon.map(mirrored), normal: mirrored(solid.normal) };
    default:
      return { ...solid, from: mirrored(solid.from), to: mirrored(solid.to) };
  }
}

export const mirroredPose = ({ shoulder, elbow, wrist, grip, palm }: ArmPose): ArmPose => ({
  shoulder: mirrored(shoulder),
  elbow: mirrored(elbow),
  wrist: mirrored(wrist),
  grip: mirrored(grip),
  palm: mirrored(palm),
});

export function mirroredAnswer(answer: ArmAnswer): ArmAnswer {
  if (answer.outcome !== 'reached') return answer;
  const { neck, hips, head } = answer.body;
  return {
    ...answer,
    side: answer.side === 'left' ? 'right' : 'left',
    pose: mirroredPose(answer.pose),
    body: { neck: mirrored(neck), hips: mirrored(hips), head: mirrored(head) },
    way: answer.way.map(mirroredPose),
  };
}

const SURROUNDINGS = new WeakMap<readonly Obstruction[], readonly Obstruction[]>();
const OBSTRUCTIONS = new WeakMap<Obstruction, Obstruction>();

export function mirroredSurroundings(around: readonly Obstruction[]): readonly Obstruction[] {
  const known = SURROUNDINGS.get(around);
  if (known) return known;
  const made = around.map((one) => {
    const mirror = OBSTRUCTIONS.get(one) ?? { ...one, solid: mirroredSolid(one.solid) };
    OBSTRUCTIONS.set(one, mirror);
    return mirror;
  });
  SURROUNDINGS.set(around, made);
  return made;
}
