import * as portable from '../../base/portable';
import { AXES, type Axis, type Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import { type Adjusted, rowOf } from './adjust';
import type { End, FreePoint, Network, Observation } from './network';
import type { Row } from './normal';

/** What the readings leave loose, and the readings that would fix it, those that fix most first. */
export interface Loose {
  /** Motions of the whole survey that no reading sees. */
  readonly motions: readonly Motion[];
  /** Points that may move by themselves, with the axes along which they may. */
  readonly points: readonly { readonly point: string; readonly axes: readonly ('x' | 'y' | 'z')[] }[];
  readonly wouldFix: readonly Fixing[];
}
export type Motion = 'alongX' | 'alongY' | 'alongZ' | 'aboutX' | 'aboutY' | 'aboutZ';
export interface Fixing {
  /** Null: the place of the point itself. */
  readonly from: string | null;
  readonly to: string;
  readonly kind: 'distance' | 'height' | 'offset' | 'place';
}

type Direction = readonly number[];
const MOTIONS: readonly Motion[] = ['alongX', 'alongY', 'alongZ', 'aboutX', 'aboutY', 'aboutZ'];
/** Share of a motion that must be loose to call it so. */
const WHOLE = 0.999;
/** A coordinate takes part in a loose direction from this share on. */
const PART = 0.03;
const MOST_READINGS = 6;

export function looseness(network: Network, { loose, places }: Adjusted, survey: NonNullable<Boat['survey']>): Loose {
  const { free } = network;
  if (loose.length === 0) return { motions: [], points: [], wouldFix: [] };
  // A motion of the whole is one only where the points are held together by readings.
  const rigid =
    free.length < 2
      ? []
      : MOTIONS.flatMap((motion) => {
          const direction = motionOf(motion, places);
          return direction && within(direction, loose) > WHOLE ? [{ motion, direction }] : [];
        });
  const own = without(
    loose,
    rigid.map(({ direction }) => direction),
  );
  const points = free.flatMap(({ id }, index) => {
    const axes = AXES.filter((_, axis) => own.some((direction) => Math.abs(direction[3 * index + axis] ?? 0) > PART));
    return axes.length === 0 ? [] : [{ point: id, axes }];
  });
  return { motions: rigid.map(({ motion }) => motion), points, wouldFix: wouldFix(network, places, loose, survey) };
}

function motionOf(motion: Motion, places: readonly Vec3[]): Direction | null {
  const axis = AXES.indexOf(motion.slice(-1).toLowerCase() as (typeof AXES)[number]);
  const direction = places.flatMap((at) => {
    if (motion.startsWith('along')) return [0, 1, 2].map((one) => (one === axis ? 1 : 0));
    const middle = [0, 1, 2].map((one) => places.reduce((sum, place) => sum + (place[one] ?? 0), 0) / places.length);
    const [x, y, z] = at.map((part, one) => part - (middle[one] ?? 0)) as [number, number, number];
    return axis === 0 ? [0, -z, y] : axis === 1 ? [z, 0, -x] : [-y, x, 0];
  });
  const size = portable.hypot(...direction);
  return size < 1e-9 ? null : direction.map((part) => part / size);
}

const dot = (a: Direction, b: Direction): number => a.reduce((sum, part, i) => sum + part * (b[i] ?? 0), 0);
/** Length of the part of a unit direction that lies within a space of unit directions square to one another. */
const within = (direction: Direction, space: readonly Direction[]): number =>
  portable.hypot(...space.map((one) => dot(one, direction)));

/** A space less some directions: unit directions, square to one another. */
function without(space: readonly Direction[], taken: readonly Direction[]): readonly Direction[] {
  const basis: Direction[] = [];
  const add = (direction: Direction): Direction | null => {
    let rest = direction;
    for (const one of [...basis, ...basis]) {
      const share = dot(one, rest);
      rest = rest.map((part, i) => part - share * (one[i] ?? 0));
    }
    const size = portable.hypot(...rest);
    if (size < 1e-6) return null;
    const unit = rest.map((part) => part / size);
    basis.push(unit);
    return unit;
  };
  for (const direction of taken) add(direction);
  return space.flatMap((direction) => {
    const unit = add(direction);
    return unit === null ? [] : [unit];
  });
}

interface Candidate {
  readonly reading: Fixing;
  readonly rows: readonly Row[];
}

/** Greedy: at each turn the reading that sees most of what is still loose. */
function wouldFix(
  network: Network,
  places: readonly Vec3[],
  loose: readonly Direction[],
  survey: NonNullable<Boat['survey']>,
): readonly Fixing[] {
  const candidates = candidatesOf(network, places, loose, survey);
  const chosen: Fixing[] = [];
  let space: readonly Direction[] = loose.slice(0, MOST_DIRECTIONS);
  while (space.length > 0 && chosen.length < MOST_READINGS) {
    let best: { readonly candidate: Candidate; readonly seen: number } | null = null;
    for (const candidate of candidates) {
      const seen = candidate.rows.reduce(
        (sum, row) => sum + within(directionOf(row, 3 * places.length), space) ** 2,
        0,
      );
      if (seen > (best?.seen ?? LEAST_SEEN) + 1e-9) best = { candidate, seen };
    }
    if (!best) break;
    chosen.push(best.candidate.reading);
    for (const row of best.candidate.rows) space = unseen(space, directionOf(row, 3 * places.length));
  }
  return chosen;
}

const LEAST_SEEN = 0.05;
/** Enough for the few readings that are proposed; a survey with more loose than this has just begun. */
const MOST_DIRECTIONS = 24;
/** Among more points than this, distances from point to point are not proposed: there are too many to weigh. */
const MOST_TO_PAIR = 40;

const directionOf = (row: Row, unknowns: number): Direction => {
  const direction = new Array<number>(unknowns).fill(0);
  for (const [unknown, slope] of row) direction[unknown] = slope;
  const size = portable.hypot(...direction) || 1;
  return direction.map((part) => part / size);
};

/** What of a space a reading does not see: its directions square to the reading's slope. */
function unseen(space: readonly Direction[], slope: Direction): readonly Direction[] {
  const shares = space.map((direction) => dot(direction, slope));
  const size = portable.hypot(...shares);
  if (size < 1e-6) return space;
  const seen = (space[0] ?? []).map((_, i) =>
    space.reduce((sum, one, k) => sum + ((shares[k] ?? 0) / size) * (one[i] ?? 0), 0),
  );
  return without(space, [seen]);
}

function candidatesOf(
  { free, given, observations }: Network,
  places: readonly Vec3[],
  loose: readonly Direction[],
  survey: NonNullable<Boat['survey']>,
): readonly Candidate[] {
  const taken = new Set(observations.map((one) => keyOf(one.from, one.to, one.model)));
  const datums = Object.entries(survey.datums ?? {});
  const candidates: Candidate[] = [];
  const add = (reading: Fixing, from: End, to: End, model: Observation['model']): void => {
    if (!taken.has(keyOf(from, to, model))) {
      candidates.push({ reading, rows: [rowOf({ from, to, model, sigmaM: 1 }, places)] });
    }
  };
  free.forEach(({ id }: FreePoint, index) => {
    const isLoose = loose.some((direction) =>
      [0, 1, 2].some((axis) => Math.abs(direction[3 * index + axis] ?? 0) > PART / 3),
    );
    if (!isLoose) return;
    const to: End = { free: index };
    for (const [datum, { at, axis }] of datums) {
      if (axis && axis !== 'z') {
        add({ from: datum, to: id, kind: 'offset' }, { at }, to, {
          type: 'along',
          axis: AXES.indexOf(axis) as Axis,
          sign: 1,
        });
      }
      if (axis === undefined || axis === 'z') {
        add({ from: datum, to: id, kind: 'height' }, { at }, to, { type: 'along', axis: 2, sign: 1 });
      }
      if (axis === undefined) add({ from: datum, to: id, kind: 'distance' }, { at }, to, { type: 'length' });
    }
    for (const [other, at] of Object.entries(given)) {
      add({ from: other, to: id, kind: 'distance' }, { at }, to, { type: 'length' });
      add({ from: other, to: id, kind: 'height' }, { at }, to, { type: 'along', axis: 2, sign: 1 });
    }
    if (free.length <= MOST_TO_PAIR)
      free.forEach((other, place) => {
        if (place !== index) add({ from: other.id, to: id, kind: 'distance' }, { free: place }, to, { type: 'length' });
      });
    if (datums.length === 0 && Object.keys(given).length === 0) {
      const rows = [0, 1, 2].map((axis): Row => [[3 * index + axis, 1]]);
      candidates.push({ reading: { from: null, to: id, kind: 'place' }, rows });
    }
  });
  return candidates;
}

const nameOf = (end: End): string => ('free' in end ? `free ${end.free}` : end.at.join(' '));
const keyOf = (from: End, to: End, model: Observation['model']): string =>
  `${[nameOf(from), nameOf(to)].sort().join('|')} ${model.type === 'length' ? 'length' : model.axis}`;
