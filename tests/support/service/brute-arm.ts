import type { ArmPose, BodySizes, Side } from '@core/assess/access/reach/types';
import type { Solid } from '@core/shape/space/solids';
import { inner, minus, normalised, outer, type P3, plus, times } from '../geometry-oracle';
import { randomFrom } from '../random';
import {
  armGap,
  bodyAt,
  bodyGap,
  ELBOW_DEG,
  graspFaults,
  handBox,
  handWay,
  isTurnedAway,
  jointFaults,
  SHOULDER_DEG,
  shoulderFaults,
  shoulderWay,
  WRIST_DEG,
} from './arm-model';
import type { ArmScene, Attitude } from './arm-scene';
import { CELL_M, NearField } from './near-field';

/**
 * What is true of the poses of a scene, as far as brute force tells at ten millimetres: `none`: even an arm a cell thinner all round has no
 * pose; `pose`: a pose that is free, by its gap; `band`: within a cell of the one and the other.
 */
export type Truth =
  | { readonly kind: 'none'; readonly looked: number }
  | {
      readonly kind: 'pose';
      readonly pose: ArmPose;
      readonly attitude: Attitude;
      readonly side: Side;
      readonly gapM: number;
      readonly looked: number;
    }
  | { readonly kind: 'band'; readonly looked: number };

const DEGREE = Math.PI / 180;
/** Directions of the hand and of the forearm; at a hand's or a forearm's length they are a cell apart. */
const HAND_DEG = 5;
const FOREARM_DEG = 2.1;
const ROLL_DEG = 10;
/** Forearms that are kept for one cell of the elbow, and how different they must be. */
const KEPT = 3;
const UNLIKE_COS = Math.cos(25 * DEGREE);
/** Doubtful poses that are looked at exactly, at most, and the room at which the search is content. */
const MOST_EXACT = 400;
/** Of the shoulders of one elbow so many are found, and of those so many looked at exactly. */
const FOUND = 24;
const LOOKED = 2;
/** Deeper in something than this no shaking helps. */
const HOPELESS_M = -0.03;
const CONTENT_M = 0.006;

/** Directions about as far from one another as asked, all over the sphere (Fibonacci). */
function directions(stepDeg: number): P3[] {
  const count = Math.ceil((4 * Math.PI) / (stepDeg * DEGREE) ** 2);
  return Array.from({ length: count }, (_, n) => {
    const z = 1 - (2 * n + 1) / count;
    const r = Math.sqrt(1 - z * z);
    const angle = 2.399963229728653 * n;
    return [r * Math.cos(angle), r * Math.sin(angle), z];
  });
}
const HANDS = directions(HAND_DEG);
const FOREARMS = directions(FOREARM_DEG);

interface Elbow {
  readonly at: P3;
  readonly forearm: P3;
  readonly hand: P3;
  readonly palm: P3;
}

export function bruteTruth(scene: ArmScene): Truth {
  const nominal = bestPose(scene);
  if (nominal.kind !== 'band') return nominal;
  const thin = bestPose({ ...scene, body: thinner(scene.body, CELL_M) });
  return thin.kind === 'pose' ? nominal : { kind: 'none', looked: nominal.looked + thin.looked };
}

const thinner = (body: BodySizes, by: number): BodySizes => ({
  ...body,
  upperArmRadiusM: body.upperArmRadiusM - by,
  forearmRadiusM: body.forearmRadiusM - by,
  handBoxM: [body.handBoxM[0] - 2 * by, body.handBoxM[1] - 2 * by, body.handBoxM[2] - 2 * by],
  trunkRadiusM: body.trunkRadiusM - by,
  headRadiusM: body.headRadiusM - by,
});

