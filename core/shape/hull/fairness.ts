import * as portable from '../../base/portable';
import type { Vec2 } from '../../base/vec';
import type { Hull } from '../../boat/schema/boat';

/**
 * Is a section fair? The batten of the lofting floor answers: a cubic spline through the points, a corner at each knuckle.
 * Its curvature, drawn as a comb, shows at a glance what offsets hide: + where the section is round seen from outside (on its
 * way from keel to sheer it turns to the left, y right and z up), - where it is hollow, as at a garboard.
 */
export interface CombTooth {
  /** Point of the batten, [half-breadth, z] metres. */
  readonly at: Vec2;
  /** Unit normal, outwards: away from the centreline on an upright side, down under a flat bottom. */
  readonly outward: Vec2;
  /** 1/m, + where the section is round seen from outside, - where it is hollow. */
  readonly curvature: number;
  /** Place along the section: index of the point before it and fraction of the gap. */
  readonly along: number;
}

export interface UnfairPoint {
  readonly index: number;
  /** How far the point stands off a batten through its neighbours, metres, + outwards. */
  readonly offM: number;
  /** Where it would be fair, [half-breadth, z]. */
  readonly fairAt: Vec2;
  /** How often the comb changes sign within `withinM` around the point. */
  readonly turns: number;
  readonly withinM: number;
}

export interface SectionCrossing {
  /** Gaps between points, by the index of their first point, that cross; or the two points out of order. */
  readonly between: readonly [number, number];
  readonly at: Vec2;
  readonly kind: 'itself' | 'falls' | 'centreline';
}

/** Teeth of the comb in one gap between points. */
const TEETH = 8;
/** What is smaller than this no tape reads and no eye sees: offsets rounded to the millimetre stay fair. */
const LEAST_BUMP_M = 0.003;
/** Share of the tape's accuracy below which a bump is not told. */
const SHARE_OF_TAPE = 0.15;
/** Most points of one section that are put right. */
const MOST_STEPS = 12;
/** Curvature below this is straight: radii over 100 m. */
const STRAIGHT = 0.01;

/**
 * How often the curvature of a section may change its sign between keel and sheer, by form: a wineglass is round at the
 * foot of its keel, hollow at the garboard, round at the bilge and may flare. Common practice of drawing such hulls; no publication.
 */
const TURNS_OF_FORM: Readonly<Record<NonNullable<Hull['form']>, number>> = {
  longKeel: 3,
  finKeel: 3,
  lightDisplacement: 1,
  motorHull: 2,
  catamaran: 2,
};
const TURNS_OTHERWISE = 3;

const turnsAllowed = (form: Hull['form']): number => (form ? TURNS_OF_FORM[form] : TURNS_OTHERWISE);

/** The curvature comb of a section, keel to sheer; empty where there is nothing to bend. Not smoothed over knuckles. */
export function curvatureComb(points: readonly Vec2[], knuckles: readonly number[] = []): readonly CombTooth[] {
  return stretchesOf(points, knuckles).flatMap(({ first, own }) => {
    const batten = battenThrough(own);
    if (!batten) return [];
    const teeth: CombTooth[] = [];
    for (let gap = 0; gap < batten.places.length - 1; gap += 1) {
      const from = gap === 0 ? 0 : 1;
      for (let k = from; k <= TEETH; k += 1) {
        const { at, slope, bend } = batten.read(gap, k / TEETH);
        const speed = portable.hypot(slope[0], slope[1]);
        if (!(speed > 1e-9)) continue;
        const turning = (slope[0] * bend[1] - slope[1] * bend[0]) / speed ** 3;
        teeth.push({
          at,
          outward: [slope[1] / speed, -slope[0] / speed],
          curvature: turning,
          along:
            first +
            (batten.places[gap] ?? gap) +
            (k / TEETH) * ((batten.places[gap + 1] ?? 0) - (batten.places[gap] ?? 0)),
        });
      }
    }
    return teeth;
  });
}

/** How often the curvature changes its sign between knuckles, straight parts left out. */
export function turnsOf(points: readonly Vec2[], knuckles: readonly number[] = []): number {
  return stretchesOf(points, knuckles).reduce((sum, { own }) => sum + signChanges(bendsOf(own)), 0);
}

/**
 * Points that stand off the run of their neighbours. One after the other, the worst first, and each put right before the next is
 * looked for, so that one bad reading does not blame the points beside it. `gradeM` is the accuracy of a reading (two standard
 * deviations); bumps far below it are not told. A point counts when the comb makes an extra wave there (up, down and up again
 * within the points beside it), or when it changes sign at it more often than the form asks.
 */
