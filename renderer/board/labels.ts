import type { Vec2 } from '@core/base/vec';
import { type Rect, type Transform, toScreen, within } from './sheet';

export { abbreviated, type Candidate, placeLabels, RANK, spread, uncrossed } from '@core/output/views/labels';

/** Spots along runs within a field, a few pixels each: where no word is set. */
export function spotsAlong(
  runs: readonly { readonly pieces: readonly (readonly Vec2[])[] }[],
  t: Transform,
  field: Rect,
): Rect[] {
  const out: Rect[] = [];
  for (const { pieces } of runs)
    for (const piece of pieces) {
      let last: Vec2 | null = null;
      for (const p of piece) {
        const [x, y] = toScreen(t, p);
        const steps = last ? Math.ceil(Math.hypot(x - last[0], y - last[1]) / 9) : 1;
        for (let i = 1; i <= steps; i++) {
          const share = i / steps;
          const at: Vec2 = last ? [last[0] + (x - last[0]) * share, last[1] + (y - last[1]) * share] : [x, y];
          if (within(field, at)) out.push({ x: at[0] - 2.5, y: at[1] - 2.5, w: 5, h: 5 });
        }
        last = [x, y];
      }
    }
  return out;
}
