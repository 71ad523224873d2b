import { dot, type Vec3 } from '../../../base/vec';
import { segmentBox, squaredToStored } from '../../../shape/space/segment-distance';
import { type Arm, ELBOW, type FlatPose, HAND, PALM, SHOULDER, WRIST } from './arm';
import type { Attitude, PostureRegion } from './posture-region';
import { HEAD, type Surroundings, TRUNK } from './surroundings';
import type { BodySizes, Side } from './types';

/** Along the spine, below the line of the shoulders: where the axis of the trunk begins and ends. From memory. */
const NECK_M = 0.1;
const HIPS_M = 0.45;
/** Half the thickness of what joins the hips to the feet. From memory. */
const LEGS_RADIUS_M = 0.06;
/** Hips are lifted by this at most. */
const TIPTOE_M = 0.05;
/** Who faces away from an opening by more than this (cosine to the outside) does not work through it. */
const FACING_AWAY_COS = 0.1;

/**
 * The body of whoever reaches: how the shoulder lets the arm point, and trunk and head, which need room themselves and are in the arm's way.
 * A stance is a turn of the body with a side: twice the index of its attitude, odd for the left arm.
 */
export class Person {
  private readonly stances: Float64Array;
  private readonly attitudes: readonly Attitude[];
  private readonly count: number;
  /** Nobody reaches through an opening behind the back. */
  private readonly turnedAway = new Set<number>();
  /** Ends of the axis of the trunk; the middle of the head, twice. */
  private readonly trunk = new Float64Array(6);
  private readonly head = new Float64Array(6);
  /** Where the feet are, and how high over them the hips can be; null: nobody said. */
  private readonly legs: { readonly at: Vec3; readonly hipsM: readonly [number, number] } | null;

  constructor(
    private readonly body: BodySizes,
    region: PostureRegion,
    private readonly world: Surroundings,
  ) {
    this.attitudes = region.attitudes;
    const { at, hipsM } = region.footing ?? {};
    this.legs = at && hipsM ? { at, hipsM } : null;
    this.count = region.attitudes.length * 2;
    // Of each stance: spine, across, and the middle of what its shoulder can do.
    this.stances = new Float64Array(this.count * 9);
    region.attitudes.forEach(({ spine, across }, k) => {
      const facing: Vec3 = [
        across[1] * spine[2] - across[2] * spine[1],
        across[2] * spine[0] - across[0] * spine[2],
        across[0] * spine[1] - across[1] * spine[0],
      ];
      for (const side of [0, 1] as const) {
        const sign = side === 0 ? 1 : -1;
        const middle = ([0, 1, 2] as const).map((i) => (sign * facing[i] - across[i]) / Math.SQRT2);
        this.stances.set([...spine, ...across, ...middle], (2 * k + side) * 9);
        const away = region.gate ? sign * dot(facing, region.gate.out) : 0;
        if (away > FACING_AWAY_COS) this.turnedAway.add(2 * k + side);
      }
    });
  }

  sideOf(stance: number): Side {
    return stance % 2 === 0 ? 'right' : 'left';
  }

  attitudeOf(stance: number): Attitude {
    return this.attitudes[stance >> 1] as Attitude;
  }

  /** The first stance in which the arm can be in this pose; -1: none. */
  stanceFor(pose: FlatPose, arm: Arm, thickerM: number): number {
    for (let stance = 0; stance < this.count; stance += 1)
      if (!this.turnedAway.has(stance) && this.allows(stance, pose, arm, thickerM)) return stance;
    return -1;
  }

  /** Whether the shoulder points the arm so, trunk and head have room (thicker by so much), and forearm and hand keep clear of them. */
  allows(stance: number, pose: FlatPose, arm: Arm, thickerM: number): boolean {
    const s = stance * 9;
    const d = this.stances;
    const sx = pose[SHOULDER] as number;
    const sy = pose[SHOULDER + 1] as number;
    const sz = pose[SHOULDER + 2] as number;
    const pointing =
      ((pose[ELBOW] as number) - sx) * (d[s + 6] as number) +
      ((pose[ELBOW + 1] as number) - sy) * (d[s + 7] as number) +
      ((pose[ELBOW + 2] as number) - sz) * (d[s + 8] as number);
    if (pointing < arm.cosShoulder * arm.upperM) return false;
    this.place(stance, sx, sy, sz);
    return this.keepsClear(pose, arm, Math.min(0, thickerM)) && this.hasRoom(thickerM);
  }

