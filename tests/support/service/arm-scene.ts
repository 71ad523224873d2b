import type { BodySizes, Grasp, Posture } from '@core/assess/access/reach/types';
import type { BoxSolid, Solid } from '@core/shape/space/solids';
import { pointGap } from '../convex-gap';
import { type Dice, dice } from '../dice';
import { inner, minus, normalised, outer, type P3, plus, times, turned } from '../geometry-oracle';

/** Where somebody's shoulder may be, how the body may be turned, and what the arm goes through: as arms are asked. */
export interface Region {
  readonly centre: P3;
  readonly half: P3;
  readonly axes: readonly [P3, P3, P3];
}
export interface Attitude {
  readonly spine: P3;
  readonly across: P3;
}
interface Gate {
  readonly at: P3;
  readonly out: P3;
  readonly across: P3;
  readonly up: P3;
  readonly widthM: number;
  readonly heightM: number;
  readonly outerM: number;
}
interface PostureRegion {
  readonly posture: Posture;
  readonly opening: string | null;
  readonly gate: Gate | null;
  readonly shoulders: readonly Region[];
  readonly footing: { readonly at: P3; readonly farM: number; readonly lowM: number; readonly highM: number } | null;
  readonly attitudes: readonly Attitude[];
  readonly eyes: readonly Region[];
}

/**
 * Lockers as they are on a bad day: 0.4 to 1.2 m each way behind one or two openings, five to twenty boxes (a third of them turned), pipes
 * and hoses in them, and something to be reached on the face of one of them. Local axes while a scene is made: x into the locker from the
 * person, z up; then all of it is turned about z and shifted, so that no axis of the boat is special.
 */
export interface ArmScene {
  readonly seed: number;
  readonly posture: PostureRegion;
  readonly grasp: Grasp;
  readonly body: BodySizes;
  readonly solids: readonly Solid[];
}

/** Middling adult of the measurements (links 330, 270, 100 mm) and two others; from memory, as every size here. */
const BODIES: readonly BodySizes[] = [0.9, 1, 1.12].map((k) => ({
  upperArmM: 0.33 * k,
  forearmM: 0.27 * k,
  handM: 0.1 * k,
  upperArmRadiusM: 0.058 * (k > 1 ? 1.04 : 1),
  forearmRadiusM: 0.048 * (k > 1 ? 1.04 : 1),
  handBoxM: [0.12 * k, 0.12, 0.09],
  trunkRadiusM: 0.105,
  headRadiusM: 0.095,
  shouldersM: 0.34 * k,
  standingShoulderM: 1.35 * k,
  standingEyeM: 1.55 * k,
  kneelingShoulderM: 0.75 * k,
  sittingShoulderM: 0.56 * k,
  eyeOverShoulderM: 0.2,
}));

const WALL_M = 0.018;
/** The face that a person stands before goes on so far beyond the locker. */
const FRONT_M = 0.7;
const UNTURNED: readonly [P3, P3, P3] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

const UP: P3 = [0, 0, 1];

type Kind = 'lean' | 'headIn' | 'lie' | 'climbIn' | 'jointLimit';
/** Of twenty scenes. */
const MIX: readonly Kind[] = [
  ...Array<Kind>(8).fill('lean'),
  ...Array<Kind>(4).fill('headIn'),
  ...Array<Kind>(4).fill('lie'),
  ...Array<Kind>(2).fill('climbIn'),
  ...Array<Kind>(2).fill('jointLimit'),
];

