import type { Vec2 } from '../../../base/vec';
import { intersectionOf } from '../../views/polygons';
import { type Mark, rectangle } from '../marks';
import type { Box } from '../paper';

/** Marks kept within a box: lines end at its edge, areas are cut, words stand whole or not at all. */
export const clipped = (marks: readonly Mark[], box: Box): Mark[] => marks.flatMap((mark) => clippedMark(mark, box));

function clippedMark(mark: Mark, box: Box): Mark[] {
  if (mark.kind === 'text') return holds(box, mark.at) ? [mark] : [];
  if (mark.kind === 'area') {
    if (mark.rings.every((ring) => ring.every((p) => holds(box, p)))) return [mark];
    const rings = intersectionOf(mark.rings, [rectangle(box.x, box.y, box.widthMm, box.heightMm)]);
    return rings.length > 0 ? [{ ...mark, rings }] : [];
  }
  if (mark.points.every((p) => holds(box, p))) return [mark];
  const [first] = mark.points;
  const points = mark.closed && first ? [...mark.points, first] : mark.points;
  return piecesWithin(points, box).map((piece) => ({ ...mark, points: piece, closed: false }));
}

const holds = ({ x, y, widthMm, heightMm }: Box, [u, v]: Vec2): boolean =>
  u >= x && u <= x + widthMm && v >= y && v <= y + heightMm;

/** The pieces of a polyline within a box, in order. */
export function piecesWithin(points: readonly Vec2[], box: Box): Vec2[][] {
  const pieces: Vec2[][] = [];
  let open: Vec2[] | null = null;
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1] as Vec2, points[i] as Vec2];
    const part = within(a, b, box);
    if (!part) {
      open = null;
      continue;
    }
    const [from, to] = part;
    if (!open || from[0] !== a[0] || from[1] !== a[1]) {
      open = [from];
      pieces.push(open);
    }
    open.push(to);
    if (to[0] !== b[0] || to[1] !== b[1]) open = null;
  }
  return pieces;
}

/** The part of a segment in a box (Liang and Barsky's parameters); null where it misses. */
function within(a: Vec2, b: Vec2, { x, y, widthMm, heightMm }: Box): readonly [Vec2, Vec2] | null {
  const way: Vec2 = [b[0] - a[0], b[1] - a[1]];
  let [from, to] = [0, 1];
  for (const [p, q] of [
    [-way[0], a[0] - x],
    [way[0], x + widthMm - a[0]],
    [-way[1], a[1] - y],
    [way[1], y + heightMm - a[1]],
  ] as const) {
    if (p === 0) {
      if (q < 0) return null;
      continue;
    }
    const at = q / p;
    if (p < 0) from = Math.max(from, at);
    else to = Math.min(to, at);
  }
  if (from >= to) return null;
  const point = (share: number): Vec2 => [a[0] + way[0] * share, a[1] + way[1] * share];
  return [from === 0 ? a : point(from), to === 1 ? b : point(to)];
}
