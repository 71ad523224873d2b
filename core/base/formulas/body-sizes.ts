import { normalDeviate } from './distributions';

/** Sizes of whoever works aboard, metres. */
export interface BodySizes {
  /** Shoulder joint to elbow, elbow to wrist, wrist to the middle of the grip. */
  readonly upperArmM: number;
  readonly forearmM: number;
  readonly handM: number;
  readonly upperArmRadiusM: number;
  readonly forearmRadiusM: number;
  /** Of the hand with the thumb: along the hand, across the palm, thick. */
  readonly handBoxM: readonly [number, number, number];
  readonly trunkRadiusM: number;
  readonly headRadiusM: number;
  /** Between the shoulder joints. */
  readonly shouldersM: number;
  /** Heights over what the person stands on, upright. */
  readonly standingShoulderM: number;
  readonly standingEyeM: number;
  /** Over the knees when kneeling upright, over the seat when sitting. */
  readonly kneelingShoulderM: number;
  readonly sittingShoulderM: number;
  /** Eye over the shoulder joint. */
  readonly eyeOverShoulderM: number;
}

/** What is printed of one row. */
interface PrintedRow {
  /** Back at the wall, to the grip. */
  readonly functionalReachM: number;
  readonly standingShoulderM: number;
  readonly sittingShoulderM: number;
  readonly sittingEyeM: number;
  readonly kneeM: number;
}

/**
 * The 5th of women and the 95th of men, NUREG-0700 Rev. 3 Table 11.4 (that of MIL-STD-1472G, general forces), as quoted. The table's
 * standing stature and eye height of the 5th of women look too great beside other surveys and are left alone: the eye is taken as far over
 * the shoulder as it is when sitting.
 */
export const BODY_ROWS: { readonly short: PrintedRow; readonly large: PrintedRow } = {
  short: {
    functionalReachM: 0.677,
    standingShoulderM: 1.23,
    sittingShoulderM: 0.509,
    sittingEyeM: 0.724,
    kneeM: 0.503,
  },
  large: {
    functionalReachM: 0.886,
    standingShoulderM: 1.553,
    sittingShoulderM: 0.646,
    sittingEyeM: 0.862,
    kneeM: 0.604,
  },
};

/** Arm of a middling adult: upper arm, forearm, wrist to grip. Common practice, no source. */
const MIDDLE_ARM_M = [0.33, 0.27, 0.1] as const;
/** From the wall behind the back to the shoulder joint: an estimate. */
const BACK_TO_SHOULDER_M = 0.1;

/**
 * Girths in light clothing: of the large row so that what the openings of MIL-STD-1472 let pass does pass (arm to the shoulder 125 mm, to
 * the elbow 100 mm, EN 547-3 hand and upper arm 120 mm), of the short row from memory.
 */
const GIRTHS = {
  short: {
    upperArmRadiusM: 0.048,
    forearmRadiusM: 0.042,
    handBoxM: [0.1, 0.1, 0.075],
    trunkRadiusM: 0.095,
    headRadiusM: 0.09,
    shouldersM: 0.3,
  },
  large: {
    upperArmRadiusM: 0.0605,
    forearmRadiusM: 0.05,
    handBoxM: [0.12, 0.12, 0.09],
    trunkRadiusM: 0.125,
    headRadiusM: 0.1,
    shouldersM: 0.38,
  },
} as const;

/**
 * One standard deviation of the reach of one sex as a share of what lies between the two rows, which are a man's 95th and a woman's 5th:
 * about 38 of 209 mm. From memory.
 */
const DEVIATION_SHARE = 0.18;
/** Percentiles beyond these say nothing more. */
const LEAST_PERCENT = 1;
const MOST_PERCENT = 99;

/**
 * Sizes of a person by their percentile, of one sex or of all adults; null: a middling adult. The arm is that of practice times the reach
 * from the shoulder of the two printed rows over that of their middle; everything is a straight line between the rows over the normal
 * deviate of the percentile. A measured arm counts in place of that of the percentile. `isInterpolated`: the person is none of the two rows.
 */
export function bodyOf(person: BodyPerson | null): { readonly sizes: BodySizes; readonly isInterpolated: boolean } {
  const share = person ? shareOf(person) : 0.5;
  const sizes = sizesAt(share);
  const isInterpolated = share !== 0 && share !== 1;
  if (person?.armM === undefined) return { sizes, isInterpolated };
  const { upperArmM, forearmM, handM } = sizes;
  const longer = person.armM / (upperArmM + forearmM + handM);
  return {
    sizes: { ...sizes, upperArmM: upperArmM * longer, forearmM: forearmM * longer, handM: handM * longer },
    isInterpolated,
  };
}

export interface BodyPerson {
  readonly percentile: number;
  readonly sex?: 'female' | 'male' | undefined;
  /** Straight arm as it was measured, shoulder joint to the middle of the grip, metres. */
  readonly armM?: number | undefined;
}

/** Where between the short row (0) and the large row (1) somebody stands. */
function shareOf({ percentile, sex }: BodyPerson): number {
  const deviate = normalDeviate(Math.min(MOST_PERCENT, Math.max(LEAST_PERCENT, percentile)) / 100);
  const ofRow = normalDeviate(0.95);
  if (sex === 'female') return (deviate + ofRow) * DEVIATION_SHARE;
  if (sex === 'male') return 1 - (ofRow - deviate) * DEVIATION_SHARE;
  return (deviate / ofRow + 1) / 2;
}

function sizesAt(share: number): BodySizes {
  const { short, large } = BODY_ROWS;
  const between = (a: number, b: number): number => a + (b - a) * share;
  const printed = (pick: (row: PrintedRow) => number): number => between(pick(short), pick(large));
  const girth = (pick: (row: (typeof GIRTHS)['short'] | (typeof GIRTHS)['large']) => number): number =>
    between(pick(GIRTHS.short), pick(GIRTHS.large));
  const fromShoulder = printed(({ functionalReachM }) => functionalReachM - BACK_TO_SHOULDER_M);
  const middle = (short.functionalReachM + large.functionalReachM) / 2 - BACK_TO_SHOULDER_M;
  const [upperArmM, forearmM, handM] = MIDDLE_ARM_M.map((linkM) => (linkM * fromShoulder) / middle) as [
    number,
    number,
    number,
  ];
  const eyeOverShoulderM = printed((row) => row.sittingEyeM - row.sittingShoulderM);
  const standingShoulderM = printed((row) => row.standingShoulderM);
  return {
    upperArmM,
    forearmM,
    handM,
    upperArmRadiusM: girth((row) => row.upperArmRadiusM),
    forearmRadiusM: girth((row) => row.forearmRadiusM),
    handBoxM: [girth((row) => row.handBoxM[0]), girth((row) => row.handBoxM[1]), girth((row) => row.handBoxM[2])],
    trunkRadiusM: girth((row) => row.trunkRadiusM),
    headRadiusM: girth((row) => row.headRadiusM),
    shouldersM: girth((row) => row.shouldersM),
    standingShoulderM,
    standingEyeM: standingShoulderM + eyeOverShoulderM,
    kneelingShoulderM: standingShoulderM - printed((row) => row.kneeM),
    sittingShoulderM: printed((row) => row.sittingShoulderM),
    eyeOverShoulderM,
  };
}
