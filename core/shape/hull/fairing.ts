import * as portable from '../../base/portable';
import type { Vec2 } from '../../base/vec';
import type { Hull } from '../../boat/schema/boat';
import { alongHull, type HalfGrid } from './along-hull';
import { type Facets, facetsOf, partsFor } from './facets';
import { at, fairSlopes, gapOf, hermite, hermiteBend, limitToPositive, limitToSense } from './interpolant';

/** Points of the same index count as one line along the hull while their shares of the girth stay this close. */
const SAME_LINE = 0.15;
const SAME_LEVEL_M = 1e-6;
/** Stations nearer than this are one station. */
const SAME_STATION_M = 1e-6;

interface Station {
  readonly xM: number;
  readonly points: readonly Vec2[];
  readonly knuckles: readonly number[];
}

/** One smooth stretch of a section, from keel or knuckle to the next knuckle or sheer, over its own chord length 0..1. */
interface Stretch {
  readonly points: readonly Vec2[];
  /** Share of the chord length at each point, not strictly rising where points coincide. */
  readonly shares: readonly number[];
  /**
   * The point at a share; with a `step` of shares on either side, drawn out so far that chords between such points enclose as much
   * as the curve: chords alone would cut off h^2 / 12 of its second derivative on the mean.
   */
  at(share: number, step?: number): Vec2;
}

/** Where a row stands: in which gap between points, at which fraction of it, and which share of the stretch that is on the mean. */
interface RowPlace {
  readonly gap: number;
  readonly fraction: number;
  readonly share: number;
  /** Number of rows' gaps between the two points. */
  readonly parts: number;
}

/**
 * Interpolates the stations to the refined half surface of what was measured. The surface passes through every point entered;
 * nodes between them are drawn out so that its flat facets hold what the curved surface would hold. `fineness` multiplies the
 * number of facets each way, to see what they leave out.
 */
export function fairHalf(hull: Hull, fineness = 1): HalfGrid {
  const stations = sortedStations(hull);
  const facets = facetsOf((stations[stations.length - 1]?.xM ?? 0) - (stations[0]?.xM ?? 0), fineness);
  const stretches = alignedStretches(stations);
  const lines = stretches.map((column) => matchedRows(column, stretches, facets));
  const stationY: number[][] = stations.map(() => []);
  const stationZ: number[][] = stations.map(() => []);
  lines.forEach((line, s) => {
    line.forEach((points, i) => {
      // The knuckle is the last row of one stretch and the first of the next: once is enough.
      const fresh = s === 0 ? points : points.slice(1);
      for (const [y, z] of fresh) {
        stationY[i]?.push(y);
        stationZ[i]?.push(z);
      }
    });
  });
  return alongHull(
    Float64Array.from(stations, (station) => station.xM),
    stationY,
    stationZ,
    facets,
  );
}

function sortedStations(hull: Hull): readonly Station[] {
  const sorted = Object.entries(hull.stations)
    .sort(([idA, a], [idB, b]) => a.xM - b.xM || (idA < idB ? -1 : 1))
    .map(([, station]) => ({
      xM: station.xM,
      points: station.points.map(([y, z]): Vec2 => [Math.max(0, y), z]),
      knuckles: [...new Set(station.knuckles ?? [])]
        .filter((k) => k > 0 && k < station.points.length - 1)
        .sort((a, b) => a - b),
    }));
  return sorted.filter((station, i) => i === 0 || station.xM - (sorted[i - 1]?.xM ?? 0) > SAME_STATION_M);
}

const isFlat = (points: readonly Vec2[]): boolean => points.every(([y]) => y === 0);

const chordShares = (points: readonly Vec2[]): number[] => {
  const shares = [0];
  let total = 0;
  points.forEach((point, i) => {
    const last = points[i - 1];
    if (!last) return;
    total += portable.hypot(point[0] - last[0], point[1] - last[1]);
    shares.push(total);
  });
  return total > 0 ? shares.map((share) => share / total) : shares.map((_, i) => i / Math.max(1, points.length - 1));
};

