import * as portable from '../../../base/portable';
import { along, distance, dot, norm, radians, scale, subtract, unit, type Vec3 } from '../../../base/vec';
import { type Arm, ELBOW, type FlatPose, HAND, PALM, POSE_NUMBERS, SHOULDER, WRIST } from './arm';
import { coneDirections, rolls, squareAxes } from './directions';
import type { Person } from './person';
import type { Gate, PostureRegion, Region } from './posture-region';
import { FOREARM, type Surroundings, UPPER_ARM } from './surroundings';
import type { ArmStage, Grasp } from './types';

/** How finely the three joints are tried. */
export interface Fineness {
  readonly handDeg: number;
  readonly rolls: number;
  readonly elbowDeg: number;
  /** Elbows in one cube of this size count as one another, metres. */
  readonly elbowM: number;
  readonly shoulderM: number;
  /** Places of a shoulder in one box that are tried at most: where it is wide there is choice enough. */
  readonly places: number;
  /** Poses of one elbow that are offered: more of the same corner are worthless. */
  readonly perElbow: number;
}

export const COARSE: Fineness = {
  handDeg: 28,
  rolls: 4,
  elbowDeg: 20,
  elbowM: 0.03,
  shoulderM: 0.045,
  places: 400,
  perElbow: 3,
};
export const FINE: Fineness = {
  handDeg: 14,
  rolls: 8,
  elbowDeg: 9,
  elbowM: 0.02,
  shoulderM: 0.022,
  places: 400,
  perElbow: 3,
};

/** The upper arm may come this share of its thickness near to the frame's line before it is tried in full. */
const FRAME_SHARE = 0.7;
/** Through a wide opening arms are aimed beside its middle too, as far as the shoulders are from the middle of a body, metres. */
const ASIDE_M = 0.15;
/** Less than this beside the middle is the middle, metres. */
const NEAR_MIDDLE_M = 0.03;
/** Deeper than this inside the outer face an elbow has the frame between itself and a shoulder outside. */
const INSIDE_M = 0.03;

export interface Searched {
  /** The first part of the arm for which no place was found; null where whole poses were offered. */
  readonly stage: Exclude<ArmStage, 'wayIn'> | null;
  readonly tried: number;
}

/** What a pose is offered to; true ends the search. The numbers are overwritten afterwards. */
export type Offer = (pose: FlatPose, stance: number) => boolean;

/**
 * Poses that reach a point, from the hand backwards: free directions of the hand, elbows from which it is held so, shoulders from which the
 * elbow is had, the last coordinate of each solved in closed form. Without a person only the arm itself counts.
 */
export class PoseSearch {
  private readonly pose = new Float64Array(POSE_NUMBERS);
  private readonly axes = new Float64Array(6);

  /** Towards where the shoulders are, from the point. */
  private readonly homeward: Vec3;
  /** Points of the opening that hand, forearm and upper arm are aimed through before all else: a straight arm goes where a bent one does not. */
  private readonly aims: readonly Vec3[];
  private tried = 0;
  private hasForearm = false;
  private hasShoulder = false;

  constructor(
    private readonly world: Surroundings,
    private readonly grasp: Grasp,
    private readonly region: PostureRegion,
    private readonly arm: Arm,
    private readonly person: Person | null,
    private readonly thickerM: number,
    private readonly fine: Fineness,
  ) {
    this.homeward = homewardFrom(grasp.point, region);
    this.aims = region.gate ? aimsThrough(region.gate, arm.upperRadiusM) : [];
  }

  run(offer: Offer): Searched {
    let hasHand = false;
    const seen = new Set<number>();
    const hands = this.handDirections();
    for (let k = 0; k < hands.length; k += 3) {
      const hand: Vec3 = [hands[k] as number, hands[k + 1] as number, hands[k + 2] as number];
      if (!this.placeHand(hand)) continue;
      hasHand = true;
      if (this.tryElbows(hand, seen, offer)) break;
    }
    const stage = !hasHand ? 'hand' : !this.hasForearm ? 'forearm' : !this.hasShoulder ? 'upperArm' : null;
    return { stage, tried: this.tried };
  }

