import type { Vec2 } from '../../base/vec';
import type { Dimensions, Form } from './dimensions';

/**
 * The lines that the sections of a form hang on: sheer, chine, bottom of the hull body, and a keel below it. Each is one smooth
 * function of x, so that sections taken anywhere belong to one fair surface. All proportions are common practice, no source.
 */
export interface ControlLines {
  /** Half-breadth and height of the deck edge. */
  sheer(xM: number): Vec2;
  /** Bottom of the body, without the keel, on the centre plane. */
  bottom(xM: number): number;
  /** Corner between bottom and side; null for round bilges. */
  chine(xM: number): Vec2 | null;
  /** The keel under the body; null where there is none. */
  keel(xM: number): KeelCut | null;
  /** Handles of a round section: shares of its breadth and height from the bottom to the sheer. */
  handles(xM: number): { readonly low: Vec2; readonly high: Vec2 };
  /** Places where a section must be taken for the lines to come out. */
  readonly stations: readonly number[];
}

export interface KeelCut {
  readonly bottomZ: number;
  readonly halfBottomM: number;
  /** Half-breadth where it meets the body. */
  readonly halfRootM: number;
  /** Whether it flows into the body in a hollow (wineglass) or stands off it at a corner. */
  readonly hollow: boolean;
}

interface Character {
  /** Share of both overhangs that is forward. */
  readonly forwardOverhang: number;
  /** Half-breadth of the transom at the deck, share of the greatest. */
  readonly transom: number;
  /** Place of the greatest beam, share of the length from aft. */
  readonly widest: number;
  /** Place of the deepest point of the body, share of the waterline from aft. */
  readonly deepest: number;
  /** How steeply the bottom rises to the waterline at its ends: 2 is a parabola. */
  readonly rise: { readonly aft: number; readonly forward: number };
  /** Depth of the transom's lower edge under water, share of the body's depth. */
  readonly immersed: number;
  /** Least and greatest depth of the body, share of the draught. */
  readonly depth: readonly [number, number];
  /** Handles at the greatest section when the hull is slack and when it is full, and at stem and stern. */
  readonly slack: Handles;
  readonly full: Handles;
  readonly bow: Handles;
  readonly aft: Handles;
}

type Handles = { readonly low: Vec2; readonly high: Vec2 };

const CHARACTERS: Readonly<Record<Form, Character>> = {
  longKeel: {
    forwardOverhang: 0.55,
    transom: 0.5,
    widest: 0.47,
    deepest: 0.5,
    rise: { aft: 1.9, forward: 2.1 },
    immersed: 0,
    depth: [0.16, 0.74],
    slack: { low: [0.5, 0.2], high: [0.98, 0.5] },
    full: { low: [0.8, 0.14], high: [1.02, 0.36] },
    bow: { low: [0.22, 0.34], high: [0.6, 0.7] },
    aft: { low: [0.6, 0.16], high: [0.98, 0.5] },
  },
  finKeel: {
    forwardOverhang: 0.52,
    transom: 0.72,
    widest: 0.44,
    deepest: 0.52,
    rise: { aft: 1.85, forward: 2 },
    immersed: 0,
    depth: [0.1, 0.62],
    slack: { low: [0.55, 0.13], high: [1, 0.52] },
    full: { low: [0.88, 0.08], high: [1.02, 0.36] },
    bow: { low: [0.24, 0.32], high: [0.66, 0.68] },
    aft: { low: [0.75, 0.08], high: [1, 0.5] },
  },
  lightDisplacement: {
    forwardOverhang: 0.4,
    transom: 0.84,
    widest: 0.4,
    deepest: 0.53,
    rise: { aft: 1.8, forward: 1.9 },
    immersed: 0,
    depth: [0.06, 0.55],
    slack: { low: [0.6, 0.08], high: [1, 0.5] },
    full: { low: [0.92, 0.05], high: [1.02, 0.34] },
    bow: { low: [0.26, 0.28], high: [0.72, 0.64] },
    aft: { low: [0.8, 0.05], high: [1, 0.45] },
  },
  motorHull: {
    forwardOverhang: 1,
    transom: 0.9,
    widest: 0.45,
    deepest: 0.58,
    rise: { aft: 1.3, forward: 2.3 },
    immersed: 0.5,
    depth: [0.3, 0.94],
    slack: { low: [0.84, 0.3], high: [1, 0.5] },
    full: { low: [0.95, 0.16], high: [1, 0.5] },
    bow: { low: [0.5, 0.4], high: [1, 0.5] },
    aft: { low: [0.96, 0.2], high: [1, 0.5] },
  },
  catamaran: {
    forwardOverhang: 0.35,
    transom: 0.8,
    widest: 0.42,
    deepest: 0.5,
    rise: { aft: 1.75, forward: 2.1 },
    immersed: 0,
    depth: [0.25, 0.94],
    slack: { low: [0.5, 0.08], high: [0.86, 0.34] },
    full: { low: [0.98, 0.02], high: [1, 0.26] },
    bow: { low: [0.3, 0.2], high: [0.7, 0.6] },
    aft: { low: [0.7, 0.04], high: [0.95, 0.4] },
  },
};

