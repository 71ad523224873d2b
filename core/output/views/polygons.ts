import { FillRule, intersectD, unionD } from 'clipper2-ts';
import { signedArea } from '../../base/ring';
import type { Vec2 } from '../../base/vec';

/** Polygons on paper, metres. */
export type Ring = readonly Vec2[];

/** Decimals kept while polygons are cut: a micrometre. */
const DECIMALS = 6;

const paths = (rings: readonly Ring[]) => rings.map((ring) => ring.map(([x, y]) => ({ x, y })));
const rings = (found: readonly (readonly { x: number; y: number }[])[]): Ring[] =>
  found.map((path) => path.map((p): Vec2 => [p.x, p.y]));

/** Union of rings that may touch or overlap, whatever their sense of turning. */
export function unionOf(parts: readonly Ring[]): Ring[] {
  const turned = parts.filter((ring) => ring.length > 2).map(counterClockwise);
  if (turned.length <= 1) return turned;
  // Neighbours of a concave outline share edges to the last digit only in exact arithmetic; 6 decimals weld them.
  return rings(unionD(paths(turned), [], FillRule.NonZero, DECIMALS));
}

export function intersectionOf(a: readonly Ring[], b: readonly Ring[]): Ring[] {
  if (a.length === 0 || b.length === 0) return [];
  return rings(intersectD(paths(a), paths(b), FillRule.NonZero, DECIMALS));
}

const counterClockwise = (ring: Ring): Ring => (signedArea(ring) < 0 ? [...ring].reverse() : ring);

/** Place for a name: well inside the largest ring, as far from its edges as a coarse grid finds. Also the room around it. */
export function labelPlace(
  parts: readonly Ring[],
): { readonly at: Vec2; readonly widthM: number; readonly heightM: number } | null {
  let largest: Ring | null = null;
  for (const ring of parts) if (!largest || Math.abs(signedArea(ring)) > Math.abs(signedArea(largest))) largest = ring;
  if (!largest || largest.length < 3) return null;
  const us = largest.map((p) => p[0]);
  const vs = largest.map((p) => p[1]);
  const low: Vec2 = [Math.min(...us), Math.min(...vs)];
  const high: Vec2 = [Math.max(...us), Math.max(...vs)];
  let best: { at: Vec2; widthM: number; heightM: number } | null = null;
  let bestScore = 0;
  const steps = 9;
  for (let j = 1; j < steps; j++) {
    const v = low[1] + ((high[1] - low[1]) * j) / steps;
    const cuts = crossingsAt(largest, v);
    for (let k = 0; k + 1 < cuts.length; k += 2) {
      const u0 = cuts[k] as number;
      const u1 = cuts[k + 1] as number;
      const at: Vec2 = [(u0 + u1) / 2, v];
      const column = crossingsAt(
        largest.map(([a, b]): Vec2 => [b, a]),
        at[0],
      );
      for (let m = 0; m + 1 < column.length; m += 2) {
        const v0 = column[m] as number;
        const v1 = column[m + 1] as number;
        if (v < v0 || v > v1) continue;
        const room = 2 * Math.min(v - v0, v1 - v);
        // Of places that are wide enough alike the one furthest from the edges.
        const score = Math.min(u1 - u0, room * 5) + room * 0.1;
        if (score > bestScore) {
          bestScore = score;
          best = { at, widthM: u1 - u0, heightM: room };
        }
      }
    }
  }
  return best;
}

/** Places along u where a ring passes the height v, in order; they come in pairs. */
export function crossingsAt(ring: Ring, v: number): number[] {
  const found: number[] = [];
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ui, vi] = ring[i] as Vec2;
    const [uj, vj] = ring[j] as Vec2;
    if (vi > v !== vj > v) found.push(((uj - ui) * (v - vi)) / (vj - vi) + ui);
  }
  return found.sort((a, b) => a - b);
}
