import { inOrder } from '../../base/order';
import * as portable from '../../base/portable';
import { add, distance, dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import { openingFrame } from '../../shape/space/ways-in';

/**
 * One arm to the shoulder through an opening: functional reach of the small person (677 mm, NUREG-0700 Table 11.4) less about 100 mm of
 * shoulder, rounded down. A derived figure, not a published limit. Metres.
 */
export const ARM_REACH_M = 0.56;

/** Shortest distance from a point to the clear area of an opening, metres: how deep a hand must go in a straight line. */
export function depthFromOpening(opening: Opening, point: Vec3): { readonly distanceM: number; readonly entry: Vec3 } {
  const { up, across } = openingFrame(opening);
  const offset = subtract(point, opening.at);
  let u = dot(offset, across);
  let v = dot(offset, up);
  if (opening.shape === 'round') {
    const radius = Math.min(opening.widthM, opening.heightM) / 2;
    const length = portable.hypot(u, v);
    const share = length > radius ? radius / length : 1;
    u *= share;
    v *= share;
  } else {
    u = Math.max(-opening.widthM / 2, Math.min(opening.widthM / 2, u));
    v = Math.max(-opening.heightM / 2, Math.min(opening.heightM / 2, v));
  }
  const entry = add(opening.at, add(scale(across, u), scale(up, v)));
  return { distanceM: distance(entry, point), entry };
}

/** The opening of a compartment from which a point is nearest; ties by id. */
export function nearestOpening(
  openings: Readonly<Record<string, Opening>>,
  compartment: string,
  point: Vec3,
): { readonly id: string; readonly distanceM: number } | null {
  let best: { id: string; distanceM: number } | null = null;
  for (const [id, opening] of inOrder(openings)) {
    if (opening.compartment !== compartment || opening.how === 'screwed') continue;
    const { distanceM } = depthFromOpening(opening, point);
    if (!best || distanceM < best.distanceM - 1e-12) best = { id, distanceM };
  }
  return best;
}
