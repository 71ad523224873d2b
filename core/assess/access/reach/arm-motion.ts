import { type Arm, armOf, ELBOW, type FlatPose, HAND, handAxes, PALM, POSE_NUMBERS, SHOULDER, WRIST } from './arm';
import type { Person } from './person';
import { gripOffM } from './pose-search';
import type { PostureRegion, Region } from './posture-region';
import { FOREARM, type Surroundings, UPPER_ARM } from './surroundings';
import type { Trail } from './trail';
import type { BodySizes, Grasp } from './types';

/** Every body is grown by so much in the search, so that what is found can begin to move, metres. */
export const SEARCH_GROWTH_M = 0.004;
/**
 * From one pose to the next no point of the arm moves farther: with the growth at both ends nothing is met between, whichever way it
 * moves (two balls of 4 mm about the ends cover a way of 8 mm; what is missing allows for its bend).
 */
const STEP_M = 0.0075;
/** Where everything is clear by so much more, a step may be as long as that. */
const WIDE_GROWTH_M = 0.034;
const WIDE_STEP_M = 0.03;
const WIDE_WAIT = 4;
/** A motion that has to be cut finer than this does not go on evenly. */
const LEAST_SHARE = 1e-5;
/**
 * The hand may touch the thing that it works at while the grip is no farther from the point than it is at the work, and 60 mm, metres: less
 * a step, so that the border is not stepped over.
 */
const OWN_WITHIN_M = 0.06 - STEP_M;
/** Without an opening the hand is back when its middle is this near to its own shoulder, metres. */
const HOME_M = 0.32;

/** Room beyond this is not told, and how finely the hand's is, metres. */
const MOST_SPARE_M = 0.1;
const SPARE_FINE_M = 0.0005;

/** What the arm may do about one task in one posture: poses that are free, motions that stay free, where it has come out. */
export class ArmMotion {
  readonly arm: Arm;
  private readonly wide: Arm;
  readonly thickerM: number;
  private readonly ownWithinM: number;
  private readonly before = new Float64Array(POSE_NUMBERS);
  private readonly next = new Float64Array(POSE_NUMBERS);
  private readonly axes = new Float64Array(9);
  /** Poses that were looked at. */
  looked = 0;

  constructor(
    readonly world: Surroundings,
    readonly grasp: Grasp,
    private readonly body: BodySizes,
    readonly region: PostureRegion,
    readonly person: Person,
    grownM: number,
  ) {
    this.thickerM = SEARCH_GROWTH_M + grownM;
    this.arm = armOf(body, this.thickerM);
    this.wide = armOf(body, WIDE_GROWTH_M + grownM);
    this.ownWithinM = gripOffM(grasp) + OWN_WITHIN_M;
  }

  /** Joints within their limits, shoulder where it may be, everything clear. */
  isFree(pose: FlatPose, stance: number): boolean {
    this.looked += 1;
    return this.jointsHold(pose) && this.isClear(pose, stance, this.arm, this.thickerM, this.mayTouchOwn(pose));
  }

  private isClear(pose: FlatPose, stance: number, arm: Arm, thickerM: number, touches: boolean): boolean {
    const { world } = this;
    return (
      world.handIsFree(pose, arm, touches) &&
      world.isFree(
        FOREARM,
        pose[ELBOW] as number,
        pose[ELBOW + 1] as number,
        pose[ELBOW + 2] as number,
        pose[WRIST] as number,
        pose[WRIST + 1] as number,
        pose[WRIST + 2] as number,
        arm.foreRadiusM,
      ) &&
      world.isFree(
        UPPER_ARM,
        pose[SHOULDER] as number,
        pose[SHOULDER + 1] as number,
        pose[SHOULDER + 2] as number,
        pose[ELBOW] as number,
        pose[ELBOW + 1] as number,
        pose[ELBOW + 2] as number,
        arm.upperRadiusM,
      ) &&
      this.toolIsFree(pose, arm, touches) &&
      this.person.allows(stance, pose, arm, thickerM)
    );
  }

  mayTouchOwn(pose: FlatPose): boolean {
    let squared = 0;
    for (let i = 0; i < 3; i += 1) {
      const grip = (pose[WRIST + i] as number) + (pose[HAND + i] as number) * this.arm.handM;
      squared += (grip - (this.grasp.point[i] as number)) ** 2;
    }
    return squared <= this.ownWithinM * this.ownWithinM;
  }

  /** The tool stays in the hand as it is held at the work. */
  private readonly toolInHand = new Float64Array(3);