  /** Whether anybody has room with the shoulder there, however the arm is; thicker by so much. */
  fitsAt(sx: number, sy: number, sz: number, thickerM: number): boolean {
    for (let stance = 0; stance < this.count; stance += 1) {
      if (this.turnedAway.has(stance)) continue;
      this.place(stance, sx, sy, sz);
      if (this.hasRoom(thickerM)) return true;
    }
    return false;
  }

  /** Trunk, head and what joins them to the feet, where they were placed. */
  private hasRoom(thickerM: number): boolean {
    const { body, world, trunk, head } = this;
    const hx = head[0] as number;
    const hy = head[1] as number;
    const hz = head[2] as number;
    return (
      world.isFree(HEAD, hx, hy, hz, hx, hy, hz, body.headRadiusM + thickerM) &&
      world.isFree(
        TRUNK,
        trunk[0] as number,
        trunk[1] as number,
        trunk[2] as number,
        trunk[3] as number,
        trunk[4] as number,
        trunk[5] as number,
        body.trunkRadiusM + thickerM,
      ) &&
      !this.hipsAreTooHigh() &&
      this.betweenFeetAndHips() === null
    );
  }

  /** Who bends over has the hips where they are upright: nobody floats. */
  private hipsAreTooHigh(): boolean {
    const { legs, trunk } = this;
    return legs !== null && (trunk[5] as number) > legs.at[2] + legs.hipsM[1] + TIPTOE_M;
  }

  /** What stands between the feet and the hips, whether the body bends forward level or stands upright; null: somebody stands so. */
  private betweenFeetAndHips(): number | null {
    const { legs, trunk, world } = this;
    if (!legs) return null;
    const [x, y, z] = [trunk[3] as number, trunk[4] as number, trunk[5] as number];
    const [low, high] = legs.hipsM;
    let first: number | null = null;
    for (const over of [Math.max(low, Math.min(high, z - legs.at[2])), high]) {
      const met = world.firstAcross(x, y, z, legs.at[0], legs.at[1], legs.at[2] + over, LEGS_RADIUS_M);
      if (met === null) return null;
      first ??= met;
    }
    return first;
  }

  /** Puts trunk and head where a stance has them about a shoulder. */
  private place(stance: number, sx: number, sy: number, sz: number): void {
    const s = stance * 9;
    const { body, trunk, head, stances: d } = this;
    const ux = d[s] as number;
    const uy = d[s + 1] as number;
    const uz = d[s + 2] as number;
    const half = body.shouldersM / 2;
    const nx = sx + (d[s + 3] as number) * half;
    const ny = sy + (d[s + 4] as number) * half;
    const nz = sz + (d[s + 5] as number) * half;
    trunk[0] = nx - ux * NECK_M;
    trunk[1] = ny - uy * NECK_M;
    trunk[2] = nz - uz * NECK_M;
    trunk[3] = nx - ux * HIPS_M;
    trunk[4] = ny - uy * HIPS_M;
    trunk[5] = nz - uz * HIPS_M;
    for (let k = 0; k < 6; k += 3) {
      head[k] = nx + ux * body.eyeOverShoulderM;
      head[k + 1] = ny + uy * body.eyeOverShoulderM;
      head[k + 2] = nz + uz * body.eyeOverShoulderM;
    }
  }

  /** What trunk and head meet about the shoulder of a pose, in the stance in which they meet least; by place in the surroundings. */
  met(pose: FlatPose): readonly number[] {
    let least: readonly number[] | null = null;
    for (let stance = 0; stance < this.count; stance += 1) {
      if (this.turnedAway.has(stance)) continue;
      this.place(stance, pose[SHOULDER] as number, pose[SHOULDER + 1] as number, pose[SHOULDER + 2] as number);
      if (this.hipsAreTooHigh()) continue;
      const met = [
        ...this.world.inSegment(this.trunk, this.body.trunkRadiusM),
        ...this.world.inSegment(this.head, this.body.headRadiusM),
      ];
      const between = this.betweenFeetAndHips();
      if (between !== null) met.push(between);
      if (!least || met.length < least.length) least = met;
    }
    return least && least.length > 0 ? least : this.betweenFeetAndShoulder(pose);
  }

