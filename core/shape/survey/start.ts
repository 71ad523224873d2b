import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import * as portable from '../../base/portable';
import { type Axis, distance, type Vec3 } from '../../base/vec';
import { settled } from './adjust';
import type { End, Network, Observation } from './network';

/** Places to start an adjustment from, and where a point has another place that fits the readings as well. */
export interface Start {
  readonly places: readonly Vec3[];
  /** By free point: the mirror image that the readings do not tell from the place chosen. */
  readonly mirrors: ReadonlyMap<number, Vec3>;
}

type Partial3 = [number | null, number | null, number | null];
interface Range {
  readonly at: Vec3;
  readonly lengthM: number;
  readonly sigmaM: number;
}

/** Anchors nearly in one plane, or on one line, fix a place only up to its mirror image: least share of their spread across it. */
const LEAST_SPREAD = 0.05;
/** Two places this near are one, metres. */
const SAME_M = 1e-3;
/** Difference of the misfits from which one of two mirror images is the likelier by 20 to 1. */
const TELLING = 6;
/** A place that misses its distances by more than twenty standard deviations is no mirror image, it is wrong. */
const POSSIBLE = 400;
const MOST_FLIPS = 8;
const SCATTERINGS = 12;
/** Two attempts that place a point this far apart place it twice: what is merely loose is told otherwise. */
const APART_M = 0.05;

/**
 * Finds starting places: coordinates that heights and offsets hand on, then points one after another from their distances to points
 * already placed, each with its mirror image. A network that hangs on nothing gets a frame of its own. What cannot be reached so
 * starts beside its neighbours; several such starts are tried and the one that fits best is kept.
 */
export function startOf(network: Network): Start {
  const { free, observations } = network;
  if (free.length === 0) return { places: [], mirrors: new Map() };
  const first = chained(network, new Set(), 0);
  let best = { ...settled(observations, first.places), choices: first.choices };
  const rivals: Settled[] = [];
  const attempt = (places: readonly Vec3[], choices: Chain['choices']): boolean => {
    const found = settled(observations, places);
    const isBetter = found.chiSquare < best.chiSquare - TELLING;
    rivals.push(isBetter ? best : found);
    if (isBetter) best = { ...found, choices };
    return isBetter;
  };
  if (first.scattered > 0) {
    for (let scatter = 1; scatter <= SCATTERINGS; scatter++) {
      const { places, choices } = chained(network, new Set(), scatter);
      attempt(places, choices);
    }
  }
  // A point on the wrong side takes those placed from it along, or stands there alone.
  let flips: ReadonlySet<number> = new Set();
  for (const [point, other] of [...best.choices].slice(0, MOST_FLIPS)) {
    const tried = new Set(flips).add(point);
    const { places, choices } = chained(network, tried, 0);
    if (attempt(places, choices)) flips = tried;
    attempt(
      best.places.map((at, index) => (index === point ? other : at)),
      best.choices,
    );
  }
  return { places: best.places, mirrors: mirrorsOf(best, rivals) };
}

interface Settled {
  readonly places: readonly Vec3[];
  readonly chiSquare: number;
}

/** Where a point stands in an attempt that fits as well. */
function mirrorsOf(best: Settled, rivals: readonly Settled[]): ReadonlyMap<number, Vec3> {
  const mirrors = new Map<number, Vec3>();
  for (const rival of rivals) {
    if (rival.chiSquare - best.chiSquare >= TELLING) continue;
    best.places.forEach((at, point) => {
      const other = rival.places[point];
      if (other && distance(at, other) > APART_M && !mirrors.has(point)) mirrors.set(point, other);
    });
  }
  return mirrors;
}

interface Chain {
  readonly places: readonly Vec3[];
  /** The image not taken, by point, in the order of placing. */
  readonly choices: ReadonlyMap<number, Vec3>;
  /** Points that no chain of readings reached. */
  readonly scattered: number;
}

