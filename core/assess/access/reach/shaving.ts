import { along, distance, dot, subtract, type Vec3 } from '../../../base/vec';
import { armOf, type FlatPose } from './arm';
import { type ArmMotion, SEARCH_GROWTH_M } from './arm-motion';
import { type ArmTask, type Effort, motionIn, search } from './arm-search';
import { Person } from './person';
import { COARSE, gripOffM, PoseSearch } from './pose-search';
import type { PostureRegion, Region } from './posture-region';
import type { Surroundings } from './surroundings';
import type { ArmBlocker, BodySizes, Grasp } from './types';

/** More than this nobody helps by moving things a little, metres. */
const MOST_SHAVED_M = 0.044;
/** So much off all round leaves a stick of every part of the arm, metres. */
const STICK_M = 0.07;
/** So much longer an arm is tried, one after the other, metres. */
const LONGER_M = [0.01, 0.02, 0.04, 0.06, 0.08, 0.12, 0.16, 0.24, 0.32] as const;
/** Half the thickness of a line that is looked along, metres. */
const LINE_M = 0.005;
/** How finely the shaving is told, metres. */
const FINE_M = 0.001;

export interface Shaved {
  /** What every side of the arm lacks, metres; of an arm that is too short, its length; null beyond what is looked for. */
  readonly shortByM: number | null;
  /** What stands in the arm, in the pose that needs the least taken off, deepest first. */
  readonly blockers: readonly ArmBlocker[];
}

/**
 * Shaves the arm until a pose exists: how much has to come off all round is what it is short by, and what the full arm meets in that pose is
 * what is in its way. One thing at a time left out would seldom explain anything: mostly two or three things leave too little together.
 */
export function shavedTo(
  world: Surroundings,
  grasp: Grasp,
  body: BodySizes,
  region: PostureRegion,
  grownM: number,
): Shaved {
  const poseAt = (shavedM: number, longerM = 0): FlatPose | null => {
    const thin = armOf(body, SEARCH_GROWTH_M + grownM - shavedM);
    const arm = { ...thin, upperM: thin.upperM + longerM / 2, foreM: thin.foreM + longerM / 2 };
    let found: FlatPose | null = null;
    new PoseSearch(world, grasp, region, arm, null, 0, COARSE).run((pose) => {
      found = Float64Array.from(pose);
      return true;
    });
    return found;
  };
  const tooFarM = missingLength(grasp, body, region);
  if (tooFarM > 0) return { shortByM: tooFarM, blockers: [] };
  let pose = poseAt(MOST_SHAVED_M);
  if (!pose) {
    const stick = poseAt(STICK_M);
    if (stick) return { shortByM: null, blockers: blockersOf(world, body, stick, STICK_M, grownM) };
    const inLine = between(world, grasp, region);
    // With nothing in the line the joints keep a stick from it: a longer one gets there.
    const longerM = inLine.length > 0 ? undefined : LONGER_M.find((byM) => poseAt(STICK_M, byM));
    return { shortByM: longerM ?? null, blockers: inLine };
  }
  let [low, high] = [0, MOST_SHAVED_M];
  while (high - low > FINE_M) {
    const middle = (low + high) / 2;
    const found = poseAt(middle);
    if (found) {
      high = middle;
      pose = found;
    } else low = middle;
  }
  // The arm has room and the body has not: what trunk and head meet in the stance in which they meet least.
  if (high <= FINE_M) return { shortByM: null, blockers: named(world, new Person(body, region, world).met(pose), 0) };
  return { shortByM: high, blockers: blockersOf(world, body, pose, high, grownM) };
}

/**
 * How much has to come off all round before the plain motions find a way, and what the full arm meets on that way: where there are poses and
 * no way leads to them.
 */