export function unfairPoints(
  points: readonly Vec2[],
  { knuckles = [], form, gradeM }: { knuckles?: readonly number[]; form?: Hull['form']; gradeM: number },
): readonly UnfairPoint[] {
  const floor = Math.max(LEAST_BUMP_M, SHARE_OF_TAPE * gradeM);
  const work = points.map(([y, z]): Vec2 => [y, z]);
  const found = new Map<number, UnfairPoint>();
  const allowed = turnsAllowed(form);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const tooMany = turnsOf(work, knuckles) > allowed;
    let worst: { index: number; offM: number; outward: Vec2 } | null = null;
    for (const { first, own } of stretchesOf(work, knuckles)) {
      const bends = bendsOf(own);
      for (let k = 1; k < own.length - 1; k += 1) {
        if (!waves(bends, k) && !(tooMany && flips(bends, k))) continue;
        const off = standsOff(own, k);
        if (!off || Math.abs(off.offM) < floor || found.has(first + k)) continue;
        if (!worst || Math.abs(off.offM) > Math.abs(worst.offM)) worst = { index: first + k, ...off };
      }
    }
    if (!worst) break;
    const { index, offM, outward } = worst;
    const [y, z] = work[index] as Vec2;
    const low = work[index - 1]?.[1] ?? z;
    const high = work[index + 1]?.[1] ?? z;
    const fairAt: Vec2 = [Math.max(0, y - offM * outward[0]), Math.min(high, Math.max(low, z - offM * outward[1]))];
    const near = [index - 2, index - 1, index, index + 1, index + 2].flatMap((i) => (work[i] ? [work[i] as Vec2] : []));
    found.set(index, {
      index,
      offM,
      fairAt,
      turns: signChanges(bendsOf(near)),
      withinM: lengthOf([work[index - 1] ?? [y, z], [y, z], work[index + 1] ?? [y, z]]),
    });
    work[index] = fairAt;
  }
  return [...found.values()].sort((a, b) => a.index - b.index);
}

/** Where a section crosses itself or the centreline, or falls on its way from keel to sheer: none of it can be a hull. */
export function sectionCrossings(points: readonly Vec2[]): readonly SectionCrossing[] {
  const found: SectionCrossing[] = [];
  points.forEach((a, i) => {
    if (a[0] < 0) found.push({ between: [i, i], at: a, kind: 'centreline' });
    const b = points[i + 1];
    if (!b) return;
    for (let j = i + 2; j < points.length - 1; j += 1) {
      const at = meeting(a, b, points[j] as Vec2, points[j + 1] as Vec2);
      if (at) found.push({ between: [i, j], at, kind: 'itself' });
    }
    if (b[1] < a[1] && !found.some(({ between }) => between.includes(i)))
      found.push({ between: [i, i + 1], at: b, kind: 'falls' });
  });
  return found;
}

/**
 * Where two sections cross each other more often than once: two neighbours whose lines weave. Once is usual (flare over a
 * finer entry); twice means that a point of one of them stands too far in or out. Depths below `floorM` are one line.
 */
export function weaving(one: readonly Vec2[], other: readonly Vec2[], floorM: number): readonly Vec2[] {
  const low = Math.max(one[0]?.[1] ?? 0, other[0]?.[1] ?? 0);
  const high = Math.min(one.at(-1)?.[1] ?? 0, other.at(-1)?.[1] ?? 0);
  const levels = [...new Set([...one, ...other].map(([, z]) => z))]
    .filter((z) => z >= low && z <= high)
    .sort((a, b) => a - b);
  const crossings: Vec2[] = [];
  let before: { sign: number; z: number; gap: number } | null = null;
  for (const z of levels) {
    const a = breadthAt(one, z);
    const b = breadthAt(other, z);
    if (a === null || b === null) continue;
    const gap = a - b;
    if (Math.abs(gap) < floorM) continue;
    const sign = Math.sign(gap);
    if (before && sign !== before.sign) {
      const at = before.z + ((z - before.z) * before.gap) / (before.gap - gap);
      crossings.push([breadthAt(one, at) ?? a, at]);
    }
    before = { sign, z, gap };
  }
  return crossings.length > 1 ? crossings : [];
}

function breadthAt(points: readonly Vec2[], z: number): number | null {
  for (let i = 0; i + 1 < points.length; i += 1) {
    const [y0, z0] = points[i] as Vec2;
    const [y1, z1] = points[i + 1] as Vec2;
    if (z >= z0 && z <= z1 && z1 > z0) return y0 + ((y1 - y0) * (z - z0)) / (z1 - z0);
  }
  return null;
}

interface Run {
  /** Index of its first point in the section. */
  readonly first: number;
  readonly own: readonly Vec2[];
}

