import type { Vec2 } from '@core/base/vec';
import { joinOf, type PortAt } from '@core/boat/joins';
import type { Boat } from '@core/boat/schema/boat';
import { type JoiningState, samePort } from '../../store/joining';
import { lineInHand } from '../../store/select';
import type { Selection } from '../../store/types';
import { detailBox, detailTransform, type Focus } from '../focus';
import { type Ctx, FONT, inField, letter } from '../paint/pen';
import { detailScene, type Scene, thingsIn, type View, viewsOf } from '../scene';
import type { Rect } from '../sheet';
import { type PortDrawn, portsIn, portsOfThing } from './ports';

type Looking = Pick<View, 'frame' | 't' | 'cut'>;

interface JoinLook {
  readonly joining: JoiningState;
  readonly joins: boolean;
  /** Another tool has the drawing. */
  readonly draws: boolean;
  readonly pointer: Vec2 | null;
}

/** Ports in every field, the detail too. */
export function paintAllPorts(
  ctx: Ctx,
  scene: Scene,
  focus: Focus | null,
  hover: Selection | null,
  { joining, joins, draws, pointer }: JoinLook,
): void {
  if (draws) return;
  for (const view of viewsOf(scene))
    inField(ctx, view.field, () => paintPorts(ctx, scene, view, hover, joining, joins, within(view.field, pointer)));
  if (!focus) return;
  const { detail } = scene.sheet.fields;
  const { t } = detailTransform(detail, focus);
  const { cut } = detailScene(scene, focus.frame, focus.at);
  inField(ctx, detailBox(detail), () =>
    paintPorts(ctx, scene, { frame: focus.frame, t, cut }, hover, joining, joins, within(detail, pointer)),
  );
}

/** The pointer is in one field: only there does the line follow it. */
const within = ({ x, y, w, h }: Rect, at: Vec2 | null): Vec2 | null =>
  at && at[0] >= x && at[0] <= x + w && at[1] >= y && at[1] <= y + h ? at : null;

/** Ports of what is picked or pointed at; with the joining tool all, and of these what the chosen one may be joined to. */
function paintPorts(
  ctx: Ctx,
  scene: Scene,
  looking: Looking,
  hover: Selection | null,
  joining: JoiningState,
  isJoining: boolean,
  pointer: Vec2 | null,
): void {
  const { from } = joining;
  const all = isJoining || from !== null ? portsIn(scene, looking) : shownAtRest(scene, looking, hover);
  if (from) paintLead(ctx, scene, all, joining, pointer);
  for (const port of all) {
    const isFrom = samePort(port, from);
    const isOver = samePort(port, joining.over);
    const legal = from === null || isFrom || isLegal(scene, from, port, joining.moving?.line ?? null);
    paintPort(ctx, port.at, scene, { isFilled: isFrom || (isOver && legal), isLegal: legal, isStrong: isOver });
    if (isOver) letter(ctx, port.port, [port.at[0], port.at[1] - 14], { ...wordStyle(scene, legal) });
  }
  paintEnds(ctx, scene, looking);
}

const wordStyle = ({ colours }: Scene, legal: boolean) => ({
  font: FONT.strong,
  colour: legal ? colours.accent : colours.bad,
  halo: colours.paper,
});

function shownAtRest(scene: Scene, looking: Looking, hover: Selection | null): readonly PortDrawn[] {
  const { selection, alsoSelected } = scene;
  const ids = new Set(
    [alsoSelected.length === 0 ? selection : null, hover].flatMap((one) => (one?.kind === 'thing' ? [one.id] : [])),
  );
  const wanted = scene.placed.filter(({ id }) => ids.has(id));
  return thingsIn(wanted, looking.cut, looking.frame, null).flatMap((placed) => portsOfThing(placed, looking));
}

const verdicts = new WeakMap<Boat, Map<string, boolean>>();

/** Asked for every port in every frame, so each pair of a boat is judged once. */
function isLegal({ boat, arrangementId }: Scene, from: PortAt, to: PortAt, moving: string | null): boolean {
  const known = verdicts.get(boat) ?? new Map<string, boolean>();
  verdicts.set(boat, known);
  const key = [from.thing, from.port, to.thing, to.port, moving].join(' ');
  const before = known.get(key);
  if (before !== undefined) return before;
  const now = joinOf(boat, arrangementId, from, to, moving).ok;
  known.set(key, now);
  return now;
}

function paintPort(
  ctx: Ctx,
  [x, y]: Vec2,
  { colours }: Scene,
  look: { readonly isFilled: boolean; readonly isLegal: boolean; readonly isStrong: boolean },
): void {
  const r = look.isStrong ? 5.5 : 3.5;
  ctx.setLineDash(look.isLegal ? [] : [2, 2]);
  ctx.lineWidth = look.isStrong ? 2 : 1.4;
  ctx.strokeStyle = !look.isLegal ? (look.isStrong ? colours.bad : colours.ink3) : colours.accl;
  ctx.fillStyle = look.isFilled ? colours.accl : colours.paper;
  ctx.beginPath();
  ctx.arc(x, y, r, 0, 2 * Math.PI);
  ctx.fill();
  ctx.stroke();
  ctx.setLineDash([]);
}

/** From the chosen port to where the line would go. */
function paintLead(
  ctx: Ctx,
  scene: Scene,
  ports: readonly PortDrawn[],
  { from, over, moving }: JoiningState,
  pointer: Vec2 | null,
): void {
  const start = ports.find((port) => samePort(port, from));
  const end = ports.find((port) => samePort(port, over))?.at ?? pointer;
  if (!from || !start || !end) return;
  const legal = over === null || isLegal(scene, from, over, moving?.line ?? null);
  ctx.setLineDash([6, 3]);
  ctx.lineWidth = 1.8;
  ctx.strokeStyle = legal ? scene.colours.accl : scene.colours.bad;
  ctx.beginPath();
  ctx.moveTo(start.at[0], start.at[1]);
  ctx.lineTo(end[0], end[1]);
  ctx.stroke();
  ctx.setLineDash([]);
}

/** Square handles at both ends of the picked line. */
function paintEnds(ctx: Ctx, scene: Scene, looking: Looking): void {
  const { selection, alsoSelected, boat, placed, colours } = scene;
  const line = selection?.kind === 'line' && alsoSelected.length === 0 ? lineInHand(selection) : null;
  const own = line === null ? undefined : boat.lines[line];
  if (!own) return;
  for (const { thing, port } of [own.from, own.to]) {
    const shown = thingsIn(
      placed.filter(({ id }) => id === thing),
      looking.cut,
      looking.frame,
      null,
    );
    const here = shown.flatMap((one) => portsOfThing(one, looking)).find((one) => one.port === port);
    if (!here) continue;
    ctx.lineWidth = 1.4;
    ctx.strokeStyle = colours.accl;
    ctx.fillStyle = colours.paper;
    ctx.fillRect(here.at[0] - 3.5, here.at[1] - 3.5, 7, 7);
    ctx.strokeRect(here.at[0] - 3.5, here.at[1] - 3.5, 7, 7);
  }
}