export function armScene(seed: number): ArmScene {
  const roll = dice(seed * 7919 + 13);
  const kind = MIX[seed % MIX.length] as Kind;
  const isInside = kind === 'climbIn' || kind === 'jointLimit';
  const size: P3 = isInside
    ? [roll.from(0.7, 1.2), roll.from(0.7, 1.2), roll.from(0.9, 1.2)]
    : [roll.from(0.4, 1), roll.from(0.4, 1.2), roll.from(0.4, 1)];
  const [low, high] = kind === 'headIn' ? [0.36, 0.6] : isInside ? [0.56, 0.7] : ([0.15, 0.5] as const);
  const isTop = kind === 'lie';
  // The wall of the opening: seen along its normal its plane is (a, b).
  const [planeA, planeB] = isTop ? [size[0], size[1]] : [size[1], size[2]];
  const hole = holeIn(roll, planeA, planeB, low, high);
  const second = roll.next() < 0.35 ? holeIn(roll, planeA, planeB, 0.15, 0.3) : null;
  const walls = lockerWalls(size, isTop, second && !overlaps(hole, second) ? [hole, second] : [hole]);
  const middle: P3 = isTop ? [hole.a, hole.b, size[2]] : [0, hole.a, hole.b];
  const things = thingsIn(roll, size, middle, isInside ? roll.whole(8) + 12 : roll.whole(11) + 10);
  const target = targetOn(roll, things, middle, isTop ? [0, 0, 1] : [-1, 0, 0], kind);
  const posture = postureFor(roll, kind, size, hole, isTop, target);
  const grasp: Grasp = {
    ...target,
    normal: roll.next() < 0.9 ? target.normal : null,
    standOffM: 0.06,
    coneDeg: 60,
    toolM: roll.next() < 0.15 ? 0.15 : 0,
  };
  const body = BODIES[roll.next() < 0.6 ? 1 : roll.whole(3)] as BodySizes;
  return placed({ seed, posture, grasp, body, solids: [...walls, ...things] }, roll);
}

interface Hole {
  readonly a: number;
  readonly b: number;
  readonly wide: number;
  readonly high: number;
}

function holeIn(roll: Dice, planeA: number, planeB: number, low: number, high: number): Hole {
  const wide = Math.min(roll.from(low, high), planeA - 0.04);
  const tall = Math.min(roll.from(low, high), planeB - 0.04);
  return {
    wide,
    high: tall,
    a: roll.from(0.02 + wide / 2, planeA - 0.02 - wide / 2),
    b: roll.from(0.02 + tall / 2, planeB - 0.02 - tall / 2),
  };
}

const overlaps = (p: Hole, q: Hole): boolean =>
  Math.abs(p.a - q.a) < (p.wide + q.wide) / 2 + 0.02 && Math.abs(p.b - q.b) < (p.high + q.high) / 2 + 0.02;

const solidBox = (id: string, owner: string, centre: P3, half: P3, axes = UNTURNED): BoxSolid => ({
  type: 'box',
  id,
  owner,
  label: owner,
  layer: 'furnishing',
  centre,
  half,
  axes,
});

const between = (id: string, owner: string, low: P3, high: P3): BoxSolid =>
  solidBox(id, owner, times(plus(low, high), 0.5), times(minus(high, low), 0.5));

/** Five whole walls, and the one of the openings in upright strips with a piece under and over each hole. */
function lockerWalls([x, y, z]: P3, isTop: boolean, holes: readonly Hole[]): BoxSolid[] {
  const t = WALL_M;
  const walls = [
    between('w/back', 'back', [x, -t, -t], [x + t, y + t, z + t]),
    between('w/left', 'left', [-t, -t, -t], [x + t, 0, z + t]),
    between('w/right', 'right', [-t, y, -t], [x + t, y + t, z + t]),
    between('w/floor', 'floor', [-t, -t, -t], [x + t, y + t, 0]),
    isTop
      ? between('w/front', 'front', [-t, -t, -t], [0, y + t, z])
      : between('w/top', 'top', [0, -t, z], [x + t, y + t, z + t]),
  ];
  // In the plane of the openings: first coordinate a, second b.
  const [wideA, wideB] = isTop ? [x, y] : [y, z];
  const sorted = [...holes].sort((p, q) => p.a - q.a);
  const pieces: [number, number, number, number][] = [];
  const marks = [-FRONT_M, ...sorted.flatMap((h) => [h.a - h.wide / 2, h.a + h.wide / 2]), wideA + FRONT_M].sort(
    (p, q) => p - q,
  );
  marks.slice(0, -1).forEach((from, k) => {
    const to = marks[k + 1] as number;
    if (to - from < 1e-9) return;
    const inStrip = holes
      .filter((h) => h.a - h.wide / 2 < (from + to) / 2 && h.a + h.wide / 2 > (from + to) / 2)
      .sort((p, q) => p.b - q.b);
    let bottom = -FRONT_M;
    for (const h of inStrip) {
      if (h.b - h.high / 2 > bottom) pieces.push([from, to, bottom, h.b - h.high / 2]);
      bottom = Math.max(bottom, h.b + h.high / 2);
    }
    pieces.push([from, to, bottom, wideB + FRONT_M]);
  });
  return [
    ...walls,
    ...pieces.map(([a0, a1, b0, b1], k) =>
      isTop
        ? between(`w/face/${k}`, 'face', [a0, b0, z], [a1, b1, z + t])
        : between(`w/face/${k}`, 'face', [-t, a0, b0], [0, a1, b1]),
    ),
  ];
}