/** Smooth runs between knuckles; points that coincide are counted once. */
function stretchesOf(points: readonly Vec2[], knuckles: readonly number[]): readonly Run[] {
  const edges = [0, ...knuckles.filter((k) => k > 0 && k < points.length - 1), points.length - 1];
  return edges.slice(0, -1).flatMap((first, s) => {
    const own = points.slice(first, (edges[s + 1] ?? first) + 1);
    return own.length > 2 ? [{ first, own }] : [];
  });
}

/** Curvature of the circle through each point and its neighbours, 1/m, + round seen from outside; 0 at the ends. */
function bendsOf(points: readonly Vec2[]): readonly number[] {
  return points.map((b, i) => {
    const a = points[i - 1];
    const c = points[i + 1];
    if (!a || !c) return 0;
    const ab = portable.hypot(b[0] - a[0], b[1] - a[1]);
    const bc = portable.hypot(c[0] - b[0], c[1] - b[1]);
    const ac = portable.hypot(c[0] - a[0], c[1] - a[1]);
    const product = ab * bc * ac;
    if (!(product > 1e-12)) return 0;
    return (2 * ((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]))) / product;
  });
}

function signChanges(bends: readonly number[]): number {
  let changes = 0;
  let last = 0;
  for (const bend of bends.slice(1, -1)) {
    if (Math.abs(bend) < STRAIGHT) continue;
    if (last !== 0 && Math.sign(bend) !== Math.sign(last)) changes += 1;
    last = bend;
  }
  return changes;
}

/** The comb goes up, down and up again (or the other way) at a point: k-2 to k+2 must all be inner points. */
function waves(bends: readonly number[], k: number): boolean {
  if (k < 3 || k > bends.length - 4) return false;
  const [a = 0, b = 0, c = 0, d = 0, e = 0] = bends.slice(k - 2, k + 3);
  return (b < a && c > b && c > d && e > d) || (b > a && c < b && c < d && e < d);
}

/** The comb changes its sign on both sides of a point. */
function flips(bends: readonly number[], k: number): boolean {
  const [a = 0, b = 0, c = 0] = bends.slice(k - 1, k + 2);
  const strong = Math.abs(b) >= STRAIGHT;
  return strong && Math.sign(b) * Math.sign(a) < 0 && Math.sign(b) * Math.sign(c) < 0;
}

/** How far an inner point stands off the polynomial through two neighbours on each side (fewer at the ends), + outwards. */
function standsOff(points: readonly Vec2[], k: number): { offM: number; outward: Vec2 } | null {
  const from = Math.max(0, k - 2);
  const to = Math.min(points.length - 1, k + 2);
  const knots: number[] = [];
  const others: Vec2[] = [];
  let place = 0;
  let own = 0;
  for (let i = from; i <= to; i += 1) {
    const here = points[i] as Vec2;
    const last = points[i - 1];
    if (i > from && last) place += portable.hypot(here[0] - last[0], here[1] - last[1]);
    if (i === k) own = place;
    else {
      knots.push(place);
      others.push(here);
    }
  }
  if (others.length < 3) return null;
  const weights = knots.map((knot, i) =>
    knots.reduce((product, other, j) => (i === j ? product : (product * (own - other)) / (knot - other)), 1),
  );
  if (weights.some((weight) => !Number.isFinite(weight))) return null;
  const fair = others.reduce<Vec2>(
    (sum, p, i) => [sum[0] + p[0] * (weights[i] ?? 0), sum[1] + p[1] * (weights[i] ?? 0)],
    [0, 0],
  );
  const before = points[k - 1] as Vec2;
  const after = points[k + 1] as Vec2;
  const along = portable.hypot(after[0] - before[0], after[1] - before[1]);
  if (!(along > 1e-9)) return null;
  const outward: Vec2 = [(after[1] - before[1]) / along, -(after[0] - before[0]) / along];
  const point = points[k] as Vec2;
  return { offM: (point[0] - fair[0]) * outward[0] + (point[1] - fair[1]) * outward[1], outward };
}

interface Batten {
  /** Index, within the run, of the points that it passes. */
  readonly places: readonly number[];
  read(gap: number, fraction: number): { readonly at: Vec2; readonly slope: Vec2; readonly bend: Vec2 };
}

/**
 * The cubic spline over chord length with "not-a-knot" ends (the first two and the last two gaps are one cubic each), which is a
 * parabola through three points. C2, so its comb has no steps. Null where fewer than three points differ.
 */
