import type { Boat } from '../../boat/schema/boat';
import type { HullSurface } from './types';

type Hull = NonNullable<Boat['hull']>;

/** How far ribs stand out from the lining, or from the shell without one; 0 where they do not. */
export const ribsBeyondLining = (
  ribs: Pick<NonNullable<Hull['ribs']>, 'depthM'> | undefined,
  liningM: number,
): number => (ribs ? Math.max(0, ribs.depthM - liningM) : 0);

/**
 * The hull as what passes along it finds it: where each rib stands is not known, so the free interior ends at their tops everywhere. The
 * hull itself where nothing stands out.
 */
export function withinRibs(hull: HullSurface, ribsM: number): HullSurface {
  if (ribsM === 0) return hull;
  const insetM = hull.insetM + ribsM;
  return {
    ...hull,
    insetM,
    insideAt: (xM, inset = insetM) => hull.insideAt(xM, inset),
    clearance: (a, b, cutoffM) => hull.clearance(a, b, cutoffM + ribsM) - ribsM,
  };
}