function thingsIn(roll: Dice, size: P3, middle: P3, count: number): Solid[] {
  const things: Solid[] = [];
  const at = (margin: number): P3 => [
    roll.from(margin, size[0] - margin),
    roll.from(margin, size[1] - margin),
    roll.from(margin, size[2] - margin),
  ];
  const isClearOfHole = (solid: Solid): boolean => pointGap(solid, middle) > 0.05;
  for (let n = 0; n < count; n += 1) {
    const id = `t${n}`;
    const dieKind = roll.next();
    const put = (solid: Solid): void => {
      if (isClearOfHole(solid)) things.push(solid);
    };
    if (dieKind < 0.62) {
      const half: P3 = [roll.from(0.03, 0.12), roll.from(0.03, 0.14), roll.from(0.03, 0.12)];
      const isTurned = roll.next() < 0.33;
      const [yaw, tilt] = isTurned ? [roll.from(-90, 90), roll.from(-40, 40)] : [0, 0];
      put(solidBox(id, id, at(0.06), half, UNTURNED.map((v) => turned(v, yaw, tilt, 0)) as [P3, P3, P3]));
    } else if (dieKind < 0.8) {
      const from = at(0.06);
      const axis = UNTURNED[roll.whole(3)] as P3;
      const to = plus(from, times(axis, roll.from(0.1, 0.4)));
      put({ type: 'cylinder', id, owner: id, label: id, layer: 'furnishing', from, to, radius: roll.from(0.03, 0.08) });
    } else {
      // A hose: a few legs end to end.
      let from = at(0.04);
      const radius = roll.from(0.008, 0.025);
      for (let leg = 0; leg < 3; leg += 1) {
        const to = at(0.04);
        const part = plus(from, times(minus(to, from), 0.5));
        put({ type: 'capsule', id: `${id}/${leg}`, owner: id, label: id, layer: 'run', from, to: part, radius });
        from = part;
      }
    }
  }
  return things;
}

interface Target {
  readonly point: P3;
  readonly normal: P3;
  readonly own: string;
}

/** A place on a face of a box or cylinder that looks more or less at the opening, within what an arm may do. */
function targetOn(roll: Dice, things: readonly Solid[], middle: P3, out: P3, kind: Kind): Target {
  const far = kind === 'climbIn' || kind === 'jointLimit' ? 2 : kind === 'headIn' ? 0.8 : 0.74;
  for (let n = 0; n < 60; n += 1) {
    const thing = things[roll.whole(Math.max(1, things.length))];
    if (!thing || thing.type === 'capsule') continue;
    const face: Target = thing.type === 'box' ? boxFace(roll, thing) : endOfCylinder(roll, thing);
    const away = minus(middle, face.point);
    const awayM = Math.sqrt(inner(away, away));
    if (awayM > far || awayM < 0.15) continue;
    const looks = inner(face.normal, times(away, 1 / awayM));
    if (looks < roll.from(-0.4, 0.5) || inner(face.normal, out) < -0.5) continue;
    // Buried faces are too easy a no.
    const grip = plus(face.point, times(face.normal, 0.06));
    if (things.some((other) => other.owner !== thing.owner && pointGap(other, grip) < 0.03)) continue;
    return face;
  }
  const point = plus(middle, times(out, -0.45));
  return { point, normal: out, own: 'none' };
}

