import type { GettingIn } from '../assess/access/getting-in/getting-in';

/** How a part is asked to be carried in. */
export interface CarryAsk {
  /** Poses that a search may look at; 0: straight moves alone. */
  readonly looks: number;
  /** A way on which every side could be longer by this is looked for first, metres. */
  readonly wantedM?: number;
  /** Every side longer by this; negative: shorter. */
  readonly longerM?: number;
  /** Past everything that is fitted, the other parts too; default: past what is aboard already. */
  readonly past?: 'parts';
  /** Things that are taken off before, by id. */
  readonly without?: readonly string[];
  readonly explains?: boolean;
}

export interface WayOut {
  readonly comesOut: boolean;
  /** A move was found, or it is proved that there is none. */
  readonly isProved: boolean;
  /** Parts in its way, in the order in which it meets them. */
  readonly behind: readonly string[];
  /** Lines that lie in its way. */
  readonly hoses: readonly string[];
}

/** What a rule may know of ways in and out. */
export interface CarryFacts {
  /** Whether the report is the one with the deeper tries in it. */
  readonly isDeeper: () => boolean;
  /** Ways to a compartment from where people stand, each by its openings from the outermost; the empty one where they stand in it. */
  readonly waysTo: (compartment: string) => readonly (readonly string[])[];
  /** A part carried to its place; null where it is not placed, or the openings do not lead there one after the other. */
  readonly carriedIn: (partId: string, way: readonly string[], ask: CarryAsk) => GettingIn | null;
  /** The same part out again past all that was fitted after it; null where no way in was found. Dear: for rules that are late. */
  readonly wayOut: (partId: string, way: readonly string[]) => WayOut | null;
}
