import * as portable from '../../../base/portable';
import type { Vec2 } from '../../../base/vec';
import { project } from '../../views/drawing';
import { spread, uncrossed } from '../../views/labels';
import { area, circle, line, type Mark, outline, TEXT, text, WIDTH } from '../marks';
import type { ViewPlace } from './places';
import type { GeneralScene } from './scene';

export const BALLOON_MM = 2.9;
const SPACING_MM = 7.4;
const DOT_MM = 0.5;

/** Item numbers of placed parts in straight rows above and below a plan, each with a leader to its part. */
export function balloonMarks(
  { things, low, high }: Pick<GeneralScene, 'things' | 'low' | 'high'>,
  plan: ViewPlace,
  { rows, captionMm }: { readonly rows: readonly [number, number]; readonly captionMm: number },
): Mark[] {
  const parts = things.filter(({ isPart, number }) => isPart && number !== null);
  const middle = (low[1] + high[1]) / 2;
  return rows.flatMap((y, row) => {
    const own = parts
      .filter(({ pose }) => pose.at[1] >= middle === (row === 0))
      .map((part) => ({ number: part.number ?? 0, to: plan.at(project(plan.frame, part.pose.at)) }))
      .sort((a, b) => a.to[0] - b.to[0] || a.number - b.number);
    const wishes = own.map(({ to }) => to[0]);
    const first = plan.box.x + (row === 0 ? captionMm : 0);
    const xs = spread(wishes, SPACING_MM, first, plan.box.x + plan.box.widthMm);
    const starts = own.map((_, i): Vec2 => [xs[i] ?? 0, y]);
    const leads = uncrossed(
      starts,
      own.map(({ to }) => to),
    );
    return starts.flatMap((at, i) => {
      const part = own[leads[i] ?? i];
      return part ? balloon(at, part.number, part.to) : [];
    });
  });
}

function balloon(at: Vec2, number: number, to: Vec2): Mark[] {
  const length = portable.hypot(to[0] - at[0], to[1] - at[1]);
  const edge: Vec2 =
    length < BALLOON_MM
      ? at
      : [at[0] + ((to[0] - at[0]) * BALLOON_MM) / length, at[1] + ((to[1] - at[1]) * BALLOON_MM) / length];
  return [line([edge, to], { widthMm: WIDTH.hair }), area([circle(to, DOT_MM)]), ...numberRing(at, number)];
}

/** The ring with its number, on the drawing and in the list alike. */
export const numberRing = (at: Vec2, number: number): Mark[] => [
  area([circle(at, BALLOON_MM)], 'paper'),
  outline(circle(at, BALLOON_MM), { widthMm: WIDTH.dimension }),
  text(String(number), [at[0], at[1] + TEXT.body / 2], { anchor: 'middle', face: 'strong' }),
];
