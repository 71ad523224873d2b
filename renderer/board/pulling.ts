import type { Vec2, Vec3 } from '@core/base/vec';
import { add } from '@core/base/vec';
import { slabBehind } from '@core/output/views/cuts';
import { depthAxis, FRAMES, type ViewName } from '@core/output/views/drawing';
import { useDrag } from '../store/drag';
import { heldOf, newClip, nudgePulled } from '../store/pulled';
import type { FieldView, Pulled, Selection } from '../store/types';
import { placeUnder } from '../tools/along-run';
import type { OfRun } from '../tools/gesture';
import { inPanel, slidTo } from '../tools/hole-slide';
import { lookingOn } from './drawing/looking';
import { focusOf } from './focus';
import { heldNow, liveOf, pointAfter } from './live';
import { scaleOf } from './pointing';
import { detailFrame, type Scene, SECTION_DEEP } from './scene';
import { toPaper } from './sheet';

/** What a press on a run, on a clip point or on a crossing takes hold of. */
export function pulledFrom(scene: Scene, what: OfRun, view: FieldView, from: Vec2): Pulled | null {
  if (what.kind !== 'line') return heldOf(scene.boat, scene.arrangementId, what);
  const path = scene.paths.find(({ id }) => id === what.id)?.path ?? [];
  const looking = lookingOn(scene, view, focusNow(scene));
  if (!looking) return null;
  const { frame, cutAt } = looking;
  const axis = depthAxis(frame);
  const [low, high] = cutAt === null ? EVERYWHERE : slabBehind({ frame, at: cutAt }, SECTION_DEEP, SLAB_BEFORE_M);
  const isSeen = (p: Vec3): boolean => p[axis] >= low && p[axis] <= high;
  const place = placeUnder(path, frame, toPaper(looking.t, from), isSeen);
  return place && newClip(scene.boat, scene.arrangementId, what.id, path, place);
}

const EVERYWHERE = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;
/** As the section shows runs: a little of what stands before the cut too, metres. */
const SLAB_BEFORE_M = 0.05;

/** Follows the pointer: a clip point in the plane of the view, a hole in its panel as far as the panel lets it. */
export function pullTo(scene: Scene, pulled: Pulled, view: FieldView, by: Vec2): void {
  const { pullTo: to } = useDrag.getState();
  const scale = scaleOf(scene, view, view === 'detail' ? focusNow(scene) : null);
  if (pulled.kind === 'clip') {
    to(pointAfter(scene, pulled.start, view, by, scale));
    return;
  }
  const panel = scene.layout.panels[pulled.panelId];
  if (!panel) return;
  const frame = view === 'detail' ? detailFrame(scene.activeView) : FRAMES[view as ViewName];
  const move = inPanel(panel, frame, [by[0] / scale, -by[1] / scale]);
  const slid = slidTo(panel, add(pulled.start, move), pulled.diameterM, pulled.start);
  // Where the panel has no room it stays as it was last.
  if (slid) to(slid.at, slid.stoppedBy);
}

/** A step of the arrow keys for a hole: as much of it as lies in the panel. */
function slidBy(scene: Pick<Scene, 'layout'>, pulled: Extract<Pulled, { kind: 'crossing' }>, at: Vec3, by: Vec3): Vec3 {
  const panel = scene.layout.panels[pulled.panelId];
  if (!panel) return at;
  return slidTo(panel, add(at, by), pulled.diameterM, pulled.start)?.at ?? at;
}

/** A clip point moves freely, a hole in its panel. False for what is neither. */
export function nudgeOfRun(scene: Scene, selection: Selection | null, by: Vec3): boolean {
  if (!selection) return false;
  const held = heldOf(scene.boat, scene.arrangementId, selection);
  if (!held) return selection.kind === 'crossing';
  return nudgePulled(selection, (at) => (held.kind === 'clip' ? add(at, by) : slidBy(scene, held, at, by)));
}

const focusNow = (scene: Scene) => focusOf(scene, liveOf(scene, heldNow()));
