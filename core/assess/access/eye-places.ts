import * as portable from '../../base/portable';
import { along, type Vec3 } from '../../base/vec';
import { openingFrame } from '../../shape/space/ways-in';
import type { Region } from './reach/posture-region';

/** Digits of a whole number mirrored at the point: evenly spread in (0, 1) for n = 1, 2, 3 ... (van der Corput 1935). */
function mirroredDigits(n: number, base: number): number {
  let [value, share, rest] = [0, 1 / base, n];
  while (rest > 0) {
    value += (rest % base) * share;
    rest = Math.floor(rest / base);
    share /= base;
  }
  return value;
}

/** The n-th point of a sequence that fills the unit cube evenly (Halton 1960), n from 1. */
export const evenPoint = (n: number): Vec3 => [mirroredDigits(n, 2), mirroredDigits(n, 3), mirroredDigits(n, 5)];

/** Signs of the octants. */
const OCTANTS = [0, 1, 2, 3, 4, 5, 6, 7].map((i): Vec3 => [i & 1 ? -1 : 1, i & 2 ? -1 : 1, i & 4 ? -1 : 1]);

/**
 * Places spread evenly over boxes, as many in each, and each with its mirror images along the axes of its box, so that a mirrored boat is
 * looked at from mirrored places. More octants hold all places of fewer.
 */
export function eyePlaces(boxes: readonly Region[], octants: number): readonly Vec3[] {
  const known = PLACES.get(boxes) ?? new Map<number, readonly Vec3[]>();
  PLACES.set(boxes, known);
  const places = known.get(octants) ?? spreadOver(boxes, octants);
  known.set(octants, places);
  return places;
}
/** Many tasks are looked at from the same boxes. */
const PLACES = new WeakMap<readonly Region[], Map<number, readonly Vec3[]>>();

function spreadOver(boxes: readonly Region[], octants: number): readonly Vec3[] {
  const each = Math.ceil(octants / Math.max(1, boxes.length));
  return boxes.flatMap(({ centre, half, axes }) =>
    Array.from({ length: each }, (_, n) => evenPoint(n + 1)).flatMap(([u, v, w]) =>
      OCTANTS.map((sign) =>
        along(
          along(along(centre, axes[0], sign[0] * u * half[0]), axes[1], sign[1] * v * half[1]),
          axes[2],
          sign[2] * w * half[2],
        ),
      ),
    ),
  );
}

/** Level and upright directions in the plane of a disc: mirrored with the boat. */
export function discAxes(normal: Vec3): { readonly across: Vec3; readonly up: Vec3 } {
  const { across, up } = openingFrame({ normal: [...normal] });
  return { across, up };
}

/** Points evenly spread over a disc in rings, by eights, or twelves: mirror images of one another about both axes of its plane. */
export function discPoints(
  at: Vec3,
  normal: Vec3,
  radiusM: number,
  rings: readonly (readonly [number, number])[],
): readonly Vec3[] {
  const { across, up } = discAxes(normal);
  const total = rings.reduce((sum, [count]) => sum + count, 0);
  let before = 0;
  return rings.flatMap(([count, turn]) => {
    // In the middle of the ring's share of the area.
    const r = radiusM * Math.sqrt((before + count / 2) / total);
    before += count;
    return Array.from({ length: count }, (_, k) => {
      const angle = (2 * Math.PI * (k + turn)) / count;
      return along(along(at, across, r * portable.cos(angle)), up, r * portable.sin(angle));
    });
  });
}