/** Sections between the ends of the waterline. */
const ALONG_WATERLINE = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.96] as const;
/** Height of the stem head below the sheer at the foremost point, share of the freeboard there. */
const STEM_HEAD = 0.04;

/** Control lines of a form whose body is as deep and as full as `fullness` says, from 0 (least) to 1 (most). */
export function controlLines(d: Dimensions, fullness: number): ControlLines {
  const c = CHARACTERS[d.form];
  const overhang = d.lengthM - d.waterlineLengthM;
  const forwardEnd = d.lengthM - overhang * c.forwardOverhang;
  const aftEnd = overhang * (1 - c.forwardOverhang);
  const onWaterline = (w: number): number => aftEnd + w * d.waterlineLengthM;
  const depthM = d.draughtM * mix(c.depth[0], c.depth[1], fullness);

  const half = d.hullBeamM / 2;
  const widest = c.widest * d.lengthM;
  const sheerZ = parabola([0, d.sternFreeboardM], [0.42 * d.lengthM, d.midFreeboardM], [d.lengthM, d.bowFreeboardM]);
  const sheer = (x: number): Vec2 => {
    const aft = Math.max(0, (widest - x) / widest);
    const forward = Math.max(0, (x - widest) / (d.lengthM - widest));
    return [half * (1 - (1 - c.transom) * aft ** 2.1 - forward ** 2.3), sheerZ(x)];
  };

  const deepest = onWaterline(c.deepest);
  const stemZ = sheerZ(d.lengthM) * (1 - STEM_HEAD);
  const transomZ = -c.immersed * depthM;
  const forefoot =
    d.form === 'longKeel' ? (FOREFOOT_POWER * d.draughtM) / ((1 - FLAT_END) * d.waterlineLengthM) : undefined;
  const bottom = profileThrough({
    depthM,
    deepest,
    aftEnd,
    forwardEnd,
    lengthM: d.lengthM,
    stemZ,
    transomZ,
    rise: c.rise,
    forefoot,
  });

  const mid = { low: mix2(c.slack.low, c.full.low, fullness), high: mix2(c.slack.high, c.full.high, fullness) };
  const handles = (x: number): Handles => {
    const forward = eased((x - widest) / (d.lengthM - widest));
    const aft = eased((widest - x) / widest);
    const end = forward > 0 ? c.bow : c.aft;
    const share = Math.max(forward, aft);
    return { low: mix2(mid.low, end.low, share), high: mix2(mid.high, end.high, share) };
  };

  const keel = keelOf(d, { bottom, onWaterline, half });
  const stations = spaced(
    d.lengthM,
    [0, d.lengthM, aftEnd, forwardEnd, widest, ...keel.stations],
    [...ALONG_WATERLINE.map(onWaterline), forwardEnd + 0.5 * (d.lengthM - forwardEnd)],
  );
  return {
    sheer,
    bottom,
    chine: (x) => (d.form === 'motorHull' ? chineAt(x, d, { sheer, bottom, low: handles(x).low, widest }) : null),
    keel: keel.at,
    handles,
    stations,
  };
}

/** The chine runs flat aft and climbs to the stem forward. */
function chineAt(
  x: number,
  d: Dimensions,
  lines: { sheer(x: number): Vec2; bottom(x: number): number; low: Vec2; widest: number },
): Vec2 {
  const [breadth, deckZ] = lines.sheer(x);
  const bottomZ = lines.bottom(x);
  const forward = Math.max(0, (x - lines.widest) / (d.lengthM - lines.widest));
  const rise = lines.low[1] + (0.62 - lines.low[1]) * forward ** 2;
  return [breadth * lines.low[0], bottomZ + rise * (deckZ - bottomZ) * (1 - 0.25 * forward)];
}

