import type { Vec2 } from '@core/base/vec';
import { pathOf } from '@core/output/views/curves';
import { project } from '@core/output/views/drawing';
import { lengthUnit, wholeLength } from '../../panels/format';
import { isPinned, lineInHand, sameSelection } from '../../store/select';
import type { FieldView, Pulled, Selection } from '../../store/types';
import { edgeLeft, holeLeft } from '../../tools/hole-slide';
import { clipsIn, crossingsIn, type Ghost, type Live, runsIn, type Scene, type View } from '../scene';
import { toScreen } from '../sheet';
import { paintClip } from './marks';
import { type Ctx, FONT, letter } from './pen';

/** A view, or the detail that enlarges one. */
type HeldView = Pick<View, 'frame' | 't' | 'cut'> & { readonly name: FieldView };

/** Clips of all runs; those of the line that one works on, and the one that is held at its place now, stand out. */
export function paintClips(ctx: Ctx, scene: Scene, live: Live, view: HeldView, hover: Selection | null): void {
  const { selection, colours } = scene;
  const held = live.pulled?.kind === 'clip' ? live.pulled : null;
  for (const clip of clipsIn(scene, view)) {
    const here: Selection = { kind: 'clipPoint', id: clip.id, line: clip.line };
    if (held?.id === clip.id && held.line === clip.line) continue;
    const strong = sameSelection(selection, here) || sameSelection(hover, here);
    if (strong || view.t.scale >= CLIPS_FROM)
      paintClip(ctx, toScreen(view.t, project(view.frame, clip.at)), colours, strong);
  }
}

/** Pixels a metre from which clips are drawn. */
const CLIPS_FROM = 40;

/** What is held of a run, or picked of it: the clip point or the hole, how far it was pulled, and what is in the way. */
export function paintHeldOfRun(ctx: Ctx, scene: Scene, live: Live, view: HeldView, hover: Selection | null): void {
  const { colours, units } = scene;
  const { pulled, refused } = live;
  paintPickedCrossings(ctx, scene, live, view, hover);
  paintPins(ctx, scene, view);
  paintSpare(ctx, scene, view);
  for (const ghost of live.ghosts) paintGhostRun(ctx, scene, ghost, view);
  if (live.marked) {
    const at = toScreen(view.t, project(view.frame, live.marked));
    ring(ctx, at, 5, colours.paper, 5, []);
    ring(ctx, at, 5, colours.accl, 2, []);
  }
  if (!pulled) return;
  const rest = toScreen(view.t, project(view.frame, pulled.start));
  const now = toScreen(view.t, project(view.frame, pulled.at));
  ctx.setLineDash([4, 3]);
  ctx.lineWidth = 1;
  ctx.strokeStyle = refused ? colours.bad : colours.accl;
  ctx.beginPath();
  ctx.moveTo(rest[0], rest[1]);
  ctx.lineTo(now[0], now[1]);
  ctx.stroke();
  if (pulled.kind === 'clip') paintClip(ctx, now, refused ? { ...colours, accl: colours.bad } : colours, true);
  else paintHole(ctx, scene, pulled, now, view);
  const { reason } = refused ?? {};
  if (!reason?.at) return;
  const [x, y] = toScreen(view.t, project(view.frame, reason.at));
  ctx.setLineDash([]);
  ctx.lineWidth = 2;
  ctx.strokeStyle = colours.bad;
  ctx.beginPath();
  for (const side of [1, -1]) {
    ctx.moveTo(x - 5, y - 5 * side);
    ctx.lineTo(x + 5, y + 5 * side);
  }
  ctx.stroke();
  if (reason.shortByM === null) return;
  const text = `${wholeLength(-reason.shortByM, units)} ${lengthUnit(units)}`;
  letter(ctx, text, [x, y - 15], { font: FONT.strong, colour: colours.bad, halo: colours.paper });
}

/** Another way for the run: brass dashes over a halo, so that it is told from every content. */
function paintGhostRun(ctx: Ctx, { boat, colours }: Scene, { run, isLit }: Ghost, view: HeldView): void {
  for (const { pieces } of runsIn(boat, [run], view))
    for (const piece of pieces) {
      const points = piece.map((p) => toScreen(view.t, p));
      if (isLit) strokeAlong(ctx, points, 6, colours.paper, []);
      strokeAlong(ctx, points, isLit ? 2.6 : 1.1, colours.accl, isLit ? [8, 4] : [4, 4]);
    }
}