function boxFace(roll: Dice, box: BoxSolid): Target {
  const k = roll.whole(3) as 0 | 1 | 2;
  const sign = roll.next() < 0.5 ? 1 : -1;
  const [i, j] = [((k + 1) % 3) as 0 | 1 | 2, ((k + 2) % 3) as 0 | 1 | 2];
  const normal = times(box.axes[k], sign);
  const on = (n: 0 | 1 | 2): P3 => times(box.axes[n], box.half[n] * roll.from(-0.6, 0.6));
  return { point: plus(plus(plus(box.centre, times(normal, box.half[k])), on(i)), on(j)), normal, own: box.owner };
}

function endOfCylinder(roll: Dice, solid: Exclude<Solid, BoxSolid>): Target {
  const axis = normalised(minus(solid.to, solid.from));
  const isEnd = roll.next() < 0.4;
  if (isEnd) return { point: solid.to, normal: axis, own: solid.owner };
  const side = normalised(outer(axis, [0.3, 0.5, 0.7]));
  const other = outer(axis, side);
  const angle = roll.from(0, 2 * Math.PI);
  const normal = plus(times(side, Math.cos(angle)), times(other, Math.sin(angle)));
  return {
    point: plus(plus(solid.from, times(minus(solid.to, solid.from), roll.from(0.2, 0.8))), times(normal, solid.radius)),
    normal,
    own: solid.owner,
  };
}

const region = (low: P3, high: P3): Region => ({
  centre: times(plus(low, high), 0.5),
  half: times(minus(high, low), 0.5),
  axes: UNTURNED,
});

function postureFor(roll: Dice, kind: Kind, size: P3, hole: Hole, isTop: boolean, target: Target): PostureRegion {
  const t = WALL_M;
  const gate: Gate = isTop
    ? {
        at: [hole.a, hole.b, size[2] + t / 2],
        out: [0, 0, 1],
        across: [0, 1, 0],
        up: [1, 0, 0],
        widthM: hole.high,
        heightM: hole.wide,
        outerM: t / 2,
      }
    : {
        at: [-t / 2, hole.a, hole.b],
        out: [-1, 0, 0],
        across: [0, 1, 0],
        up: [0, 0, 1],
        widthM: hole.wide,
        heightM: hole.high,
        outerM: t / 2,
      };
  const [a, b] = [hole.wide / 2, hole.high / 2];
  const clip = roll.next() < 0.5;
  if (kind === 'lean') {
    const shoulders = region(
      [-t - 0.2, hole.a - a - 0.1, hole.b - b - 0.1],
      [-t - 0.018, hole.a + a + 0.1, hole.b + b + 0.1],
    );
    const footing = clip
      ? {
          at: [-0.45, hole.a + roll.from(-0.3, 0.3), hole.b - 1.2] as P3,
          farM: 0.55,
          lowM: hole.b - 0.25,
          highM: hole.b + 0.3,
        }
      : null;
    return {
      posture: 'lean',
      opening: 'hole',
      gate,
      shoulders: [shoulders],
      footing,
      attitudes: facing([1, 0, 0], [0, 0, 1]),
      eyes: [],
    };
  }
  if (kind === 'headIn') {
    const shoulders = region([-t - 0.018, hole.a - a, hole.b - b], [-t + 0.25, hole.a + a, hole.b + b]);
    return {
      posture: 'headIn',
      opening: 'hole',
      gate,
      shoulders: [shoulders],
      footing: null,
      attitudes: headFirst(),
      eyes: [],
    };
  }
  if (kind === 'lie') {
    const top = size[2] + t;
    const shoulders = region(
      [hole.a - a - 0.1, hole.b - b - 0.1, top + 0.018],
      [hole.a + a + 0.1, hole.b + b + 0.1, top + 0.2],
    );
    return {
      posture: 'lie',
      opening: 'hole',
      gate,
      shoulders: [shoulders],
      footing: null,
      attitudes: [...lying(0), ...lying(90), ...lying(180), ...lying(270)],
      eyes: [],
    };
  }
  // Inside: on the knees, wherever there is room.
  const shoulders = region([0.1, 0.1, 0.2], [size[0] - 0.1, size[1] - 0.1, Math.min(size[2] - 0.15, 0.85)]);
  const knees: P3 = [roll.from(0.2, size[0] - 0.2), roll.from(0.2, size[1] - 0.2), 0];
  const footing = { at: knees, farM: 0.3, lowM: 0.2, highM: 0.75 };
  const to = minus(target.point, knees);
  // With the limits of the shoulder in hand, one that looks away from the place; else one that looks any way.
  const level = normalised([to[0], to[1], 1e-9]);
  // With the limits of the shoulder in hand, one that has the place on the side of the other shoulder; else one that looks either of two ways.
  const attitudes =
    kind === 'jointLimit'
      ? [-30, 0, 30].map((deg) => ({ spine: UP, across: turned(level, deg + roll.from(-10, 10), 0, 0) }))
      : [turned(level, roll.from(-70, 70), 0, 0), turned(level, roll.from(60, 300), 0, 0)].flatMap((way) => [
          ...facing(way, UP),
          ...facing(way, normalised(plus(times(way, 0.6), [0, 0, 0.8]))),
        ]);
  return {
    posture: 'climbIn',
    opening: 'hole',
    gate: null,
    shoulders: [shoulders],
    footing,
    attitudes,
    eyes: [],
  };
}