/**
 * Splits every section at its knuckles so that stretch k of one station continues stretch k of the next. A station with fewer
 * knuckles than the others (a stem, a rounded end) is split where the missing chines run on the others, by share of girth.
 */
function alignedStretches(stations: readonly Station[]): readonly (readonly Stretch[])[] {
  const most = Math.max(0, ...stations.map((station) => station.knuckles.length));
  const full = stations.filter((station) => station.knuckles.length === most && !isFlat(station.points));
  const chines = Array.from({ length: most }, (_, k) => {
    const shares = full.map((station) => at(chordShares(station.points), station.knuckles[k] ?? 0));
    return shares.reduce((sum, share) => sum + share, 0) / Math.max(1, shares.length);
  });
  const columns: Stretch[][] = Array.from({ length: most + 1 }, () => []);
  for (const station of stations) {
    const shares = chordShares(station.points);
    const cuts = cutShares(
      station.knuckles.map((k) => at(shares, k)),
      chines,
    );
    const whole = smoothPieces(station.points, station.knuckles);
    const edges = [0, ...cuts, 1];
    for (let s = 0; s <= most; s += 1)
      columns[s]?.push(cutStretch(station, shares, whole, at(edges, s), at(edges, s + 1)));
  }
  return columns;
}

/** Gives every chine a share: the station's own knuckles go, in order, to the chines they lie nearest to. */
function cutShares(own: readonly number[], chines: readonly number[]): number[] {
  if (own.length >= chines.length) return [...own];
  let best: number[] = [];
  let least = Number.POSITIVE_INFINITY;
  const choose = (next: number, from: number, chosen: number[], cost: number): void => {
    if (cost >= least) return;
    if (next === own.length) {
      least = cost;
      best = chosen;
      return;
    }
    for (let k = from; k <= chines.length - (own.length - next); k += 1)
      choose(next + 1, k + 1, [...chosen, k], cost + Math.abs(at(own, next) - at(chines, k)));
  };
  choose(0, 0, [], 0);
  const cuts: number[] = [];
  chines.forEach((chine, k) => {
    const mine = best.indexOf(k);
    const nextOwn = best.findIndex((b) => b > k);
    const ceiling = nextOwn >= 0 ? at(own, nextOwn) : 1;
    cuts.push(mine >= 0 ? at(own, mine) : Math.min(ceiling, Math.max(chine, cuts[k - 1] ?? 0)));
  });
  return cuts;
}

/** The section as a curve over its share of chord length: smooth between knuckles, a corner at each. */
function smoothPieces(points: readonly Vec2[], knuckles: readonly number[]): (share: number, drawOut: number) => Vec2 {
  const shares = chordShares(points);
  const edges = [0, ...knuckles, points.length - 1];
  const pieces = edges.slice(0, -1).map((first, s) => {
    const last = edges[s + 1] ?? first;
    const knots: number[] = [];
    const ys: number[] = [];
    const zs: number[] = [];
    for (let i = first; i <= last; i += 1) {
      const share = at(shares, i);
      if (knots.length > 0 && share - at(knots, knots.length - 1) < 1e-9) continue;
      const [y, z] = points[i] as Vec2;
      knots.push(share);
      ys.push(y);
      zs.push(z);
    }
    const slopesY = fairSlopes(knots, ys);
    const slopesZ = fairSlopes(knots, zs);
    // A flat that meets an upright side without a marked knuckle must not swing beyond either; z must never fall.
    limitToSense(knots, ys, slopesY);
    limitToPositive(knots, ys, slopesY);
    limitToSense(knots, zs, slopesZ);
    return { from: at(shares, first), to: at(shares, last), knots, ys, zs, slopesY, slopesZ };
  });
  return (share, drawOut) => {
    const piece = pieces.find((candidate) => share <= candidate.to) ?? pieces[pieces.length - 1];
    if (!piece) throw new Error('smoothPieces: expected a section with two points');
    if (piece.knots.length === 1) return [at(piece.ys, 0), at(piece.zs, 0)];
    const gap = gapOf(piece.knots, share);
    const start = at(piece.knots, gap);
    const t = Math.min(1, Math.max(0, (share - start) / (at(piece.knots, gap + 1) - start)));
    const { knots, ys, zs, slopesY, slopesZ } = piece;
    const y = hermite(knots, ys, slopesY, gap, t);
    const z = hermite(knots, zs, slopesZ, gap, t);
    if (drawOut === 0) return [y, z];
    return [
      y - drawOut * hermiteBend(knots, ys, slopesY, gap, t),
      z - drawOut * hermiteBend(knots, zs, slopesZ, gap, t),
    ];
  };
}

