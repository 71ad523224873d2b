import * as portable from '../../base/portable';
import { quantised } from '../../base/quantity';
import type { Vec2 } from '../../base/vec';
import { type Problem, problem } from '../../boat/problem';
import type { Hull } from '../../boat/schema/boat';
import { hull as hullSchema } from '../../boat/schema/hull';
import { displacement } from '../hull/hydrostatics';
import { hullSurface } from '../hull/surface';
import { type ControlLines, controlLines, type KeelCut } from './control-lines';
import { checkDimensions, type Dimensions, dimensionsOf, type FormInput } from './dimensions';

export type HullOfForm =
  | { readonly ok: true; readonly hull: Hull; readonly dimensions: Dimensions; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Points of a section: of its keel, and of a round body or of each side of a chine. */
const POINTS = { hollowKeel: 5, keel: 3, round: 11, chined: 6 } as const;
/** Steps along a drawn curve from which its points are taken. */
const CURVE_STEPS = 60;
/** Offsets are kept to a tenth of a millimetre. */
const OFFSET_STEP_M = 1e-4;
/** Share of the displacement within which the hull is solved, and most steps of it. */
const DISPLACEMENT_SHARE = 5e-5;
const MOST_STEPS = 40;
const SHELL_SHARE = 0.0012;

/**
 * A hull of one of the five forms that floats with the water at z = 0 at the stated displacement: depth and fullness of its body
 * are the one unknown, found against the hydrostatics of the finished surface. Length, waterline, beam, draught and freeboards
 * come out as stated. A displacement that the form cannot carry between its slackest and fullest sections is refused with the
 * range that it can.
 */
export function hullOfForm(input: FormInput): HullOfForm {
  const d = dimensionsOf(input);
  const problems = checkDimensions(d);
  if (problems.length > 0) return { ok: false, problems };
  const massAt = (fullness: number): number =>
    displacement(hullSurface(hullAt(d, fullness)), { up: [0, 0, 1], levelM: 0 }) * d.waterDensityKgM3;
  const range = [massAt(0), massAt(1)] as const;
  if (!(d.displacementKg >= range[0] && d.displacementKg <= range[1])) {
    const limit = `with these dimensions the form carries ${tidyKg(range[0], Math.ceil)} to ${tidyKg(range[1], Math.floor)} kg`;
    return { ok: false, problems: [problem(['displacementKg'], d.displacementKg, limit)] };
  }
  const fullness = solved(massAt, d.displacementKg, range);
  return { ok: true, hull: hullAt(d, fullness), dimensions: d, notes: notesOn(d) };
}

/** Fullness at which the mass is the target: false position, each end pulled in turn (Illinois). */
function solved(massAt: (fullness: number) => number, target: number, range: readonly [number, number]): number {
  let [low, high] = [0, 1];
  let [below, above] = [range[0] - target, range[1] - target];
  let at = low;
  let side = 0;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    at = below === above ? low : low - (below * (high - low)) / (above - below);
    const off = massAt(at) - target;
    if (Math.abs(off) <= DISPLACEMENT_SHARE * target) break;
    if (off < 0) {
      [low, below] = [at, off];
      if (side === -1) above /= 2;
      side = -1;
    } else {
      [high, above] = [at, off];
      if (side === 1) below /= 2;
      side = 1;
    }
  }
  return at;
}

function hullAt(d: Dimensions, fullness: number): Hull {
  const lines = controlLines(d, fullness);
  const stations: Record<string, unknown> = {};
  lines.stations.forEach((xM, i) => {
    const { points, knuckles } = sectionAt(lines, xM);
    stations[`s${String(i).padStart(2, '0')}`] = {
      xM: offset(xM),
      points,
      ...(knuckles.length > 0 ? { knuckles } : {}),
    };
  });
  return hullSchema.parse({
    stations,
    form: d.form,
    grade: 'guessed',
    shellM: quantised(Math.round((0.004 + SHELL_SHARE * d.lengthM) * 1000) / 1000),
    offsetM: d.form === 'catamaran' ? quantised((d.beamM - d.hullBeamM) / 2) : 0,
  });
}

/** Points from the keel to the sheer; the corners of keel and chine stand on every station, so that they run along the hull. */
function sectionAt(lines: ControlLines, xM: number): { points: Vec2[]; knuckles: number[] } {
  const keel = lines.keel(xM);
  const [breadth, deckZ] = lines.sheer(xM);
  const bottomZ = lines.bottom(xM);
  const centre: Vec2 = [0, bottomZ];
  const chine = lines.chine(xM);
  const deck: Vec2 = [Math.max(0, breadth), Math.max(deckZ, bottomZ + 0.01)];
  const { low, high } = lines.handles(xM);
  const place = (share: Vec2): Vec2 => [share[0] * deck[0], bottomZ + share[1] * (deck[1] - bottomZ)];
  // The body knows nothing of the keel: it begins where the keel's side meets it.
  const curves = chine ? chinedBody(centre, chine, deck) : [[centre, place(low), place(high), deck]];
  const count = chine ? POINTS.chined : POINTS.round;
  const rootM = keel?.halfRootM ?? 0;
  const body = curves.map((handles, k) =>
    k > 0 || rootM === 0
      ? taken(handles, count)
      : keel?.hollow
        ? taken(handles, count, shareAtBreadth(handles, rootM))
        : begunAt(taken(handles, count), bezier(handles, shareAtBreadth(handles, rootM))),
  );
  const root = body[0]?.[0] ?? centre;
  const first = (curves[0] ?? [])[1] ?? deck;
  const points: Vec2[] = keel ? keelPoints(keel, root, first) : [root, root];
  const knuckles: number[] = [];
  for (const stretch of body) {
    knuckles.push(points.length - 1);
    points.push(...stretch.slice(1));
  }
  return { points: rising(points), knuckles };
}

