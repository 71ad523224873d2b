import { footOnSegment } from '@core/base/segment';
import type { Vec2 } from '@core/base/vec';
import type { Ring } from '@core/output/views/polygons';

/** What a drawn point may lie on, in the metres of one view's paper. */
export interface SnapField {
  readonly lines: readonly SnapLine[];
  /** Inner faces of the hull. */
  readonly curves: readonly Ring[];
}

/** A face seen edge on. */
export interface SnapLine {
  readonly a: Vec2;
  readonly b: Vec2;
  /** Unit direction to its solid side: out of the compartment that it bounds. */
  readonly solid: Vec2;
  readonly subject: string;
}

type SnapKind = 'corner' | 'face' | 'hull';

/** What the point lies on now: a stretch to show, and the side that is solid. */
export interface SnapOn {
  readonly kind: SnapKind;
  readonly a: Vec2;
  readonly b: Vec2;
  readonly solid: Vec2 | null;
}

export interface SnappedPoint {
  readonly at: Vec2;
  readonly on: readonly SnapOn[];
}

export interface Pull {
  readonly pullM: number;
  /** Free coordinates go to whole multiples of this, metres. */
  readonly stepM: number;
}

/** A face pulls this far beyond its ends, metres: what is drawn next to it lines up with it. */
const BEYOND_M = 1.5;

/** Corner, else a face in each direction, else the hull; what stays free goes to a round value. */
export function snapPoint(p: Vec2, field: SnapField, { pullM, stepM }: Pull): SnappedPoint {
  const corner = nearestCorner(p, field.lines, pullM);
  if (corner) return corner;
  const upright = nearestLine(p, field.lines, 0, pullM);
  const level = nearestLine(p, field.lines, 1, pullM);
  const u = upright ? upright.a[0] : null;
  const v = level ? level.a[1] : null;
  const on = [upright, level].flatMap((line) => (line ? [shown(line)] : []));
  if (u !== null && v !== null) return { at: [u, v], on };
  if (u === null && v === null) {
    const slant = nearestSlant(p, field.lines, pullM);
    if (slant) return { at: slant.at, on: [shown(slant.line)] };
    const hull = nearestOnCurves(p, field.curves, pullM);
    if (hull) return { at: hull.at, on: [hull.on] };
    return { at: [rounded(p[0], stepM), rounded(p[1], stepM)], on };
  }
  // One coordinate is held by a face; the other may meet the hull along it.
  const held = u !== null ? 0 : 1;
  const value = (u ?? v) as number;
  const met = curveAt(p, field.curves, held, value, pullM);
  if (met) return { at: met.at, on: [...on, met.on] };
  return { at: u !== null ? [u, rounded(p[1], stepM)] : [rounded(p[0], stepM), value], on };
}

export const rounded = (value: number, step: number): number => {
  const steps = Math.round(value / step);
  return Math.round(steps * step * 1e6) / 1e6 + 0;
};

/** The finest of the round steps that a pixel can tell apart, metres. */
export function stepFor(pixelsPerMetre: number): number {
  return [0.001, 0.005, 0.01, 0.02, 0.05].find((step) => step * pixelsPerMetre >= 1) ?? 0.05;
}

const distance = (p: Vec2, q: Vec2): number => Math.hypot(p[0] - q[0], p[1] - q[1]);
const shown = (line: SnapLine): SnapOn => ({ kind: 'face', a: line.a, b: line.b, solid: line.solid });

function nearestCorner(p: Vec2, lines: readonly SnapLine[], pullM: number): SnappedPoint | null {
  let best: { at: Vec2; far: number } | null = null;
  for (const { a, b } of lines)
    for (const q of [a, b]) {
      const far = distance(p, q);
      if (far <= pullM && (!best || far < best.far - 1e-9)) best = { at: q, far };
    }
  if (!best) return null;
  const { at } = best;
  const on = lines
    .filter(({ a, b }) => distance(a, at) < 1e-6 || distance(b, at) < 1e-6)
    .slice(0, 4)
    .map((line): SnapOn => ({ ...shown(line), kind: 'corner' }));
  return { at, on };
}

/** The nearest upright (axis 0) or level (axis 1) line that pulls the point. */
function nearestLine(p: Vec2, lines: readonly SnapLine[], axis: 0 | 1, pullM: number): SnapLine | null {
  const other = axis === 0 ? 1 : 0;
  let best: { line: SnapLine; far: number } | null = null;
  for (const line of lines) {
    if (Math.abs(line.a[axis] - line.b[axis]) > 1e-6) continue;
    const low = Math.min(line.a[other], line.b[other]) - BEYOND_M;
    const high = Math.max(line.a[other], line.b[other]) + BEYOND_M;
    const far = Math.abs(p[axis] - line.a[axis]);
    if (far > pullM || p[other] < low || p[other] > high) continue;
    if (!best || far < best.far - 1e-9) best = { line, far };
  }
  return best?.line ?? null;
}

function nearestSlant(p: Vec2, lines: readonly SnapLine[], pullM: number): { line: SnapLine; at: Vec2 } | null {
  let best: { line: SnapLine; at: Vec2; far: number } | null = null;
  for (const line of lines) {
    const isSquare = ([0, 1] as const).some((axis) => Math.abs(line.a[axis] - line.b[axis]) <= 1e-6);
    if (isSquare) continue;
    const at = footOnSegment(p, line.a, line.b);
    const far = distance(p, at);
    if (far <= pullM && (!best || far < best.far)) best = { line, at, far };
  }
  return best;
}

type OnCurve = { readonly at: Vec2; readonly on: SnapOn };

function nearestOnCurves(p: Vec2, curves: readonly Ring[], pullM: number): OnCurve | null {
  let best: { at: Vec2; a: Vec2; b: Vec2; far: number } | null = null;
  for (const [a, b] of chords(curves)) {
    const at = footOnSegment(p, a, b);
    const far = distance(p, at);
    if (far <= pullM && (!best || far < best.far)) best = { at, a, b, far };
  }
  return best ? onHull(best.at, best.a, best.b) : null;
}

/** Where a curve has this value of one coordinate, nearest to the point. */
function curveAt(p: Vec2, curves: readonly Ring[], axis: 0 | 1, value: number, pullM: number): OnCurve | null {
  const other = axis === 0 ? 1 : 0;
  let best: { at: Vec2; a: Vec2; b: Vec2; far: number } | null = null;
  for (const [a, b] of chords(curves)) {
    if ((a[axis] - value) * (b[axis] - value) > 0 || a[axis] === b[axis]) continue;
    const t = (value - a[axis]) / (b[axis] - a[axis]);
    const across = a[other] + (b[other] - a[other]) * t;
    const far = Math.abs(p[other] - across);
    const at: Vec2 = axis === 0 ? [value, across] : [across, value];
    if (far <= pullM && (!best || far < best.far)) best = { at, a, b, far };
  }
  return best ? onHull(best.at, best.a, best.b) : null;
}

function onHull(at: Vec2, a: Vec2, b: Vec2): OnCurve {
  const length = Math.max(1e-9, distance(a, b));
  const along: Vec2 = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const reach = 0.12;
  const from: Vec2 = [at[0] - along[0] * reach, at[1] - along[1] * reach];
  const to: Vec2 = [at[0] + along[0] * reach, at[1] + along[1] * reach];
  return { at, on: { kind: 'hull', a: from, b: to, solid: null } };
}

const chords = (curves: readonly Ring[]): (readonly [Vec2, Vec2])[] =>
  curves.flatMap((ring) => ring.map((a, i) => [a, ring[(i + 1) % ring.length] as Vec2] as const));
