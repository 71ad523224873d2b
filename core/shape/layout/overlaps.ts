import { cross, dot, norm, scale, subtract, type Vec2, type Vec3 } from '../../base/vec';
import { DRAWN_TO_TOUCH_M } from './panels';
import { clipHalfPlane, frameOf, fromPlane, onPlane } from './polygon';
import type { Face, Prism, PrismPiece } from './prism';
import type { Layout } from './types';

/** How deep two prisms share space and where, or null. The depth is the least shift that parts a pair of convex pieces. */
export function overlapOf(one: Prism, other: Prism): Layout['overlaps'][number] | null {
  for (const k of [0, 1, 2] as const)
    if (Math.min(one.high[k], other.high[k]) - Math.max(one.low[k], other.low[k]) <= DRAWN_TO_TOUCH_M) return null;
  let worst: Layout['overlaps'][number] | null = null;
  for (const [i, a] of one.pieces.entries())
    for (const [j, b] of other.pieces.entries()) {
      const depthM = partingShift(a, edgesOf(one), b, edgesOf(other));
      if (depthM <= DRAWN_TO_TOUCH_M || (worst && depthM <= worst.depthM)) continue;
      const at = middleOfShared(one, i, other, j);
      if (at) worst = { between: [one.compartment, other.compartment], depthM, at };
    }
  return worst;
}

/** Directions of the edges of a prism: round the outline and along its axis. */
function edgesOf(prism: Prism): Vec3[] {
  const [low, high] = prism.rings;
  const around = low.map((p, i) => subtract(low[(i + 1) % low.length] as Vec3, p));
  const cuts = prism.cuts.map(({ polygon }) => subtract(polygon[1] as Vec3, polygon[0] as Vec3));
  return [...around, ...cuts, subtract(high[0] as Vec3, low[0] as Vec3)];
}

/** Separating axes: least overlap of the two shadows over all face normals and edge products; 0 or less when apart. */
function partingShift(a: PrismPiece, edgesA: readonly Vec3[], b: PrismPiece, edgesB: readonly Vec3[]): number {
  let least = Number.POSITIVE_INFINITY;
  const tryAxis = (axis: Vec3): boolean => {
    const length = norm(axis);
    if (length < 1e-9) return true;
    const n = scale(axis, 1 / length);
    const [lowA, highA] = shadow(a.corners, n);
    const [lowB, highB] = shadow(b.corners, n);
    least = Math.min(least, highA - lowB, highB - lowA);
    return least > 0;
  };
  for (const { normal } of [...a.planes, ...b.planes]) if (!tryAxis(normal)) return least;
  for (const p of edgesA) for (const q of edgesB) if (!tryAxis(cross(p, q))) return least;
  return least;
}

function shadow(points: readonly Vec3[], n: Vec3): readonly [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const p of points) {
    const d = dot(p, n);
    if (d < low) low = d;
    if (d > high) high = d;
  }
  return [low, high];
}

/** Mean of the corners of the space that both pieces hold; null when there is none. */
function middleOfShared(one: Prism, i: number, other: Prism, j: number): Vec3 | null {
  const corners = [
    ...boundaryInside(one, i, other.pieces[j] as PrismPiece),
    ...boundaryInside(other, j, one.pieces[i] as PrismPiece),
  ];
  if (corners.length === 0) return null;
  const sum = corners.reduce<Vec3>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  return scale(sum, 1 / corners.length);
}

function boundaryInside(prism: Prism, piece: number, within: PrismPiece): Vec3[] {
  const own = prism.faces.flatMap((face: Face) =>
    face.pieces.filter((p) => p.piece === piece).map((p) => ({ polygon: p.polygon, normal: face.plane.normal })),
  );
  const cuts = prism.cuts.filter((cut) => cut.pieces.includes(piece));
  return [...own, ...cuts].flatMap(({ polygon, normal }) => {
    const frame = frameOf(normal, polygon[0] as Vec3);
    let rest: Vec2[] = polygon.map((p) => onPlane(frame, p));
    for (const plane of within.planes) {
      rest = clipHalfPlane(
        rest,
        dot(plane.normal, frame.u),
        dot(plane.normal, frame.v),
        plane.offset - dot(plane.normal, frame.origin),
      );
      if (rest.length < 3) return [];
    }
    return rest.map((q) => fromPlane(frame, q));
  });
}
