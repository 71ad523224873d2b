import { midpoint, type Vec3 } from '../base/vec';
import type { Solid } from '../shape/space/solids';
import { thingSolids } from '../shape/space/things';
import type { Facts } from './facts';

/** Outside of a thing in the boat, of one that runs may pass as well; null while it is not placed. */
export function envelopeOf(id: string, facts: Facts): Solid | null {
  const thing = facts.thing(id);
  const pose = facts.pose(id);
  if (!thing || !pose) return null;
  return thingSolids(id, { ...thing, soft: false, sweeps: {}, services: {} }, pose)[0] ?? null;
}

/** Middle of a solid, boat frame. */
export const centreOf = (solid: Solid): Vec3 => (solid.type === 'box' ? solid.centre : midpoint(solid.from, solid.to));