function chinedBody(centre: Vec2, chine: Vec2, deck: Vec2): Vec2[][] {
  // The bottom is a little round, the side hollows where it flares.
  const bottom: Vec2 = [0.5 * chine[0], centre[1] + 0.42 * (chine[1] - centre[1])];
  const flare = Math.max(0, deck[0] - chine[0]);
  const side: Vec2 = [chine[0] + 0.36 * flare, chine[1] + 0.5 * (deck[1] - chine[1])];
  return [
    [centre, bottom, chine],
    [chine, side, deck],
  ];
}

function keelPoints(keel: KeelCut, root: Vec2, bodyHandle: Vec2): Vec2[] {
  const foot: Vec2 = [Math.min(keel.halfBottomM, root[0]), keel.bottomZ];
  if (!keel.hollow) return taken([foot, root], POINTS.keel);
  const run = root[0] - foot[0];
  const slope = Math.max(0, bodyHandle[1] - root[1]) / Math.max(1e-6, bodyHandle[0] - root[0]);
  const height = root[1] - foot[1];
  const drop = Math.min(0.3 * height, 0.7 * run * slope);
  if (!(run > 0)) return taken([foot, root], POINTS.hollowKeel);
  return taken(
    [foot, [foot[0] + 0.1 * run, foot[1] + 0.6 * height], [root[0] - 0.7 * run, root[1] - drop], root],
    POINTS.hollowKeel,
  );
}

/** Where a fin stands off the body the first point moves to its side; the others stay in line with those of the next stations. */
function begunAt(points: readonly Vec2[], root: Vec2): Vec2[] {
  const first = points.slice(1).findIndex((p) => p[0] > root[0] + 1e-3);
  return [root, ...points.slice(1).map((p, i): Vec2 => (i < first ? root : p))];
}

/** Points at equal shares of the length of a Bezier curve, from one of its places on. */
function taken(handles: readonly Vec2[], count: number, start = 0): Vec2[] {
  const curve = Array.from({ length: CURVE_STEPS + 1 }, (_, i) =>
    bezier(handles, start + ((1 - start) * i) / CURVE_STEPS),
  );
  const lengths = [0];
  curve.forEach((p, i) => {
    const last = curve[i - 1];
    if (last) lengths.push((lengths[i - 1] ?? 0) + portable.hypot(p[0] - last[0], p[1] - last[1]));
  });
  const total = lengths[lengths.length - 1] ?? 0;
  return Array.from({ length: count }, (_, k) => {
    const wanted = (total * k) / (count - 1);
    const i = Math.min(CURVE_STEPS - 1, Math.max(0, lengths.findIndex((at) => at >= wanted - 1e-12) - 1));
    const [from, to] = [lengths[i] ?? 0, lengths[i + 1] ?? 0];
    const share = to > from ? Math.min(1, (wanted - from) / (to - from)) : 0;
    const [a, b] = [curve[i] as Vec2, curve[i + 1] as Vec2];
    return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
  });
}

/** At most half of the curve goes to the keel. */
function shareAtBreadth(handles: readonly Vec2[], breadthM: number): number {
  let [low, high] = [0, 0.5];
  for (let step = 0; step < 40; step += 1) {
    const middle = (low + high) / 2;
    if (bezier(handles, middle)[0] < breadthM) low = middle;
    else high = middle;
  }
  return low;
}

function bezier(handles: readonly Vec2[], t: number): Vec2 {
  let points = [...handles];
  while (points.length > 1)
    points = points.slice(1).map((p, i): Vec2 => {
      const q = points[i] as Vec2;
      return [q[0] + (p[0] - q[0]) * t, q[1] + (p[1] - q[1]) * t];
    });
  return points[0] as Vec2;
}

/** Rounded for the file; z never falls. */
function rising(points: readonly Vec2[]): Vec2[] {
  let z = Number.NEGATIVE_INFINITY;
  return points.map((p) => {
    z = Math.max(z, offset(p[1]));
    return [offset(p[0]), z];
  });
}

const offset = (metres: number): number => quantised(Math.round(metres / OFFSET_STEP_M) * OFFSET_STEP_M);
const tidyKg = (kg: number, round: (value: number) => number): string => String(round(kg / 10) * 10);

const NOTES: Readonly<Record<Dimensions['form'], string>> = {
  longKeel: 'The keel is part of the sections and of the displacement. Rudder and propeller aperture are left out.',
  finKeel: 'The fin is part of the sections and of the displacement; its inside is solid. The rudder is left out.',
  lightDisplacement:
    'The fin is part of the sections and of the displacement; its inside is solid. The rudder is left out.',
  motorHull: 'The keel skeg is part of the sections and of the displacement. Shafts and rudders are left out.',
  catamaran: 'Each hull carries half of the displacement. The bridge deck is not drawn.',
};

const notesOn = (d: Dimensions): readonly string[] => [
  'Lines of a typical hull of this form, fitted to the main dimensions: guessed, not measured.',
  NOTES[d.form],
];
