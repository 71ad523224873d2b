import { seededRandom } from '../../../base/seeded-random';
import { turnOf } from '../../../base/turning';
import {
  add,
  angleBetween,
  degrees,
  type Pose,
  type Rotation,
  rotationOf,
  scale,
  UP,
  type Vec3,
} from '../../../base/vec';
import type { Shape } from '../../../boat/schema/boat';
import { ballMayPass } from '../../../shape/space/carrying/ball-path';
import {
  axesOf,
  bodyOfShape,
  type CarriedBody,
  type CarriedPose,
  grownBody,
  onLeg,
  quaternionOf,
} from '../../../shape/space/carrying/carried-body';
import { THE_HULL } from '../../../shape/space/carrying/clear-room';
import { type Gate, neighboursAt, straightOut } from '../../../shape/space/carrying/straight-moves';
import { type Tightest, tightnessOf, type WayTightness } from '../../../shape/space/carrying/tightest';
import { LEAST_GROWN_M, treesOut } from '../../../shape/space/carrying/two-trees';
import { axesInFrame, fromFrame, toFrame, turnFromFrame } from '../../../shape/space/carrying/way-frame';
import { type Blocker, HULL } from '../../../shape/space/free-depth';
import { type Passage, passOpening } from '../../../shape/space/passing';
import type { Passed, Stage, WayRoom } from './way-room';

/** A part may stand so far in what it is said to stand beside: more is no place for it (metres). */
const PLACE_TAKEN_M = 2e-4;
/** The smaller part that is asked about where no way was found: every side by this share. */
const SMALLER = 0.8;

export interface TightPlace extends Blocker {
  /** Every side of the part could be longer by this and pass the same way. */
  readonly spareM: number;
}

export type GettingIn =
  | {
      readonly outcome: 'goesIn';
      /** straight: never turned on the way. */
      readonly how: 'straight' | 'turned';
      /**
       * Poses from outside to the place, in the boat. Between two of them the middle goes straight while the part turns evenly about one axis.
       */
      readonly moves: readonly Pose[];
      /** Where the openings are tightest, and what is tightest besides; null where that is roomy. */
      readonly gate: TightPlace;
      readonly beside: TightPlace | null;
      /** Greatest lean on the way of what is upright at the place. */
      readonly tiltDeg: number;
      /** From the outermost. */
      readonly openings: readonly string[];
    }
  | {
      readonly outcome: 'cannot';
      /**
       * side, diagonal: no turn of it passes the opening; length: longer than anything in the compartment; ball: not even the ball within it
       * has a way; placeTaken: something stands where it is to stand.
       */
      readonly proof: 'side' | 'diagonal' | 'length' | 'ball' | 'placeTaken';
      readonly missingM: number | null;
      readonly opening: string | null;
      readonly by: Blocker | null;
    }
  | {
      readonly outcome: 'notFound';
      readonly tried: { readonly straight: number; readonly poses: number };
      /** Opening at which no way out was found. */
      readonly opening: string;
      /** A way was found for it with nothing standing there; null: not asked. */
      readonly ifEmpty: boolean | null;
      /** A way was found for a part that is smaller by a fifth; null: not asked. */
      readonly ifSmaller: boolean | null;
    };

export interface CarryOptions {
  /** Poses that may be looked at for each opening; 0: straight moves alone. */
  readonly looks: number;
  readonly seed: string;
  /** Every side longer by this; negative: shorter. */
  readonly longerM?: number;
  /** A way on which every side could be longer by this is looked for first. */
  readonly wantedM?: number;
  /** Ask what would help where no way is found; each costs one more search. */
  readonly explains?: boolean;
}

export interface Carried {
  readonly shape: Shape;
  readonly pose: Pose;
}

/** Whether a part passes the openings of a way at all: theorems on their sizes, in microseconds. The one that decides. */
export function canPass(
  shape: Shape,
  passed: readonly Passed[],
): { readonly opening: string; readonly passage: Passage } | null {
  let worst: { readonly opening: string; readonly passage: Passage } | null = null;
  for (const { id, opening } of passed) {
    const passage = passOpening(shape, opening);
    if (!worst || (passage.outcome === 'cannot') !== (worst.passage.outcome === 'cannot')) {
      if (!worst || passage.outcome === 'cannot') worst = { opening: id, passage };
    } else if (passage.spareM < worst.passage.spareM) worst = { opening: id, passage };
  }
  return worst;
}

/**
 * The way of a part from where a person stands through the openings to its place: a proof that there is none, else straight moves, else two
 * trees in which it is turned. The same answer for the same seed; mirrored or shifted, the boat gives the same.
 */
