import type { Vec3 } from '../base/vec';
import { heightAbove } from '../shape/hull/attitude';
import type { Facts } from './facts';

export interface DepthAtHeel {
  readonly at: Vec3;
  /** Negative where it stays dry. */
  readonly depthM: number;
  readonly heelDeg: number;
  readonly down: 'upright' | 'port' | 'starboard';
}

/** The greatest depth of any of the points upright and at the boat's greatest heel to either side. */
export function greatestDepth(points: readonly Vec3[], facts: Facts): DepthAtHeel {
  const all = facts
    .greatestHeelWaters()
    .flatMap(({ water, heelDeg, down }) =>
      points.map((at): DepthAtHeel => ({ at, depthM: -heightAbove(water, at), heelDeg, down })),
    );
  return all.reduce((worst, one) => (one.depthM > worst.depthM + 1e-12 ? one : worst));
}
