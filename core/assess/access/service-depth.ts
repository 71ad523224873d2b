import { dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import type { Layout } from '../../shape/layout/types';
import { openingFrame, wallsOfOpening } from '../../shape/space/ways-in';

export interface PushedSection {
  readonly at: Vec3;
  readonly direction: Vec3;
  /** Radius of the circle round the cross-section. */
  readonly radiusM: number;
}

/**
 * Walls that a task works through, because an opening in them is lifted first: the whole cross-section lies inside the clear area when it gets
 * there. A lid is off before a basket is drawn through it.
 */
export function wallsLiftedFor(
  layout: Layout,
  openings: Readonly<Record<string, Opening>>,
  push: PushedSection,
): ReadonlySet<string> {
  const lifted = new Set<string>();
  for (const opening of Object.values(openings)) {
    if (opening.how === 'screwed' || !passesThrough(opening, push)) continue;
    for (const wall of wallsOfOpening(layout, opening)) lifted.add(wall);
  }
  return lifted;
}

function passesThrough(opening: Opening, push: PushedSection): boolean {
  const { out, up, across } = openingFrame(opening);
  const speed = dot(push.direction, out);
  if (Math.abs(speed) < 0.2) return false;
  const t = dot(subtract(opening.at, push.at), out) / speed;
  if (t < -1e-9) return false;
  const hit = subtract(subtract(push.at, scale(push.direction, -t)), opening.at);
  const [u, v] = [Math.abs(dot(hit, across)), Math.abs(dot(hit, up))];
  if (opening.shape === 'round') return Math.hypot(u, v) + push.radiusM <= opening.widthM / 2;
  return u + push.radiusM <= opening.widthM / 2 && v + push.radiusM <= opening.heightM / 2;
}
