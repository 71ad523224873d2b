import { rotationOf, type Vec2, type Vec3 } from '@core/base/vec';
import type { HullSurface } from '@core/shape/hull/types';
import type { BoxSolid, CapsuleSolid, CylinderSolid, Solid } from '@core/shape/space/solids';

const named = (id: string) => ({ id, owner: id, label: id, layer: 'furnishing' as const });

export const box = (
  id: string,
  centre: Vec3,
  size: Vec3,
  turn: { yawDeg?: number; pitchDeg?: number; rollDeg?: number } = {},
): BoxSolid => ({
  type: 'box',
  ...named(id),
  centre,
  half: [size[0] / 2, size[1] / 2, size[2] / 2],
  axes: rotationOf({ yawDeg: 0, pitchDeg: 0, rollDeg: 0, ...turn }),
});

export const cylinder = (id: string, from: Vec3, to: Vec3, radius: number): CylinderSolid => ({
  type: 'cylinder',
  ...named(id),
  from,
  to,
  radius,
});

export const capsule = (id: string, from: Vec3, to: Vec3, radius: number): CapsuleSolid => ({
  type: 'capsule',
  ...named(id),
  from,
  to,
  radius,
});

const flip = (v: Vec3): Vec3 => [v[0], -v[1] + 0, v[2]];
/** The solid on the other side of the boat. */
export const mirroredSolid = (s: Solid): Solid =>
  s.type === 'box'
    ? { ...s, centre: flip(s.centre), axes: [flip(s.axes[0]), flip(s.axes[1]), flip(s.axes[2])] }
    : { ...s, from: flip(s.from), to: flip(s.to) };
export { flip };

/** True when the point is inside the solid, by the definition of its shape. */
export function isInside(s: Solid, p: Vec3): boolean {
  const from = (a: Vec3): Vec3 => [p[0] - a[0], p[1] - a[1], p[2] - a[2]];
  const product = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  if (s.type === 'box') {
    const q = from(s.centre);
    return s.axes.every((axis, k) => Math.abs(product(axis, q)) <= (s.half[k] as number));
  }
  const span: Vec3 = [s.to[0] - s.from[0], s.to[1] - s.from[1], s.to[2] - s.from[2]];
  const length = Math.sqrt(product(span, span));
  const q = from(s.from);
  const along = product(q, span) / length;
  if (s.type === 'cylinder' && (along < 0 || along > length)) return false;
  const t = Math.min(length, Math.max(0, along)) / length;
  const off: Vec3 = [q[0] - span[0] * t, q[1] - span[1] * t, q[2] - span[2] * t];
  return product(off, off) <= s.radius * s.radius;
}

/**
 * A hull in closed form, x from 0 to 8: V sections |y| <= z + 0.5 between keel z = -0.5 and sheer z = 1. The free distance of a
 * point is (z + 0.5 - |y|) / sqrt 2, or to an end; of a segment inside, that of the nearer end, because the interior is convex.
 */
export function vHull(insetM = 0): HullSurface {
  const free = ([x, y, z]: Vec3): number => Math.min((z + 0.5 - Math.abs(y)) / Math.SQRT2, x, 8 - x);
  const section: Vec2[] = [
    [1.5, 1],
    [0, -0.5],
    [-1.5, 1],
  ];
  return {
    aftM: 0,
    forwardM: 8,
    insetM,
    offsetM: 0,
    halfBreadthAt: (_x, z) => (z < -0.5 || z > 1 ? 0 : z + 0.5),
    keelAt: () => -0.5,
    sheerAt: () => 1,
    sectionAt: () => section,
    waterlineAt: (z) => [
      [0, z + 0.5],
      [8, z + 0.5],
    ],
    buttockAt: (y) => [
      [0, Math.abs(y) - 0.5],
      [8, Math.abs(y) - 0.5],
    ],
    contains: (p) => free(p) >= 0 && p[2] <= 1,
    clearance: (a, b, cutoffM) => Math.min(cutoffM, Math.min(free(a), free(b)) - insetM),
    vertices: new Float64Array(),
    triangles: new Uint32Array(),
    deck: new Uint32Array(),
    columnsM: Float64Array.of(0, 8),
    insideAt: (_x, inset = insetM) => [
      [
        [0, -0.5 + inset * Math.SQRT2],
        [1.5 - inset, 1 + inset * (Math.SQRT2 - 1)],
        [1.5 - inset, 50],
        [inset - 1.5, 50],
        [inset - 1.5, 1 + inset * (Math.SQRT2 - 1)],
      ],
    ],
  };
}
