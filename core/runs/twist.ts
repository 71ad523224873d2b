import { footOnLeg } from '../base/segment';
import { cross, degrees, distance, dot, norm, type Vec3 } from '../base/vec';
import { turnOf } from './routing/fillet';
import type { Prim } from './routing/types';

/** Flatter bends than this have no plane worth speaking of. */
const LEAST_TURN_RAD = 0.05;
/** A clip this near to the run holds it. */
const AT_CLIP_M = 0.002;

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
  let worst: Twist | null = null;
  let bends: Extract<Prim, { kind: 'arc' }>[] = [];
  for (const prim of prims) {
    if (prim.kind === 'line') {
      if (clips.some((clip) => distance(clip, footOnLeg(clip, prim.from, prim.to)) <= AT_CLIP_M)) bends = [];
      continue;
    }
    if (turnOf(prim) < LEAST_TURN_RAD) continue;
    for (const other of bends) {
      const square = norm(cross(other.normal, prim.normal));
      const angleDeg = degrees(Math.atan2(square, Math.abs(dot(other.normal, prim.normal))));
      if (!worst || angleDeg > worst.angleDeg) worst = { angleDeg, at: middle(other.to, prim.from) };
    }
    bends.push(prim);
  }
  return worst;
}

const middle = (p: Vec3, q: Vec3): Vec3 => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2];
