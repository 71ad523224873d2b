import * as portable from '../base/portable';
import { signedArea, turn } from '../base/ring';
import type { Vec2 } from '../base/vec';

/** Corners closer than this are the same corner. */
const SAME_CORNER_M = 1e-5;
const LEAST_AREA_M2 = 1e-5;

export type OutlineFault =
  | { readonly kind: 'sameCorner'; readonly corners: readonly [number, number] }
  | { readonly kind: 'crossing'; readonly sides: readonly [number, number] }
  | { readonly kind: 'noArea' };

const between = (a: Vec2, b: Vec2, p: Vec2): boolean =>
  Math.min(a[0], b[0]) <= p[0] &&
  p[0] <= Math.max(a[0], b[0]) &&
  Math.min(a[1], b[1]) <= p[1] &&
  p[1] <= Math.max(a[1], b[1]);

/** Whether two closed segments share a point. */
function meet(a: Vec2, b: Vec2, c: Vec2, d: Vec2): boolean {
  const abc = Math.sign(turn(a, b, c));
  const abd = Math.sign(turn(a, b, d));
  const cda = Math.sign(turn(c, d, a));
  const cdb = Math.sign(turn(c, d, b));
  if (abc !== abd && cda !== cdb && abc * abd <= 0 && cda * cdb <= 0) return true;
  return (
    (abc === 0 && between(a, b, c)) ||
    (abd === 0 && between(a, b, d)) ||
    (cda === 0 && between(c, d, a)) ||
    (cdb === 0 && between(c, d, b))
  );
}

/** The first thing that is wrong with a closed outline, null when it is a simple polygon with area. */
export function outlineFault(outline: readonly Vec2[]): OutlineFault | null {
  const count = outline.length;
  const corner = (index: number): Vec2 => outline[index % count] ?? [0, 0];
  for (let i = 0; i < count; i++) {
    const a = corner(i);
    const b = corner(i + 1);
    if (portable.hypot(b[0] - a[0], b[1] - a[1]) < SAME_CORNER_M) {
      return { kind: 'sameCorner', corners: [i, (i + 1) % count] };
    }
  }
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const next = j === i + 1;
      const last = i === 0 && j === count - 1;
      if (next || last) {
        // Neighbours share a corner; they cross only when one folds back over the other.
        const [a, b, c] = next ? [corner(i), corner(j), corner(j + 1)] : [corner(j), corner(i), corner(i + 1)];
        const folds = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0;
        if (count > 2 && folds && Math.abs(turn(a, b, c)) < 1e-12) return { kind: 'crossing', sides: [i, j] };
      } else if (meet(corner(i), corner(i + 1), corner(j), corner(j + 1))) {
        return { kind: 'crossing', sides: [i, j] };
      }
    }
  }
  return Math.abs(signedArea(outline)) < LEAST_AREA_M2 ? { kind: 'noArea' } : null;
}

/** The first two sides of an open line that cross, touch or fold back over one another, by the points that they start from; else null. */
export function lineCrossing(line: readonly Vec2[]): readonly [number, number] | null {
  for (let j = 1; j + 1 < line.length; j++) {
    const [c, d] = [line[j], line[j + 1]] as [Vec2, Vec2];
    // Points that were entered twice make a side of no length, which crosses nothing.
    if (portable.hypot(d[0] - c[0], d[1] - c[1]) < SAME_CORNER_M) continue;
    for (let i = 0; i < j; i++) {
      const [a, b] = [line[i], line[i + 1]] as [Vec2, Vec2];
      if (portable.hypot(b[0] - a[0], b[1] - a[1]) < SAME_CORNER_M) continue;
      const isNext = portable.hypot(c[0] - b[0], c[1] - b[1]) < SAME_CORNER_M;
      const folds =
        (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) < 0 && Math.abs(turn(a, b, d)) < 1e-12;
      if (isNext ? folds : meet(a, b, c, d)) return [i, j];
    }
  }
  return null;
}
