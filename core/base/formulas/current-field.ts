import * as portable from '../portable';
import { add, cross, dot, scale, subtract, type Vec3 } from '../vec';

/**
 * Magnetic flux density of a current along a way of straights, tesla, by axes, at a point.
 *
 * Of a straight from A to B, with a = P - A and b = P - B: B = mu0 I / (4 pi) (a x b) (|a| + |b|) / (|a| |b| (|a| |b| + a . b)).
 *
 * I amperes; corners in metres. A point on the way itself takes nothing from the straight that it lies on. Source: Biot-Savart law,
 * integrated along a straight. Leaves out iron nearby and whatever brings the current to the ends.
 */
export function fieldOfWay(corners: readonly Vec3[], amperes: number, at: Vec3): Vec3 {
  let sum: Vec3 = [0, 0, 0];
  for (let k = 1; k < corners.length; k += 1) {
    const a = subtract(at, corners[k - 1] as Vec3);
    const b = subtract(at, corners[k] as Vec3);
    const [la, lb] = [portable.hypot(...a), portable.hypot(...b)];
    const below = la * lb * (la * lb + dot(a, b));
    if (below > LEAST_M4) sum = add(sum, scale(cross(a, b), (MU0_PER_4PI * amperes * (la + lb)) / below));
  }
  return sum;
}

const MU0_PER_4PI = 1e-7;
/** On the straight itself the expression has no value. */
const LEAST_M4 = 1e-18;
