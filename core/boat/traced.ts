import * as portable from '../base/portable';
import type { Vec2 } from '../base/vec';
import type { BoatRecipe } from './edits';
import { quantised } from './quantise';
import type { Hull } from './schema/boat';
import { type Station, stationsInOrder, wordsForgotten } from './station-edits';

/** Curves clicked on a picture, and what of a hull they give. */
export type TracedCurve = 'section' | 'keel' | 'sheer' | 'deckEdge';

const SAME_M = 0.0005;

export type TracedStation =
  | { readonly ok: true; readonly station: Station }
  /** Points, from 0 in the order of the clicks, of which the second lies below the first. */
  | { readonly ok: false; readonly falls: readonly [number, number] }
  | { readonly ok: false; readonly falls: null };

/**
 * A station from points clicked along one side of a section, [off the centreline, z], from the keel up or from the sheer down.
 * Either side of the boat will do.
 */
export function tracedStation(xM: number, clicked: readonly Vec2[]): TracedStation {
  const own = clicked.map(([y, z]): Vec2 => [Math.abs(y), z]);
  const down = (own.at(-1)?.[1] ?? 0) < (own[0]?.[1] ?? 0);
  const rising = down ? [...own].reverse() : own;
  const once = rising.filter((point, i) => {
    const before = rising[i - 1];
    return !before || portable.hypot(point[0] - before[0], point[1] - before[1]) > SAME_M;
  });
  if (once.length < 2) return { ok: false, falls: null };
  const fallsAt = once.findIndex((point, i) => i > 0 && point[1] < (once[i - 1]?.[1] ?? 0) - SAME_M);
  if (fallsAt > 0) {
    const clickOf = (i: number): number => (down ? own.length - 1 - i : i);
    return { ok: false, falls: [clickOf(fallsAt - 1), clickOf(fallsAt)] };
  }
  let low = Number.NEGATIVE_INFINITY;
  const points = once.map(([y, z]): [number, number] => {
    low = Math.max(low, quantised(z));
    return [quantised(y), low];
  });
  return { ok: true, station: { xM: quantised(xM), points, grade: 'scaled', taken: 'traced' } };
}

/** Value of a curve clicked along the boat at x, null beyond its ends. Clicks may go either way. */
export function alongCurve(curve: readonly Vec2[], xM: number): number | null {
  const rising = [...curve].sort((a, b) => a[0] - b[0]);
  for (let i = 0; i + 1 < rising.length; i += 1) {
    const [x0, v0] = rising[i] as Vec2;
    const [x1, v1] = rising[i + 1] as Vec2;
    if (xM >= x0 && xM <= x1 && x1 > x0) return v0 + ((v1 - v0) * (xM - x0)) / (x1 - x0);
  }
  return null;
}

/** Stations that a curve along the boat reaches. */
export const stationsAlong = (hull: Pick<Hull, 'stations'>, curve: readonly Vec2[]): readonly string[] =>
  stationsInOrder(hull).flatMap(([id, { xM }]) => (alongCurve(curve, xM) === null ? [] : [id]));

/**
 * Brings keel or sheer of every station to a curve clicked on a profile ([x, z]), or the half-breadth of the sheer to a deck edge
 * clicked on a plan ([x, off the centreline]). Points that the new keel or sheer leaves outside the section go.
 */
export const curveTaken =
  (kind: Exclude<TracedCurve, 'section'>, curve: readonly Vec2[]): BoatRecipe =>
  (boat) => {
    for (const [id, station] of Object.entries(boat.hull?.stations ?? {})) {
      const value = alongCurve(curve, station.xM);
      if (value === null) continue;
      wordsForgotten(boat, `hull.stations.${id}.points`);
      const { points } = station;
      const first = points[0];
      const last = points.at(-1);
      if (!first || !last) continue;
      if (kind === 'deckEdge') last[0] = quantised(Math.abs(value));
      else {
        const at = quantised(value);
        const end = kind === 'keel' ? first : last;
        const inner = points.slice(1, -1).filter(([, z]) => (kind === 'keel' ? z > at : z < at));
        const dropped = points.length - 2 - inner.length;
        end[1] = at;
        station.points = [first, ...inner, last];
        // Knuckles count points from the keel: those below a raised keel are gone, the others move down.
        if (dropped > 0 && station.knuckles) {
          const shift = kind === 'keel' ? dropped : 0;
          const kept = station.knuckles.map((k) => k - shift).filter((k) => k > 0 && k < station.points.length - 1);
          station.knuckles = kept;
        }
      }
      station.grade = 'scaled';
      station.taken = 'traced';
    }
  };
