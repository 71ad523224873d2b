import type { EdgeDistance, Group, HolePlace, TakeoffRow } from './row';

/** Words and figures of the list. */

export const GROUP_TEXT: Readonly<Record<Group, string>> = {
  part: 'Part',
  hose: 'Hose',
  tube: 'Tube',
  cable: 'Cable',
  end: 'End fitting',
  clamp: 'Clamp',
  clip: 'Clip',
  screw: 'Screw',
  hole: 'Hole to drill',
  grommet: 'Grommet',
  label: 'Label',
  notPlaced: 'Not placed or routed',
};

export const UNDRAWN_TEXT = 'undrawn space';

/** Metres as whole millimetres, and as tenths of a millimetre. */
export const millimetres = (metres: number): string => String(Math.round(metres * 1000));
export const tenths = (metres: number): string => String(Math.round(metres * 10000) / 10);

const SIDE_TEXT: Readonly<Record<EdgeDistance['side'], string>> = {
  forward: 'from the forward end',
  aft: 'from the aft end',
  port: 'from the port side',
  starboard: 'from the starboard side',
  top: 'below the top',
  bottom: 'above the bottom',
  hull: 'from the side of the hull',
};

/** `120 from the port side, 60 above the bottom`, millimetres; empty where nothing could be measured. */
export const edgesText = (edges: readonly EdgeDistance[]): string =>
  edges.map(({ side, distanceM }) => `${millimetres(distanceM)} ${SIDE_TEXT[side]}`).join(', ');

/** `from the Engine space: 120 from the port side, 60 above the bottom`. */
export function drillText({ drillFrom, edges }: HolePlace): string {
  const measured = edgesText(edges);
  if (drillFrom === null) return 'no side from which it can be drilled is known: draw the opening that leads there';
  return `drill from ${drillFrom}${measured === '' ? '' : `, ${measured}`}`;
}

/** `from 2.5 m: Intake to strainer 1.300, Sink 0.830, 0.370 left`, metres, a clause for each length; empty without any. */
const cutsText = ({ cuts = [] }: Pick<TakeoffRow, 'cuts'>): string =>
  cuts
    .map(({ lengthM, supplied, name, pieces, wasteM }) => {
      const cut = pieces.map((piece) => `${piece.name} ${piece.lengthM.toFixed(3)}`).join(', ');
      return `from ${lengthM} m${supplied ? ` (${name})` : ''}: ${cut}, ${wasteM.toFixed(3)} left`;
    })
    .join('; ');

/** The note of a row with what is cut for it. */
export const noteText = (row: TakeoffRow): string =>
  [row.note, cutsText(row)].filter((words) => words !== '').join('; ');