  /** Takes the tool as it stands in this pose at the work: along the hand, the palm, and square to both. */
  holdTool(pose: FlatPose): void {
    const { grasp, arm, toolInHand } = this;
    if (grasp.toolM <= 0) return;
    const shank = [0, 1, 2].map((i) => {
      const grip = (pose[WRIST + i] as number) + (pose[HAND + i] as number) * arm.handM;
      return (grasp.point[i] as number) - grip;
    }) as [number, number, number];
    const axes = handAxes(pose, this.axes, 0);
    for (let a = 0; a < 3; a += 1)
      toolInHand[a] =
        shank[0] * (axes[3 * a] as number) +
        shank[1] * (axes[3 * a + 1] as number) +
        shank[2] * (axes[3 * a + 2] as number);
  }

  private toolIsFree(pose: FlatPose, arm: Arm, touches: boolean): boolean {
    if (this.grasp.toolM <= 0) return true;
    const axes = handAxes(pose, this.axes, 0);
    const t = this.toolInHand;
    const grip = (i: number): number => (pose[WRIST + i] as number) + (pose[HAND + i] as number) * arm.handM;
    const tip = (i: number): number =>
      grip(i) +
      (t[0] as number) * (axes[i] as number) +
      (t[1] as number) * (axes[3 + i] as number) +
      (t[2] as number) * (axes[6 + i] as number);
    return this.world.toolIsFree(grip(0), grip(1), grip(2), tip(0), tip(1), tip(2), arm.toolRadiusM, touches);
  }

  private jointsHold(pose: FlatPose): boolean {
    const { arm } = this;
    let wrist = 0;
    let elbow = 0;
    for (let i = 0; i < 3; i += 1) {
      const fore = (pose[WRIST + i] as number) - (pose[ELBOW + i] as number);
      wrist += fore * (pose[HAND + i] as number);
      elbow += fore * ((pose[ELBOW + i] as number) - (pose[SHOULDER + i] as number));
    }
    return (
      wrist >= arm.foreM * arm.cosWrist - 1e-9 &&
      elbow >= arm.foreM * arm.upperM * arm.cosElbow - 1e-9 &&
      this.shoulderMayBe(pose[SHOULDER] as number, pose[SHOULDER + 1] as number, pose[SHOULDER + 2] as number)
    );
  }

  /** On the way the shoulder may be anywhere before its region, seen from the opening; without one, in its regions. */
  private shoulderMayBe(x: number, y: number, z: number): boolean {
    const { gate, shoulders } = this.region;
    if (!gate) return shoulders.some((region) => isWithin(region, x, y, z));
    const { at, out } = gate;
    return (x - at[0]) * out[0] + (y - at[1]) * out[1] + (z - at[2]) * out[2] >= deepest(this.region) - 1e-9;
  }

  /** Whether the whole hand has come out: beyond the face that the opening is in, or back at the shoulder. */
  isOut(pose: FlatPose): boolean {
    const { arm, region } = this;
    const ahead = arm.handM - arm.behindM;
    const x = (pose[WRIST] as number) + (pose[HAND] as number) * ahead;
    const y = (pose[WRIST + 1] as number) + (pose[HAND + 1] as number) * ahead;
    const z = (pose[WRIST + 2] as number) + (pose[HAND + 2] as number) * ahead;
    const { gate } = region;
    if (!gate) {
      const dx = x - (pose[SHOULDER] as number);
      const dy = y - (pose[SHOULDER + 1] as number);
      const dz = z - (pose[SHOULDER + 2] as number);
      return dx * dx + dy * dy + dz * dz <= HOME_M * HOME_M;
    }
    const { at, out } = gate;
    const depth = (x - at[0]) * out[0] + (y - at[1]) * out[1] + (z - at[2]) * out[2] - gate.outerM;
    if (depth <= 0) return false;
    const axes = handAxes(pose, this.axes, 0);
    let half = 0;
    for (let a = 0; a < 3; a += 1)
      half +=
        Math.abs(
          (axes[3 * a] as number) * out[0] +
            (axes[3 * a + 1] as number) * out[1] +
            (axes[3 * a + 2] as number) * out[2],
        ) * (arm.halfM[a] as number);
    return depth >= half;
  }

