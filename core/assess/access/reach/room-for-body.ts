import { along } from '../../../base/vec';
import type { Person } from './person';
import { isAtFooting, strideFor } from './pose-search';
import type { PostureRegion, Region } from './posture-region';

/** Shoulders are tried this far from one another, for a body thinner by so much, metres: what has no room so has hardly any elsewhere. */
const STEP_M = 0.06;
const THINNER_M = 0.012;

/** Whether trunk, head and legs have room with the shoulder anywhere in a region. Where they have none no arm need be looked for. */
export const hasRoomForBody = (person: Person, region: PostureRegion, thickerM: number): boolean =>
  region.shoulders.some((box) => fitsIn(box, person, region, thickerM - THINNER_M));

function fitsIn({ centre, half, axes }: Region, person: Person, region: PostureRegion, thickerM: number): boolean {
  const counts = half.map((side) => Math.max(1, Math.ceil((2 * side) / STEP_M))) as [number, number, number];
  const [rows, columns, layers] = counts;
  const places = rows * columns * layers;
  const stride = strideFor(places);
  const offset = (k: 0 | 1 | 2, n: number): number => half[k] * ((2 * n + 1) / counts[k] - 1);
  for (let k = 0, place = Math.floor(places / 2); k < places; k += 1, place = (place + stride) % places) {
    const row = Math.floor(place / (columns * layers));
    const column = Math.floor(place / layers) % columns;
    const [x, y, z] = along(
      along(along(centre, axes[0], offset(0, row)), axes[1], offset(1, column)),
      axes[2],
      offset(2, place % layers),
    );
    if (isAtFooting(region, x, y, z) && person.fitsAt(x, y, z, thickerM)) return true;
  }
  return false;
}
