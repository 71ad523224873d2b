import { BODY_OPENINGS } from '../../../base/formulas/hand-openings';
import * as portable from '../../../base/portable';
import { along, cross, distance, dot, radians, scale, UNIT_AXES, UP, unit, type Vec3 } from '../../../base/vec';
import type { Opening, StandingPlace } from '../../../boat/schema/boat';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout } from '../../../shape/layout/types';
import { roomPlate } from '../../../shape/space/convex';
import { SolidPack } from '../../../shape/space/kernel';
import { openingFrame, wallsOfOpening } from '../../../shape/space/ways-in';
import { isKneelingClear, KNEELING_ROOM, KNEELING_STEP_M, kneelingPlaces } from '../kneeling';
import type { Attitude, Footing, Gate, PostureRegion, Region } from './posture-region';
import type { BodySizes, Obstruction, Posture } from './types';

export interface PostureAsk {
  /** What the arm or the person goes through, with its id; null: the thing stands in the space where the person is. */
  readonly opening: { readonly id: string; readonly record: Opening } | null;
  /** Compartment of the thing: who climbs in kneels there. */
  readonly compartment: string | null;
  readonly standing: StandingPlace | null;
  readonly body: BodySizes;
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  readonly around: readonly Obstruction[];
}

/** Kneeling places are looked for this far about the opening. */
const INSIDE_M = 1.3;

/** Shoulders before an opening: from the frame out, and beside its clear area. */
const AT_FRAME_M = 0.018;
const BEFORE_M = 0.2;
const BESIDE_M = 0.1;
/** How deep a shoulder goes in with the head. */
const HEAD_DEEP_M = 0.25;
/** Eyes before an opening, and beside its clear area. */
const EYES_BEFORE_M = [0.06, 0.6] as const;
const EYES_BESIDE_M = 0.06;
/** Who kneels inside has the shoulder no further from over the knees than this. */
const LEAN_INSIDE_M = 0.1;
const LOW_SHOULDER_M = 0.2;
/** How far level from feet, knees or hips the shoulder can be, and how low over them by the posture of the place. From memory. */
const LEAN_M = 0.9;
const BESIDE_FEET_M = 0.6;
const LOWEST_M: Readonly<Record<StandingPlace['posture'], number>> = {
  stand: 0.12,
  kneel: 0.12,
  sit: -0.25,
  lie: -0.3,
};
const LYING_HIGH_M = 0.35;
/** The hips of somebody who bends are no lower over the feet than this, and so far below the shoulders of who stands upright. From memory. */
const LOW_HIPS_M = 0.15;
const HIPS_BELOW_M = 0.45;
/** A lid in what people stand, sit or lie on is no further above their feet than a berth. */
const BERTH_M = 0.55;
/** Length of a lying body from the shoulder down, how far over what it lies on, and half its thickness. */
const LYING_M = 1.2;
const LYING_OVER_M = 0.14;
const LYING_RADIUS_M = 0.1;
/** More upright than this a direction points up. */
const UPRIGHT_COS = 0.7;
/** Regions thinner than this are none. */
const LEAST_M = 1e-4;
/** Thickness of what an opening is cut into, where no wall is drawn there: half of it. */
const HALF_WALL_M = 0.006;

/** The postures in which somebody may work there, the easiest first; those without a place for the shoulder are left out. */
export function posturesFor(ask: PostureAsk): readonly PostureRegion[] {
  const regions = ask.opening ? throughOpening(ask, ask.opening) : besideThing(ask);
  return regions.filter(({ shoulders, attitudes }) => shoulders.length > 0 && attitudes.length > 0);
}

function throughOpening(ask: PostureAsk, { id, record }: NonNullable<PostureAsk['opening']>): PostureRegion[] {
  const gate = gateOf(record, ask.layout);
  const start = { opening: id, gate };
  const regions: PostureRegion[] = [
    { ...start, posture: 'lean', ...before(ask, gate, 'lean'), attitudes: leaning(gate) },
  ];
  const [narrow, wide] = [Math.min(record.widthM, record.heightM), Math.max(record.widthM, record.heightM)];
  const passes = ([least, most]: readonly [number, number]): boolean => narrow >= least && wide >= most;
  if (passes(BODY_OPENINGS.headIn)) regions.push({ ...start, posture: 'headIn', ...headIn(ask, gate) });
  if (passes(BODY_OPENINGS.climbIn)) regions.push({ ...start, posture: 'climbIn', ...kneelingInside(ask, record.at) });
  if (gate.out[2] > UPRIGHT_COS && liesThere(ask.standing, gate))
    regions.push({ ...start, posture: 'lie', ...before(ask, gate, 'lie'), attitudes: lying(ask, gate) });
  return regions;
}