function chained(network: Network, flips: ReadonlySet<number>, scatter: number): Chain {
  const { free, given, observations } = network;
  const tapes = tapesOf(network);
  const known: Partial3[] = free.map(() => [null, null, null]);
  const choices = new Map<number, Vec3>();
  const isPlaced = (point: number): boolean => (known[point] as Partial3).every((part) => part !== null);
  const put = (point: number, at: Vec3): void => {
    known[point] = [...at];
  };

  handOn(observations, known);
  const anchored = Object.keys(given).length > 0 || observations.some((one) => 'at' in one.from || 'at' in one.to);
  if (!anchored) ownFrame(free.length, observations, known);

  let scattered = 0;
  for (let round = 0; round <= free.length; round++) {
    const next = bestReached(tapes, known);
    if (next) {
      const [taken, other] = ordered(next.candidates, free[next.point]?.near ?? [null, null, null]);
      if (taken) {
        put(next.point, flips.has(next.point) && other ? other : taken);
        if (other) choices.set(next.point, other);
        handOn(observations, known);
        continue;
      }
    }
    const waiting = free.findIndex((_, point) => !isPlaced(point));
    if (waiting < 0) break;
    const near = free[waiting]?.near ?? [null, null, null];
    const beside = besideNeighbours(waiting, tapes, known, scatter);
    const own = known[waiting] as Partial3;
    put(waiting, [own[0] ?? near[0] ?? beside[0], own[1] ?? near[1] ?? beside[1], own[2] ?? near[2] ?? beside[2]]);
    if (near.includes(null)) scattered += 1;
    handOn(observations, known);
  }
  return { places: known as unknown as readonly Vec3[], choices, scattered };
}

/** A coordinate difference hands a known coordinate from one end to the other. */
function handOn(observations: readonly Observation[], known: readonly Partial3[]): void {
  for (let changed = true; changed; ) {
    changed = false;
    for (const { from, to, model, valueM } of observations) {
      if (model.type === 'length') continue;
      // Without side it is taken to run forward, to port or up; the adjustment tries the mirror image.
      const step = model.type === 'along' ? model.sign * valueM : valueM;
      const [a, b] = [coordinateOf(from, model.axis, known), coordinateOf(to, model.axis, known)];
      if (a !== null && b === null && 'free' in to) (known[to.free] as Partial3)[model.axis] = a + step;
      else if (b !== null && a === null && 'free' in from) (known[from.free] as Partial3)[model.axis] = b - step;
      else continue;
      changed = true;
    }
  }
}

const coordinateOf = (end: End, axis: Axis, known: readonly Partial3[]): number | null =>
  'at' in end ? end.at[axis] : (known[end.free] as Partial3)[axis];
const placeOf = (end: End, known: readonly Partial3[]): Vec3 | null => {
  if ('at' in end) return end.at;
  const [x, y, z] = known[end.free] as Partial3;
  return x === null || y === null || z === null ? null : [x, y, z];
};

/** Where nothing is given: the point with most readings at the origin, its neighbour forward of it, a third to port. */
function ownFrame(count: number, observations: readonly Observation[], known: Partial3[]): void {
  const lengths = observations.filter(({ model }) => model.type === 'length');
  const degree = (point: number): number => lengths.filter(({ from, to }) => touches(from, to, point)).length;
  const order = Array.from({ length: count }, (_, point) => point).sort((a, b) => degree(b) - degree(a) || a - b);
  const first = order[0];
  if (first === undefined) return;
  const origin = known[first] as Partial3;
  origin.forEach((part, axis) => {
    if (part === null) origin[axis] = 0;
  });
  handOn(observations, known);
  const linked = (point: number, others: readonly number[]): boolean =>
    others.every((other) => lengths.some(({ from, to }) => touches(from, to, point) && touches(from, to, other)));
  const second = order.find((point) => point !== first && linked(point, [first]));
  if (second === undefined) return;
  const along = known[second] as Partial3;
  along[1] ??= 0;
  along[2] ??= 0;
  const third = order.find((point) => point !== first && point !== second && linked(point, [first, second]));
  if (third !== undefined) (known[third] as Partial3)[2] ??= 0;
}

const touches = (from: End, to: End, point: number): boolean =>
  ('free' in from && from.free === point) || ('free' in to && to.free === point);

