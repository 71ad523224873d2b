import type { Rotation, Vec3 } from '../../../base/vec';
import { type AnySolid, boundsOf } from '../../../shape/space/kernel';
import type { Attitude, Gate, PostureRegion, Region } from './posture-region';
import type { ArmAnswer, ArmPose, Grasp, Obstruction } from './types';

/*
 * A boat mirrored about its centre plane is the same boat, and so is one that is measured from elsewhere. A search that steps and draws lots
 * would find another pose there, now and then another verdict. So every task is judged in a frame of its own: its point is the origin, what
 * has its sides to starboard is mirrored to port, coordinates are rounded to a nanometre; and the answer is put back. Hulls are their own mirror images.
 */
export interface TaskFrame {
  /** The point of the task, as it is in the boat. */
  readonly point: Vec3;
  readonly isMirrored: boolean;
}

/** Nearer to the plane through the point than this the side is told by something else, metres. */
const ON_PLANE_M = 1e-9;
const PER_METRE = 1e9;

export function frameOf(grasp: Grasp, region: PostureRegion, around: readonly Obstruction[]): TaskFrame {
  return { point: grasp.point, isMirrored: isToStarboard(grasp, region, around) };
}

/** On which side things are: the first of them that is off the fore-and-aft plane through the point decides. */
function isToStarboard(grasp: Grasp, region: PostureRegion, around: readonly Obstruction[]): boolean {
  const y = grasp.point[1];
  const sides = [
    grasp.normal?.[1] ?? 0,
    region.gate ? region.gate.at[1] - y : 0,
    region.gate?.out[1] ?? 0,
    region.footing ? region.footing.at[1] - y : 0,
    region.shoulders.reduce((sum, { centre }) => sum + centre[1] - y, 0),
  ];
  const told = sides.find((side) => Math.abs(side) > ON_PLANE_M);
  if (told !== undefined) return told < 0;
  let sum = 0;
  for (const { solid } of around) {
    const [, lowY, , , highY] = boundsOf(solid);
    sum += lowY + highY - 2 * y;
  }
  return sum < -ON_PLANE_M;
}

const rounded = (m: number): number => Math.round(m * PER_METRE) / PER_METRE + 0;

const offsetIn = ({ point, isMirrored }: TaskFrame, [x, y, z]: Vec3): Vec3 => [
  x - point[0],
  isMirrored ? point[1] - y : y - point[1],
  z - point[2],
];
const placeIn = (frame: TaskFrame, at: Vec3): Vec3 => {
  const [x, y, z] = offsetIn(frame, at);
  return [rounded(x), rounded(y), rounded(z)];
};
const wayIn = ({ isMirrored }: TaskFrame, way: Vec3): Vec3 => (isMirrored ? [way[0], -way[1], way[2]] : way);
const axesIn = (frame: TaskFrame, [a, b, c]: Rotation): Rotation => [wayIn(frame, a), wayIn(frame, b), wayIn(frame, c)];
const placeInBoat = ({ point, isMirrored }: TaskFrame, [x, y, z]: Vec3): Vec3 => [
  point[0] + x,
  point[1] + (isMirrored ? -y : y),
  point[2] + z,
];

/** Where the frame's origin is for a hull, which is the same on both sides. */
export const originForHull = ({ point, isMirrored }: TaskFrame): Vec3 =>
  isMirrored ? [point[0], -point[1], point[2]] : point;

export const graspIn = (frame: TaskFrame, grasp: Grasp): Grasp => ({
  ...grasp,
  point: placeIn(frame, grasp.point),
  normal: grasp.normal && wayIn(frame, grasp.normal),
});

/** A region in a frame, told in one order: boxes and attitudes by where they are, axes of boxes pointing one way, however they were made. */
export function regionIn(frame: TaskFrame, region: PostureRegion): PostureRegion {
  const { gate, footing } = region;
  return {
    ...region,
    gate: gate && gateIn(frame, gate),
    shoulders: region.shoulders
      .map(
        ({ centre, half, axes }): Region => ({
          centre: placeIn(frame, centre),
          half,
          axes: axesIn(frame, axes).map(pointingOneWay) as unknown as Rotation,
        }),
      )
      .sort((a, b) => compared(a.centre, b.centre)),
    footing: footing && {
      ...footing,
      at: placeIn(frame, footing.at),
      lowM: rounded(footing.lowM - frame.point[2]),
      highM: rounded(footing.highM - frame.point[2]),
    },
    attitudes: region.attitudes
      .map(({ spine, across }): Attitude => ({ spine: wayIn(frame, spine), across: wayIn(frame, across) }))
      .sort((a, b) => compared(a.spine, b.spine) || compared(a.across, b.across)),
  };
}

const gateIn = (frame: TaskFrame, gate: Gate): Gate => ({
  ...gate,
  at: placeIn(frame, gate.at),
  out: wayIn(frame, gate.out),
  across: wayIn(frame, gate.across),
  up: wayIn(frame, gate.up),
});

/** Upwards first, then forward, then to port. */
function compared(a: Vec3, b: Vec3): number {
  for (const k of [2, 0, 1] as const) if (Math.abs(a[k] - b[k]) > ON_PLANE_M) return b[k] - a[k];
  return 0;
}

const pointingOneWay = (axis: Vec3): Vec3 => (compared(axis, [0, 0, 0]) > 0 ? [-axis[0], -axis[1], -axis[2]] : axis);

export function obstructionIn(frame: TaskFrame, one: Obstruction): Obstruction {
  return { ...one, solid: solidIn(frame, one.solid) };
}

function solidIn(frame: TaskFrame, solid: AnySolid): AnySolid {
  switch (solid.type) {
    case 'box':
      return { ...solid, centre: placeIn(frame, solid.centre), axes: axesIn(frame, solid.axes) };
    case 'plate':
      return { ...solid, polygon: solid.polygon.map((p) => placeIn(frame, p)), normal: wayIn(frame, solid.normal) };
    default:
      return { ...solid, from: placeIn(frame, solid.from), to: placeIn(frame, solid.to) };
  }
}

export const poseIn = (frame: TaskFrame, pose: ArmPose): ArmPose => ({
  shoulder: offsetIn(frame, pose.shoulder),
  elbow: offsetIn(frame, pose.elbow),
  wrist: offsetIn(frame, pose.wrist),
  grip: offsetIn(frame, pose.grip),
  palm: wayIn(frame, pose.palm),
});

const poseInBoat = (frame: TaskFrame, pose: ArmPose): ArmPose => ({
  shoulder: placeInBoat(frame, pose.shoulder),
  elbow: placeInBoat(frame, pose.elbow),
  wrist: placeInBoat(frame, pose.wrist),
  grip: placeInBoat(frame, pose.grip),
  palm: wayIn(frame, pose.palm),
});

export function answerInBoat(frame: TaskFrame, answer: ArmAnswer): ArmAnswer {
  if (answer.outcome !== 'reached') return answer;
  const { neck, hips, head } = answer.body;
  const { side } = answer;
  return {
    ...answer,
    side: frame.isMirrored ? (side === 'left' ? 'right' : 'left') : side,
    pose: poseInBoat(frame, answer.pose),
    body: {
      neck: placeInBoat(frame, neck),
      hips: placeInBoat(frame, hips),
      head: placeInBoat(frame, head),
    },
    way: answer.way.map((pose) => poseInBoat(frame, pose)),
  };
}