function cutStretch(
  station: Station,
  shares: readonly number[],
  whole: (share: number, drawOut: number) => Vec2,
  from: number,
  to: number,
): Stretch {
  const width = to - from;
  const inner = station.points.filter((_, i) => at(shares, i) > from + 1e-9 && at(shares, i) < to - 1e-9);
  const innerShares = shares.filter((share) => share > from + 1e-9 && share < to - 1e-9);
  // A section that is a point has no girth to measure: its whole is that point, whatever the share.
  return {
    points: [whole(from, 0), ...inner, whole(to, 0)],
    shares: [0, ...innerShares.map((share) => (width > 0 ? (share - from) / width : 0)), 1],
    at: (share, step = 0) => whole(from + share * width, (step * width) ** 2 / 12),
  };
}

/**
 * Places the rows of one stretch and gives each station's points there. Where the stations hold the same number of points that
 * belong together (a table of offsets at the same levels, or about the same shares of girth), points of one index make one line
 * along the hull; otherwise equal shares of girth do.
 */
function matchedRows(
  column: readonly Stretch[],
  all: readonly (readonly Stretch[])[],
  facets: Facets,
): readonly (readonly Vec2[])[] {
  const rows = facets.leastInGirth * girthShare(column, all);
  const shaped = column.filter((stretch) => !isFlat(stretch.points));
  const count = shaped[0]?.points.length ?? 0;
  const sameCount = count > 2 && shaped.every((stretch) => stretch.points.length === count);
  const mean = Array.from(
    { length: count },
    (_, j) => shaped.reduce((sum, stretch) => sum + at(stretch.shares, j), 0) / Math.max(1, shaped.length),
  );
  const inner = Array.from({ length: Math.max(0, count - 2) }, (_, j) => j + 1);
  const levels =
    sameCount &&
    inner.every((j) =>
      shaped.every(({ points }) => Math.abs((points[j]?.[1] ?? 0) - (shaped[0]?.points[j]?.[1] ?? 0)) < SAME_LEVEL_M),
    );
  const together =
    levels ||
    (sameCount && inner.every((j) => shaped.every(({ shares }) => Math.abs(at(shares, j) - at(mean, j)) <= SAME_LINE)));
  if (!together) {
    const many = evenRows(shaped, rows, facets);
    return column.map((stretch) =>
      sharesThroughPoints(stretch.shares, many).map(({ share, step }) => stretch.at(share, step)),
    );
  }

  const places: RowPlace[] = [];
  for (let gap = 0; gap < count - 1; gap += 1) {
    const width = at(mean, gap + 1) - at(mean, gap);
    const sagM = Math.max(
      ...shaped.map((stretch) => sagOf(stretch, at(stretch.shares, gap), at(stretch.shares, gap + 1))),
    );
    const parts = partsFor(rows * width, sagM, facets);
    for (let p = 0; p < parts; p += 1)
      places.push({ gap, fraction: p / parts, share: at(mean, gap) + (width * p) / parts, parts });
  }
  places.push({ gap: count - 2, fraction: 1, share: 1, parts: 1 });
  return column.map((stretch, i) => {
    if (stretch.points.length === count)
      return places.map(({ gap, fraction, parts }) => {
        if (fraction === 0) return stretch.points[gap] as Vec2;
        if (fraction === 1) return stretch.points[gap + 1] as Vec2;
        const from = at(stretch.shares, gap);
        const width = at(stretch.shares, gap + 1) - from;
        return stretch.at(from + fraction * width, drawnOver(width / parts, parts));
      });
    // A stem drawn with fewer points: its rows keep the levels of the table as far as it reaches.
    const neighbour = nearestOf(column, i, (other) => other.points.length === count);
    const low = stretch.at(0)[1];
    const high = stretch.at(1)[1];
    return places.map(({ gap, fraction, share }, r) => {
      if (!levels || !neighbour || r === 0 || r === places.length - 1) return stretch.at(share);
      const from = at(neighbour.shares, gap);
      const level = neighbour.at(from + fraction * (at(neighbour.shares, gap + 1) - from))[1];
      return [0, Math.min(high, Math.max(low, level))] as Vec2;
    });
  });
}