  /**
   * Moves along poses given by a number from 0 to `end`, step by step, none longer than what nothing can slip through, and adds each to the
   * trail. `out`: the hand came out; `end`: all of it was free; `met`: something is in the way.
   */
  follow(
    trail: Trail,
    stance: number,
    end: number,
    firstStep: number,
    poseAt: (t: number, into: FlatPose) => void,
  ): 'out' | 'end' | 'met' {
    const { before, next } = this;
    trail.readLast(before);
    let t = 0;
    let step = firstStep;
    let isWide = false;
    let wait = 0;
    while (t < end) {
      if (this.isOut(before)) return 'out';
      const limit = isWide ? WIDE_STEP_M : STEP_M;
      let to = Math.min(end, t + step);
      poseAt(to, next);
      let moved = this.farthest(before, next);
      // The displacement grows about in proportion, so a step or two of scaling are enough.
      while (moved > limit) {
        step = (to - t) * 0.95 * (limit / moved);
        to = t + step;
        poseAt(to, next);
        moved = this.farthest(before, next);
        if (step < end * LEAST_SHARE) return 'met';
      }
      if (!this.isFree(next, stance)) {
        if (!isWide) return 'met';
        isWide = false;
        continue;
      }
      trail.push(next);
      before.set(next);
      t = to;
      // Long steps are worth asking for where the arm has room, and again some steps after it had none.
      if (wait > 0) wait -= 1;
      isWide = wait === 0 && this.isClear(next, stance, this.wide, WIDE_GROWTH_M, false);
      if (!isWide && wait === 0) wait = WIDE_WAIT;
      if (moved > 0) step *= ((isWide ? WIDE_STEP_M : STEP_M) * 0.97) / moved;
    }
    return this.isOut(before) ? 'out' : 'end';
  }

  /** Least distance of links, hand and tool from what is about them, over the poses of a trail; no more than what is looked for. */
  spareOn(trail: readonly FlatPose[]): number {
    let spareM = MOST_SPARE_M;
    const nominal = armOf(this.body, 0);
    const handIsFree = (pose: FlatPose, byM: number): boolean => {
      const grown = armOf(this.body, byM);
      const touches = this.mayTouchOwn(pose);
      return this.world.handIsFree(pose, grown, touches) && this.toolIsFree(pose, grown, touches);
    };
    for (const pose of trail) {
      spareM = Math.min(spareM, this.world.linkClearance(pose, nominal, spareM));
      if (handIsFree(pose, spareM)) continue;
      let low = 0;
      while (spareM - low > SPARE_FINE_M) {
        const middle = (low + spareM) / 2;
        if (handIsFree(pose, middle)) low = middle;
        else spareM = middle;
      }
      spareM = low;
    }
    return spareM;
  }

  /** No point of arm, hand and tool moves farther from one pose to the other, along the short way. */
  farthest(a: FlatPose, b: FlatPose): number {
    const { arm } = this;
    const apart = (k: number): number => {
      const dx = (a[k] as number) - (b[k] as number);
      const dy = (a[k + 1] as number) - (b[k + 1] as number);
      const dz = (a[k + 2] as number) - (b[k + 2] as number);
      return Math.sqrt(dx * dx + dy * dy + dz * dz);
    };
    const links = Math.max(apart(SHOULDER), apart(ELBOW), apart(WRIST));
    const turn = apart(HAND);
    const roll = apart(PALM);
    // The third axis turns no more than the other two together.
    const tool = this.grasp.toolM > 0 ? arm.handM + this.grasp.toolM : 0;
    const box = (arm.handM - arm.behindM + arm.halfM[0]) * turn + arm.halfM[1] * roll + arm.halfM[2] * (turn + roll);
    return Math.max(links, apart(WRIST) + Math.max(box, tool * (turn + roll)));
  }
}

function isWithin({ centre, half, axes }: Region, x: number, y: number, z: number): boolean {
  const dx = x - centre[0];
  const dy = y - centre[1];
  const dz = z - centre[2];
  for (let i = 0; i < 3; i += 1) {
    const axis = axes[i] as Region['centre'];
    if (Math.abs(dx * axis[0] + dy * axis[1] + dz * axis[2]) > (half[i] as number) + SAME_M) return false;
  }
  return true;
}

const SAME_M = 1e-9;

const DEEPEST = new WeakMap<PostureRegion, number>();

/** How far inside the opening a shoulder of the region can be, along `out`: negative is inside. */
function deepest(region: PostureRegion): number {
  const known = DEEPEST.get(region);
  if (known !== undefined) return known;
  const { gate, shoulders } = region;
  const depths = shoulders.map(({ centre, half, axes }) => {
    if (!gate) return 0;
    const { at, out } = gate;
    let low = 0;
    for (let i = 0; i < 3; i += 1) {
      const axis = axes[i] as Region['centre'];
      low += (centre[i as 0 | 1 | 2] - at[i as 0 | 1 | 2]) * out[i as 0 | 1 | 2];
      low -= Math.abs(axis[0] * out[0] + axis[1] * out[1] + axis[2] * out[2]) * (half[i] as number);
    }
    return low;
  });
  const least = Math.min(...depths);
  DEEPEST.set(region, least);
  return least;
}