  /** Directions of the hand, those first that lead away from where the shoulders are. */
  private handDirections(): Float64Array {
    const { normal, coneDeg } = this.grasp;
    const axis: Vec3 = normal ? scale(normal, -1) : scale(this.homeward, -1);
    const mostDeg = normal ? Math.min(180, coneDeg + this.arm.freerDeg) : 180;
    const cone = coneDirections(mostDeg, this.fine.handDeg);
    const grip = normal ? along(this.grasp.point, normal, gripOffM(this.grasp)) : this.grasp.point;
    return aimedFirst(this.aims, grip, axis, mostDeg, turnedTo(axis, cone, scale(this.homeward, -1)));
  }

  /** Puts the hand at the grip, in the first of its rolls that is free. */
  private placeHand(hand: Vec3): boolean {
    const { pose, arm, axes, grasp } = this;
    const off = gripOffM(grasp);
    const { point, normal } = grasp;
    const back = normal ?? scale(hand, -1);
    for (let i = 0; i < 3; i += 1) {
      pose[HAND + i] = hand[i] as number;
      pose[WRIST + i] = (point[i] as number) + (back[i] as number) * off - (hand[i] as number) * arm.handM;
    }
    squareAxes(hand[0], hand[1], hand[2], axes, 0);
    for (const [cos, sin] of rolls(this.fine.rolls)) {
      for (let i = 0; i < 3; i += 1) pose[PALM + i] = (axes[i] as number) * cos + (axes[3 + i] as number) * sin;
      this.tried += 1;
      if (this.world.handIsFree(pose, arm, true) && this.toolIsFree(pose)) return true;
    }
    return false;
  }

  private toolIsFree(pose: FlatPose): boolean {
    const { grasp, arm, world } = this;
    if (grasp.toolM <= 0) return true;
    const grip = (i: number): number => (pose[WRIST + i] as number) + (pose[HAND + i] as number) * arm.handM;
    const [x, y, z] = grasp.point;
    return world.toolIsFree(grip(0), grip(1), grip(2), x, y, z, arm.toolRadiusM, true);
  }

  private tryElbows(hand: Vec3, seen: Set<number>, offer: Offer): boolean {
    const { pose, arm, world, fine } = this;
    const cone = coneDirections(arm.wristDeg, fine.elbowDeg);
    const wx = pose[WRIST] as number;
    const wy = pose[WRIST + 1] as number;
    const wz = pose[WRIST + 2] as number;
    const forearms = aimedFirst(
      this.aims,
      [wx, wy, wz],
      hand,
      arm.wristDeg,
      turnedTo(hand, cone, scale(this.homeward, -1)),
    );
    for (let k = 0; k < forearms.length; k += 3) {
      const fx = forearms[k] as number;
      const fy = forearms[k + 1] as number;
      const fz = forearms[k + 2] as number;
      const ex = wx - fx * arm.foreM;
      const ey = wy - fy * arm.foreM;
      const ez = wz - fz * arm.foreM;
      if (!this.isInReach(ex, ey, ez)) continue;
      const voxel = voxelOf(ex, ey, ez, fine.elbowM);
      if (seen.has(voxel)) continue;
      this.tried += 1;
      if (!world.isFree(FOREARM, ex, ey, ez, wx, wy, wz, arm.foreRadiusM)) continue;
      seen.add(voxel);
      this.hasForearm = true;
      pose[ELBOW] = ex;
      pose[ELBOW + 1] = ey;
      pose[ELBOW + 2] = ez;
      if (this.tryShoulders([fx, fy, fz], offer)) return true;
    }
    return false;
  }

