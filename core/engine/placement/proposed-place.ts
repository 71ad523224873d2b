import type { AppliedPlace } from './applied-place';
import type { Tints } from './first-tints';
import type { FreePlace } from './free-places';
import type { BestPlace } from './place-report';
import type { Site } from './site';

/** A place that no quick test rules out, with the edit. */
export interface Proposed {
  readonly place: FreePlace;
  readonly applied: AppliedPlace | null;
}

/** What came of one place. Sure: the boat with the parts there has that verdict; else a quick search alone speaks, and nothing is proposed. */
export interface JudgedPlace {
  readonly tests: Tints;
  readonly best: BestPlace;
  readonly breaks: readonly string[];
  /** Litres of stowage that it takes; null: not known. */
  readonly stowageLostL: number | null;
  readonly isSure: boolean;
}

/** The proposal as it is told; what only routing tells is still open. */
export function bestOf(place: FreePlace, applied: AppliedPlace | null, { group }: Site): BestPlace {
  return {
    poses: group.posesWith(place.lead),
    mountedOn: place.mountedOn,
    moreHoseM: null,
    newHoles: null,
    patches: applied?.patches ?? [],
  };
}