  /** Where trunk and head alone meet nothing: what stands between that shoulder and who stands upright. */
  private betweenFeetAndShoulder(pose: FlatPose): readonly number[] {
    const { legs, world } = this;
    if (!legs) return [];
    const [sx, sy, sz] = [pose[SHOULDER] as number, pose[SHOULDER + 1] as number, pose[SHOULDER + 2] as number];
    const [x, y, z] = legs.at;
    const met = world.firstAcross(sx, sy, sz, x, y, z + legs.hipsM[1], LEGS_RADIUS_M);
    return met === null ? [] : [met];
  }

  /** Forearm and hand against trunk and head. */
  private keepsClear(pose: FlatPose, arm: Arm, thickerM: number): boolean {
    const { head, trunk, body } = this;
    const trunkM = body.trunkRadiusM + thickerM;
    const headM = body.headRadiusM + thickerM;
    return (
      this.linkIsFar(pose, trunk, trunkM + arm.foreRadiusM) &&
      this.linkIsFar(pose, head, headM + arm.foreRadiusM) &&
      handIsFar(pose, arm, trunk, trunkM) &&
      handIsFar(pose, arm, head, headM)
    );
  }

  private linkIsFar(pose: FlatPose, stored: Float64Array, apartM: number): boolean {
    const squared = squaredToStored(
      pose[ELBOW] as number,
      pose[ELBOW + 1] as number,
      pose[ELBOW + 2] as number,
      pose[WRIST] as number,
      pose[WRIST + 1] as number,
      pose[WRIST + 2] as number,
      stored,
      0,
    );
    return squared >= apartM * apartM;
  }

  /** Trunk and head of a stance at a shoulder. */
  placeOf(stance: number, [x, y, z]: Vec3): { readonly neck: Vec3; readonly hips: Vec3; readonly head: Vec3 } {
    const s = stance * 9;
    const d = this.stances;
    const spine: Vec3 = [d[s] as number, d[s + 1] as number, d[s + 2] as number];
    const half = this.body.shouldersM / 2;
    const neck: Vec3 = [
      x + (d[s + 3] as number) * half,
      y + (d[s + 4] as number) * half,
      z + (d[s + 5] as number) * half,
    ];
    const up = (k: number): Vec3 => [neck[0] + spine[0] * k, neck[1] + spine[1] * k, neck[2] + spine[2] * k];
    return { neck, hips: up(-HIPS_M), head: up(this.body.eyeOverShoulderM) };
  }
}

/** Whether the hand box is farther than a radius from a stored segment. */
function handIsFar(pose: FlatPose, arm: Arm, stored: Float64Array, radius: number): boolean {
  const ux = pose[HAND] as number;
  const uy = pose[HAND + 1] as number;
  const uz = pose[HAND + 2] as number;
  const px = pose[PALM] as number;
  const py = pose[PALM + 1] as number;
  const pz = pose[PALM + 2] as number;
  const tx = uy * pz - uz * py;
  const ty = uz * px - ux * pz;
  const tz = ux * py - uy * px;
  const ahead = arm.handM - arm.behindM;
  const ax = (stored[0] as number) - (pose[WRIST] as number) - ux * ahead;
  const ay = (stored[1] as number) - (pose[WRIST + 1] as number) - uy * ahead;
  const az = (stored[2] as number) - (pose[WRIST + 2] as number) - uz * ahead;
  const vx = (stored[3] as number) - (stored[0] as number);
  const vy = (stored[4] as number) - (stored[1] as number);
  const vz = (stored[5] as number) - (stored[2] as number);
  return (
    segmentBox(
      ax * ux + ay * uy + az * uz,
      ax * px + ay * py + az * pz,
      ax * tx + ay * ty + az * tz,
      vx * ux + vy * uy + vz * uz,
      vx * px + vy * py + vz * pz,
      vx * tx + vy * ty + vz * tz,
      arm.halfM[0],
      arm.halfM[1],
      arm.halfM[2],
    ) >= radius
  );
}
