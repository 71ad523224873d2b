import type { Block } from '../flow';
import { rule } from '../form';
import { type Lettering, type Mark, shortened, TEXT, text, WIDTH, wrapped } from '../marks';

export interface FlowTable {
  readonly heads: readonly string[];
  /** Share of the width that each column takes. */
  readonly shares: readonly number[];
  /** Columns of figures, which end at one edge. */
  readonly numbers: readonly number[];
  readonly rows: readonly (readonly string[])[];
  /** Name of the group of each row; a group begins with it. */
  readonly groups?: readonly string[];
}

const LEADING_MM = 3.9;
const ROW_PADDING_MM = 1.7;
const COLUMN_GAP_MM = 2.2;
const HEAD_MM = 6;
const GROUP_MM = 6;

/** A table as blocks, so that a long one goes over to the next sheet: words that are too long for their column are wrapped. */
export function tableBlocks(table: FlowTable, widthMm: number, lettering: Lettering): Block[] {
  const lefts = table.shares.map((_, i) => widthMm * table.shares.slice(0, i).reduce((sum, share) => sum + share, 0));
  const roomOf = (i: number): number => widthMm * (table.shares[i] ?? 0) - COLUMN_GAP_MM;
  const put = (words: string, i: number, x: number, y: number, ink: 'ink' | 'second'): Mark =>
    table.numbers.includes(i)
      ? text(words, [x + (lefts[i] ?? 0) + roomOf(i), y], { anchor: 'end', ink })
      : text(words, [x + (lefts[i] ?? 0), y], { ink });
  const head: Block = {
    heightMm: HEAD_MM,
    withNext: true,
    draw: ([x, y]) => [
      ...table.heads.flatMap((words, i) =>
        words === '' ? [] : [put(shortened(words, roomOf(i), lettering), i, x, y + 3.4, 'second')],
      ),
      rule(x, y + HEAD_MM - 1, widthMm, WIDTH.wall),
    ],
  };
  return [
    head,
    ...table.rows.flatMap((row, k): Block[] => {
      const cells = row.map((words, i) => (words === '' ? [] : wrapped(words, roomOf(i), lettering)));
      const heightMm = Math.max(1, ...cells.map((lines) => lines.length)) * LEADING_MM + ROW_PADDING_MM;
      const group = table.groups?.[k];
      const block: Block = {
        heightMm,
        head,
        draw: ([x, y]) => [
          ...cells.flatMap((lines, i) =>
            lines.map((words, n) => put(words, i, x, y + LEADING_MM * (n + 1) - 0.4, 'ink')),
          ),
          rule(x, y + heightMm - 0.4, widthMm, WIDTH.hair),
        ],
      };
      if (group === undefined || group === table.groups?.[k - 1]) return [block];
      return [{ ...groupHead(shortened(group, widthMm, lettering, TEXT.body, 'strong')), head }, block];
    }),
  ];
}

const groupHead = (words: string): Block => ({
  heightMm: GROUP_MM,
  withNext: true,
  draw: ([x, y]) => [text(words, [x, y + GROUP_MM - 1.6], { face: 'strong' })],
});
