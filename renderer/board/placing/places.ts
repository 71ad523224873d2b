import type { Boat } from '@core/boat/schema/boat';
import type { CompartmentAnswer } from '@core/engine/placement/place-report';
import type { Placed } from '../things';

/** The parts at the best place in a compartment. */
export function ghostsOf(boat: Boat, { best }: CompartmentAnswer): readonly Placed[] {
  return Object.entries(best?.poses ?? {}).flatMap(([id, pose]) => {
    const thing = boat.parts[id];
    return thing ? [{ id, thing, part: true, pose, tag: thing.tag ?? id }] : [];
  });
}
