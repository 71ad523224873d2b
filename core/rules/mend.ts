import type { BoatRecipe } from '../boat/edits';
import type { Boat } from '../boat/schema/boat';
import type { Facts } from './facts';
import type { Finding } from './finding';
import type { RemedyChange } from './remedy';

export type FailedFinding = Extract<Finding, { outcome: 'fail' }>;

/**
 * A change that a rule knows may help against a failure of its own. It is only a proposal: the engine applies it to a copy of the boat,
 * routes and judges that, and offers it where the failure is gone and nothing else is worse.
 */
export interface Mend {
  /** Tells the proposals against one failure apart. */
  readonly id: string;
  readonly change: RemedyChange;
  /** Values that its words need: ids, metres, degrees. */
  readonly what: Readonly<Record<string, string | number>>;
  readonly recipe: BoatRecipe;
}

/** What a rule may look at to make its proposals; it must not keep any of it. */
export interface MendingAt {
  readonly boat: Boat;
  readonly arrangementId: string;
  readonly facts: Facts;
}