  /** Whether a shoulder of the region can be as far from the elbow as the upper arm is long. */
  private isInReach(ex: number, ey: number, ez: number): boolean {
    const { upperM } = this.arm;
    for (const { centre, half, axes } of this.region.shoulders) {
      const dx = ex - centre[0];
      const dy = ey - centre[1];
      const dz = ez - centre[2];
      let near = 0;
      let far = 0;
      for (let i = 0; i < 3; i += 1) {
        const axis = axes[i] as Vec3;
        const along = Math.abs(dx * axis[0] + dy * axis[1] + dz * axis[2]);
        const side = half[i] as number;
        near += along > side ? (along - side) ** 2 : 0;
        far += (along + side) ** 2;
      }
      if (near <= upperM * upperM && far >= upperM * upperM) return true;
    }
    return false;
  }

  private tryShoulders(forearm: Vec3, offer: Offer): boolean {
    const aimed = this.aimedShoulders(forearm, offer);
    if (aimed < 0) return true;
    let left = this.fine.perElbow - aimed;
    if (left <= 0) return false;
    for (const region of this.region.shoulders) {
      const taken = this.shouldersIn(region, forearm, left, offer);
      if (taken < 0) return true;
      left -= taken;
      if (left <= 0) return false;
    }
    return false;
  }

  /** Offers the shoulders of an upper arm that goes straight through the opening, or on along the forearm; as `shouldersIn`. */
  private aimedShoulders(forearm: Vec3, offer: Offer): number {
    const { pose, arm, aims, region } = this;
    const { gate } = region;
    if (!gate) return 0;
    const elbow: Vec3 = [pose[ELBOW] as number, pose[ELBOW + 1] as number, pose[ELBOW + 2] as number];
    const isInside = dot(subtract(elbow, gate.at), gate.out) < -INSIDE_M;
    const ways = isInside ? aims.map((aim) => unit(subtract(aim, elbow))) : [scale(forearm, -1)];
    let offered = 0;
    for (const way of ways) {
      const shoulder = along(elbow, way, arm.upperM);
      if (!region.shoulders.some((box) => isIn(box, shoulder))) continue;
      const stance = this.stanceAt(...shoulder, forearm);
      if (stance === null) continue;
      this.hasShoulder = true;
      offered += 1;
      if (offer(pose, stance)) return -1;
    }
    return offered;
  }

  /** Offers shoulders of one box; how many were, or -1 where an offer was taken. */
  private shouldersIn({ centre, half, axes }: Region, forearm: Vec3, most: number, offer: Offer): number {
    const { pose, arm } = this;
    const ex = (pose[ELBOW] as number) - centre[0];
    const ey = (pose[ELBOW + 1] as number) - centre[1];
    const ez = (pose[ELBOW + 2] as number) - centre[2];
    // The thinnest side is solved, the other two are stepped over.
    const t = half[0] <= half[1] && half[0] <= half[2] ? 0 : half[1] <= half[2] ? 1 : 2;
    const p = t === 0 ? 1 : 0;
    const q = t === 2 ? 1 : 2;
    const ap = axes[p];
    const aq = axes[q];
    const at = axes[t];
    const hp = half[p];
    const hq = half[q];
    const ht = half[t];
    const ep = ex * ap[0] + ey * ap[1] + ez * ap[2];
    const eq = ex * aq[0] + ey * aq[1] + ez * aq[2];
    const et = ex * at[0] + ey * at[1] + ez * at[2];
    const step = Math.max(this.fine.shoulderM, Math.sqrt((4 * hp * hq) / this.fine.places));
    const rows = Math.max(1, Math.ceil((2 * hp) / step));
    const columns = Math.max(1, Math.ceil((2 * hq) / step));
    const places = rows * columns;
    const stride = strideFor(places);
    let offered = 0;
    for (let k = 0, place = 0; k < places; k += 1, place = (place + stride) % places) {
      const sp = -hp + (2 * hp * (Math.floor(place / columns) + 0.5)) / rows;
      const sq = -hq + (2 * hq * ((place % columns) + 0.5)) / columns;
      const squared = arm.upperM * arm.upperM - (ep - sp) * (ep - sp) - (eq - sq) * (eq - sq);
      if (squared < 0) continue;
      const root = Math.sqrt(squared);
      for (let sign = 1; sign >= -1; sign -= 2) {
        const st = et + sign * root;
        if (st > ht || st < -ht) continue;
        const sx = centre[0] + ap[0] * sp + aq[0] * sq + at[0] * st;
        const sy = centre[1] + ap[1] * sp + aq[1] * sq + at[1] * st;
        const sz = centre[2] + ap[2] * sp + aq[2] * sq + at[2] * st;
        const stance = this.stanceAt(sx, sy, sz, forearm);
        if (stance === null) continue;
        this.hasShoulder = true;
        offered += 1;
        if (offer(pose, stance)) return -1;
        if (offered >= most) return offered;
      }
    }
    return offered;
  }

