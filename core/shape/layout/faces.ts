import type { FaceKey } from '../../boat/interior/faces';
import type { Boat, Compartment } from '../../boat/schema/boat';

/** Path in the boat file of the value that places a side of a compartment: the side from corner 3 to 4 goes by corner 3. */
export const pathOfSide = (compartment: string, key: FaceKey): string =>
  `compartments.${compartment}.${key === 'low' ? 'rangeM.0' : key === 'high' ? 'rangeM.1' : `outline.${key.slice('side'.length)}`}`;

/**
 * The same of a face of a layout, whose ends go by the right-handed third axis: in profile that runs against the range.
 */
export function pathOfFace(compartments: Boat['compartments'], compartment: string, key: string): string {
  const isProfile = (compartments[compartment] as Compartment | undefined)?.view === 'profile';
  const drawn = isProfile && key === 'low' ? 'high' : isProfile && key === 'high' ? 'low' : key;
  return pathOfSide(compartment, drawn as FaceKey);
}
