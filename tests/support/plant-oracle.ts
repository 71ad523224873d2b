import { angleBetween, gap, minus, normalised, outer, type P3, plus, times } from './geometry-oracle';
import type { OraclePrim } from './trace-oracle';

/** Lines and arcs along a polygon whose corners are rounded with one radius. Corners must leave room for their tangents. */
export function rounded(points: readonly P3[], radius: number): OraclePrim[] {
  const prims: OraclePrim[] = [];
  let at = points[0] as P3;
  for (let i = 1; i + 1 < points.length; i++) {
    const [before, corner, after] = [points[i - 1] as P3, points[i] as P3, points[i + 1] as P3];
    const into = normalised(minus(corner, before));
    const out = normalised(minus(after, corner));
    const turn = angleBetween(into, out);
    if (turn < 1e-9) continue;
    const t = radius * Math.tan(turn / 2);
    if (t > gap(at, corner) + 1e-12 || t > gap(corner, after) + 1e-12)
      throw new Error(
        `rounded: corner ${i} needs ${t} m before and after, got ${gap(at, corner)} and ${gap(corner, after)}`,
      );
    const normal = normalised(outer(into, out));
    const from = plus(corner, times(into, -t));
    const to = plus(corner, times(out, t));
    if (gap(at, from) > 0) prims.push({ kind: 'line', from: at, to: from });
    prims.push({ kind: 'arc', centre: plus(from, times(outer(normal, into), radius)), radius, from, to, normal });
    at = to;
  }
  prims.push({ kind: 'line', from: at, to: points[points.length - 1] as P3 });
  return prims;
}