function bestPose(scene: ArmScene): Truth {
  const { grasp, body, posture } = scene;
  const [low, high] = whereaboutsOf(scene);
  const isOwn = (solid: Solid): boolean => solid.owner === grasp.own;
  const others = new NearField(
    low,
    high,
    scene.solids.filter((solid) => !isOwn(solid)),
  );
  const all = new NearField(low, high, scene.solids.filter(isOwn), others);
  const elbows = elbowsOf(scene, others, all);
  const shoulders = new Shoulders(scene, all);
  let looked = 0;
  let best: Extract<Truth, { kind: 'pose' }> | null = null;
  let doubtful = 0;
  const next = randomFrom(scene.seed + 5);
  for (const elbow of shuffled(elbows, scene.seed)) {
    for (const { at, attitude, side } of someOf(shoulders.about(elbow.at), next)) {
      const upper = times(minus(elbow.at, at), 1 / body.upperArmM);
      looked += 1;
      if (inner(upper, elbow.forearm) < Math.cos(ELBOW_DEG * DEGREE)) continue;
      doubtful += 1;
      const wrist = plus(elbow.at, times(elbow.forearm, body.forearmM));
      const pose: ArmPose = {
        shoulder: at,
        elbow: elbow.at,
        wrist,
        grip: plus(wrist, times(elbow.hand, body.handM)),
        palm: elbow.palm,
      };
      const gapM = gapOf(scene, pose, attitude, best ? best.gapM : HOPELESS_M);
      if (gapM > (best ? best.gapM : HOPELESS_M)) {
        const better = climbed(scene, { pose, attitude, side, gapM });
        if (!best || better.gapM > best.gapM) best = { kind: 'pose', ...better, looked };
      }
      if ((best && best.gapM > CONTENT_M) || doubtful >= MOST_EXACT) break;
    }
    if ((best && best.gapM > CONTENT_M) || doubtful >= MOST_EXACT) break;
  }
  if (doubtful === 0) return { kind: 'none', looked };
  return best && best.gapM >= 0 ? { ...best, looked } : { kind: 'band', looked };

  function elbowsOf({ grasp: g }: ArmScene, handField: NearField, armField: NearField): Elbow[] {
    const kept = new Map<number, Elbow[]>();
    const cone = Math.cos(g.coneDeg * DEGREE);
    for (const hand of HANDS) {
      if (g.normal && inner(hand, times(g.normal, -1)) < cone) continue;
      const off = g.toolM > 0 ? g.toolM : g.standOffM;
      const grip = g.normal ? plus(g.point, times(g.normal, off)) : minus(g.point, times(hand, off));
      const wrist = minus(grip, times(hand, body.handM));
      const palm = freePalm(hand, grip, wrist, handField);
      if (!palm) continue;
      const least = Math.cos(WRIST_DEG * DEGREE);
      for (const forearm of FOREARMS) {
        if (forearm[0] * hand[0] + forearm[1] * hand[1] + forearm[2] * hand[2] < least) continue;
        const at = minus(wrist, times(forearm, body.forearmM));
        const cell = cellOf(at);
        const list = kept.get(cell);
        if (list && (list.length >= KEPT || list.some((one) => inner(one.forearm, forearm) > UNLIKE_COS))) continue;
        if (!shoulderNear(at) || armField.capsuleHits(at, wrist, body.forearmRadiusM)) continue;
        const elbow = { at, forearm, hand, palm };
        if (list) list.push(elbow);
        else kept.set(cell, [elbow]);
      }
    }
    return [...kept.values()].flat();
  }

  /** Whether a shoulder of the posture is as far from an elbow as an upper arm is long. */
  function shoulderNear(at: P3): boolean {
    const length = body.upperArmM ** 2;
    for (const { centre, half, axes } of posture.shoulders) {
      let near = 0;
      let far = 0;
      for (let k = 0; k < 3; k += 1) {
        const axis = axes[k] as P3;
        const q = Math.abs(
          (at[0] - centre[0]) * axis[0] + (at[1] - centre[1]) * axis[1] + (at[2] - centre[2]) * axis[2],
        );
        const h = half[k] as number;
        if (q > h) near += (q - h) ** 2;
        far += (q + h) ** 2;
      }
      if (near <= length && far >= length) return true;
    }
    return false;
  }

  function freePalm(hand: P3, grip: P3, wrist: P3, field: NearField): P3 | null {
    const side = normalised(outer(hand, Math.abs(hand[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
    const other = outer(hand, side);
    for (let deg = 0; deg < 180; deg += ROLL_DEG) {
      const palm = plus(times(side, Math.cos(deg * DEGREE)), times(other, Math.sin(deg * DEGREE)));
      const box = handBox({ shoulder: grip, elbow: grip, wrist, grip, palm }, body);
      if (!boxHit(field, box)) return palm;
    }
    return null;
  }
}

const cellOf = (p: P3): number =>
  ((Math.round(p[0] / CELL_M) + 2048) * 4096 + Math.round(p[1] / CELL_M) + 2048) * 4096 +
  Math.round(p[2] / CELL_M) +
  2048;

/** Box in which elbow, hand and shoulders can be; what is beyond is looked at exactly, and only in the end. */
function whereaboutsOf({ grasp, body, posture }: ArmScene): readonly [P3, P3] {
  const armM = Math.max(grasp.toolM, grasp.standOffM) + body.handM + body.forearmM + 0.05;
  const farM = armM + body.upperArmM;
  const at = (k: 0 | 1 | 2, sign: 1 | -1): number => {
    const elbows = grasp.point[k] + sign * armM;
    const shoulders = posture.shoulders.map(({ centre, half, axes }) => {
      const reach = axes.reduce((sum, axis, i) => sum + Math.abs(axis[k]) * (half[i] as number), 0) + 0.1;
      return sign * Math.min(sign * (grasp.point[k] + sign * farM), sign * (centre[k] + sign * reach));
    });
    return sign * Math.max(sign * elbows, ...shoulders.map((v) => sign * v));
  };
  return [
    [at(0, -1), at(1, -1), at(2, -1)],
    [at(0, 1), at(1, 1), at(2, 1)],
  ];
}

/** True where a node within the box is within a solid. */
function boxHit(field: NearField, { centre, half, axes }: ReturnType<typeof handBox>): boolean {
  const inset = CELL_M;
  const counts = half.map((h) => Math.max(1, Math.ceil((2 * (h - inset)) / CELL_M)));
  for (let i = 0; i <= (counts[0] as number); i += 1)
    for (let j = 0; j <= (counts[1] as number); j += 1)
      for (let k = 0; k <= (counts[2] as number); k += 1) {
        const p = [i, j, k].reduce<P3>((q, n, axis) => {
          const h = Math.max(0, (half[axis] as number) - inset);
          return plus(q, times(axes[axis] as P3, -h + (2 * h * n) / (counts[axis] as number)));
        }, centre);
        if (field.at(p[0], p[1], p[2]) === 0) return true;
      }
  return false;
}

interface Shoulder {
  readonly at: P3;
  readonly attitude: Attitude;
  readonly side: Side;
}

/** Shoulders on a lattice over two sides of their region, the third solved so that the upper arm has its length. */
class Shoulders {
  private readonly bodies = new Map<number, boolean>();
  private readonly turns: readonly {
    readonly n: number;
    readonly attitude: Attitude;
    readonly side: Side;
    readonly way: P3;
  }[];

  constructor(
    private readonly scene: ArmScene,
    private readonly field: NearField,
  ) {
    this.turns = scene.posture.attitudes.flatMap((attitude, n) =>
      (['right', 'left'] as const)
        .filter((side) => !isTurnedAway(scene, attitude, side))
        .map((side) => ({ n, attitude, side, way: shoulderWay(attitude, side) })),
    );
  }

  *about(elbow: P3): Generator<Shoulder> {
    const { posture, body } = this.scene;
    const length = body.upperArmM;
    for (const { centre, half, axes } of posture.shoulders) {
      const order: (0 | 1 | 2)[] = [0, 1, 2];
      const [a, b, c] = order.sort((p, q) => half[q] - half[p]) as [0 | 1 | 2, 0 | 1 | 2, 0 | 1 | 2];
      const q = minus(elbow, centre);
      const [qa, qb, qc] = [inner(q, axes[a]), inner(q, axes[b]), inner(q, axes[c])];
      const from = (low: number): number => Math.ceil(low / CELL_M);
      for (let i = from(Math.max(-half[a], qa - length)); i * CELL_M <= Math.min(half[a], qa + length); i += 1) {
        const rest = length ** 2 - (i * CELL_M - qa) ** 2;
        if (rest < 0) continue;
        const wide = Math.sqrt(rest);
        for (let j = from(Math.max(-half[b], qb - wide)); j * CELL_M <= Math.min(half[b], qb + wide); j += 1) {
          const deep = Math.sqrt(Math.max(0, rest - (j * CELL_M - qb) ** 2));
          for (const w of [qc - deep, qc + deep]) {
            if (Math.abs(w) > half[c]) continue;
            const at: P3 = [
              centre[0] + axes[a][0] * i * CELL_M + axes[b][0] * j * CELL_M + axes[c][0] * w,
              centre[1] + axes[a][1] * i * CELL_M + axes[b][1] * j * CELL_M + axes[c][1] * w,
              centre[2] + axes[a][2] * i * CELL_M + axes[b][2] * j * CELL_M + axes[c][2] * w,
            ];
            if (!this.isFooted(at) || this.field.capsuleHits(at, elbow, body.upperArmRadiusM)) continue;
            const fits = this.fitting(at, elbow);
            if (fits) yield { at, ...fits };
          }
        }
      }
    }
  }

  private isFooted(at: P3): boolean {
    const { footing } = this.scene.posture;
    return (
      !footing ||
      (at[2] >= footing.lowM &&
        at[2] <= footing.highM &&
        Math.hypot(at[0] - footing.at[0], at[1] - footing.at[1]) <= footing.farM)
    );
  }

  /** The first turn of the body that lets the arm point there and overlaps nothing for sure. */
  private fitting(at: P3, elbow: P3): { attitude: Attitude; side: Side } | null {
    const least = Math.cos(SHOULDER_DEG * DEGREE) * this.scene.body.upperArmM;
    for (const { n, attitude, side, way } of this.turns)
      if (inner(minus(elbow, at), way) >= least && this.isBodyFree(at, attitude, n)) return { attitude, side };
    return null;
  }

  private isBodyFree(at: P3, attitude: Attitude, n: number): boolean {
    // Of shoulders in one cell the first tells for all; the exact look comes later.
    const cell = cellOf(at) * 64 + n;
    const known = this.bodies.get(cell);
    if (known !== undefined) return known;
    const { body } = this.scene;
    const { neck, hips, head } = bodyAt(at, attitude, body);
    const top = minus(neck, times(attitude.spine, 0.1));
    const isFree =
      !this.field.capsuleHits(top, hips, body.trunkRadiusM - CELL_M) &&
      !this.field.hits(head[0], head[1], head[2], body.headRadiusM - CELL_M);
    this.bodies.set(cell, isFree);
    return isFree;
  }
}

/** Room of arm and body, or something no more than `enough`. */
const gapOf = (scene: ArmScene, pose: ArmPose, attitude: Attitude, enough: number): number => {
  const arm = armGap(scene, pose, undefined, enough).gapM;
  return arm <= enough ? arm : Math.min(arm, bodyGap(scene, bodyAt(pose.shoulder, attitude, scene.body)).gapM);
};

interface Found {
  readonly pose: ArmPose;
  readonly attitude: Attitude;
  readonly side: Side;
  readonly gapM: number;
}

/** The pose shaken into more room, as long as that helps: small seeded turns of each link, the grip held. */
function climbed(scene: ArmScene, found: Found): Found {
  const next = randomFrom(scene.seed * 31 + 7);
  const { body, grasp } = scene;
  let best = found;
  let pace = 0.06;
  for (let n = 0; n < 160 && best.gapM < CONTENT_M && pace > 2e-3; n += 1) {
    const shake = (v: P3): P3 =>
      normalised(plus(v, [pace * (next() - 0.5), pace * (next() - 0.5), pace * (next() - 0.5)]));
    const { pose } = best;
    const hand = shake(handWay(pose));
    const forearm = shake(normalised(minus(pose.wrist, pose.elbow)));
    const upper = shake(normalised(minus(pose.elbow, pose.shoulder)));
    const off = grasp.toolM > 0 ? grasp.toolM : grasp.standOffM;
    const grip = grasp.normal ? pose.grip : minus(grasp.point, times(hand, off));
    const wrist = minus(grip, times(hand, body.handM));
    const elbow = minus(wrist, times(forearm, body.forearmM));
    const shoulder = minus(elbow, times(upper, body.upperArmM));
    const palm = normalised(outer(outer(hand, shake(pose.palm)), hand));
    const tried: ArmPose = { shoulder, elbow, wrist, grip, palm };
    const isAllowed =
      shoulderFaults(scene, shoulder).length === 0 &&
      graspFaults(tried, grasp).length === 0 &&
      jointFaults(tried, body, shoulderWay(best.attitude, best.side)).length === 0;
    const gapM = isAllowed ? gapOf(scene, tried, best.attitude, best.gapM) : Number.NEGATIVE_INFINITY;
    if (gapM > best.gapM) best = { ...best, pose: tried, gapM };
    else pace *= 0.98;
  }
  return best;
}

/** A few of those that come first, chosen by chance. */
function someOf(all: Iterable<Shoulder>, next: () => number): Shoulder[] {
  const found: Shoulder[] = [];
  for (const one of all) {
    found.push(one);
    if (found.length >= FOUND) break;
  }
  return Array.from(
    { length: Math.min(LOOKED, found.length) },
    () => found[Math.floor(next() * found.length)] as Shoulder,
  );
}

/** In a seeded order, so that a scene with many poses is soon done with. */
function shuffled<T>(list: readonly T[], seed: number): T[] {
  const next = randomFrom(seed + 1);
  const out = [...list];
  for (let n = out.length - 1; n > 0; n -= 1) {
    const k = Math.floor(next() * (n + 1));
    const swap = out[n] as T;
    out[n] = out[k] as T;
    out[k] = swap;
  }
  return out;
}