  /** Whether the pose with this shoulder stands, and in which stance; null where it does not. */
  private stanceAt(sx: number, sy: number, sz: number, forearm: Vec3): number | null {
    const { pose, arm, region, person, world } = this;
    const ex = pose[ELBOW] as number;
    const ey = pose[ELBOW + 1] as number;
    const ez = pose[ELBOW + 2] as number;
    const bend = ((ex - sx) * forearm[0] + (ey - sy) * forearm[1] + (ez - sz) * forearm[2]) / arm.upperM;
    if (bend < arm.cosElbow || !isAtFooting(region, sx, sy, sz)) return null;
    if (!this.passesFrame(sx, sy, sz, ex, ey, ez)) return null;
    this.tried += 1;
    if (!world.isFree(UPPER_ARM, sx, sy, sz, ex, ey, ez, arm.upperRadiusM)) return null;
    pose[SHOULDER] = sx;
    pose[SHOULDER + 1] = sy;
    pose[SHOULDER + 2] = sz;
    if (!person) return 0;
    const stance = person.stanceFor(pose, arm, this.thickerM);
    return stance < 0 ? null : stance;
  }

  /** The upper arm of a shoulder outside and an elbow inside goes through the clear area: a cheap no before the exact one. */
  private passesFrame(sx: number, sy: number, sz: number, ex: number, ey: number, ez: number): boolean {
    const { gate } = this.region;
    if (!gate) return true;
    const { at, out, across, up } = gate;
    const se = (sx - at[0]) * out[0] + (sy - at[1]) * out[1] + (sz - at[2]) * out[2];
    const ee = (ex - at[0]) * out[0] + (ey - at[1]) * out[1] + (ez - at[2]) * out[2];
    if (se < 0 || ee > -INSIDE_M) return true;
    const share = se / (se - ee);
    const x = sx + (ex - sx) * share - at[0];
    const y = sy + (ey - sy) * share - at[1];
    const z = sz + (ez - sz) * share - at[2];
    const inset = FRAME_SHARE * this.arm.upperRadiusM;
    return (
      Math.abs(x * across[0] + y * across[1] + z * across[2]) <= gate.widthM / 2 - inset &&
      Math.abs(x * up[0] + y * up[1] + z * up[2]) <= gate.heightM / 2 - inset
    );
  }
}

/** How far the middle of the grip is from the surface. */
export const gripOffM = ({ toolM, standOffM }: Grasp): number => (toolM > 0 ? toolM : standOffM);

export function isAtFooting({ footing }: PostureRegion, x: number, y: number, z: number): boolean {
  if (!footing) return true;
  const [dx, dy] = [x - footing.at[0], y - footing.at[1]];
  return z >= footing.lowM && z <= footing.highM && dx * dx + dy * dy <= footing.farM * footing.farM;
}

/** Unit vector from the point towards the middle of the nearest box of shoulders, or of the opening before them. */
function homewardFrom(point: Vec3, { gate, shoulders }: PostureRegion): Vec3 {
  let nearest: Vec3 | null = gate ? gate.at : null;
  if (!nearest)
    for (const { centre } of shoulders)
      if (!nearest || distance(centre, point) < distance(nearest, point)) nearest = centre;
  const way = subtract(nearest ?? point, point);
  return norm(way) > 1e-6 ? unit(way) : [0, 0, 1];
}