function strokeAlong(ctx: Ctx, points: readonly Vec2[], width: number, colour: string, dash: readonly number[]): void {
  ctx.beginPath();
  for (const [k, [x, y]] of points.entries())
    if (k === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  ctx.lineJoin = 'round';
  ctx.setLineDash([...dash]);
  ctx.lineWidth = width;
  ctx.strokeStyle = colour;
  ctx.stroke();
}

/** Runs that are kept as built carry a pin, and the one that is picked the word. */
function paintPins(ctx: Ctx, scene: Scene, view: HeldView): void {
  const { boat, arrangementId, colours, paths, selection } = scene;
  if (view.t.scale < CLIPS_FROM) return;
  const pinned = paths.filter(({ id, routed }) => routed && isPinned(boat, arrangementId, id));
  for (const { id, pieces } of runsIn(boat, pinned, view)) {
    const at = longestMiddle(pieces.map((piece) => piece.map((p) => toScreen(view.t, p))));
    if (!at) continue;
    const [x, y] = at;
    strokeAlong(
      ctx,
      [
        [x, y],
        [x + 5, y - 8],
      ],
      1.4,
      colours.draw,
      [],
    );
    ctx.beginPath();
    ctx.arc(x + 6, y - 10, 3.4, 0, 2 * Math.PI);
    ctx.fillStyle = colours.paper;
    ctx.fill();
    ctx.stroke();
    if (lineInHand(selection) === id)
      letter(ctx, 'as built', [x + 34, y - 12], { font: FONT.drawing, colour: colours.ink, halo: colours.paper });
  }
}

/** The middle of the longest straight stretch of what a view shows of a run. */
function longestMiddle(pieces: readonly (readonly Vec2[])[]): Vec2 | null {
  let best: { at: Vec2; length: number } | null = null;
  for (const piece of pieces)
    for (let k = 0; k + 1 < piece.length; k += 1) {
      const [a, b] = [piece[k] as Vec2, piece[k + 1] as Vec2];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      if (!best || length > best.length) best = { at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], length };
    }
  return best?.at ?? null;
}

/** Where the length of a supplied hose goes that its run does not need, of the line that one works on. */
function paintSpare(ctx: Ctx, scene: Scene, view: HeldView): void {
  const { boat, report, colours, selection, units } = scene;
  const line = lineInHand(selection);
  const spare = report?.runs.find(({ lineId }) => lineId === line)?.spare;
  if (line === null || !spare || !('prims' in spare)) return;
  const run = { id: line, routed: true, path: pathOf(spare.prims), stopsAt: null, radiusM: 0, holes: [] };
  for (const { pieces } of runsIn(boat, [run], view))
    for (const piece of pieces)
      strokeAlong(
        ctx,
        piece.map((p) => toScreen(view.t, p)),
        1.2,
        colours.draw,
        [2, 3],
      );
  if (view.name !== scene.activeView && view.name !== 'detail') return;
  const [x, y] = toScreen(view.t, project(view.frame, spare.at));
  letter(ctx, `spare ${wholeLength(spare.excessM, units)} ${lengthUnit(units)}`, [x, y - 14], {
    font: FONT.drawing,
    colour: colours.ink,
    halo: colours.paper,
  });
}

/** The hole where it would be drilled, with the wood that is left beside it. */
function paintHole(
  ctx: Ctx,
  scene: Scene,
  { panelId, at, start, diameterM, stoppedBy }: Extract<Pulled, { kind: 'crossing' }>,
  now: Vec2,
  view: HeldView,
): void {
  const { layout, colours, units } = scene;
  ring(ctx, now, ringRadius(diameterM, view), colours.accl, 2, [2, 2]);
  const panel = layout.panels[panelId];
  if (!panel) return;
  const edge = `edge ${wholeLength(edgeLeft(panel, at, diameterM), units)}`;
  const gap = holeLeft(panel, at, diameterM, start);
  const hole = gap === null ? '' : `, hole ${wholeLength(gap, units)}`;
  if (view.name !== scene.activeView && view.name !== 'detail') return;
  letter(ctx, `${edge}${hole} ${lengthUnit(units)}`, [now[0], now[1] - ringRadius(diameterM, view) - 12], {
    font: FONT.drawing,
    colour: stoppedBy === null ? colours.ink : colours.accent,
    halo: colours.paper,
  });
}

/** Holes of the line that one works on can be taken hold of: the picked one with a handle, the one under the pointer ringed. */
function paintPickedCrossings(ctx: Ctx, scene: Scene, live: Live, view: HeldView, hover: Selection | null): void {
  const { selection, colours, layout } = scene;
  const lines = new Set([lineInHand(selection), hover?.kind === 'crossing' ? hover.line : null]);
  const lifted = new Set(live.paths.map(({ id }) => id));
  const paths = [...scene.paths.filter(({ id }) => !lifted.has(id)), ...live.paths].filter(({ id }) => lines.has(id));
  for (const mark of crossingsIn(paths, layout, view)) {
    const here: Selection = { kind: 'crossing', id: String(mark.index), line: mark.line };
    const isPicked = sameSelection(selection, here);
    if (!isPicked && !sameSelection(hover, here)) continue;
    const at = toScreen(view.t, mark.at);
    const r = ringRadius(mark.diameterM, view) + 3;
    ring(ctx, at, r, colours.accl, isPicked ? 2 : 1, []);
    if (!isPicked) continue;
    ctx.fillStyle = colours.paper;
    ctx.fillRect(at[0] - 2.5, at[1] - 2.5, 5, 5);
    ctx.lineWidth = 1.2;
    ctx.strokeRect(at[0] - 2.5, at[1] - 2.5, 5, 5);
  }
}

const ringRadius = (diameterM: number, view: Pick<View, 't'>): number => Math.max(4, (diameterM / 2) * view.t.scale);

function ring(ctx: Ctx, [x, y]: Vec2, r: number, colour: string, width: number, dash: readonly number[]): void {
  ctx.beginPath();
  ctx.arc(x, y, r, 0, 2 * Math.PI);
  ctx.setLineDash([...dash]);
  ctx.lineWidth = width;
  ctx.strokeStyle = colour;
  ctx.stroke();
}