interface Body {
  bottom(x: number): number;
  onWaterline(w: number): number;
  readonly half: number;
}

interface Keel {
  at(x: number): KeelCut | null;
  readonly stations: readonly number[];
}

/** A keel thinner than this below the body is none. */
const LEAST_KEEL_M = 0.004;

function keelOf(d: Dimensions, body: Body): Keel {
  switch (d.form) {
    case 'longKeel':
      return longKeel(d, body);
    case 'finKeel':
      return fin(d, body, { rootChord: 0.24, tipChord: 0.66, centre: 0.5, thickness: 0.12 });
    case 'lightDisplacement':
      return fin(d, body, { rootChord: 0.15, tipChord: 0.7, centre: 0.52, thickness: 0.12 });
    case 'motorHull':
      return skeg(d, body, { from: 0.1, to: 0.74, thickness: 0.03 });
    case 'catamaran':
      return fin(d, body, { rootChord: 0.28, tipChord: 0.86, centre: 0.47, thickness: 0.09 });
  }
}

/** Ballast fin: a corner at its root, its after edge nearly upright. */
function fin(
  d: Dimensions,
  body: Body,
  p: { rootChord: number; tipChord: number; centre: number; thickness: number },
): Keel {
  const chord = p.rootChord * d.waterlineLengthM;
  const tip = p.tipChord * chord;
  const rootAft = body.onWaterline(p.centre) - chord / 2;
  const tipAft = rootAft + 0.1 * chord;
  const tipForward = tipAft + tip;
  const rootForward = rootAft + chord;
  const halfMost = (p.thickness * chord) / 2;
  const at = (x: number): KeelCut | null => {
    if (x <= rootAft || x >= rootForward) return null;
    const top = body.bottom(x);
    const down =
      x < tipAft
        ? (x - rootAft) / (tipAft - rootAft)
        : x > tipForward
          ? (rootForward - x) / (rootForward - tipForward)
          : 1;
    const bottomZ = top + (-d.draughtM - top) * down;
    if (top - bottomZ < LEAST_KEEL_M) return null;
    // Thickest a third from the leading edge, fine aft.
    const s = (rootForward - x) / chord;
    const shape = 2.6 * Math.sqrt(s) * (1 - s);
    const half = halfMost * Math.min(1, shape);
    return { bottomZ, halfBottomM: 0.8 * half, halfRootM: half, hollow: false };
  };
  return { at, stations: [rootAft, tipAft, (tipAft + tipForward) / 2, tipForward, rootForward] };
}

/** How the bottom of a long keel rises to the end of the waterline: a power of the distance. */
const FOREFOOT_POWER = 1.7;
const FLAT_END = 0.46;

/** Keel that runs from the sternpost to the forefoot and flows into the body. */
function longKeel(d: Dimensions, body: Body): Keel {
  const rootAft = body.onWaterline(0.05);
  const heel = body.onWaterline(0.17);
  const flatEnd = body.onWaterline(FLAT_END);
  const end = body.onWaterline(1);
  const most = d.draughtM + body.bottom(body.onWaterline(0.4));
  const at = (x: number): KeelCut | null => {
    if (x <= rootAft || x >= end) return null;
    const top = body.bottom(x);
    let bottomZ = -d.draughtM;
    if (x < heel) bottomZ = top + (-d.draughtM - top) * ((x - rootAft) / (heel - rootAft));
    if (x > flatEnd) bottomZ = -d.draughtM * (1 - ((x - flatEnd) / (end - flatEnd)) ** FOREFOOT_POWER);
    if (top - bottomZ < LEAST_KEEL_M) return null;
    const share = Math.min(1, Math.max(0, (top - bottomZ) / most)) ** 0.7;
    return { bottomZ, halfBottomM: 0.035 * d.beamM * share, halfRootM: 0.085 * d.beamM * share, hollow: true };
  };
  return { at, stations: [rootAft / 2, rootAft, heel, (heel + flatEnd) / 2, flatEnd] };
}

