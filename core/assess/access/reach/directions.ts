import * as portable from '../../../base/portable';
import { radians } from '../../../base/vec';

/** Unit vectors as three numbers each, spread over a cone about the first axis: rings that stand one step apart, points on them too. */
const CONES = new Map<string, Float64Array>();

/** Directions within `coneDeg` of [1, 0, 0], at most about `stepDeg` apart; the outermost ring lies on the cone itself. */
export function coneDirections(coneDeg: number, stepDeg: number): Float64Array {
  const key = `${coneDeg} ${stepDeg}`;
  const known = CONES.get(key);
  if (known) return known;
  const rings = Math.max(1, Math.round(coneDeg / stepDeg));
  const out = [1, 0, 0];
  for (let ring = 1; ring <= rings && coneDeg > 0; ring += 1) {
    const angle = radians((coneDeg * ring) / rings);
    const count = Math.max(1, Math.round((2 * Math.PI * portable.sin(angle)) / radians(stepDeg)));
    // Every other ring is turned by half a step.
    const turned = ring % 2 === 0 ? 0.5 : 0;
    for (let k = 0; k < count; k += 1) {
      const turn = (2 * Math.PI * (k + turned)) / count;
      out.push(portable.cos(angle), portable.sin(angle) * portable.cos(turn), portable.sin(angle) * portable.sin(turn));
    }
  }
  const directions = Float64Array.from(out);
  CONES.set(key, directions);
  return directions;
}

/** Cosines and sines of `count` turns over half a round, every other one first: neighbours come late. */
export function rolls(count: number): readonly (readonly [number, number])[] {
  const order = [...Array(count).keys()].sort((a, b) => (a % 2) - (b % 2) || a - b);
  return order.map((k) => {
    const turn = (Math.PI * k) / count;
    return [portable.cos(turn), portable.sin(turn)] as const;
  });
}

/**
 * Some unit vector square to [x, y, z] into out[k...], and the third one of the frame behind it: the two axes about a direction. Chosen by
 * the least coordinate, so that a little change of direction changes little.
 */
export function squareAxes(x: number, y: number, z: number, out: Float64Array, k: number): void {
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  const az = Math.abs(z);
  let sx = 0;
  let sy = 0;
  let sz = 0;
  if (ax <= ay && ax <= az) {
    const long = Math.sqrt(y * y + z * z);
    sy = z / long;
    sz = -y / long;
  } else if (ay <= az) {
    const long = Math.sqrt(x * x + z * z);
    sx = -z / long;
    sz = x / long;
  } else {
    const long = Math.sqrt(x * x + y * y);
    sx = y / long;
    sy = -x / long;
  }
  out[k] = sx;
  out[k + 1] = sy;
  out[k + 2] = sz;
  out[k + 3] = y * sz - z * sy;
  out[k + 4] = z * sx - x * sz;
  out[k + 5] = x * sy - y * sx;
}
