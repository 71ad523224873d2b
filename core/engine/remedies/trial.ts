import type { Finding } from '../../rules/finding';
import type { Remedy } from '../../rules/remedy';
import { findings, findingsOf, PROMPT } from '../finding-stages';
import type { Source } from '../source';
import type { Store } from '../store';

/** All findings of a report at rest, one rule a slice. */
export function* judged(store: Store<Source>): Generator<null, readonly Finding[]> {
  for (const { id } of PROMPT) {
    store.read(findingsOf, id);
    yield null;
  }
  return store.read(findings);
}

/** Of the moves of one part the shortest. */
export function leastMoves(found: readonly Remedy[]): Remedy[] {
  const isLonger = (one: Remedy): boolean =>
    found.some(
      (other) =>
        other !== one &&
        other.change === 'move' &&
        other.what.thing === one.what.thing &&
        (Number(other.what.byM) < Number(one.what.byM) || (other.what.byM === one.what.byM && other.id < one.id)),
    );
  return found.filter((one) => one.change !== 'move' || !isLonger(one));
}
