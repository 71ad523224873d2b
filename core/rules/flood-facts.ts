import type { FloodOutcome } from '../assess/flooding/flood';
import type { SeaArrival } from '../assess/flooding/sea-reach';
import type { Waterway } from '../assess/flooding/waterways';
import type { Boat } from '../boat/schema/boat';
import type { Solid } from '../shape/space/solids';

/** Limber holes as they should be, or clogged. */
export type Limbers = 'clear' | 'blocked';

/** What rules about flooding may know besides. */
export interface FloodFacts {
  /** What the boat file says of how water spreads, and the cases to be judged. */
  readonly flooding: () => Boat['flooding'];
  /** Lines that the sea reaches from a through-hull, by id. */
  readonly seaReach: (throughHull: string) => readonly SeaArrival[];
  /** What comes of its joints when one lets go and no pump runs, by compartment. */
  readonly floods: (throughHull: string, limbers: Limbers) => readonly FloodOutcome[];
  /** Where water gets from one compartment into another, by id. */
  readonly waterways: (limbers: Limbers) => readonly Waterway[];
  /** Envelope of a thing; null while it is not placed, and of what is soft. */
  readonly envelope: (thingId: string) => Solid | null;
}
