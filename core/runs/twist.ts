import * as portable from '../base/portable';
import { distanceToLeg } from '../base/segment';
import { cross, degrees, dot, midpoint, norm, type Vec3 } from '../base/vec';
import { type Arc, arcSweep } from './routing/prims';
import type { Prim } from './routing/types';

/** Bends this far out of one plane count as one plane: about what the eye lets pass. Common practice, no source. */
export const ONE_PLANE_DEG = 10;

/** Flatter bends than this have no plane worth speaking of. */
const LEAST_TURN_RAD = 0.05;

/** Two bends of a run that lie in different planes. */
export interface Twist {
  /** Greatest angle between the planes of two bends that no clip parts, 0 to 90 degrees. */
  readonly angleDeg: number;
  /** Between the two. */
  readonly at: Vec3;
}

/**
 * How far the bends of a run lie out of one plane. A clip holds the hose against turning, so bends on its two sides count apart. Null
 * where no two bends lie between clips.
 */
export function twistOf(prims: readonly Prim[], clips: readonly Vec3[]): Twist | null {
  // Each clip holds the straight that passes nearest to it: runs that share one lie beside its point.
  const held = new Set(clips.map((clip) => nearestLine(prims, clip)));
  let worst: Twist | null = null;
  let bends: Arc[] = [];
  for (const prim of prims) {
    if (prim.kind === 'line') {
      if (held.has(prim)) bends = [];
      continue;
    }
    if (arcSweep(prim) < LEAST_TURN_RAD) continue;
    for (const other of bends) {
      const square = norm(cross(other.normal, prim.normal));
      const angleDeg = degrees(portable.atan2(square, Math.abs(dot(other.normal, prim.normal))));
      if (!worst || angleDeg > worst.angleDeg) worst = { angleDeg, at: midpoint(other.to, prim.from) };
    }
    bends.push(prim);
  }
  return worst;
}

function nearestLine(prims: readonly Prim[], clip: Vec3): Prim | null {
  let best: Prim | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const prim of prims) {
    if (prim.kind !== 'line') continue;
    const apart = distanceToLeg(clip, prim.from, prim.to);
    if (apart < least) [best, least] = [prim, apart];
  }
  return best;
}