function battenThrough(points: readonly Vec2[]): Batten | null {
  const places: number[] = [];
  const knots: number[] = [];
  const own: Vec2[] = [];
  let place = 0;
  points.forEach((point, i) => {
    const last = own.at(-1);
    const step = last ? portable.hypot(point[0] - last[0], point[1] - last[1]) : 1;
    if (step < 1e-6) return;
    if (last) place += step;
    places.push(i);
    knots.push(place);
    own.push(point);
  });
  if (own.length < 3) return null;
  const second = ([0, 1] as const).map((axis) =>
    secondDerivatives(
      knots,
      own.map((point) => point[axis]),
    ),
  );
  return {
    places,
    read(gap, fraction) {
      const h = (knots[gap + 1] as number) - (knots[gap] as number);
      const a = 1 - fraction;
      const b = fraction;
      const read = (axis: 0 | 1): readonly [number, number, number] => {
        const m = second[axis] as readonly number[];
        const m0 = m[gap] as number;
        const m1 = m[gap + 1] as number;
        const v0 = (own[gap] as Vec2)[axis];
        const v1 = (own[gap + 1] as Vec2)[axis];
        return [
          a * v0 + b * v1 + (((a ** 3 - a) * m0 + (b ** 3 - b) * m1) * h * h) / 6,
          (v1 - v0) / h + ((-(3 * a * a - 1) * m0 + (3 * b * b - 1) * m1) * h) / 6,
          a * m0 + b * m1,
        ];
      };
      const [y, dy, ddy] = read(0);
      const [z, dz, ddz] = read(1);
      return { at: [y, z], slope: [dy, dz], bend: [ddy, ddz] };
    },
  };
}

/** Second derivatives of the cubic spline at its knots, not-a-knot at both ends. */
function secondDerivatives(knots: readonly number[], values: readonly number[]): readonly number[] {
  const n = knots.length;
  const h = Array.from({ length: n - 1 }, (_, i) => (knots[i + 1] as number) - (knots[i] as number));
  const chord = h.map((step, i) => ((values[i + 1] as number) - (values[i] as number)) / step);
  if (n === 3) {
    const bend = (2 * ((chord[1] as number) - (chord[0] as number))) / ((h[0] as number) + (h[1] as number));
    return [bend, bend, bend];
  }
  // Unknowns m1 .. m(n-2); the end values follow from them: m0 = m1 - (m2 - m1) h0 / h1, and its mirror image.
  const inner = n - 2;
  const lower = new Array<number>(inner).fill(0);
  const middle = new Array<number>(inner).fill(0);
  const upper = new Array<number>(inner).fill(0);
  const right = new Array<number>(inner).fill(0);
  for (let k = 0; k < inner; k += 1) {
    const left = h[k] as number;
    const next = h[k + 1] as number;
    lower[k] = left;
    middle[k] = 2 * (left + next);
    upper[k] = next;
    right[k] = 6 * ((chord[k + 1] as number) - (chord[k] as number));
    if (k === 0) {
      middle[k] = (middle[k] as number) + left * (1 + left / next);
      upper[k] = (upper[k] as number) - (left * left) / next;
    }
    if (k === inner - 1) {
      middle[k] = (middle[k] as number) + next * (1 + next / left);
      lower[k] = (lower[k] as number) - (next * next) / left;
    }
  }
  for (let k = 1; k < inner; k += 1) {
    const share = (lower[k] as number) / (middle[k - 1] as number);
    middle[k] = (middle[k] as number) - share * (upper[k - 1] as number);
    right[k] = (right[k] as number) - share * (right[k - 1] as number);
  }
  const m = new Array<number>(n).fill(0);
  for (let k = inner - 1; k >= 0; k -= 1)
    m[k + 1] =
      ((right[k] as number) - (k < inner - 1 ? (upper[k] as number) * (m[k + 2] as number) : 0)) /
      (middle[k] as number);
  m[0] = (m[1] as number) - (((m[2] as number) - (m[1] as number)) * (h[0] as number)) / (h[1] as number);
  m[n - 1] =
    (m[n - 2] as number) +
    (((m[n - 2] as number) - (m[n - 3] as number)) * (h[n - 2] as number)) / (h[n - 3] as number);
  return m;
}

/** Where two segments cross, null where they do not or only touch. */
function meeting(a: Vec2, b: Vec2, c: Vec2, d: Vec2): Vec2 | null {
  const ab: Vec2 = [b[0] - a[0], b[1] - a[1]];
  const cd: Vec2 = [d[0] - c[0], d[1] - c[1]];
  const turn = ab[0] * cd[1] - ab[1] * cd[0];
  if (Math.abs(turn) < 1e-15) return null;
  const s = ((c[0] - a[0]) * cd[1] - (c[1] - a[1]) * cd[0]) / turn;
  const t = ((c[0] - a[0]) * ab[1] - (c[1] - a[1]) * ab[0]) / turn;
  return s > 0 && s < 1 && t > 0 && t < 1 ? [a[0] + ab[0] * s, a[1] + ab[1] * s] : null;
}

const lengthOf = (points: readonly Vec2[]): number =>
  points.reduce((sum, p, i) => {
    const last = points[i - 1];
    return last ? sum + portable.hypot(p[0] - last[0], p[1] - last[1]) : sum;
  }, 0);
