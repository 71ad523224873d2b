import type { Finding } from '../../rules/finding';
import type { Source } from '../source';
import type { Store } from '../store';
import { appliedPlace } from './applied-place';
import type { Tints } from './first-tints';
import type { FreePlace } from './free-places';
import { isFailed, nearResults } from './near-tests';
import { tooFar } from './place-demands';
import type { BestPlace } from './place-report';
import { bestOf, type Proposed } from './proposed-place';
import { put, type Site } from './site';

/** What speaks against a place before any way is looked for. */
interface Unfit {
  readonly tests: Tints;
  readonly best: BestPlace;
  readonly breaks: readonly string[];
}

/** Places of one compartment, the most promising first, each judged by what hangs on no run only when it is asked for. */
export class PlacesInTurn {
  private at = 0;
  /** The first that does not do. */
  unfit: Unfit | null = null;

  constructor(
    private readonly places: readonly FreePlace[],
    private readonly store: Store<Source>,
    private readonly site: Site,
    private readonly before: readonly Finding[],
  ) {}

  /** The next one that nothing speaks against so far; null: there is none. */
  next(): Proposed | null {
    const { group, source, demands } = this.site;
    for (;;) {
      const place = this.places[this.at];
      if (!place) return null;
      this.at += 1;
      const poses = group.posesWith(place.lead);
      const applied =
        place.lead === group.lead.now
          ? null
          : appliedPlace(source.boat, source.arrangementId, poses, { [group.lead.id]: place.mountedOn });
      const breaks =
        tooFar(Object.values(poses), demands, source.boat) > 1e-9
          ? demands.filter(({ kind }) => kind === 'keepWithin').map(({ id }) => id)
          : [];
      put(this.store, applied, this.site);
      const tests = nearResults(this.store, this.site, this.before);
      if (!isFailed(tests) && breaks.length === 0) return { place, applied };
      this.unfit ??= { tests, best: bestOf(place, applied, this.site), breaks };
    }
  }
}
