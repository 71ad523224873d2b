import type { ArmPose } from '../../assess/access/reach/types';
import type { BodySizes } from '../../base/formulas/body-sizes';
import * as portable from '../../base/portable';
import { along, distance, dot, scale, squareTo, subtract, UP, unit, type Vec2, type Vec3 } from '../../base/vec';
import type { RehearsalStep } from '../../engine/service/service-report';
import { convexHull } from '../../shape/layout/outline';
import type { Solid } from '../../shape/space/solids';
import { circlePoints } from './curves';
import { area, depthOf, type Primitive, project, stroke, type ViewFrame } from './drawing';
import type { Ring } from './polygons';

/** What of a step is drawn. */
export type Enacted = Pick<RehearsalStep, 'person' | 'arms' | 'rays' | 'swept' | 'drip'>;

/** How the person is on the place: on the feet, on the knees, on the seat; lying; or on the knees with the place under the hips. */
export type Stance = 'stand' | 'kneel' | 'sit' | 'lie' | 'crouch';

/** Joints of a body, boat frame, metres: what its outline is drawn about. */
export interface Figure {
  readonly head: Vec3;
  readonly neck: Vec3;
  readonly hips: Vec3;
  readonly knee: Vec3;
  readonly foot: Vec3;
}

/** Sizes that are drawn and measured nowhere. Hip joint over the seat; neck and legs as capsules; from common practice, no source. */
const HIP_OVER_SEAT_M = 0.09;
const NECK_RADIUS_M = 0.05;
const THIGH_RADIUS_M = 0.075;
const SHANK_RADIUS_M = 0.055;
/** Centre of the head behind the eye, as a share of the head's radius. */
const EYE_OFF_HEAD = 0.85;
const JOINT_RADIUS_M = 0.016;
/** Knees before and below the hips of who kneels bent, as shares of the thigh. */
const CROUCH_AHEAD = 0.6;
const CROUCH_DOWN = 0.8;

/**
 * The body of whoever does a step: hips and knees are where trunk, thighs and shanks of these sizes join the shoulder to the place. Where
 * they do not reach, they are drawn straight. For the drawing alone: the verdict rests on the person's place, eye, shoulder and arms.
 */
export function figureOf(
  person: NonNullable<Enacted['person']>,
  stance: Stance,
  body: BodySizes,
  towards: Vec3,
): Figure {
  const { at, eye, shoulder } = person;
  const ahead = level(subtract(towards, at));
  const looks = unit(distance(towards, eye) > 1e-6 ? subtract(towards, eye) : ahead);
  const head = along(eye, looks, -EYE_OFF_HEAD * body.headRadiusM);
  const trunkM = body.sittingShoulderM - HIP_OVER_SEAT_M;
  const thighM = Math.max(0.2, body.kneelingShoulderM - trunkM);
  const legM = Math.max(thighM + 0.2, body.standingShoulderM - trunkM);
  const back = scale(ahead, -1);
  switch (stance) {
    case 'stand': {
      const hips = joint(at, shoulder, legM, trunkM, back);
      return { head, neck: shoulder, hips, knee: joint(at, hips, legM - thighM, thighM, ahead), foot: at };
    }
    case 'kneel':
      return {
        head,
        neck: shoulder,
        hips: joint(at, shoulder, thighM, trunkM, back),
        knee: at,
        foot: along(at, back, legM - thighM),
      };
    case 'crouch': {
      const knee = along(along(at, ahead, CROUCH_AHEAD * thighM), UP, -CROUCH_DOWN * thighM);
      return { head, neck: shoulder, hips: at, knee, foot: along(knee, back, legM - thighM) };
    }
    case 'sit': {
      const knee = along(at, ahead, thighM);
      return { head, neck: shoulder, hips: at, knee, foot: along(knee, UP, thighM - legM) };
    }
    case 'lie': {
      const away = level(subtract(at, shoulder));
      const knee = along(at, away, thighM);
      return { head, neck: shoulder, hips: at, knee, foot: along(knee, away, legM - thighM) };
    }
  }
}

/** Unit vector along the horizontal part; forward where there is none. */
function level([x, y]: Vec3): Vec3 {
  const length = portable.hypot(x, y);
  return length < 1e-6 ? [1, 0, 0] : [x / length, y / length, 0];
}

/** Where two links from `a` and `b` meet, bent towards `side`; on the straight line where they are too short. */
function joint(a: Vec3, b: Vec3, fromA: number, fromB: number, side: Vec3): Vec3 {
  const way = subtract(b, a);
  const apart = distance(a, b);
  if (apart < 1e-6) return along(a, side, fromA);
  const u = scale(way, 1 / apart);
  const reach = Math.min(fromA, Math.max(0, (apart * apart + fromA * fromA - fromB * fromB) / (2 * apart)));
  if (apart >= fromA + fromB) return along(a, way, fromA / (fromA + fromB));
  const square = subtract(side, scale(u, dot(side, u)));
  const off = Math.sqrt(Math.max(0, fromA * fromA - reach * reach));
  const out = distance(square, [0, 0, 0]) < 1e-6 ? squareTo(u) : unit(square);
  return along(along(a, u, reach), out, off);
}

