import type { CompartmentAnswer } from '@core/engine/placement/place-report';
import type { Tokens } from '../../app/tokens';
import { type Ctx, hatch, trace } from '../paint/pen';
import type { Scene, View } from '../scene';
import type { CompartmentDrawn } from '../shape';
import { type Rect, toScreen } from '../sheet';

type Verdict = CompartmentAnswer['verdict'];

/** What is sure to be good lies over what is not, where a view shows one behind the other. */
const ORDER: readonly Verdict[] = ['no', 'notYet', 'open', 'goesClose', 'goes'];

const GROUND = {
  goes: 'wash',
  goesClose: 'wash2',
  notYet: 'wash2',
  open: 'paper',
  no: 'paper',
} as const satisfies Readonly<Record<Verdict, keyof Tokens>>;

/** Compartments tinted by verdict, each by fill and pattern; hatched across while the boat has changed since. */
export function paintTints(
  ctx: Ctx,
  { colours }: Scene,
  view: View,
  drawn: readonly CompartmentDrawn[],
  answers: ReadonlyMap<string, CompartmentAnswer>,
  isOld: boolean,
): void {
  const judged = drawn.flatMap((one) => {
    const verdict = answers.get(one.id)?.verdict;
    return verdict === undefined || one.rings.length === 0 ? [] : [{ ...one, verdict }];
  });
  judged.sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict));
  for (const { rings, verdict } of judged) {
    ctx.save();
    ctx.beginPath();
    for (const ring of rings) trace(ctx, view.t, ring, true);
    ctx.clip('evenodd');
    const box = boxOf(view, rings);
    ctx.fillStyle = colours[GROUND[verdict]];
    ctx.fillRect(box.x, box.y, box.w, box.h);
    pattern(ctx, box, verdict, colours);
    if (isOld) paintOld(ctx, box, colours);
    ctx.restore();
  }
}

/** Patterns keep their size on screen, and run through from one compartment to the next. */
function pattern(ctx: Ctx, box: Rect, verdict: Verdict, colours: Tokens): void {
  if (verdict === 'goesClose') hatch(ctx, box, 8, colours.accl, 0.9);
  else if (verdict === 'no') {
    hatch(ctx, box, 7, colours.line, 0.8);
    hatchBack(ctx, box, 7, colours.line, 0.8);
  } else if (verdict === 'open') dots(ctx, box, colours.ink3);
}

function paintOld(ctx: Ctx, box: Rect, colours: Tokens): void {
  ctx.save();
  hatchBack(ctx, box, 14, colours.ink3, 1, [5, 4]);
  ctx.restore();
}

/** As hatch, the other way. */
function hatchBack(ctx: Ctx, rect: Rect, spacing: number, colour: string, width: number, dash: number[] = []): void {
  ctx.beginPath();
  const start = Math.floor((rect.x - rect.h) / spacing) * spacing;
  for (let x = start; x < rect.x + rect.w; x += spacing) {
    ctx.moveTo(x, rect.y);
    ctx.lineTo(x + rect.h, rect.y + rect.h);
  }
  ctx.setLineDash(dash);
  ctx.lineWidth = width;
  ctx.strokeStyle = colour;
  ctx.stroke();
}

function dots(ctx: Ctx, rect: Rect, colour: string): void {
  ctx.beginPath();
  const step = 7;
  const first = Math.floor(rect.y / step) * step;
  for (let y = first; y < rect.y + rect.h; y += step) {
    const shift = (Math.round(y / step) % 2) * (step / 2);
    for (let x = Math.floor(rect.x / step) * step + shift; x < rect.x + rect.w; x += step) ctx.rect(x, y, 1.2, 1.2);
  }
  ctx.fillStyle = colour;
  ctx.fill();
}

function boxOf(view: View, rings: CompartmentDrawn['rings']): Rect {
  const points = rings.flatMap((ring) => ring.map((p) => toScreen(view.t, p)));
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, w: Math.max(...xs) - x, h: Math.max(...ys) - y };
}
