import type { Vec2 } from '@core/base/vec';
import { DASH, line, type Mark, outline, rectangle, text } from '@core/output/sheets/marks';
import { openPress } from '@core/output/sheets/pdf';
import { OVERLAP_MM, type Tile, type Tiling, tileSheets, tilingOf } from '@core/output/sheets/tiles';
import { describe, expect, it } from 'vitest';
import { printFonts } from '../../../support/print-fonts';

const press = await openPress(printFonts);
const SIZE: Vec2 = [610, 700];
const solid = [rectangle(0, 0, ...SIZE)];
const tiling = tilingOf(SIZE, solid, { size: 'A4', landscape: false }) as Tiling;
const marks: readonly Mark[] = [
  outline(rectangle(0, 0, ...SIZE)),
  line([
    [5, 3],
    [600, 690],
  ]),
  line(
    [
      [20, 350],
      [590, 350],
    ],
    { dashMm: DASH.fold },
  ),
  text('seen on one tile', [300, 352]),
];
const sheets = tileSheets(tiling, marks, { title: 'Trial', first: 2, of: 13 }, press);

/** Strokes of a tile of this width, put back to where they are in the drawing. */
function strokes(index: number, widthMm: number): readonly (readonly [Vec2, Vec2])[] {
  const tile = tiling.tiles[index] as Tile;
  return (sheets[index]?.marks ?? []).flatMap((mark) => {
    if (mark.kind !== 'line' || mark.widthMm !== widthMm) return [];
    const points = mark.points.map(([x, y]): Vec2 => [x - 10 + tile.low[0], y - 10 + tile.low[1]]);
    const ring = mark.closed ? [...points, points[0] as Vec2] : points;
    return ring.slice(1).map((p, i) => [ring[i] as Vec2, p] as const);
  });
}
const length = ([a, b]: readonly [Vec2, Vec2]): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** The part of strokes along the diagonal between two heights of the drawing. */
const diagonalBetween = (index: number, from: number, to: number): number =>
  strokes(index, 0.35)
    .filter(([a, b]) => Math.abs(a[0] - b[0]) > 1e-6 && Math.abs(a[1] - b[1]) > 1e-6)
    .reduce((sum, [a, b]) => {
      const share = (Math.min(to, Math.max(a[1], b[1])) - Math.max(from, Math.min(a[1], b[1]))) / Math.abs(a[1] - b[1]);
      return sum + Math.max(0, share) * length([a, b]);
    }, 0);

describe('a drawing cut into tiles', () => {
  it('is wholly covered, and neighbours overlap by ten millimetres', () => {
    expect(tiling.tiles).toHaveLength(tiling.columns * tiling.rows);
    const [first, second] = tiling.tiles as [Tile, Tile];
    expect(first.high[0] - second.low[0]).toBeCloseTo(OVERLAP_MM, 9);
    expect(Math.min(...tiling.tiles.map(({ low }) => low[0]))).toBeLessThanOrEqual(0);
    expect(Math.max(...tiling.tiles.map(({ high }) => high[0]))).toBeGreaterThanOrEqual(SIZE[0]);
    expect(Math.max(...tiling.tiles.map(({ high }) => high[1]))).toBeGreaterThanOrEqual(SIZE[1]);
  });

  it('shows the same in the overlap of two neighbours', () => {
    let compared = 0;
    tiling.tiles.forEach((tile, index) => {
      const below = tiling.tiles.findIndex(({ column, row }) => column === tile.column && row === tile.row + 1);
      const other = tiling.tiles[below];
      if (!other) return;
      const here = diagonalBetween(index, other.low[1], tile.high[1]);
      expect(here).toBeCloseTo(diagonalBetween(below, other.low[1], tile.high[1]), 6);
      if (here > 1) compared++;
    });
    expect(compared).toBeGreaterThan(0);
  });

  it('loses nothing: the strokes between the seams make up the whole line (derived)', () => {
    const whole = Math.hypot(595, 687);
    const total = tiling.tiles.reduce((sum, tile, index) => {
      const half = OVERLAP_MM / 2;
      const own = strokes(index, 0.35)
        .filter(([a, b]) => Math.abs(a[0] - b[0]) > 1e-6 && Math.abs(a[1] - b[1]) > 1e-6)
        .map(([a, b]) => {
          const at = (t: number): Vec2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
          // Counted at a thousand points: which of them lie between this tile's seams.
          let inside = 0;
          for (let i = 0; i < 1000; i++) {
            const [x, y] = at((i + 0.5) / 1000);
            const inX = x >= tile.low[0] + half && x < tile.high[0] - half;
            const inY = y >= tile.low[1] + half && y < tile.high[1] - half;
            if (inX && inY) inside++;
          }
          return (inside / 1000) * length([a, b]);
        });
      return sum + own.reduce((part, value) => part + value, 0);
    }, 0);
    expect(Math.abs(total - whole) / whole).toBeLessThan(0.003);
  });

  it('carries the same crosses on both sides of a seam', () => {
    const crosses = (index: number): string[] =>
      strokes(index, 0.13)
        .filter((stroke) => Math.abs(length(stroke) - 8) < 1e-6)
        .map(([a, b]) => `${((a[0] + b[0]) / 2).toFixed(3)} ${((a[1] + b[1]) / 2).toFixed(3)}`);
    const all = tiling.tiles.map((_, index) => new Set(crosses(index)));
    for (const [index, places] of all.entries()) {
      expect(places.size).toBeGreaterThanOrEqual(4);
      for (const place of places) expect(all.some((other, at) => at !== index && other.has(place))).toBe(true);
    }
  });

  it('prints words once, whole', () => {
    const showing = sheets.filter((sheet) =>
      sheet.marks.some((mark) => mark.kind === 'text' && mark.words === 'seen on one tile'),
    );
    expect(showing.length).toBeGreaterThanOrEqual(1);
  });

  it('leaves out tiles with nothing on them', () => {
    const corner = tilingOf([800, 800], [rectangle(0, 0, 100, 100)], { size: 'A4', landscape: false });
    expect(corner?.tiles.map(({ name }) => name)).toEqual(['A1']);
    expect(tilingOf([9000, 100], [rectangle(0, 0, 9000, 100)], { size: 'A4', landscape: false })).toBeNull();
  });
});