/** What a view shows of a step, in the order in which it is painted; and where sight rays end. */
export interface RehearsalLines {
  /** Spaces that something moves through. */
  readonly swept: readonly Primitive[];
  readonly person: readonly Primitive[];
  /** Rays that arrive, then rays that are stopped. */
  readonly rays: readonly Primitive[];
  readonly arms: readonly Primitive[];
  readonly drip: readonly Primitive[];
  /** Where rays are stopped: a cross stands there. */
  readonly stops: readonly Vec2[];
}

/**
 * Line work of a step of a rehearsal. `target`: the place that is worked at. A body that would hide it is drawn in dashes alone, since what
 * lies behind it is what the drawing is about.
 */
export function rehearsalLines(
  step: Enacted,
  body: BodySizes,
  stance: Stance,
  target: Vec3,
  frame: ViewFrame,
): RehearsalLines {
  const { person, arms, rays, swept, drip } = step;
  const [free, stopped] = [rays.filter(({ isFree }) => isFree), rays.filter(({ isFree }) => !isFree)];
  return {
    swept: swept.map((solid, i) => area(`swept/${i}`, solid.owner, 'sweptSpace', [silhouetteOfSolid(solid, frame)])),
    person: person ? personLines(figureOf(person, stance, body, target), person.eye, body, target, frame) : [],
    rays: [
      ...free.map(({ from, to }, i) => stroke(`ray/${i}`, 'person', 'ray', [project(frame, from), project(frame, to)])),
      ...stopped.map(({ from, to }, i) =>
        stroke(`stopped/${i}`, 'person', 'rayStopped', [project(frame, from), project(frame, to)]),
      ),
    ],
    arms: arms.flatMap((arm, i) => armLines(arm, i, body, frame)),
    drip:
      drip.length < 2
        ? []
        : [
            stroke(
              'drip',
              'person',
              'dripWay',
              drip.map((p) => project(frame, p)),
            ),
          ],
    stops: stopped.map(({ to }) => project(frame, to)),
  };
}

function personLines(figure: Figure, eye: Vec3, body: BodySizes, target: Vec3, frame: ViewFrame): Primitive[] {
  const { head, neck, hips, knee, foot } = figure;
  const on = (p: Vec3): Vec2 => project(frame, p);
  // Limbs lie on the sole, not in it: the place is told by its surface.
  const sole = Math.min(foot[2], knee[2]);
  const rested = (p: Vec3, radius: number): Vec3 => [p[0], p[1], p[2] - sole < radius ? sole + radius : p[2]];
  const limbs: readonly (readonly [string, Vec3, Vec3, number])[] = [
    ['shank', rested(foot, SHANK_RADIUS_M), rested(knee, SHANK_RADIUS_M), SHANK_RADIUS_M],
    ['thigh', rested(knee, THIGH_RADIUS_M), rested(hips, THIGH_RADIUS_M), THIGH_RADIUS_M],
    ['trunk', rested(hips, body.trunkRadiusM), neck, body.trunkRadiusM],
    ['neck', neck, head, NECK_RADIUS_M],
    ['head', head, head, body.headRadiusM],
  ];
  // What stands farthest from the eye of the drawing is painted first.
  const ordered = [...limbs].sort(
    (a, b) => depthOf(frame, a[1]) + depthOf(frame, a[2]) - depthOf(frame, b[1]) - depthOf(frame, b[2]),
  );
  const hides = limbs.some(
    ([, a, b, radius]) =>
      Math.max(depthOf(frame, a), depthOf(frame, b)) > depthOf(frame, target) &&
      fromSegment(on(target), on(a), on(b)) < radius,
  );
  return [
    ...ordered.map(([id, a, b, radius]) =>
      area(`person/${id}`, 'person', hides ? 'personOver' : 'person', [capsuleOn(on(a), on(b), radius)]),
    ),
    area('person/eye', 'person', 'personEye', [discOn(on(eye), JOINT_RADIUS_M)]),
  ];
}

