import { ringContains } from '@core/base/ring';
import type { Vec2 } from '@core/base/vec';
import type { CompartmentAnswer } from '@core/engine/placement/place-report';
import { costWords } from '../../panels/placing/say-place';
import { standsThere } from '../../store/placing';
import type { DisplayUnits } from '../../store/types';
import type { Annotations } from '../annotate';
import { rectOn } from '../paint/background';
import { type Ctx, FONT, inField, letter, paintArea, paintStroke, trace, widthOf } from '../paint/pen';
import { type Scene, thingsIn, type View, viewsOf } from '../scene';
import { compartmentsDrawn, hullDrawn } from '../shape';
import { type Rect, toPaper, toScreen } from '../sheet';
import { linesOfThing, type Placed } from '../things';
import { ghostsOf } from './places';

export interface Places {
  readonly parts: readonly string[];
  readonly answers: ReadonlyMap<string, CompartmentAnswer>;
  readonly chosen: string | null;
  readonly hovered: string | null;
  readonly units: DisplayUnits;
  /** The answer is older than the boat. */
  readonly isOld: boolean;
}

/** The parts at the best place in each compartment, dashed; the one that is looked at in brass, with its caption. */
export function paintGhosts(ctx: Ctx, scene: Scene, notes: Annotations, places: Places): void {
  const { answers, chosen, hovered } = places;
  const isStrong = (id: string): boolean => id === chosen || id === hovered;
  for (const view of viewsOf(scene))
    inField(ctx, view.field, () => {
      for (const strong of [false, true])
        for (const answer of answers.values()) {
          if (isStrong(answer.compartment) !== strong || standsThere(scene.boat, scene.arrangementId, answer)) continue;
          // Where it cannot go, what comes nearest is drawn when it is looked at.
          if (answer.verdict === 'no' && !strong) continue;
          for (const placed of thingsIn([...ghostsOf(scene.boat, answer)], view.cut, view.frame, null))
            paintGhost(ctx, scene, view, placed, lookOf(answer, places, strong));
        }
      if (chosen !== null) paintOutline(ctx, scene, view, chosen);
      for (const mark of notes.ranks ?? [])
        if (mark.view === view.name)
          paintRank(ctx, scene, toScreen(view.t, mark.at), mark.rank, mark.compartment === chosen, places.isOld);
    });
  const answer = chosen === null ? undefined : answers.get(chosen);
  const plan = viewsOf(scene).find(({ name }) => name === 'plan');
  if (answer?.best && plan) paintCaption(ctx, scene, plan, answer, places);
}

type Look = 'rest' | 'strong' | 'chosen' | 'not';

const lookOf = ({ compartment, verdict }: CompartmentAnswer, { chosen, isOld }: Places, strong: boolean): Look =>
  verdict === 'no' ? 'not' : compartment === chosen && !isOld ? 'chosen' : strong ? 'strong' : 'rest';

const LOOKS = {
  rest: { width: 1.2, colour: 'draw', fill: 'paper', dash: [4, 3] },
  strong: { width: 1.8, colour: 'draw', fill: 'paper', dash: [4, 3] },
  chosen: { width: 1.8, colour: 'accl', fill: 'paper', dash: [] },
  not: { width: 1.8, colour: 'bad', fill: 'paper', dash: [4, 3] },
} as const;

function paintGhost(ctx: Ctx, scene: Scene, view: View, placed: Placed, look: Look): void {
  const { colours } = scene;
  for (const stroke of linesOfThing(placed, view.frame).strokes) {
    if (stroke.kind === 'area') paintArea(ctx, view.t, stroke, colours, LOOKS[look]);
    else if (look === 'chosen') paintStroke(ctx, view.t, stroke, colours, { width: 0.9, colour: 'accl' });
  }
  ctx.setLineDash([]);
}

/** The compartment that is looked at, by its outline. */
function paintOutline(ctx: Ctx, scene: Scene, view: View, id: string): void {
  const drawn = view.cut
    ? scene.section.compartments
    : compartmentsDrawn(scene.boat, scene.layout, scene.hull, view.frame);
  ctx.beginPath();
  for (const ring of drawn.find((one) => one.id === id)?.rings ?? []) trace(ctx, view.t, ring, true);
  ctx.setLineDash([]);
  ctx.lineWidth = 2.2;
  ctx.strokeStyle = scene.colours.accl;
  ctx.stroke();
}