function isIn({ centre, half, axes }: Region, at: Vec3): boolean {
  const off = subtract(at, centre);
  return axes.every((axis, k) => Math.abs(dot(off, axis)) <= half[k as 0 | 1 | 2]);
}

/** The middle of an opening; in a wide one for an arm also a point to either side of it. */
function aimsThrough({ at, across, up, widthM, heightM }: Gate, radiusM: number): readonly Vec3[] {
  const [way, longM] = widthM >= heightM ? [across, widthM] : [up, heightM];
  const asideM = Math.min(ASIDE_M, longM / 2 - radiusM);
  return asideM > NEAR_MIDDLE_M ? [at, along(at, way, asideM), along(at, way, -asideM)] : [at];
}

/** Directions from points of an opening to a place behind it, as far as they are within so many degrees of an axis; then all others. */
function aimedFirst(aims: readonly Vec3[], to: Vec3, axis: Vec3, mostDeg: number, others: Float64Array): Float64Array {
  const least = portable.cos(radians(mostDeg));
  const aimed = aims.flatMap((aim) => {
    const way = subtract(to, aim);
    if (norm(way) < NEAR_MIDDLE_M) return [];
    const towards = unit(way);
    return dot(towards, axis) >= least ? [...towards] : [];
  });
  if (aimed.length === 0) return others;
  const all = new Float64Array(aimed.length + others.length);
  all.set(aimed);
  all.set(others, aimed.length);
  return all;
}

/** Directions are put in order by so many steps of how well they lie. */
const RANKS = 64;
const counts = new Int32Array(RANKS + 1);
const square = new Float64Array(6);

/** The directions of a cone turned to an axis, three numbers each, those most along `preferred` first. */
function turnedTo(axis: Vec3, cone: Float64Array, preferred: Vec3): Float64Array {
  squareAxes(axis[0], axis[1], axis[2], square, 0);
  const count = cone.length / 3;
  const turned = new Float64Array(cone.length);
  const ranks = new Uint8Array(count);
  counts.fill(0);
  for (let k = 0; k < count; k += 1) {
    const a = cone[3 * k] as number;
    const b = cone[3 * k + 1] as number;
    const c = cone[3 * k + 2] as number;
    let along = 0;
    for (let i = 0; i < 3; i += 1) {
      const way = (axis[i] as number) * a + (square[i] as number) * b + (square[3 + i] as number) * c;
      turned[3 * k + i] = way;
      along += way * (preferred[i] as number);
    }
    const rank = Math.min(RANKS - 1, Math.max(0, Math.floor(((1 - along) / 2) * RANKS)));
    ranks[k] = rank;
    counts[rank + 1] = (counts[rank + 1] as number) + 1;
  }
  for (let rank = 0; rank < RANKS; rank += 1)
    counts[rank + 1] = (counts[rank + 1] as number) + (counts[rank] as number);
  const ordered = new Float64Array(cone.length);
  for (let k = 0; k < count; k += 1) {
    const rank = ranks[k] as number;
    const place = counts[rank] as number;
    counts[rank] = place + 1;
    for (let i = 0; i < 3; i += 1) ordered[3 * place + i] = turned[3 * k + i] as number;
  }
  return ordered;
}

/** A stride that visits every one of n places once, each far from the one before. */
export function strideFor(n: number): number {
  const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));
  let stride = Math.max(1, Math.round(n * 0.382));
  while (common(stride, n) !== 1) stride += 1;
  return stride;
}

const voxelOf = (x: number, y: number, z: number, sizeM: number): number =>
  (Math.floor(x / sizeM) + 4096) * 67108864 + (Math.floor(y / sizeM) + 4096) * 8192 + Math.floor(z / sizeM) + 4096;