/** The point, not yet placed, that most readings to placed points fix; with the places that they leave for it. */
function bestReached(
  tapes: Tapes,
  known: readonly Partial3[],
): { readonly point: number; readonly candidates: readonly Vec3[] } | null {
  let best: { point: number; surplus: number; candidates: readonly Vec3[] } | null = null;
  known.forEach((parts, point) => {
    const missing = parts.filter((part) => part === null).length;
    if (missing === 0) return;
    const ranges = rangesTo(point, tapes, known);
    const surplus = ranges.length - missing;
    if (surplus < 0 || (best !== null && surplus <= best.surplus)) return;
    const candidates = resected(parts, ranges);
    if (candidates.length > 0) best = { point, surplus, candidates };
  });
  return best;
}

const rangesTo = (point: number, tapes: Tapes, known: readonly Partial3[]): Range[] =>
  (tapes[point] ?? []).flatMap(({ other, lengthM, sigmaM }) => {
    const at = placeOf(other, known);
    return at ? [{ at, lengthM, sigmaM }] : [];
  });

/** By point sought: the tapes that end there, with their other ends. */
type Tapes = readonly (readonly { readonly other: End; readonly lengthM: number; readonly sigmaM: number }[])[];

function tapesOf({ free, observations }: Network): Tapes {
  const tapes: { other: End; lengthM: number; sigmaM: number }[][] = free.map(() => []);
  for (const { from, to, model, valueM: lengthM, sigmaM } of observations) {
    if (model.type !== 'length') continue;
    if ('free' in from) tapes[from.free]?.push({ other: to, lengthM, sigmaM });
    if ('free' in to) tapes[to.free]?.push({ other: from, lengthM, sigmaM });
  }
  return tapes;
}

/**
 * Places at the given distances from known ones, some coordinates perhaps known already: the spheres less the first are planes,
 * linear in the coordinates sought; what the planes leave along their common line, the first sphere cuts in two. Best first.
 */
export function resected(parts: Readonly<Partial3>, ranges: readonly Range[]): readonly Vec3[] {
  const axes = ([0, 1, 2] as const).filter((axis) => parts[axis] === null);
  const n = axes.length;
  const reduced = ranges.map(({ at, lengthM }) => {
    const off = ([0, 1, 2] as const).reduce<number>(
      (sum, axis) => sum + (parts[axis] === null ? 0 : ((parts[axis] ?? 0) - at[axis]) ** 2),
      0,
    );
    return { at: axes.map((axis) => at[axis]), square: lengthM * lengthM - off };
  });
  const first = reduced[0];
  if (!first || reduced.length < n) return [];
  const planes = reduced.slice(1).map(({ at, square }) => ({
    normal: at.map((part, i) => 2 * (part - (first.at[i] ?? 0))),
    rest: first.square - square + sumOfSquares(at) - sumOfSquares(first.at),
  }));
  const full = (part: readonly number[]): Vec3 => {
    const at: [number, number, number] = [parts[0] ?? 0, parts[1] ?? 0, parts[2] ?? 0];
    axes.forEach((axis, i) => {
      at[axis] = part[i] ?? 0;
    });
    return at;
  };
  const candidates: Vec3[] = [];
  const { base, directions, said } = planes.length === 0 ? nothingSaid(n) : linear(planes, n);
  // All directions said by planes: one place. Only where they are said well enough; else the sphere decides along the worst.
  if (said === n) candidates.push(full(base(n)));
  const across = directions[n - 1];
  if (across && said >= n - 1) {
    const foot = base(n - 1);
    const toFirst = foot.map((part, i) => part - (first.at[i] ?? 0));
    const b = toFirst.reduce((sum, part, i) => sum + part * (across[i] ?? 0), 0);
    const c = sumOfSquares(toFirst) - first.square;
    const root = Math.sqrt(Math.max(0, b * b - c));
    for (const step of root > SAME_M ? [-b + root, -b - root] : [-b]) {
      candidates.push(full(foot.map((part, i) => part + step * (across[i] ?? 0))));
    }
  }
  const misfit = (at: Vec3): number =>
    ranges.reduce((sum, range) => sum + ((distance(at, range.at) - range.lengthM) / range.sigmaM) ** 2, 0);
  const ranked = candidates.map((at) => ({ at, misfit: misfit(at) })).sort((a, b) => a.misfit - b.misfit);
  const best = ranked[0]?.misfit ?? 0;
  const different = ranked.filter(
    ({ at, misfit: own }, i) =>
      own < POSSIBLE + 4 * best && ranked.slice(0, i).every((other) => distance(other.at, at) > SAME_M),
  );
  return different.map(({ at }) => at);
}

