import type { Vec3 } from '../base/vec';
import type { BoatRecipe } from './edits';

/** Keeps the run of a line as built in an arrangement, from now on, or anew. */
export const runPinned =
  (
    arrangementId: string,
    lineId: string,
    pin: { readonly points: readonly Vec3[]; readonly radiiM?: readonly number[] | undefined },
  ): BoatRecipe =>
  (boat) => {
    const arrangement = boat.arrangements[arrangementId];
    if (!arrangement) return;
    arrangement.pins = {
      ...arrangement.pins,
      [lineId]: {
        points: pin.points.map(([x, y, z]) => [x, y, z]),
        ...(pin.radiiM ? { radiiM: [...pin.radiiM] } : {}),
      },
    };
  };

/** Gives the run of a line back to the router. */
export const runUnpinned =
  (arrangementId: string, lineId: string): BoatRecipe =>
  (boat) => {
    const arrangement = boat.arrangements[arrangementId];
    if (!arrangement?.pins) return;
    delete arrangement.pins[lineId];
    if (Object.keys(arrangement.pins).length === 0) delete arrangement.pins;
  };
