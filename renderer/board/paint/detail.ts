import { AXES, type Vec2, type Vec3 } from '@core/base/vec';
import { boundsOf, depthAxis, project } from '@core/output/views/drawing';
import { clearanceLines } from '@core/output/views/things';
import { lengthUnit, wholeLength } from '../../panels/format';
import { lineInHand, sameSelection } from '../../store/select';
import { detailBox, detailTransform, type Focus } from '../focus';
import { spotsAlong } from '../labels';
import {
  clipsIn,
  contextOf,
  crossingsIn,
  detailScene,
  isCutBy,
  type Live,
  runsIn,
  type Scene,
  thingsIn,
} from '../scene';
import type { Transform } from '../sheet';
import { type Rect, toScreen } from '../sheet';
import { closeCallOf } from '../tape';
import { boxOf, linesOfThing, type Placed } from '../things';
import { rectOn } from './background';
import { paintCut, paintCutWords } from './cut';
import { paintHeldOfRun } from './held-of-run';
import { paintThing } from './interior';
import { paintClip, paintContact, paintDimension, paintSelection } from './marks';
import { type Ctx, FONT, hatchRect, inField, letter, paintStroke, widthOf } from './pen';
import { paintCrossings, paintRuns } from './runs';

/** How deep behind its plane the detail shows things and runs, metres. */
const DETAIL_DEEP = 0.6;

/** The fourth field: a closer cut around what is picked, with the distances to the nearest four faces. */
export function paintDetail(ctx: Ctx, scene: Scene, live: Live, focus: Focus | null): void {
  const field = scene.sheet.fields.detail;
  const { colours } = scene;
  const box = detailBox(field);
  const caption = { font: FONT.caption, colour: colours.ink, align: 'left' as const };
  if (!focus) {
    letter(ctx, 'Detail B', [box.x, field.y + 10], caption);
    ctx.setLineDash([]);
    ctx.lineWidth = 1;
    ctx.strokeStyle = colours.line;
    ctx.strokeRect(Math.floor(box.x) + 0.5, Math.floor(box.y) + 0.5, box.w, box.h);
    letter(ctx, 'Pick a part or a run to see', [box.x + box.w / 2, box.y + box.h / 2 - 8], {
      font: FONT.drawing,
      colour: colours.ink3,
    });
    letter(ctx, 'the room around it', [box.x + box.w / 2, box.y + box.h / 2 + 8], {
      font: FONT.drawing,
      colour: colours.ink3,
    });
    return;
  }
  const { t, ratio } = detailTransform(field, focus);
  const axis = depthAxis(focus.frame);
  const at = focus.at[axis].toFixed(2).replace('-', '\u2212');
  letter(ctx, `Detail B, ${focus.frame.name} at ${AXES[axis]} ${at}, 1 : ${ratio}`, [box.x, field.y + 10], caption);
  letter(ctx, lengthUnit(scene.units), [box.x + box.w, field.y + 10], {
    font: FONT.drawing,
    colour: colours.ink3,
    align: 'right',
  });
  ctx.fillStyle = colours.paper;
  ctx.fillRect(box.x, box.y, box.w, box.h);
  inField(ctx, box, () => paintInside(ctx, scene, live, focus, t, box));
  ctx.setLineDash([]);
  ctx.lineWidth = 1.2;
  ctx.strokeStyle = colours.draw;
  ctx.strokeRect(Math.floor(box.x) + 0.5, Math.floor(box.y) + 0.5, Math.round(box.w), Math.round(box.h));
}

function paintInside(ctx: Ctx, scene: Scene, live: Live, focus: Focus, t: Transform, box: Rect): void {
  const { colours, selection, boat } = scene;
  const cut = detailScene(scene, focus.frame, focus.at);
  const selected = selection?.kind === 'thing' ? selection.id : null;
  const context = live.moving ? scene.layout.compartmentAt(live.moving.placed.pose.at) : contextOf(scene);
  paintCut(ctx, t, box, cut, context, colours);

  const moving = live.moving?.placed;
  const placed = scene.placed.map((p) => (moving && p.id === moving.id ? moving : p));
  const near = thingsIn(placed, cut.cut, focus.frame, selected).filter((p) => touches(p, t, box, focus));
  for (const p of near) {
    if (p.id !== selected && !isCutBy(p, cut.cut)) paintThing(ctx, t, focus.frame, p, colours, 'behind');
  }
  for (const p of near)
    if (p.id !== selected && isCutBy(p, cut.cut)) paintThing(ctx, t, focus.frame, p, colours, 'rest');
  const subject = near.find((p) => p.id === selected);
  if (subject && scene.layers.service) paintServices(ctx, t, subject, focus, colours);
  const lifted = new Set(live.paths.map((p) => p.id));
  const paths = [...scene.paths.filter((p) => !lifted.has(p.id)), ...live.paths];
  const view = { frame: focus.frame, cut: cut.cut };
  const inHand = lineInHand(selection);
  // What is picked is shown from end to end, however far it leads from the plane.
  const drawn = [
    ...runsIn(
      boat,
      paths.filter(({ id }) => id !== inHand),
      view,
      DETAIL_DEEP,
    ),
    ...runsIn(
      boat,
      paths.filter(({ id }) => id === inHand),
      { frame: focus.frame, cut: null },
    ),
  ];
  paintRuns(ctx, t, drawn, colours, { strong: (id) => inHand === id, letters: true });
  paintCrossings(ctx, t, crossingsIn(paths, scene.layout, view), colours);
  for (const { id, line, at } of clipsIn(scene, view))
    paintClip(
      ctx,
      toScreen(t, project(focus.frame, at)),
      colours,
      sameSelection(selection, { kind: 'clipPoint', id, line }),
    );
  paintHeldOfRun(ctx, scene, live, { name: 'detail', frame: focus.frame, t, cut: cut.cut }, null);
  if (subject) paintThing(ctx, t, focus.frame, subject, colours, live.blocked ? 'blocked' : 'selected');
  paintCutWords(ctx, colours, t, box, cut.compartments, near, selected, focus.frame, spotsAlong(drawn, t, box));
  if (subject) {
    const { bounds } = linesOfThing(subject, focus.frame);
    paintSelection(ctx, rectOn({ t }, bounds.low, bounds.high), colours);
    paintDistances(ctx, scene, live, focus, t, boxOf(subject), box);
  }
}

