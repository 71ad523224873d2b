import * as portable from '../../base/portable';
import type { Vec2 } from '../../base/vec';
import { quantised } from '../../boat/quantise';
import type { Hull } from '../../boat/schema/boat';
import { type Station, stationsInOrder } from '../../boat/station-edits';
import { halfSectionAt } from './half-section';
import { hullSurface } from './surface';
import type { HullSurface } from './types';

/** Points of a station between neighbours that do not agree on a number. */
const USUAL_POINTS = 9;

/**
 * A station read off the surface between its neighbours, in the skin that the offsets describe (for a hull measured inside: the
 * inside). Neighbours with equally many points give points at the same shares of girth, corners at their knuckles; others
 * give equal shares. Null beyond the ends of the hull, and on a station that is there already.
 */
export function stationBetween(hull: Hull, xM: number): Station | null {
  const order = stationsInOrder(hull);
  const next = order.findIndex(([, station]) => station.xM > xM);
  const aft = order[next - 1]?.[1];
  const forward = order[next]?.[1];
  if (!aft || !forward || xM - aft.xM < 1e-3 || forward.xM - xM < 1e-3) return null;
  const fromCentre = aft.points[0]?.[0] === 0 || forward.points[0]?.[0] === 0;
  const side = halfSectionAt(measuredSurface(hull), xM, fromCentre);
  const girth = girthOf(side);
  const total = girth.at(-1) ?? 0;
  if (!(total > 0)) return null;
  const towards = (xM - aft.xM) / (forward.xM - aft.xM);
  const alike = aft.points.length === forward.points.length;
  const one = sharesOf(aft.points);
  const other = sharesOf(forward.points);
  const shares = alike
    ? one.map((share, i) => share * (1 - towards) + (other[i] ?? share) * towards)
    : Array.from({ length: USUAL_POINTS }, (_, i) => i / (USUAL_POINTS - 1));
  const knuckles = alike ? (aft.knuckles ?? []).filter((k) => forward.knuckles?.includes(k) ?? false) : [];
  let lowest = Number.NEGATIVE_INFINITY;
  const points = shares.map((share, i): [number, number] => {
    const wanted = share * total;
    const [y, z] = knuckles.includes(i) ? cornerNear(side, girth, wanted, total) : pointAt(side, girth, wanted);
    lowest = Math.max(lowest, quantised(z));
    return [quantised(Math.max(0, y)), lowest];
  });
  return {
    xM: quantised(xM),
    points,
    ...(knuckles.length > 0 ? { knuckles } : {}),
    grade: 'guessed',
    taken: 'interpolated',
  };
}

/** The surface of the offsets themselves: no shell or lining added, on its own centre. `fineness` as for `hullSurface`. */
export const measuredSurface = (hull: Hull, fineness = 1): HullSurface =>
  hullSurface({ ...hull, measuredTo: 'outside', shellM: 0, liningM: 0, offsetM: 0 }, fineness);

function girthOf(points: readonly Vec2[]): readonly number[] {
  let sum = 0;
  return points.map((point, i) => {
    const last = points[i - 1];
    if (last) sum += portable.hypot(point[0] - last[0], point[1] - last[1]);
    return sum;
  });
}

function sharesOf(points: readonly Vec2[]): readonly number[] {
  const girth = girthOf(points);
  const total = girth.at(-1) ?? 0;
  return total > 0 ? girth.map((g) => g / total) : girth.map((_, i) => i / Math.max(1, girth.length - 1));
}

function pointAt(points: readonly Vec2[], girth: readonly number[], wanted: number): Vec2 {
  const after = girth.findIndex((g) => g >= wanted);
  if (after < 0) return points.at(-1) as Vec2;
  if (after === 0) return points[0] as Vec2;
  const [y0, z0] = points[after - 1] as Vec2;
  const [y1, z1] = points[after] as Vec2;
  const from = girth[after - 1] as number;
  const t = (wanted - from) / ((girth[after] as number) - from || 1);
  return [y0 + (y1 - y0) * t, z0 + (z1 - z0) * t];
}

/** The sharpest corner within a twentieth of the girth. */
function cornerNear(points: readonly Vec2[], girth: readonly number[], wanted: number, total: number): Vec2 {
  let best = pointAt(points, girth, wanted);
  let sharpest = 0;
  for (let i = 1; i + 1 < points.length; i += 1) {
    if (Math.abs((girth[i] as number) - wanted) > total / 20) continue;
    const [a, b, c] = [points[i - 1], points[i], points[i + 1]] as [Vec2, Vec2, Vec2];
    const turn = Math.abs(portable.atan2(c[1] - b[1], c[0] - b[0]) - portable.atan2(b[1] - a[1], b[0] - a[0]));
    if (turn > sharpest) {
      sharpest = turn;
      best = b;
    }
  }
  return best;
}