/** A ring with the number of its row. */
function paintRank(ctx: Ctx, { colours }: Scene, [x, y]: Vec2, rank: number, chosen: boolean, isOld: boolean): void {
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.arc(x, y, 9, 0, 2 * Math.PI);
  ctx.fillStyle = chosen ? colours.accent : colours.paper;
  ctx.fill();
  ctx.lineWidth = 1.5;
  ctx.strokeStyle = isOld ? colours.ink3 : chosen ? colours.accent : colours.accl;
  if (isOld) ctx.setLineDash([3, 2]);
  ctx.stroke();
  ctx.setLineDash([]);
  letter(ctx, String(rank), [x, y], {
    font: FONT.balloon,
    colour: chosen ? colours.paper : isOld ? colours.ink3 : colours.ink,
  });
}

const CAPTION_MARGIN = 10;
const CAPTION_HIGH = 44;

/** A slip of two lines beside the hull, led to the place that is looked at. */
function paintCaption(ctx: Ctx, scene: Scene, plan: View, answer: CompartmentAnswer, { units }: Places): void {
  const { colours } = scene;
  const [ghost] = ghostsOf(scene.boat, answer);
  if (!ghost) return;
  const title = answer.isNow ? `${answer.name}: now here` : answer.name;
  const second = costWords(answer, units);
  const wide = Math.max(widthOf(title, FONT.strong), widthOf(second, FONT.drawing)) + 2 * CAPTION_MARGIN + 4;
  const high = second === '' ? CAPTION_HIGH / 2 + 4 : CAPTION_HIGH;
  const { bounds } = linesOfThing(ghost, plan.frame);
  const body = rectOn(plan, bounds.low, bounds.high);
  const at: Vec2 = [body.x + body.w / 2, body.y + body.h / 2];
  const box = freeCorner(scene, plan, wide, high, at);
  const toward: Vec2 = [
    Math.min(box.x + box.w - 12, Math.max(box.x + 12, at[0])),
    at[1] < box.y ? box.y : box.y + box.h,
  ];
  const end: Vec2 = [at[0], at[1] < box.y ? body.y + body.h : body.y];
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.moveTo(...toward);
  ctx.lineTo(...end);
  ctx.lineWidth = 0.9;
  ctx.strokeStyle = colours.accl;
  ctx.stroke();
  ctx.fillStyle = colours.paper;
  ctx.fillRect(box.x, box.y, box.w, box.h);
  ctx.lineWidth = 1.2;
  ctx.strokeRect(Math.round(box.x) + 0.5, Math.round(box.y) + 0.5, Math.round(box.w), Math.round(box.h));
  const left = box.x + CAPTION_MARGIN;
  letter(ctx, title, [left, box.y + 14], { font: FONT.strong, colour: colours.ink, align: 'left' });
  if (second !== '')
    letter(ctx, second, [left, box.y + 30], { font: FONT.drawing, colour: colours.ink2, align: 'left' });
}

/** Of the places along the edges of the plan that the hull leaves free, the one nearest to what it speaks of. */
function freeCorner(scene: Scene, plan: View, w: number, h: number, at: Vec2): Rect {
  const { field } = plan;
  const [left, right] = [field.x + 16, field.x + field.w - w - 12];
  const [top, bottom] = [field.y + 18, field.y + field.h - h - 8];
  const rings = scene.hull
    ? hullDrawn(scene.hull).plan.flatMap((line) => (line.kind === 'area' ? line.rings : []))
    : [];
  const STEPS = 16;
  const boxes = Array.from({ length: STEPS + 1 }, (_, k) => left + ((right - left) * k) / STEPS).flatMap((x) =>
    [top, bottom].map((y) => ({ x, y, w, h })),
  );
  const onHull = (box: Rect): number =>
    SHARES.flatMap((across) =>
      SHARES.filter((down) => {
        const point = toPaper(plan.t, [box.x + box.w * across, box.y + box.h * down]);
        return rings.some((ring) => ringContains(ring, point));
      }),
    ).length;
  const away = (box: Rect): number =>
    Math.hypot(Math.max(box.x - at[0], 0, at[0] - box.x - box.w), Math.max(box.y - at[1], 0, at[1] - box.y - box.h));
  const [best] = boxes
    .map((box) => ({ box, onHull: onHull(box), away: away(box) }))
    .sort((a, b) => a.onHull - b.onHull || a.away - b.away);
  return best?.box ?? { x: left, y: top, w, h };
}

const SHARES = [0, 0.25, 0.5, 0.75, 1] as const;