/** Links as capsules about the line through the joints, the hand as its box. */
function armLines(arm: ArmPose, index: number, body: BodySizes, frame: ViewFrame): Primitive[] {
  const on = (p: Vec3): Vec2 => project(frame, p);
  const { shoulder, elbow, wrist, grip } = arm;
  const name = `arm/${index}`;
  return [
    area(`${name}/upper`, 'person', 'arm', [capsuleOn(on(shoulder), on(elbow), body.upperArmRadiusM)]),
    area(`${name}/fore`, 'person', 'arm', [capsuleOn(on(elbow), on(wrist), body.forearmRadiusM)]),
    area(`${name}/hand`, 'person', 'arm', [handOn(arm, body, frame)]),
    stroke(`${name}/links`, 'person', 'armLink', [shoulder, elbow, wrist, grip].map(on)),
    ...[shoulder, elbow, wrist].map((p, i) =>
      area(`${name}/joint${i}`, 'person', 'armJoint', [discOn(on(p), JOINT_RADIUS_M)]),
    ),
  ];
}

/** Centre of the hand's box behind the middle of the grip, as a share of the way from wrist to grip. */
const HAND_BEHIND_GRIP = 0.25;

/** Box of the hand: along the hand, across the palm, thick. */
function handOn({ wrist, grip, palm }: ArmPose, body: BodySizes, frame: ViewFrame): Ring {
  const long = distance(grip, wrist) > 1e-6 ? unit(subtract(grip, wrist)) : squareTo(palm);
  const thick: Vec3 = [
    long[1] * palm[2] - long[2] * palm[1],
    long[2] * palm[0] - long[0] * palm[2],
    long[0] * palm[1] - long[1] * palm[0],
  ];
  const centre = along(grip, long, -HAND_BEHIND_GRIP * body.handM);
  const [length, wide, deep] = body.handBoxM;
  const corners: Vec2[] = [];
  for (const i of [-0.5, 0.5])
    for (const j of [-0.5, 0.5])
      for (const k of [-0.5, 0.5])
        corners.push(project(frame, along(along(along(centre, long, i * length), palm, j * wide), thick, k * deep)));
  return convexHull(corners);
}

const discOn = (centre: Vec2, radius: number): Ring => capsuleOn(centre, centre, radius);

/** Outline on paper of a round-ended body of that radius about the line from `a` to `b`. */
export function capsuleOn(a: Vec2, b: Vec2, radius: number): Ring {
  const round = (centre: Vec2): Vec2[] =>
    circlePoints([centre[0], centre[1], 0], UP, radius).map(([u, v]): Vec2 => [u, v]);
  const isPoint = portable.hypot(b[0] - a[0], b[1] - a[1]) < 1e-9;
  return isPoint ? round(a) : convexHull([...round(a), ...round(b)]);
}

/** What a solid covers on paper. */
export function silhouetteOfSolid(solid: Solid, frame: ViewFrame): Ring {
  switch (solid.type) {
    case 'capsule':
      return capsuleOn(project(frame, solid.from), project(frame, solid.to), solid.radius);
    case 'cylinder': {
      const axis = distance(solid.from, solid.to) > 1e-9 ? subtract(solid.to, solid.from) : UP;
      return convexHull(
        [solid.from, solid.to].flatMap((end) => circlePoints(end, axis, solid.radius)).map((p) => project(frame, p)),
      );
    }
    case 'box': {
      const corners: Vec2[] = [];
      for (const i of [-1, 1])
        for (const j of [-1, 1])
          for (const k of [-1, 1]) {
            const [x, y, z] = solid.axes;
            const [a, b, c] = solid.half;
            corners.push(project(frame, along(along(along(solid.centre, x, i * a), y, j * b), z, k * c)));
          }
      return convexHull(corners);
    }
  }
}

function fromSegment(p: Vec2, a: Vec2, b: Vec2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = dx * dx + dy * dy;
  const t = length < 1e-12 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length));
  return portable.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

/** All points that a rehearsal must keep in sight: of its steps, the thing and its openings. */
export function extentOfSteps(
  steps: readonly Enacted[],
  body: BodySizes,
  more: readonly Vec3[],
): { readonly low: Vec3; readonly high: Vec3 } {
  const points: Vec3[] = [...more];
  for (const { person, arms, swept, drip } of steps) {
    if (person) {
      const r = body.headRadiusM;
      points.push(person.at, along(person.eye, UP, r), person.shoulder);
      for (const [dx, dy] of [
        [-1, -1],
        [1, 1],
      ] as const)
        points.push([
          person.shoulder[0] + dx * body.trunkRadiusM,
          person.shoulder[1] + dy * body.trunkRadiusM,
          person.eye[2],
        ]);
    }
    for (const { shoulder, elbow, wrist, grip } of arms) points.push(shoulder, elbow, wrist, grip);
    for (const solid of swept) points.push(...(solid.type === 'box' ? [solid.centre] : [solid.from, solid.to]));
    points.push(...drip);
  }
  const k = (axis: 0 | 1 | 2, most: (...of: number[]) => number) => most(...points.map((p) => p[axis]));
  return {
    low: [k(0, Math.min), k(1, Math.min), k(2, Math.min)],
    high: [k(0, Math.max), k(1, Math.max), k(2, Math.max)],
  };
}