function gateOf(opening: Opening, layout: Layout): Gate {
  const { out, up, across } = openingFrame(opening);
  const own = wallsOfOpening(layout, opening);
  let outerM = HALF_WALL_M;
  for (const wall of layout.walls) {
    if (!own.has(wall.id)) continue;
    const { polygon, thicknessM } = roomPlate(wall, layout.panels);
    const [first] = polygon;
    if (first) outerM = Math.max(outerM, dot(out, first) - dot(out, opening.at) + thicknessM / 2);
  }
  return { at: opening.at, out, across, up, widthM: opening.widthM, heightM: opening.heightM, outerM };
}

/** A box before, or in, an opening: how far out from and to, and how much wider than the clear area. */
function boxAt(gate: Gate, fromM: number, toM: number, widerM: number): Region {
  return {
    centre: along(gate.at, gate.out, (fromM + toM) / 2),
    half: [Math.max(0, gate.widthM / 2 + widerM), Math.max(0, gate.heightM / 2 + widerM), (toM - fromM) / 2],
    axes: [gate.across, gate.up, gate.out],
  };
}

/** Shoulders and eyes of who leans over, or lies at, an opening. */
function before(
  { standing, body }: PostureAsk,
  gate: Gate,
  posture: Posture,
): Pick<PostureRegion, 'shoulders' | 'footing' | 'eyes'> {
  const footing = standing && footingOf(standing, body, posture);
  const boxes = [boxAt(gate, gate.outerM + AT_FRAME_M, gate.outerM + BEFORE_M, BESIDE_M)];
  // Through a narrow opening an arm goes straight alone: to what is not deep from farther back.
  if (posture === 'lean')
    boxes.push(
      boxAt(gate, gate.outerM + BEFORE_M, gate.outerM + body.upperArmM + body.forearmM + body.handM, BESIDE_M),
    );
  const eyes = boxAt(gate, gate.outerM + EYES_BEFORE_M[0], gate.outerM + EYES_BEFORE_M[1], EYES_BESIDE_M);
  return {
    shoulders: atHeights(boxes, footing),
    footing,
    eyes: atHeights([eyes], footing && eyesOver(footing, body)),
  };
}

function headIn(
  { standing, body }: PostureAsk,
  gate: Gate,
): Pick<PostureRegion, 'shoulders' | 'footing' | 'eyes' | 'attitudes'> {
  const footing = standing && {
    ...footingOf(standing, body, 'headIn'),
    lowM: standing.at[2] - LYING_M,
    farM: LEAN_M + HEAD_DEEP_M,
  };
  const eyesIn = boxAt(gate, -HEAD_DEEP_M, gate.outerM, -body.headRadiusM);
  return {
    shoulders: [boxAt(gate, -HEAD_DEEP_M, gate.outerM + AT_FRAME_M, 0)],
    footing,
    eyes: [eyesIn],
    attitudes: [gate.across, scale(gate.across, -1), gate.up, scale(gate.up, -1)].map((across) => ({
      spine: scale(gate.out, -1),
      across,
    })),
  };
}

/** Who leans at an opening turns the side of the arm to it, or faces it; nobody hangs head down outside. */
function leaning(gate: Gate): readonly Attitude[] {
  const { out, across, up } = gate;
  const level = [up, across, scale(across, -1), scale(up, -1)].filter((spine) => spine[2] > -0.5);
  // Hips stay as low as legs are long: over a lid, or before a door, one is bent with the shoulders above them.
  const bent =
    out[2] > UPRIGHT_COS
      ? level.map((spine) => along(scale(spine, Math.SQRT1_2), out, Math.SQRT1_2))
      : level.flatMap((spine) =>
          spine[2] > UPRIGHT_COS ? [along(scale(spine, Math.SQRT1_2), out, -Math.SQRT1_2)] : [],
        );
  const spines = [...level, ...bent];
  const sideways = level.map((spine) => ({ spine, across: out }));
  const facing = spines.flatMap((spine) => {
    const side = unit(cross(spine, out));
    return [
      { spine, across: side },
      { spine, across: scale(side, -1) },
    ];
  });
  return [...sideways, ...facing];
}

