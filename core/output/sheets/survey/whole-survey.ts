import type { Boat } from '../../../boat/schema/boat';
import type { HullSurface } from '../../../shape/hull/types';
import type { Layout } from '../../../shape/layout/types';
import type { PrintContext } from '../context';
import type { Sheet } from '../marks';
import { compartmentSheets } from './compartment-sheet';
import { floatingSheets } from './floating-sheet';

/** How the boat floats, then each compartment in the order of its name: the papers of one afternoon. */
export function surveySheets(boat: Boat, layout: Layout, hull: HullSurface | null, context: PrintContext): Sheet[] {
  const ids = Object.keys(boat.compartments).sort((a, b) => nameOf(boat, a).localeCompare(nameOf(boat, b), 'en'));
  return [
    ...floatingSheets(boat, hull, context),
    ...ids.flatMap((id) => compartmentSheets(boat, layout, hull, id, context)),
  ];
}

const nameOf = (boat: Boat, id: string): string => boat.compartments[id]?.name ?? id;