export function gettingIn({ shape, pose }: Carried, room: WayRoom, options: CarryOptions): GettingIn {
  const worst = canPass(longer(shape, options.longerM ?? 0), room.way.passed);
  if (worst?.passage.outcome === 'cannot') {
    const { proof, spareM } = worst.passage;
    return { outcome: 'cannot', proof, missingM: -spareM, opening: worst.opening, by: null };
  }
  const body = grownBody(bodyOfShape(shape), (options.longerM ?? 0) / 2);
  const innermost = room.way.passed.length - 1;
  const taken = placeTaken(room, room.stage(innermost, pose.at), body, pose);
  if (taken) return taken;
  const found = carriedOut(body, pose, room, options, false);
  if ('legs' in found) return wayIn(found.legs, pose, room);
  if (options.looks > 0) {
    const proof = ballProof(body, pose, room);
    if (proof) return proof;
  }
  const asks = options.explains === true && options.looks > 0;
  const small = grownBodyBy(body, SMALLER);
  return {
    outcome: 'notFound',
    tried: found.tried,
    opening: found.opening,
    ifEmpty: asks ? 'legs' in carriedOut(body, pose, room, options, true) : null,
    ifSmaller: asks ? 'legs' in carriedOut(small, pose, room, options, false) : null,
  };
}

function longer(shape: Shape, byM: number): Shape {
  if (byM === 0) return shape;
  const side = (m: number): number => Math.max(1e-6, m + byM);
  return shape.type === 'box'
    ? { ...shape, sizeM: [side(shape.sizeM[0]), side(shape.sizeM[1]), side(shape.sizeM[2])] }
    : { ...shape, diameterM: side(shape.diameterM), lengthM: side(shape.lengthM) };
}

const grownBodyBy = ({ half, round }: CarriedBody, factor: number): CarriedBody => ({
  half: scale(half, factor),
  round,
});

/** One opening passed, from inside to outside, in the frame of its stage. */
interface Leg {
  readonly stage: Stage;
  readonly path: readonly CarriedPose[];
  /** Back from the axes of the frame to those of the part. */
  readonly signs: Vec3;
  readonly isStraight: boolean;
  readonly tightness: WayTightness;
}

function placeIn(stage: Stage, pose: Pose): { readonly start: CarriedPose; readonly signs: Vec3 } {
  const { axes, signs } = axesInFrame(stage.frame, rotationOf(pose));
  return { start: { at: toFrame(stage.frame, pose.at), turn: quaternionOf(axes) }, signs };
}

function poseInBoat(stage: Stage, { at, turn }: CarriedPose, signs: Vec3): Pose {
  const a = axesOf(turn);
  const axes = [0, 1, 2].map((k) =>
    scale(
      turnFromFrame(stage.frame, [a[3 * k] as number, a[3 * k + 1] as number, a[3 * k + 2] as number]),
      signs[k] as number,
    ),
  ) as unknown as Rotation;
  return { at: fromFrame(stage.frame, at), ...turnOf(axes) };
}

function placeTaken(room: WayRoom, stage: Stage, body: CarriedBody, pose: Pose): GettingIn | null {
  const { start } = placeIn(stage, pose);
  stage.room.carry(grownBody(body, -PLACE_TAKEN_M));
  if (stage.room.room(start, 0.01) > 0) return null;
  return {
    outcome: 'cannot',
    proof: 'placeTaken',
    missingM: null,
    opening: null,
    by: nameOf(stage, stage.room.nearest, pose.at, room),
  };
}

function nameOf(stage: Stage, index: number, at: Vec3, room: WayRoom): Blocker | null {
  if (index === THE_HULL) return { ...HULL, at };
  const obstruction = stage.room.obstructions[index];
  if (!obstruction) return null;
  const { owner, label, solid } = obstruction;
  if (solid.type !== 'plate') return { id: solid.id, owner, label, layer: solid.layer, at };
  // A wall may have been cut into pieces.
  const wall = room.around.layout.walls.find(({ id }) => solid.id === id || solid.id.startsWith(`${id}/`));
  return { id: wall?.id ?? solid.id, owner, label, layer: 'wall', at };
}

type CarriedOut =
  | { readonly legs: readonly Leg[] }
  | { readonly opening: string; readonly tried: { readonly straight: number; readonly poses: number } };