/** A place from which somebody can lie down beside a lid: it is in what they stand on, or in a berth. */
function liesThere(standing: StandingPlace | null, gate: Gate): boolean {
  if (!standing) return true;
  const overM = gate.at[2] - standing.at[2];
  return overM > -0.1 && overM <= BERTH_M;
}

/** Lying face down or on the side, the legs where there is room for them. */
function lying({ around }: PostureAsk, gate: Gate): readonly Attitude[] {
  const pack = new SolidPack(around.map(({ solid }) => solid));
  const start = along(gate.at, gate.out, gate.outerM + LYING_OVER_M);
  return eightAbout(gate.across, gate.up).flatMap((legs): Attitude[] => {
    const end = along(start, legs, LYING_M);
    for (let k = 0; k < pack.size; k += 1)
      if (pack.distance(k, ...start, ...end, LYING_RADIUS_M) < LYING_RADIUS_M) return [];
    const spine = scale(legs, -1);
    const side = cross(spine, gate.out);
    return [
      { spine, across: gate.out },
      { spine, across: side },
      { spine, across: scale(side, -1) },
    ];
  });
}

/** Eight directions in a plane. */
function eightAbout(u: Vec3, v: Vec3): readonly Vec3[] {
  const half = Math.SQRT1_2;
  return [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
    [half, half],
    [half, -half],
    [-half, half],
    [-half, -half],
  ].map(([a = 0, b = 0]): Vec3 => along(scale(u, a), v, b));
}

/** Upright, then bent forward, to eight sides. */
const standingAttitudes = (): readonly Attitude[] =>
  [0, 50].flatMap((bentDeg) =>
    eightAbout(UNIT_AXES[0], UNIT_AXES[1]).flatMap((facing): Attitude[] => {
      const [cos, sin] = [portable.cos(radians(bentDeg)), portable.sin(radians(bentDeg))];
      const spine = along(scale(UP, cos), facing, sin);
      const side = cross(UP, facing);
      return [
        { spine, across: side },
        { spine, across: scale(side, -1) },
      ];
    }),
  );

/** Somebody kneels inside, where there is room for it and no thing in it. */
function kneelingInside(
  ask: PostureAsk,
  about: Vec3,
): Pick<PostureRegion, 'shoulders' | 'footing' | 'eyes' | 'attitudes'> {
  const { body } = ask;
  const places = clearPlaces(ask, about);
  const highM = body.kneelingShoulderM;
  return {
    shoulders: columnsOver(places, LOW_SHOULDER_M, highM, LEAN_INSIDE_M),
    footing: null,
    eyes: columnsOver(places, LOW_SHOULDER_M + body.eyeOverShoulderM, highM + body.eyeOverShoulderM, LEAN_INSIDE_M),
    attitudes: standingAttitudes(),
  };
}

function clearPlaces({ compartment, layout, hull, around }: PostureAsk, about: Vec3): readonly Vec3[] {
  if (compartment === null) return [];
  const near = around.filter(({ solid }) => solid.type !== 'plate');
  const things = new SolidPack(near.map(({ solid }) => solid));
  return kneelingPlaces(about, INSIDE_M, compartment, KNEELING_ROOM, { layout, hull }).filter((place) =>
    isKneelingClear(place, KNEELING_ROOM, things),
  );
}

/** Boxes over places of one height, those in a row joined: `lowM` and `highM` over them, wider than their step by `widerM`. */
function columnsOver(places: readonly Vec3[], lowM: number, highM: number, widerM: number): readonly Region[] {
  const rows: { from: Vec3; to: Vec3 }[] = [];
  for (const place of places) {
    const last = rows.at(-1);
    const isNext =
      last &&
      Math.abs(last.to[0] - place[0]) < LEAST_M &&
      Math.abs(last.to[2] - place[2]) < LEAST_M &&
      Math.abs(place[1] - last.to[1] - KNEELING_STEP_M) < LEAST_M;
    if (isNext) last.to = place;
    else rows.push({ from: place, to: place });
  }
  const half = KNEELING_STEP_M / 2 + widerM;
  return rows.map(({ from, to }) => ({
    centre: [from[0], (from[1] + to[1]) / 2, from[2] + (lowM + highM) / 2],
    half: [half, (to[1] - from[1]) / 2 + half, (highM - lowM) / 2],
    axes: UNIT_AXES,
  }));
}

