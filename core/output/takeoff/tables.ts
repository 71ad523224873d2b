import type { Boat } from '../../boat/schema/boat';
import { bagsOf } from './bags';
import type { TakeoffRow } from './row';
import { stillToBuy, stockOf } from './stock';
import { edgesText, GROUP_TEXT, noteText } from './words';

/** The list as tables, one for each subject: what CSV, workbook, clipboard and terminal have in common. */
export type Value = string | number | null;

export interface Column {
  /** With its unit, where the column has one. */
  readonly title: string;
  readonly isNumber: boolean;
  /** Of numbers. */
  readonly decimals?: number;
  /** Letters that it usually takes. */
  readonly width: number;
}

export interface ListTable {
  readonly name: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Value[])[];
}

const words = (title: string, width: number): Column => ({ title, isNumber: false, width });
const count = (title: string): Column => ({ title, isNumber: true, decimals: 0, width: Math.max(8, title.length + 2) });
const measure = (title: string, decimals = 3): Column => ({
  title,
  isNumber: true,
  decimals,
  width: Math.max(11, title.length + 2),
});

export interface ListOptions {
  readonly stock?: Boat['stock'];
}

const LIST_COLUMNS: readonly Column[] = [
  count('No.'),
  words('Group', 14),
  words('Item', 44),
  words('Kind', 20),
  measure('Quantity'),
  words('Unit', 6),
  measure('Buy'),
  measure('Least (m)'),
  measure('Greatest (m)'),
  measure('Have'),
  measure('Bought'),
  measure('Fitted'),
  measure('Still to buy'),
  measure('Price each', 2),
  measure('Price', 2),
  words('Place', 24),
  words('For', 30),
  words('Note', 60),
  words('Key', 30),
];

/** Every row of the list, numbered as the balloons of the drawing are. */
export function listTable(rows: readonly TakeoffRow[], { stock }: ListOptions = {}): ListTable {
  return {
    name: 'List',
    columns: LIST_COLUMNS,
    rows: rows.map((row, i) => {
      const { have, bought, fitted } = stockOf(stock, row.key);
      return [
        i + 1,
        GROUP_TEXT[row.group],
        row.item,
        row.kind,
        row.quantity,
        row.unit === 'm' ? 'm' : 'pc',
        row.buy,
        row.leastM ?? null,
        row.greatestM ?? null,
        have,
        bought,
        fitted,
        stillToBuy(row, stock),
        row.unitPrice ?? null,
        row.price ?? null,
        row.place,
        row.from.join(' '),
        noteText(row),
        row.key,
      ];
    }),
  };
}

/** Each piece of hose, tube and cable with the length that it is cut from; the waste of a length stands after its last piece. */
export function cutsTable(rows: readonly TakeoffRow[]): ListTable {
  return {
    name: 'Cuts',
    columns: [
      count('No.'),
      words('Kind', 30),
      count('Length no.'),
      words('Cut from', 30),
      measure('Length (m)', 4),
      words('Piece', 34),
      measure('Cut to (m)', 4),
      measure('Waste (m)', 4),
    ],
    rows: rows.flatMap((row, i) =>
      (row.cuts ?? []).flatMap((cut, k) =>
        cut.pieces.map((piece, at): readonly Value[] => [
          i + 1,
          row.item,
          k + 1,
          cut.supplied ? cut.name : cut.name === '' ? 'bought' : `bought, ${cut.name}`,
          cut.lengthM,
          piece.name,
          piece.lengthM,
          at === cut.pieces.length - 1 ? cut.wasteM : null,
        ]),
      ),
    ),
  };
}

/** Every hole to be drilled: panel, size, side, and where its centre is. */
export function holesTable(rows: readonly TakeoffRow[]): ListTable {
  return {
    name: 'Holes',
    columns: [
      count('No.'),
      words('Panel', 34),
      measure('Diameter (mm)', 0),
      measure('Thickness (mm)', 0),
      words('Drill from', 24),
      words('Centre (mm)', 44),
      words('For', 44),
      measure('x (m)'),
      measure('y (m)'),
      measure('z (m)'),
    ],
    rows: rows.flatMap((row, i): readonly (readonly Value[])[] => {
      const { hole } = row;
      if (!hole) return [];
      return [
        [
          i + 1,
          hole.panel,
          inMillimetres(hole.diameterM),
          hole.thicknessM === null ? null : inMillimetres(hole.thicknessM),
          hole.drillFrom ?? 'not known',
          edgesText(hole.edges),
          row.item,
          ...hole.at.map((metres) => Math.round(metres * 10_000) / 10_000),
        ],
      ];
    }),
  };
}

/** What goes into the bag of each place. */
export function bagsTable(rows: readonly TakeoffRow[]): ListTable {
  return {
    name: 'Bags',
    columns: [
      words('Place', 26),
      count('No.'),
      words('Group', 14),
      words('Item', 44),
      count('Pieces'),
      words('For', 70),
    ],
    rows: bagsOf(rows).flatMap(({ place, contents }) =>
      contents.map(({ row, number, quantity, what }): readonly Value[] => [
        place,
        number,
        GROUP_TEXT[row.group],
        row.item,
        quantity,
        what,
      ]),
    ),
  };
}

const inMillimetres = (metres: number): number => Math.round(metres * 10_000) / 10;
