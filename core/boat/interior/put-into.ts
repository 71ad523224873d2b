import type { Vec3 } from '../../base/vec';
import type { Boat, Thing } from '../schema/boat';
import { drawnBounds, intoBoat } from './placing';

/** Half the height of an envelope before its turn, metres. */
const halfHeight = ({ shape }: Pick<Thing, 'shape'>): number =>
  shape.type === 'box' ? shape.sizeM[2] / 2 : (shape.axis === 'z' ? shape.lengthM : shape.diameterM) / 2;

/** Off the floor, so that it stands in its compartment and not in the wall of it. */
const CLEAR_M = 0.005;

/** Where a thing is put that is added to a compartment: in the middle of its bounds, standing on its floor; to be moved from there. */
export function placeIn(boat: Boat, compartment: string, thing: Pick<Thing, 'shape'>): Vec3 | null {
  const prism = Object.hasOwn(boat.compartments, compartment) ? boat.compartments[compartment] : undefined;
  if (!prism) return null;
  const [low, high] = drawnBounds(prism);
  const up = Math.min(low[2] + halfHeight(thing) + CLEAR_M, (low[2] + high[2]) / 2);
  return intoBoat(prism, [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, Math.max(up, low[2])]);
}
