import type { Vec3 } from '../../base/vec';

/** What rows are about, in the order in which they are listed. */
export const GROUPS = [
  'part',
  'hose',
  'tube',
  'cable',
  'end',
  'clamp',
  'clip',
  'screw',
  'hole',
  'grommet',
  'label',
  'notPlaced',
] as const;
export type Group = (typeof GROUPS)[number];

/** One row of the parts-and-lengths list. */
export interface TakeoffRow {
  /** Stays the same from edit to edit, so that bought, have and fitted can be kept by it. */
  readonly key: string;
  readonly group: Group;
  readonly item: string;
  readonly kind: string;
  /** What the drawing asks for: pieces, or metres of run with the making-up allowance. */
  readonly quantity: number;
  readonly unit: 'piece' | 'm';
  /** The quantity rounded up to what is sold, less what is supplied. */
  readonly buy: number;
  /** Range of a length: as short and as long as the accuracy of its ends, or the reserve, may make it. */
  readonly leastM?: number;
  readonly greatestM?: number;
  readonly place: string;
  /** Ids of what the row comes from. */
  readonly from: readonly string[];
  readonly note: string;
  /** Where its pieces go. */
  readonly spread: readonly Share[];
  /** Of hose, tube and cable: the lengths that its pieces are cut from. */
  readonly cuts?: readonly CutLength[];
  /** Set where it is not proved that no less can be bought: metres that may be too much at most. */
  readonly gapM?: number;
  readonly hole?: HolePlace;
  /** Of one piece or one metre, in whatever money. */
  readonly unitPrice?: number;
  /** Of all that is to be bought. */
  readonly price?: number;
}

/** Pieces of a row that go to one place. */
export interface Share {
  /** Name of the compartment. */
  readonly place: string;
  readonly quantity: number;
  /** Part or line that they are for. */
  readonly from: string;
  readonly what: string;
}

/** A length that is bought or there, with what is cut from it. The pieces and the waste add up to the length. */
export interface CutLength {
  readonly lengthM: number;
  /** There already: it comes with the set or lies aboard. */
  readonly supplied: boolean;
  readonly name: string;
  readonly pieces: readonly CutPiece[];
  readonly wasteM: number;
}

export interface CutPiece {
  readonly lineId: string;
  readonly name: string;
  /** Run and making-up allowance, metres. */
  readonly lengthM: number;
}

/** Where a hole is drilled, and from which side. */
export interface HolePlace {
  readonly panelId: string;
  readonly panel: string;
  readonly diameterM: number;
  readonly thicknessM: number | null;
  readonly at: Vec3;
  /** Compartment from which it is drilled; null where neither side is known to be reached. */
  readonly drillFrom: string | null;
  /** Distances of its centre from sides of that compartment, square to one another. */
  readonly edges: readonly EdgeDistance[];
}

export const SIDES = ['forward', 'aft', 'port', 'starboard', 'top', 'bottom', 'hull'] as const;

export interface EdgeDistance {
  readonly side: (typeof SIDES)[number];
  readonly distanceM: number;
}
