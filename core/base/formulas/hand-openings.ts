import * as portable from '../portable';

/** What goes through an opening while nobody sees it. */
export type ReachThrough =
  | 'handRolled'
  | 'handFlat'
  | 'handFist'
  | 'hand25'
  | 'elbow'
  | 'shoulder'
  | 'twoHands'
  | 'screwdriver'
  | 'pliers'
  | 'tHandle'
  | 'openEnd'
  | 'allenKey'
  | 'probe';

export type Clothing = 'bare' | 'gloved';

interface TableRow {
  readonly widthM: number;
  readonly heightM: number;
  /** Of a round opening instead. */
  readonly diameterM: number;
}

const row = (width: number, height: number, diameter: number = Math.max(width, height)): TableRow => ({
  widthM: width / 1000,
  heightM: height / 1000,
  diameterM: diameter / 1000,
});
const same = (bare: TableRow): Readonly<Record<Clothing, TableRow>> => ({ bare, gloved: bare });

/**
 * Least openings for hand and arm, millimetres: bare or in light clothing, gloved or in heavy clothing. MIL-STD-1472, arm and hand access
 * dimensions; tools with the hand that turns them, MIL-HDBK-759. All from memory. Where no round opening is given its diameter is the
 * longer side.
 */
export const HAND_OPENINGS: Readonly<Record<Exclude<ReachThrough, 'twoHands'>, Readonly<Record<Clothing, TableRow>>>> =
  {
    handRolled: { bare: row(95, 95), gloved: row(150, 150) },
    handFlat: { bare: row(100, 55), gloved: row(150, 100) },
    handFist: { bare: row(125, 95), gloved: row(150, 115) },
    hand25: { bare: row(95, 95), gloved: row(150, 150) },
    elbow: { bare: row(115, 100), gloved: row(180, 180) },
    shoulder: { bare: row(125, 125), gloved: row(215, 215) },
    screwdriver: same(row(107, 117)),
    pliers: same(row(132, 115)),
    tHandle: same(row(135, 155)),
    openEnd: same(row(272, 203)),
    allenKey: same(row(122, 155)),
    probe: same(row(89, 89)),
  };

/** Least clear sides, the narrow one and the other, from which head and one shoulder, and a person, go in, metres. Common practice, no source. */
export const BODY_OPENINGS = { headIn: [0.35, 0.45], climbIn: [0.45, 0.55] } as const;

/** Both arms in to the shoulders; with less depth the width grows with it. */
const TWO_ARMS_M = 0.5;
/** Beyond so deep two hands go in to the shoulders. */
const TWO_HANDS_DEEPEST_M = 0.49;
const TWO_HANDS: Readonly<Record<Clothing, { readonly heightM: number; readonly widthM: (depthM: number) => number }>> =
  {
    // older editions print 0.75 of the depth for light clothing: the greater counts
    bare: { heightM: 0.125, widthM: (depthM) => Math.max(0.2, depthM) },
    gloved: { heightM: 0.18, widthM: (depthM) => 0.15 + 0.75 * depthM },
  };

export interface OpeningNeed extends TableRow {
  /** It may be turned by a quarter: one hand rolls, two hands stay beside each other. */
  readonly turns: boolean;
}

/** Least opening for something that goes `depthM` through it. */
export function openingFor(what: ReachThrough, depthM: number, clothing: Clothing = 'bare'): OpeningNeed {
  if (what !== 'twoHands') return { ...HAND_OPENINGS[what][clothing], turns: true };
  const { heightM, widthM: widthAt } = TWO_HANDS[clothing];
  const widthM = depthM > TWO_HANDS_DEEPEST_M ? Math.max(TWO_ARMS_M, widthAt(TWO_HANDS_DEEPEST_M)) : widthAt(depthM);
  return { widthM, heightM, diameterM: portable.hypot(widthM, heightM), turns: false };
}

/** A fist and the thin of the forearm are no longer than this, nor is the forearm; deeper, the next size is in the opening. From memory. */
const WRIST_M = 0.2;
const FOREARM_M = 0.3;

/** What of one arm is in an opening when its hand works so deep behind it. */
export const armThrough = (depthM: number): 'handFist' | 'elbow' | 'shoulder' =>
  depthM <= WRIST_M ? 'handFist' : depthM <= FOREARM_M ? 'elbow' : 'shoulder';

/** Rounding does not narrow an opening. */
const DUST_M = 1e-9;

/** Whether something passes an opening, and with how much to spare at its tightest, negative by what is missing. Metres. */
export function passesHand(
  opening: { readonly widthM: number; readonly heightM: number; readonly round?: boolean },
  need: OpeningNeed,
): { readonly met: boolean; readonly spareM: number } {
  const spare = (wideM: number, highM: number): number => Math.min(wideM - need.widthM, highM - need.heightM);
  const { widthM, heightM } = opening;
  const spareM = opening.round
    ? Math.min(widthM, heightM) - need.diameterM
    : Math.max(spare(widthM, heightM), need.turns ? spare(heightM, widthM) : Number.NEGATIVE_INFINITY);
  return { met: spareM >= -DUST_M, spareM };
}