/** Turns of a body that faces a way, square to it or with one shoulder first, its spine from the hips to the neck. */
function facing(way: P3, spine: P3): { spine: P3; across: P3 }[] {
  const left = normalised(outer(spine, way));
  const flat = normalised(outer(left, spine));
  return [0, 45, 80].flatMap((deg) => {
    const [cos, sin] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
    // The other shoulder is behind: away from where the body faces.
    const across = (side: P3): P3 => plus(times(side, cos), times(flat, -sin));
    return [
      { spine, across: across(left) },
      { spine, across: across(times(left, -1)) },
    ];
  });
}

/** Head first into a hole, the hips outside: below, above or to either side of it. */
function headFirst(): Attitude[] {
  const hips: readonly P3[] = [
    [-0.75, 0, -0.66],
    [-0.75, 0, 0.66],
    [-0.75, -0.66, 0],
    [-0.75, 0.66, 0],
  ];
  return hips.flatMap((way) => facing([1, 0, 0], normalised(times(way, -1))));
}

/** Lying on the face over a hole, spine level, one shoulder lower than the other. */
function lying(yawDeg: number): { spine: P3; across: P3 }[] {
  const spine = turned([1, 0, 0], yawDeg, 0, 0);
  const side = turned([0, 1, 0], yawDeg, 0, 0);
  return [1, -1].map((sign) => ({ spine, across: normalised(plus(times(side, sign * 0.6), [0, 0, 0.8])) }));
}

function placed(scene: ArmScene, roll: Dice): ArmScene {
  const yaw = roll.pick([0, 90, 180, 33, -57]);
  const by: P3 = [roll.from(1, 8), roll.from(-1, 1), roll.from(-0.5, 1)];
  const turn = (v: P3): P3 => turned(v, yaw, 0, 0);
  const move = (p: P3): P3 => plus(turn(p), by);
  const axes = (all: readonly [P3, P3, P3]): [P3, P3, P3] => [turn(all[0]), turn(all[1]), turn(all[2])];
  const box = (r: Region): Region => ({ ...r, centre: move(r.centre), axes: axes(r.axes) });
  const { posture, grasp } = scene;
  return {
    ...scene,
    solids: scene.solids.map((solid) =>
      solid.type === 'box'
        ? { ...solid, centre: move(solid.centre), axes: axes(solid.axes) }
        : { ...solid, from: move(solid.from), to: move(solid.to) },
    ),
    grasp: { ...grasp, point: move(grasp.point), normal: grasp.normal && turn(grasp.normal) },
    posture: {
      ...posture,
      gate: posture.gate && {
        ...posture.gate,
        at: move(posture.gate.at),
        out: turn(posture.gate.out),
        across: turn(posture.gate.across),
        up: turn(posture.gate.up),
      },
      shoulders: posture.shoulders.map(box),
      footing: posture.footing && {
        ...posture.footing,
        at: move(posture.footing.at),
        lowM: posture.footing.lowM + by[2],
        highM: posture.footing.highM + by[2],
      },
      attitudes: posture.attitudes.map(({ spine, across }) => ({ spine: turn(spine), across: turn(across) })),
    },
  };
}
