/** One row of the parts-and-lengths list. */
export interface TakeoffRow {
  /** Stays the same from edit to edit, so that bought, have and fitted can be kept by it. */
  readonly key: string;
  readonly group: 'part' | 'hose' | 'tube' | 'cable' | 'end' | 'clip' | 'hole' | 'grommet' | 'label' | 'notPlaced';
  readonly item: string;
  readonly kind: string;
  /** What the drawing asks for: pieces, or metres of run with the making-up allowance. */
  readonly quantity: number;
  readonly unit: 'piece' | 'm';
  /** The quantity rounded up to what is sold. */
  readonly buy: number;
  /** Range of a length: the bare runs, and what ten per cent of reserve makes of them. */
  readonly leastM?: number;
  readonly greatestM?: number;
  readonly place: string;
  /** Ids of what the row comes from. */
  readonly from: readonly string[];
  readonly note: string;
}

/** Groups as lists name them. */
export const GROUP_TEXT: Readonly<Record<TakeoffRow['group'], string>> = {
  part: 'Part',
  hose: 'Hose',
  tube: 'Tube',
  cable: 'Cable',
  end: 'End fitting',
  clip: 'Clip',
  hole: 'Hole to drill',
  grommet: 'Grommet',
  label: 'Label',
  notPlaced: 'Not placed or routed',
};