/** How far a stretch strays from its chord between two shares, at the middle of the chord. */
function sagOf(stretch: Stretch, from: number, to: number): number {
  const [ya, za] = stretch.at(from);
  const [yb, zb] = stretch.at(to);
  const [y, z] = stretch.at((from + to) / 2);
  const length = portable.hypot(yb - ya, zb - za);
  return length > 0 ? Math.abs((yb - ya) * (z - za) - (zb - za) * (y - ya)) / length : portable.hypot(y - ya, z - za);
}

/** Intervals in which the bend of a stretch is looked for. */
const TRIED = 16;

/** Rows for stretches whose points do not belong together: as many as the sharpest bend of any asks for. */
function evenRows(shaped: readonly Stretch[], least: number, facets: Facets): number {
  let sagM = 0;
  for (const stretch of shaped)
    for (let k = 0; k < TRIED; k += 1) sagM = Math.max(sagM, sagOf(stretch, k / TRIED, (k + 1) / TRIED));
  return Math.max(2, partsFor(least / TRIED, sagM, { ...facets, most: (facets.most * 3) / 8 }) * TRIED);
}

/** Only the nodes within a stretch of `parts` steps are drawn out, so they carry what its two fixed ends would. */
const drawnOver = (step: number, parts: number): number => step * Math.sqrt(parts / Math.max(1, parts - 1));

interface RowShare {
  readonly share: number;
  /** Step for which the row is drawn out; 0 where it stands at a point that was entered. */
  readonly step: number;
}

/**
 * Equal shares of girth for the rows, drawn by less than half a step so that a row passes through each point that was entered:
 * the surface then holds the points themselves and not chords that cut their corners. Of two points at one row the first stays.
 */
function sharesThroughPoints(points: readonly number[], rows: number): readonly RowShare[] {
  const anchors: { row: number; share: number }[] = [{ row: 0, share: 0 }];
  for (const share of points.slice(1, -1)) {
    const row = Math.round(share * rows);
    const last = anchors[anchors.length - 1];
    if (last && row > last.row && row < rows && share > last.share) anchors.push({ row, share });
  }
  anchors.push({ row: rows, share: 1 });
  const shares: RowShare[] = [{ share: 0, step: 0 }];
  anchors.slice(1).forEach((to, k) => {
    const from = anchors[k] ?? to;
    const parts = to.row - from.row;
    const step = (to.share - from.share) / parts;
    for (let row = from.row + 1; row <= to.row; row += 1)
      shares.push({
        share: from.share + ((to.share - from.share) * (row - from.row)) / parts,
        step: row === to.row ? 0 : drawnOver(step, parts),
      });
  });
  return shares;
}

function girthShare(column: readonly Stretch[], all: readonly (readonly Stretch[])[]): number {
  const girth = (stretch: Stretch | undefined): number => {
    let sum = 0;
    stretch?.points.forEach((point, i) => {
      const last = stretch.points[i - 1];
      if (last) sum += portable.hypot(point[0] - last[0], point[1] - last[1]);
    });
    return sum;
  };
  let greatest = 0;
  column.forEach((stretch, i) => {
    const whole = all.reduce((sum, other) => sum + girth(other[i]), 0);
    if (whole > 0) greatest = Math.max(greatest, girth(stretch) / whole);
  });
  return greatest;
}

function nearestOf<T>(items: readonly T[], i: number, wanted: (item: T) => boolean): T | undefined {
  for (let d = 1; d < items.length; d += 1) {
    for (const k of [i - d, i + d]) {
      const item = items[k];
      if (item !== undefined && wanted(item)) return item;
    }
  }
  return undefined;
}
