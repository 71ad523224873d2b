import type { Vec2 } from '@core/base/vec';
import { project } from '@core/output/views/drawing';
import type { Tokens } from '../../app/tokens';
import { degreesText, lengthUnit, wholeLength } from '../../panels/format';
import type { DisplayUnits } from '../../store/types';
import { cornerDeg, type Measure, readingOf } from '../../tools/measuring';
import type { LookingOn } from '../drawing/looking';
import { toScreen } from '../sheet';
import { type Ctx, FONT, letter } from './pen';

/** A measured way: its legs with their lengths, the angles between them, and what they come to together. */
export function paintMeasure(
  ctx: Ctx,
  { t, frame }: LookingOn,
  { points }: Pick<Measure, 'points'>,
  colours: Tokens,
  units: DisplayUnits,
): void {
  const paper = points.map((p) => project(frame, p));
  const screen = paper.map((p) => toScreen(t, p));
  const style = { font: FONT.strong, colour: colours.accent, halo: colours.paper };
  const reading = readingOf(points);
  if (!reading) return;
  if (paper.length === 2) paintParts(ctx, paper as [Vec2, Vec2], screen as [Vec2, Vec2], t.scale, colours, units);
  ctx.setLineDash([]);
  ctx.strokeStyle = colours.accl;
  ctx.lineWidth = 1.4;
  ctx.beginPath();
  for (const [i, [x, y]] of screen.entries()) {
    if (i === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  }
  ctx.stroke();
  for (const at of screen) cross(ctx, at);
  for (const [i, leg] of reading.legsM.entries()) {
    const [p, q] = [screen[i], screen[i + 1]] as [Vec2, Vec2];
    if (Math.hypot(q[0] - p[0], q[1] - p[1]) < SHORT_PX) continue;
    letter(ctx, wholeLength(leg, units), [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2 - 10], style);
  }
  for (const [i, corner] of points.entries()) {
    const [before, after, at] = [points[i - 1], points[i + 1], screen[i]];
    if (!before || !after || !at) continue;
    letter(ctx, degreesText(cornerDeg(before, corner, after)), [at[0] + 8, at[1] + 12], {
      font: FONT.drawing,
      colour: colours.accent,
      halo: colours.paper,
      align: 'left',
    });
  }
  const end = screen.at(-1);
  if (end && reading.legsM.length > 1)
    letter(ctx, `in all ${wholeLength(reading.totalM, units)} ${lengthUnit(units)}`, [end[0] + 8, end[1] - 10], {
      ...style,
      align: 'left',
    });
}

/** Legs shorter than this on screen bear no figure of their own. */
const SHORT_PX = 22;

function cross(ctx: Ctx, [x, y]: Vec2): void {
  ctx.beginPath();
  ctx.moveTo(x - 5, y);
  ctx.lineTo(x + 5, y);
  ctx.moveTo(x, y - 5);
  ctx.lineTo(x, y + 5);
  ctx.stroke();
}

/** What a level and a plumb line would read beside the tape. */
function paintParts(
  ctx: Ctx,
  [a, b]: readonly [Vec2, Vec2],
  [p, q]: readonly [Vec2, Vec2],
  scale: number,
  colours: Tokens,
  units: DisplayUnits,
): void {
  ctx.lineWidth = 0.7;
  ctx.strokeStyle = colours.accl;
  ctx.setLineDash([2, 3]);
  ctx.beginPath();
  ctx.moveTo(p[0], p[1]);
  ctx.lineTo(q[0], p[1]);
  ctx.lineTo(q[0], q[1]);
  ctx.stroke();
  const [du, dv] = [Math.abs(b[0] - a[0]), Math.abs(b[1] - a[1])];
  if (du * scale <= 24 || dv * scale <= 24) return;
  const style = { font: FONT.strong, colour: colours.accent, halo: colours.paper };
  letter(ctx, wholeLength(du, units), [(p[0] + q[0]) / 2, p[1] + (q[1] < p[1] ? 9 : -9)], style);
  letter(ctx, wholeLength(dv, units), [q[0] + (q[0] < p[0] ? -6 : 6), (p[1] + q[1]) / 2], {
    ...style,
    align: q[0] < p[0] ? 'right' : 'left',
  });
}