/** The clear space that each service task asks for, with its name where it fits. */
function paintServices(ctx: Ctx, t: Transform, subject: Placed, focus: Focus, colours: Scene['colours']): void {
  for (const line of clearanceLines(subject.id, subject.thing, subject.pose, focus.frame)) {
    if (line.kind !== 'stroke') continue;
    paintStroke(ctx, t, line, colours);
    const bounds = boundsOf(line.points);
    const key = line.id.split('/').at(-1) ?? '';
    const service = line.role === 'service' ? subject.thing.services[key] : undefined;
    if (!bounds || !service) continue;
    const name = service.name ?? words(service.task);
    const a = toScreen(t, bounds.low);
    const b = toScreen(t, bounds.high);
    if (widthOf(name, FONT.drawing) > b[0] - a[0] + 26 || a[1] - b[1] < 12) continue;
    letter(ctx, name, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], {
      font: FONT.drawing,
      colour: colours.ink2,
      halo: colours.wash2,
    });
  }
}

/** `impeller cover` for `impellerCover`. */
const words = (key: string): string => key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);

const touches = (p: Parameters<typeof linesOfThing>[0], t: Transform, box: Rect, focus: Focus): boolean => {
  const { bounds } = linesOfThing(p, focus.frame);
  const a = toScreen(t, bounds.low);
  const b = toScreen(t, bounds.high);
  return a[0] < box.x + box.w && b[0] > box.x && b[1] < box.y + box.h && a[1] > box.y;
};

/** Four distances from the box to what stands next to it, and the faces that it snapped to. */
export function paintDistances(
  ctx: Ctx,
  scene: Scene,
  live: Live,
  focus: Pick<Focus, 'frame'>,
  t: Transform,
  box: { low: Vec3; high: Vec3 },
  within?: Rect,
): void {
  const { colours, units } = scene;
  const centre: Vec3 = [(box.low[0] + box.high[0]) / 2, (box.low[1] + box.high[1]) / 2, (box.low[2] + box.high[2]) / 2];
  const depth = depthAxis(focus.frame);
  const subject = live.moving?.placed.id ?? (scene.selection?.kind === 'thing' ? scene.selection.id : null);
  for (const gap of live.gaps) {
    if (gap.axis === depth) continue;
    const from: [number, number, number] = [...centre];
    from[gap.axis] = gap.from;
    const to: [number, number, number] = [...centre];
    to[gap.axis] = gap.from + gap.side * gap.gapM;
    const a = toScreen(t, project(focus.frame, from));
    const b = toScreen(t, project(focus.frame, to));
    const tape = subject === null ? null : closeCallOf(scene, subject, gap);
    if (tape !== null) {
      const low: [number, number, number] = [...box.low];
      const high: [number, number, number] = [...box.high];
      low[gap.axis] = Math.min(from[gap.axis] as number, to[gap.axis] as number);
      high[gap.axis] = Math.max(from[gap.axis] as number, to[gap.axis] as number);
      hatchRect(ctx, rectOn({ t }, project(focus.frame, low), project(focus.frame, high)), 4, colours.accl);
    }
    const kind = gap.gapM < -5e-4 ? 'through' : Math.abs(gap.gapM) < 5e-4 ? 'touch' : 'plain';
    paintDimension(
      ctx,
      a,
      b,
      tape === null
        ? wholeLength(gap.gapM, units)
        : `${wholeLength(gap.gapM, units)} \u00b1${wholeLength(tape, units)}`,
      colours,
      { kind, level: focus.frame.right[gap.axis] !== 0, way: wayOf(focus.frame, gap) },
      colours.paper,
      within,
    );
  }
  for (const contact of live.contacts) {
    if (contact.axis === depth) continue;
    const low: [number, number, number] = [...box.low];
    const high: [number, number, number] = [...box.high];
    low[contact.axis] = contact.at;
    high[contact.axis] = contact.at;
    const a = toScreen(t, project(focus.frame, low));
    const b = toScreen(t, project(focus.frame, high));
    const outwards: [number, number, number] = [0, 0, 0];
    outwards[contact.axis] = contact.side;
    const [u, v] = project(focus.frame, outwards);
    const extra = 8;
    const level = Math.abs(a[1] - b[1]) < 0.5;
    const p: Vec2 = level ? [Math.min(a[0], b[0]) - extra, a[1]] : [a[0], Math.min(a[1], b[1]) - extra];
    const q: Vec2 = level ? [Math.max(a[0], b[0]) + extra, b[1]] : [b[0], Math.max(a[1], b[1]) + extra];
    paintContact(ctx, p, q, [u, -v], colours);
  }
}

/** Direction on screen in which the gap opens: right or down positive. */
const wayOf = (frame: Focus['frame'], gap: { readonly axis: 0 | 1 | 2; readonly side: 1 | -1 }): number =>
  frame.right[gap.axis] !== 0 ? frame.right[gap.axis] * gap.side : -frame.up[gap.axis] * gap.side;