/** Shallow keel that deepens aft and ends before the propeller. */
function skeg(d: Dimensions, body: Body, p: { from: number; to: number; thickness: number }): Keel {
  const aft = body.onWaterline(p.from);
  const deepAft = body.onWaterline(p.from + 0.05);
  const deepForward = body.onWaterline(p.from + 0.3);
  const forward = body.onWaterline(p.to);
  const at = (x: number): KeelCut | null => {
    if (x <= aft || x >= forward) return null;
    const top = body.bottom(x);
    let share = 1;
    if (x < deepAft) share = (x - aft) / (deepAft - aft);
    if (x > deepForward) share = eased((forward - x) / (forward - deepForward));
    const bottomZ = top + (-d.draughtM - top) * share;
    if (top - bottomZ < LEAST_KEEL_M) return null;
    const half = (p.thickness * d.beamM * Math.min(1, 2 * share)) / 2;
    return { bottomZ, halfBottomM: half, halfRootM: half, hollow: false };
  };
  return { at, stations: [aft / 2, aft, deepAft, (deepAft + deepForward) / 2, deepForward, forward] };
}

interface Profile {
  readonly depthM: number;
  readonly deepest: number;
  readonly aftEnd: number;
  readonly forwardEnd: number;
  readonly lengthM: number;
  readonly stemZ: number;
  readonly transomZ: number;
  readonly rise: { readonly aft: number; readonly forward: number };
  /** Slope with which the stem leaves the water, where a keel sets it. */
  readonly forefoot: number | undefined;
}

/** Bottom of the body from the transom over its deepest point, through the ends of the waterline, up the stem. */
function profileThrough(p: Profile): (x: number) => number {
  const forwardRun = p.forwardEnd - p.deepest;
  const stemSlope = (p.rise.forward * p.depthM) / forwardRun;
  const stemRun = p.lengthM - p.forwardEnd;
  const immersed = p.transomZ < 0;
  const aftRun = p.deepest - (immersed ? 0 : p.aftEnd);
  const lift = p.depthM + p.transomZ;
  const aftSlope = (p.rise.aft * lift) / aftRun;
  return (x) => {
    if (x > p.forwardEnd) {
      const s = (x - p.forwardEnd) / stemRun;
      return cubic(0, (p.forefoot ?? stemSlope) * stemRun, p.stemZ, 1.7 * p.stemZ, s);
    }
    if (x >= p.deepest) return -p.depthM + cubic(0, 0, p.depthM, stemSlope * forwardRun, (x - p.deepest) / forwardRun);
    const start = immersed ? 0 : p.aftEnd;
    if (x >= start) return -p.depthM + cubic(0, 0, lift, aftSlope * aftRun, (p.deepest - x) / aftRun);
    return aftSlope * (p.aftEnd - x);
  };
}

/** Cubic from `a` to `b` over s 0..1 with slopes `da`, `db` in s. */
function cubic(a: number, da: number, b: number, db: number, s: number): number {
  const s2 = s * s;
  const s3 = s2 * s;
  return a * (1 - 3 * s2 + 2 * s3) + da * (s - 2 * s2 + s3) + b * (3 * s2 - 2 * s3) + db * (s3 - s2);
}

/** The parabola through three points. */
function parabola(a: Vec2, b: Vec2, c: Vec2): (x: number) => number {
  return (x) =>
    (a[1] * (x - b[0]) * (x - c[0])) / ((a[0] - b[0]) * (a[0] - c[0])) +
    (b[1] * (x - a[0]) * (x - c[0])) / ((b[0] - a[0]) * (b[0] - c[0])) +
    (c[1] * (x - a[0]) * (x - b[0])) / ((c[0] - a[0]) * (c[0] - b[0]));
}

/** 0 to 1 without a corner at 0; 0 below it. */
const eased = (s: number): number => Math.min(1, Math.max(0, s)) ** 1.8;
const mix = (a: number, b: number, share: number): number => a + (b - a) * share;
const mix2 = (a: Vec2, b: Vec2, share: number): Vec2 => [mix(a[0], b[0], share), mix(a[1], b[1], share)];

/** Places from aft forward: all that are needed, and of the others those that stand clear of them. */
function spaced(lengthM: number, needed: readonly number[], others: readonly number[]): number[] {
  const least = 0.02 * lengthM;
  const kept: number[] = [];
  for (const x of [...needed].sort((a, b) => a - b)) if (!kept.some((k) => Math.abs(k - x) < 1e-3)) kept.push(x);
  for (const x of others) if (kept.every((k) => Math.abs(k - x) >= least)) kept.push(x);
  return kept.sort((a, b) => a - b);
}