export function wayShavedTo(task: ArmTask, full: ArmMotion): Shaved {
  const { body, grownM = 0 } = task;
  for (const shavedM of WAY_SHAVED_M) {
    const { found } = search(motionIn(full.world, { ...task, grownM: grownM - shavedM }), WAY_EFFORT);
    if (!found) continue;
    const deepest = new Map<string, ArmBlocker>();
    for (const pose of found.trail)
      for (const one of blockersOf(full.world, body, pose, shavedM, grownM)) {
        const known = deepest.get(one.owner);
        if (!known || known.depthM < one.depthM) deepest.set(one.owner, one);
      }
    return { shortByM: shavedM, blockers: inOrderOfDepth([...deepest.values()]) };
  }
  return { shortByM: null, blockers: [] };
}
/** Tried one after the other, metres. */
const WAY_SHAVED_M = [0.002, 0.004, 0.008, 0.012, 0.018, 0.026, 0.036] as const;
const WAY_EFFORT: Effort = { fine: COARSE, poses: 120, ways: 12, kept: 0 };

/** By how much a stretched arm is too short from the nearest place of its shoulder; 0 where it is long enough. */
function missingLength(grasp: Grasp, body: BodySizes, region: PostureRegion): number {
  const armM = body.upperArmM + body.forearmM + body.handM + gripOffM(grasp);
  const nearest = Math.min(...region.shoulders.map((box) => distance(grasp.point, nearestIn(box, grasp.point))));
  return Math.max(0, nearest - armM);
}

function nearestIn({ centre, half, axes }: Region, point: Vec3): Vec3 {
  const off = subtract(point, centre);
  return axes.reduce<Vec3>((at, axis, k) => {
    const side = half[k as 0 | 1 | 2];
    return along(at, axis, Math.max(-side, Math.min(side, dot(off, axis))));
  }, centre);
}

/** Where not even a stick has a pose: what is on the straight line from the work to where the shoulder is nearest. */
function between(world: Surroundings, grasp: Grasp, region: PostureRegion): readonly ArmBlocker[] {
  const [first, ...rest] = region.shoulders.map((box) => nearestIn(box, grasp.point));
  if (!first) return [];
  const shoulder = rest.reduce((a, b) => (distance(b, grasp.point) < distance(a, grasp.point) ? b : a), first);
  const start = grasp.normal ? along(grasp.point, grasp.normal, gripOffM(grasp)) : grasp.point;
  const met = world.inSegment(Float64Array.of(...start, ...shoulder), LINE_M);
  const all = named(world, met, STICK_M);
  const others = all.filter(({ owner }) => owner !== grasp.own);
  // Where only the thing itself is between, it is worked at from its other side.
  return others.length > 0 ? others : all;
}

/** Each owner once. */
function named(world: Surroundings, met: readonly number[], depthM: number): readonly ArmBlocker[] {
  const owners = new Map(met.map((index) => [world.nameOf(index).owner, world.nameOf(index).label]));
  return inOrderOfDepth([...owners].map(([owner, label]) => ({ owner, label, depthM })));
}

/** What the full arm meets in a pose, by how much has to be taken off before it does not. */
function blockersOf(
  world: Surroundings,
  body: BodySizes,
  pose: FlatPose,
  shavedM: number,
  grownM: number,
): readonly ArmBlocker[] {
  const full = SEARCH_GROWTH_M + grownM;
  const meets = (byM: number): ReadonlySet<number> => new Set(world.met(pose, armOf(body, full - byM)));
  const deepest = new Map<number, number>();
  for (const index of meets(0)) deepest.set(index, 0);
  for (let byM = FINE_M; byM <= shavedM + FINE_M; byM += FINE_M)
    for (const index of meets(byM)) if (deepest.has(index)) deepest.set(index, byM);
  const byOwner = new Map<string, ArmBlocker>();
  for (const [index, depthM] of deepest) {
    const { owner, label } = world.nameOf(index);
    const known = byOwner.get(owner);
    if (!known || known.depthM < depthM) byOwner.set(owner, { owner, label, depthM });
  }
  return inOrderOfDepth([...byOwner.values()]);
}

const inOrderOfDepth = (blockers: readonly ArmBlocker[]): readonly ArmBlocker[] =>
  [...blockers].sort((a, b) => b.depthM - a.depthM || (a.owner < b.owner ? -1 : 1));
