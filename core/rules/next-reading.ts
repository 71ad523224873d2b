import type { Vec3 } from '../base/vec';
import type { Grade } from '../boat/schema/boat';

/** What a reading is taken of. `missing`: nothing is entered yet, and a verdict cannot be told without it. */
export type ReadingKind =
  | 'openingWidth'
  | 'openingHeight'
  | 'clearLength'
  | 'thingPlace'
  | 'heightAboveWater'
  | 'partSize'
  | 'freeboard'
  | 'hullBreadth'
  | 'missing';

/** One end of the tape: a side of a record, or the water. `record` is an id of the boat, `water` or `hull`. */
export interface ReadingEnd {
  readonly record: string;
  /** `left edge`, `aft end`, `underside` ...; null: the record as a whole. */
  readonly side: string | null;
}

/** A verdict that readings may settle. */
export interface Settled {
  readonly key: string;
  /** Chance that it is clean afterwards. */
  readonly chance: number;
  /** Ids of the readings that must be taken as well; empty where this one suffices. */
  readonly along: readonly string[];
}

/** A reading that would settle verdicts, were it taken with a rule or a tape laid straight. */
export interface NextReading {
  /** Path of the value in the boat file, or `missing:` and the key of a verdict: the same as long as the records are. */
  readonly id: string;
  readonly kind: ReadingKind;
  /** Id of the record that it belongs to; of a missing input the subject of the verdict. */
  readonly record: string;
  readonly from: ReadingEnd;
  readonly to: ReadingEnd;
  /** Axis of the boat frame along which the tape lies, where there is one. */
  readonly axis: 'x' | 'y' | 'z' | null;
  /** Paths of the values that it makes sure of; empty where something is to be drawn. */
  readonly paths: readonly string[];
  /** What the boat file gives now, metres (in `unit`); null where nothing is entered. */
  readonly present: number | null;
  readonly unit: 'm' | 'A' | 'mm2' | 'micron' | 'LMin' | null;
  readonly grade: Grade | null;
  /** Two standard deviations of the present value, metres. */
  readonly gradeM: number | null;
  readonly at: Vec3 | null;
  /** Of a missing input: what to do, in words. */
  readonly enterNext: string | null;
  /** Verdicts that stand open and that it may settle, the likeliest first. */
  readonly settles: readonly Settled[];
  /**
   * Expected number of verdicts settled, a danger counting nine times and a fault three times an advice, and what was there before
   * the plan a third. Of a verdict that takes several readings each has its share.
   */
  readonly value: number;
}
