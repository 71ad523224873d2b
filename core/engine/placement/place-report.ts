import type { Pose } from '../../base/vec';
import type { Patch } from '../../boat/edits';
import type { Finding, Limit, Measured } from '../../rules/finding';

/** What a compartment is asked for a part, in the order of the columns. */
export const PLACE_TESTS = ['passes', 'fits', 'mounts', 'serves', 'dry', 'cool', 'reaches', 'spills', 'holes'] as const;
export type PlaceTest = (typeof PLACE_TESTS)[number];

/** close: within what the tape gives; cannotTell: something is lacking in the drawing; notJudged: an earlier test failed, or not yet. */
export type PlaceOutcome = 'pass' | 'close' | 'fail' | 'cannotTell' | 'notJudged';

export interface PlaceTestResult {
  readonly outcome: PlaceOutcome;
  /** Why, as a key of the texts; null where nothing needs saying. */
  readonly reason: string | null;
  readonly measured: Measured | null;
  readonly limit: Pick<Limit, 'value' | 'bound'> | null;
  /** Records that it hangs on: an opening, a thing, a line. */
  readonly about: readonly string[];
  readonly enterNext: string | null;
  /** The finding that the boat has with the parts put there, where one decides; its words are those of the checks. */
  readonly finding: Finding | null;
}

export interface BestPlace {
  readonly poses: Readonly<Record<string, Pose>>;
  readonly mountedOn: string | null;
  /** Hose, tube and cable beyond what the part needs where it is now, metres. */
  readonly moreHoseM: number | null;
  readonly newHoles: number | null;
  /** Edit that puts it there. */
  readonly patches: readonly Patch[];
}

export interface CompartmentAnswer {
  readonly compartment: string;
  readonly name: string;
  /** goes: every test passed; goesClose: within the tape; open: something cannot be told; no: a test failed; notYet: first tints only. */
  readonly verdict: 'goes' | 'goesClose' | 'open' | 'no' | 'notYet';
  readonly tests: Readonly<Record<PlaceTest, PlaceTestResult>>;
  /** The first test that decides against it, or the tightest of those that pass. */
  readonly decides: PlaceTest | null;
  readonly isNow: boolean;
  readonly best: BestPlace | null;
  /** Stowage lost there, litres; null where its volume is not known. */
  readonly stowageLostL: number | null;
  /** Demands of the owner that it breaks, which rule it out. */
  readonly breaks: readonly string[];
}

export interface PlaceReport {
  /** The part that was asked for; of a group its first. */
  readonly part: string;
  readonly group: readonly string[];
  readonly arrangement: string | null;
  /** first: from bounds alone; settled: routed and judged. */
  readonly stage: 'first' | 'settled';
  /** Ranked, the best first; those where it cannot go last. */
  readonly compartments: readonly CompartmentAnswer[];
}
