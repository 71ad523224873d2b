import type { Vec2 } from '../../base/vec';
import { type Lettering, line, type Mark, shortened, TEXT, text, WIDTH } from './marks';

export interface PaperTable {
  readonly title: string;
  readonly heads: readonly string[];
  /** Share of the width that each column takes. */
  readonly shares: readonly number[];
  readonly rows: readonly (readonly string[])[];
}

export const TABLE_ROW_MM = 5.2;

/** A table with hairlines, its title above; words that are too long for their column are cut. */
export function columnsTable(
  { title, heads, shares, rows }: PaperTable,
  [x, y]: Vec2,
  widthMm: number,
  lettering: Lettering,
): { readonly marks: readonly Mark[]; readonly endMm: number } {
  const marks: Mark[] = [text(title, [x, y], { sizeMm: TEXT.heading, face: 'strong' })];
  const lefts = shares.map((_, i) => x + widthMm * shares.slice(0, i).reduce((sum, share) => sum + share, 0));
  const put = (cells: readonly string[], base: number, ink: 'ink' | 'second'): void =>
    cells.forEach((cell, i) => {
      if (cell === '') return;
      const room = widthMm * (shares[i] ?? 0) - 2;
      marks.push(text(shortened(cell, room, lettering), [lefts[i] ?? x, base], { ink }));
    });
  const rule = (at: number, width: number): void => {
    marks.push(
      line(
        [
          [x, at],
          [x + widthMm, at],
        ],
        { widthMm: width, ink: 'second' },
      ),
    );
  };
  put(heads, y + TABLE_ROW_MM, 'second');
  rule(y + TABLE_ROW_MM + 1.5, WIDTH.wall);
  rows.forEach((row, i) => {
    const base = y + TABLE_ROW_MM * (i + 2);
    put(row, base, 'ink');
    rule(base + 1.5, WIDTH.hair);
  });
  return { marks, endMm: y + TABLE_ROW_MM * (rows.length + 1) + 1.5 };
}
