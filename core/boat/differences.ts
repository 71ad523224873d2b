import type { Boat } from './schema/boat';
import { isPlain, sameValue } from './schema-walk';

/** What differs between two boats under one key of the file: `parts`, `lines`, `arrangements` ... */
export interface Difference {
  readonly key: string;
  /** Ids of records that the later boat has and the earlier has not, and so on; empty for a key that holds no records. */
  readonly added: readonly string[];
  readonly removed: readonly string[];
  readonly changed: readonly string[];
}

/** Bookkeeping of the file that says nothing of the boat. */
const UNTOLD: ReadonlySet<string> = new Set(['engineVersion', 'schemaVersion', 'format', 'typed']);

/** In order of the keys; keys that are equal are left out. */
export function differencesBetween(earlier: Boat, later: Boat): readonly Difference[] {
  const was: Readonly<Record<string, unknown>> = earlier;
  const is: Readonly<Record<string, unknown>> = later;
  return [...new Set([...Object.keys(was), ...Object.keys(is)])]
    .filter((key) => !UNTOLD.has(key) && !sameValue(was[key], is[key]))
    .sort()
    .map((key) => {
      const before = recordsOf(was[key]);
      const after = recordsOf(is[key]);
      const ids = [...new Set([...Object.keys(before), ...Object.keys(after)])].sort();
      return {
        key,
        added: ids.filter((id) => !Object.hasOwn(before, id)),
        removed: ids.filter((id) => !Object.hasOwn(after, id)),
        changed: ids.filter(
          (id) => Object.hasOwn(before, id) && Object.hasOwn(after, id) && !sameValue(before[id], after[id]),
        ),
      };
    });
}

/** Records by id; what holds anything else counts as one whole. */
const recordsOf = (value: unknown): Readonly<Record<string, unknown>> =>
  isPlain(value) && Object.values(value).every(isPlain) ? value : {};