const sumOfSquares = (parts: readonly number[]): number => parts.reduce((sum, part) => sum + part * part, 0);

interface Linear {
  /** The solution with the least length over the best-said `rank` directions. */
  base(rank: number): number[];
  /** Directions from the best said to the worst. */
  readonly directions: readonly (readonly number[])[];
  /** How many of them are said well enough to count. */
  readonly said: number;
}

const nothingSaid = (n: number): Linear => ({
  base: () => new Array<number>(n).fill(0),
  directions: Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0))),
  said: 0,
});

function linear(planes: readonly { readonly normal: readonly number[]; readonly rest: number }[], n: number): Linear {
  // Rows of zeros make the matrix at least square, so that every direction has its singular vector.
  const rows = planes.map(({ normal }) => [...normal]);
  while (rows.length < n) rows.push(new Array<number>(n).fill(0));
  const rests = [...planes.map(({ rest }) => rest), ...new Array<number>(rows.length - planes.length).fill(0)];
  const {
    diagonal,
    leftSingularVectors: u,
    rightSingularVectors: v,
  } = new SingularValueDecomposition(new Matrix(rows));
  const order = diagonal.map((value, k) => ({ value, k })).sort((a, b) => b.value - a.value);
  const directions = order.map(({ k }) => v.getColumn(k));
  const largest = order[0]?.value ?? 0;
  return {
    directions,
    said: order.filter(({ value }) => largest > 0 && value > LEAST_SPREAD * largest).length,
    base: (rank) => {
      const sum = new Array<number>(n).fill(0);
      for (const { value, k } of order.slice(0, rank)) {
        if (!(value > 1e-9 * largest) || largest === 0) continue;
        const share = rests.reduce((total, rest, row) => total + u.get(row, k) * rest, 0) / value;
        for (let i = 0; i < n; i++) sum[i] = (sum[i] ?? 0) + share * v.get(i, k);
      }
      return sum;
    },
  };
}

/** Of two mirror images the one that the drawn boat is nearer to, else the one that fits best. */
function ordered(candidates: readonly Vec3[], near: readonly (number | null)[]): readonly Vec3[] {
  const off = (at: Vec3): number =>
    near.reduce<number>((sum, part, i) => sum + (part === null ? 0 : ((at[i] ?? 0) - part) ** 2), 0);
  return near.every((part) => part === null) ? candidates : [...candidates].sort((a, b) => off(a) - off(b));
}

/** A step off the middle of what is placed, each time in another direction, so that no two points start as one. */
function besideNeighbours(point: number, tapes: Tapes, known: readonly Partial3[], scatter: number): Vec3 {
  const places = rangesTo(point, tapes, known);
  const reach = places.reduce((sum, { lengthM }) => sum + lengthM, 0) / Math.max(1, places.length) || 1;
  const middle = [0, 1, 2].map(
    (axis) => places.reduce((sum, { at }) => sum + (at[axis] ?? 0), 0) / Math.max(1, places.length),
  );
  // Turned by the golden angle from one point, and from one attempt, to the next: well spread and always the same.
  const turn = (point + 1 + 7 * scatter) * Math.PI * (3 - Math.sqrt(5));
  const rise = (((point + 3 * scatter) * 0.618034) % 1) * 2 - 1;
  const flat = Math.sqrt(1 - rise * rise);
  return [
    (middle[0] ?? 0) + reach * flat * portable.cos(turn),
    (middle[1] ?? 0) + reach * flat * portable.sin(turn),
    (middle[2] ?? 0) + reach * rise,
  ];
}
