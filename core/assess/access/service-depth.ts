import * as portable from '../../base/portable';
import { along, cross, dot, subtract, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import type { Layout } from '../../shape/layout/types';
import type { PushedFace } from '../../shape/space/things';
import { openingFrame, wallsOfOpening } from '../../shape/space/ways-in';

/**
 * Walls that a task works through, because an opening in them is lifted first: the whole cross-section lies inside the clear area when it gets
 * there. A lid is off before a basket is drawn through it.
 */
export function wallsLiftedFor(
  layout: Layout,
  openings: Readonly<Record<string, Opening>>,
  face: PushedFace,
): ReadonlySet<string> {
  const lifted = new Set<string>();
  for (const opening of Object.values(openings)) {
    if (opening.how === 'screwed' || !passesThrough(opening, face)) continue;
    for (const wall of wallsOfOpening(layout, opening)) lifted.add(wall);
  }
  return lifted;
}

/** Of a round section its circle, of any other its four corners. */
function passesThrough(opening: Opening, face: PushedFace): boolean {
  const { out, up, across } = openingFrame(opening);
  const speed = dot(face.direction, out);
  if (Math.abs(speed) < 0.2) return false;
  const radiusM = face.round ? face.sizeM[0] / 2 : 0;
  return rimOf(face).every((corner) => {
    const t = dot(subtract(opening.at, corner), out) / speed;
    if (t < -1e-9) return false;
    const hit = subtract(along(corner, face.direction, t), opening.at);
    const [u, v] = [Math.abs(dot(hit, across)), Math.abs(dot(hit, up))];
    return opening.shape === 'round'
      ? portable.hypot(u, v) + radiusM <= opening.widthM / 2 + ROUNDING_M
      : u + radiusM <= opening.widthM / 2 + ROUNDING_M && v + radiusM <= opening.heightM / 2 + ROUNDING_M;
  });
}

const ROUNDING_M = 1e-9;

function rimOf({ at, direction, across, sizeM, round }: PushedFace): readonly Vec3[] {
  if (round) return [at];
  const upward = cross(direction, across);
  return [-1, 1].flatMap((i) =>
    [-1, 1].map((j) => along(along(at, across, (i * sizeM[0]) / 2), upward, (j * sizeM[1]) / 2)),
  );
}
