import * as portable from '../../base/portable';
import type { Vec2 } from '../../base/vec';

/** Boxes stand outside the sector that they cover by no more than this share of its radius. */
export const SECTOR_SPILL = 0.02;

/** Degrees swept from one angle to the other, right-handed; equal angles are a full turn. */
export const sectorSpan = (fromDeg: number, toDeg: number): number => {
  if (toDeg - fromDeg >= 360) return 360;
  const span = (((toDeg - fromDeg) % 360) + 360) % 360;
  return span === 0 ? 360 : span;
};

interface FlatBox {
  readonly centre: Vec2;
  readonly half: Vec2;
  readonly axis: Vec2;
}

/**
 * Boxes that cover the sector of radius 1 from angle 0 to `span` (radians), each standing out of it by SECTOR_SPILL at most:
 * ring sectors are halved until the corners of the box around each keep that.
 */
export function sectorBoxes(span: number): FlatBox[] {
  const out: FlatBox[] = [];
  const cover = (r0: number, r1: number, a0: number, a1: number): void => {
    const box = boxAround(r0, r1, a0, a1, span);
    if (box.spill <= SECTOR_SPILL) out.push(box);
    else if (r1 - r0 > (a1 - a0) * r1) {
      cover(r0, (r0 + r1) / 2, a0, a1);
      cover((r0 + r1) / 2, r1, a0, a1);
    } else {
      cover(r0, r1, a0, (a0 + a1) / 2);
      cover(r0, r1, (a0 + a1) / 2, a1);
    }
  };
  const wedges = Math.ceil(span / (Math.PI / 2));
  for (let k = 0; k < wedges; k++) cover(0, 1, (span * k) / wedges, (span * (k + 1)) / wedges);
  return out;
}

/** The box around a ring sector of at most 90 degrees that stands out of the whole least: along its middle or one of its sides. */
function boxAround(r0: number, r1: number, a0: number, a1: number, span: number): FlatBox & { readonly spill: number } {
  const tries = [(a0 + a1) / 2, a0, a1].map((angle) => {
    const [c, s] = [portable.cos(angle), portable.sin(angle)];
    // Extremes of the ring sector along and across the axis: its four corners, and the arc's own tip where the axis meets it.
    const tips = [a0, a1].flatMap((a) =>
      [r0, r1].map((r): Vec2 => [r * portable.cos(a - angle), r * portable.sin(a - angle)]),
    );
    const us = tips.map((p) => p[0]).concat(r1);
    const vs = tips.map((p) => p[1]);
    const [lowU, highU, lowV, highV] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
    const toPlane = (u: number, v: number): Vec2 => [u * c - v * s, u * s + v * c];
    const corners = [toPlane(lowU, lowV), toPlane(lowU, highV), toPlane(highU, lowV), toPlane(highU, highV)];
    return {
      centre: toPlane((lowU + highU) / 2, (lowV + highV) / 2),
      half: [(highU - lowU) / 2, (highV - lowV) / 2] as Vec2,
      axis: [c, s] as Vec2,
      spill: Math.max(...corners.map((p) => distanceToSector(p, span))),
    };
  });
  return tries.reduce((best, next) => (next.spill < best.spill ? next : best));
}

/** How far a point is outside the sector of radius 1 from angle 0 to span. */
function distanceToSector([x, y]: Vec2, span: number): number {
  const r = portable.hypot(x, y);
  const angle = ((portable.atan2(y, x) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  if (r < 1e-12 || angle <= span) return Math.max(0, r - 1);
  const toRay = (a: number): number => {
    const t = Math.min(1, Math.max(0, x * portable.cos(a) + y * portable.sin(a)));
    return portable.hypot(x - t * portable.cos(a), y - t * portable.sin(a));
  };
  return Math.min(toRay(0), toRay(span));
}