/** Nothing is between the person and the thing: they stand at their place, or kneel anywhere in the compartment. */
function besideThing(ask: PostureAsk): PostureRegion[] {
  const { standing, body, layout, compartment } = ask;
  const start = { posture: 'free' as const, opening: null, gate: null };
  if (!standing) {
    const cells = compartment === null ? [] : (layout.cellsOf[compartment] ?? []);
    const middle = cells.length > 0 ? middleOf(cells.flatMap((index) => layout.cells[index]?.corners ?? [])) : null;
    return middle ? [{ ...start, ...kneelingInside(ask, middle) }] : [];
  }
  const footing = footingOf(standing, body, 'free');
  const box = (lowM: number, highM: number): Region => ({
    centre: [standing.at[0], standing.at[1], (lowM + highM) / 2],
    half: [BESIDE_FEET_M, BESIDE_FEET_M, Math.max(0, highM - lowM) / 2],
    axes: UNIT_AXES,
  });
  const eyes = eyesOver(footing, body);
  return [
    {
      ...start,
      shoulders: [box(footing.lowM, footing.highM)],
      footing: { ...footing, farM: BESIDE_FEET_M },
      eyes: [box(eyes.lowM, eyes.highM)],
      attitudes: standingAttitudes(),
    },
  ];
}

function middleOf(points: readonly Vec3[]): Vec3 {
  const bound = (k: 0 | 1 | 2): number => {
    const all = points.map((p) => p[k]);
    return (Math.min(...all) + Math.max(...all)) / 2;
  };
  return [bound(0), bound(1), bound(2)];
}

/** Where the shoulders of somebody at a place can be. */
function footingOf({ at, posture, headroomM }: StandingPlace, body: BodySizes, work: Posture): Footing {
  const highest = {
    stand: body.standingShoulderM,
    kneel: body.kneelingShoulderM,
    sit: body.sittingShoulderM,
    lie: LYING_HIGH_M,
  }[posture];
  const under = headroomM === undefined ? highest : headroomM - body.eyeOverShoulderM - body.headRadiusM;
  const lies = work === 'lie';
  return {
    at,
    hipsM: [
      LOW_HIPS_M,
      lies ? BERTH_M + LYING_HIGH_M : posture === 'lie' ? highest : Math.max(LOW_HIPS_M, highest - HIPS_BELOW_M),
    ],
    farM: LEAN_M + (lies ? LYING_M / 2 : 0),
    lowM: at[2] + (lies ? LOWEST_M.lie : LOWEST_M[posture]),
    highM: at[2] + (lies ? BERTH_M + LYING_HIGH_M : Math.max(LOWEST_M[posture] + BEFORE_M, Math.min(highest, under))),
  };
}

const eyesOver = (footing: Footing, { eyeOverShoulderM }: BodySizes): Footing => ({
  ...footing,
  highM: footing.highM + eyeOverShoulderM,
});

/** Boxes cut to the heights, and the distance, at which somebody can have them; a box whose sides are aslant only where it is wholly off. */
function atHeights(boxes: readonly Region[], footing: Footing | null): readonly Region[] {
  if (!footing) return boxes;
  return boxes.flatMap((box) => {
    const { centre, half, axes } = box;
    const reach = axes.reduce((sum, axis, k) => sum + Math.abs(axis[2]) * (half[k] ?? 0), 0);
    const [low, high] = [Math.max(centre[2] - reach, footing.lowM), Math.min(centre[2] + reach, footing.highM)];
    const level = distance([centre[0], centre[1], 0], [footing.at[0], footing.at[1], 0]);
    if (high < low - LEAST_M || level - Math.max(...half) * Math.SQRT2 > footing.farM) return [];
    const upright = axes.findIndex((axis) => Math.abs(axis[2]) > 1 - 1e-9);
    if (upright < 0) return [box];
    const cut = [...half] as [number, number, number];
    cut[upright] = Math.max(0, (high - low) / 2);
    return [{ centre: [centre[0], centre[1], (low + high) / 2], half: cut, axes }];
  });
}