/** Out through one opening after the other, from the innermost. */
function carriedOut(body: CarriedBody, pose: Pose, room: WayRoom, options: CarryOptions, emptied: boolean): CarriedOut {
  const legs: Leg[] = [];
  let now = pose;
  let straight = 0;
  let poses = 0;
  const { passed } = room.way;
  const aboutM = Math.max(0, options.wantedM ?? 0) / 2;
  for (let index = passed.length - 1; index >= 0; index -= 1) {
    const stage = room.stage(index, pose.at, emptied);
    const { start, signs } = placeIn(stage, now);
    const { widthM, heightM, shape } = stage.passed.opening;
    const gate: Gate = { widthM, heightM, isRound: shape === 'round' };
    const before = stage.room.looks;
    const except = neighboursAt(stage.room, body, start, aboutM);
    const roomy = aboutM > 0 ? straightOut(stage.room, body, gate, start, { aboutM, except }) : null;
    const snug = roomy ?? straightOut(stage.room, body, gate, start);
    straight += stage.room.looks - before;
    const from = stage.room.looks;
    const { looks } = options;
    const turned = (about: number, most: number): readonly CarriedPose[] | null =>
      treesOut({
        room: stage.room,
        body,
        gate,
        start,
        aboutM: about,
        low: stage.low,
        high: stage.high,
        looks: most,
        random: seededRandom(`${options.seed} ${stage.passed.id}`),
      });
    let path = roomy;
    if (!path && looks > 0 && aboutM > LEAST_GROWN_M) path = turned(aboutM, Math.ceil(looks / 2));
    path ??= snug;
    if (!path && looks > 0) path = turned(LEAST_GROWN_M, looks);
    const isStraight = path !== null && (path === roomy || path === snug);
    poses += stage.room.looks - from;
    if (!path) return { opening: stage.passed.id, tried: { straight, poses } };
    const isFromPlace = index === passed.length - 1;
    const tightness = tightnessOf(stage.room, body, gate, path, isFromPlace ? except : null);
    legs.push({ stage, path, signs, isStraight, tightness });
    now = poseInBoat(stage, path.at(-1) as CarriedPose, signs);
  }
  return { legs };
}

function wayIn(legs: readonly Leg[], place: Pose, room: WayRoom): GettingIn {
  const out = legs.flatMap(({ stage, path, signs }, n) =>
    path.slice(n === 0 ? 0 : 1).map((pose) => poseInBoat(stage, pose, signs)),
  );
  const tightPlace = (stage: Stage, { spareM, index, pose }: Tightest): TightPlace => {
    const { id, opening } = stage.passed;
    const at = fromFrame(stage.frame, pose.at);
    const named = index === null ? null : nameOf(stage, index, at, room);
    return { ...(named ?? { id, owner: id, label: opening.name, layer: 'wall', at: [...opening.at] }), spareM };
  };
  const least = (places: readonly TightPlace[]): TightPlace | null =>
    places.reduce<TightPlace | null>((a, b) => (a && a.spareM <= b.spareM ? a : b), null);
  return {
    outcome: 'goesIn',
    how: legs.every(({ isStraight }) => isStraight) ? 'straight' : 'turned',
    moves: [...out.slice(1).reverse(), place],
    gate: least(legs.map(({ stage, tightness }) => tightPlace(stage, tightness.gate))) as TightPlace,
    beside: least(
      legs.flatMap(({ stage, tightness }) => (tightness.beside ? [tightPlace(stage, tightness.beside)] : [])),
    ),
    tiltDeg: Math.max(0, ...legs.map((leg) => tiltOn(leg, place))),
    openings: room.way.passed.map(({ id }) => id),
  };
}

/** Looks at so many poses of a leg for its greatest lean. */
const LEAN_LOOKS = 8;

function tiltOn({ stage, path, signs, isStraight }: Leg, place: Pose): number {
  if (isStraight) return 0;
  const own = rotationOf(place);
  // What is upright at the place, by the part's own axes.
  const upright = own.map((axis) => axis[2]) as unknown as Vec3;
  let most = 0;
  path.slice(1).forEach((to, n) => {
    for (let k = 0; k <= LEAN_LOOKS; k += 1) {
      const a = axesOf(onLeg(path[n] as CarriedPose, to, k / LEAN_LOOKS).turn);
      const lean = [0, 1, 2].reduce<Vec3>(
        (sum, i) =>
          add(
            sum,
            scale(
              turnFromFrame(stage.frame, [a[3 * i] as number, a[3 * i + 1] as number, a[3 * i + 2] as number]),
              (signs[i] as number) * (upright[i] as number),
            ),
          ),
        [0, 0, 0],
      );
      most = Math.max(most, degrees(angleBetween(lean, UP)));
    }
  });
  return most;
}

/** Room about the boxes of a flood, in which what leaves them counts as out (metres). */
const AROUND_M = 0.06;
/** What is missing is found to this (metres). */
const MISSING_M = 0.002;

/** A ball of half the smallest side is within the part, and must have a way of its own; what it lacks at least is found by halving. */
function ballProof(body: CarriedBody, pose: Pose, room: WayRoom): GettingIn | null {
  const stage = room.forProof(pose.at);
  const from = toFrame(stage.frame, pose.at);
  const [low, high] = [stage.low, stage.high].map(([u, v, w], n): Vec3 => {
    const by = n === 0 ? -AROUND_M : AROUND_M;
    return [u + by, v + by, w + by];
  }) as [Vec3, Vec3];
  const mayPass = (radiusM: number): boolean => ballMayPass(stage.room, radiusM, from, { low, high });
  const radiusM = Math.min(...body.half);
  if (mayPass(radiusM)) return null;
  let [passes, stuck] = [0, radiusM];
  while (stuck - passes > MISSING_M / 2) {
    const middle = (passes + stuck) / 2;
    if (mayPass(middle)) passes = middle;
    else stuck = middle;
  }
  return { outcome: 'cannot', proof: 'ball', missingM: 2 * (radiusM - stuck), opening: null, by: null };
}
