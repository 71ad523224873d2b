import { cross, distance, dot, scale, subtract, UP, unit, type Vec2, type Vec3 } from '@core/base/vec';
import type { RehearsalStep, TaskMeasure } from '@core/engine/service/service-report';
import { digits } from '@core/output/text/quantity-text';
import { lengthUnit, wholeLength } from '../../panels/format';
import { type Ctx, FONT, letter } from '../paint/pen';
import type { Rect } from '../sheet';
import type { RehearsalScene } from './scene';
import { boxIn } from './sheet';

/** Where the rays of a look go as the eye sees them: right and up of the middle, as tangents of the angle. */
export function asTheEyeSees(rays: RehearsalStep['rays']): readonly { readonly at: Vec2; readonly isFree: boolean }[] {
  const ways = rays.map(({ from, to }) => unit(subtract(to, from)));
  const sum = ways.reduce((a, b): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]], [0, 0, 0]);
  if (dot(sum, sum) < 1e-12) return [];
  const ahead = unit(sum);
  const right = Math.abs(dot(ahead, UP)) > 0.98 ? ([1, 0, 0] as Vec3) : unit(cross(ahead, UP));
  const square = unit(subtract(right, scale(ahead, dot(right, ahead))));
  const up = cross(square, ahead);
  return ways.map((way, i) => ({
    at: [dot(way, square) / dot(way, ahead), dot(way, up) / dot(way, ahead)],
    isFree: rays[i]?.isFree ?? false,
  }));
}

/** The fourth field: the place as the eye has it before it, ray by ray, with what was measured. */
export function paintEye(ctx: Ctx, scene: RehearsalScene, field: Rect): void {
  const { colours, steps, task, units } = scene;
  const box = boxIn(field);
  letter(ctx, 'What the eye sees', [field.x, field.y + 10], { font: FONT.caption, colour: colours.ink, align: 'left' });
  ctx.fillStyle = colours.paper;
  ctx.fillRect(box.x, box.y, box.w, box.h);
  ctx.setLineDash([]);
  ctx.lineWidth = 1.2;
  ctx.strokeStyle = colours.draw;
  ctx.strokeRect(Math.floor(box.x) + 0.5, Math.floor(box.y) + 0.5, Math.round(box.w), Math.round(box.h));
  const look = steps.find((step) => step.rays.length > 0);
  // Of rays that a mirror throws on, the eye has the first part before it.
  const own = look?.rays.filter(({ from }) => look.person === null || distance(from, look.person.eye) < 1e-6) ?? [];
  const seen = asTheEyeSees(own);
  const middle = box.y + box.h / 2;
  if (seen.length === 0) {
    letter(ctx, 'Nothing has to be seen for it.', [box.x + box.w / 2, middle], {
      font: FONT.drawing,
      colour: colours.ink3,
    });
    return;
  }
  const radius = Math.max(...seen.map(({ at }) => Math.hypot(at[0], at[1])), 1e-6);
  const half = Math.max(12, Math.min(box.h / 2 - 14, box.w * 0.22));
  const centre: Vec2 = [box.x + 14 + half, middle];
  ctx.beginPath();
  ctx.arc(centre[0], centre[1], half + 7, 0, 2 * Math.PI);
  ctx.lineWidth = 0.8;
  ctx.strokeStyle = colours.line;
  ctx.stroke();
  for (const { at, isFree } of seen) {
    const x = centre[0] + (at[0] / radius) * half;
    const y = centre[1] - (at[1] / radius) * half;
    ctx.beginPath();
    if (isFree) {
      ctx.arc(x, y, 2.1, 0, 2 * Math.PI);
      ctx.fillStyle = colours.accl;
      ctx.fill();
    } else {
      ctx.moveTo(x - 2.8, y - 2.8);
      ctx.lineTo(x + 2.8, y + 2.8);
      ctx.moveTo(x - 2.8, y + 2.8);
      ctx.lineTo(x + 2.8, y - 2.8);
      ctx.lineWidth = 1.3;
      ctx.strokeStyle = colours.bad;
      ctx.stroke();
    }
  }
  const length = (metres: number): string => `${wholeLength(metres, units)} ${lengthUnit(units)}`;
  const rows = (
    [
      ['seenShare', (v: number) => `${digits(v * 100, 0)} %`, 'of rays arrive', (v: number) => `${digits(v * 100, 0)}`],
      ['seenDistance', length, 'away', (v: number) => wholeLength(v, units)],
      ['seenAngle', (v: number) => `${digits(v, 0)}\u00b0`, 'off square', (v: number) => digits(v, 0)],
    ] as const
  ).flatMap(([what, show, words, bare]) => {
    const measure = task.measures.find((one): one is TaskMeasure => one.what === what);
    if (!measure) return [];
    const least = measure.bound === 'atLeast' ? 'at least' : 'at most';
    return [{ figure: show(measure.value), words: `${words}, ${least} ${bare(measure.limit)}`, isMet: measure.met }];
  });
  const pitch = Math.min(34, (box.h - 8) / Math.max(1, rows.length));
  const left = centre[0] + half + 22;
  for (const [i, { figure, words, isMet }] of rows.entries()) {
    const y = middle + (i - (rows.length - 1) / 2) * pitch;
    letter(ctx, figure, [left, y - 7], {
      font: FONT.caption,
      colour: isMet ? colours.ink : colours.bad,
      align: 'left',
    });
    letter(ctx, words, [left, y + 7], { font: FONT.drawing, colour: colours.ink2, align: 'left' });
  }
}
