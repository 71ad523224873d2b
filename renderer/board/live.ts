import { rotationOf, type Vec2, type Vec3 } from '@core/base/vec';
import type { Place } from '@core/boat/schema/boat';
import { FRAMES, paperAxes, type ViewFrame, type ViewName } from '@core/output/views/drawing';
import { useDrag } from '../store/drag';
import type { DragState, FieldView } from '../store/types';
import { boxFaces, type Face, wallFaces } from '../tools/faces';
import { type Contact, type Gap, gapsAround, overlapsOf, PULL_PX, shifted, snap, THROUGH_FROM } from '../tools/snap';
import { detailFrame, type Live, type Scene, STILL } from './scene';
import { boxOf, type Placed, pathOfRun } from './things';

let lastFaces: { key: readonly unknown[]; faces: readonly Face[] } | null = null;

/** Faces that a thing may lie on or be measured to: walls, and the sides of other things. */
export function facesFor(scene: Pick<Scene, 'layout' | 'placed'>, except: readonly string[]): readonly Face[] {
  const key = [scene.layout, scene.placed, except.join(' ')];
  if (lastFaces?.key.every((k, i) => k === key[i])) return lastFaces.faces;
  const faces = [
    ...wallFaces(scene.layout),
    ...scene.placed.filter((p) => !except.includes(p.id) && isSolid(p)).flatMap((p) => boxFaces(boxOf(p), p.id)),
  ];
  lastFaces = { key, faces };
  return faces;
}

const recentGaps: { key: readonly unknown[]; gaps: readonly Gap[] }[] = [];

/** Distances around a thing; kept for the places in use, since news of runs comes several times a step. */
export function gapsOf(scene: Scene, placed: Placed, frame: ViewFrame): readonly Gap[] {
  const key = [scene.placed, scene.layout, scene.hull, placed.id, placed.pose, frame];
  const known = recentGaps.find((entry) => entry.key.every((k, i) => k === key[i]));
  if (known) return known.gaps;
  const gaps = gapsAround(boxOf(placed), paperAxes(frame), facesFor(scene, heldAlong(placed.id)), scene.hull);
  recentGaps.unshift({ key, gaps });
  recentGaps.length = Math.min(recentGaps.length, 3);
  return gaps;
}

const isSolid = (p: Placed): boolean => !('soft' in p.thing && p.thing.soft);

/** Boxes whose axis-parallel bounds are the body itself: others would be said to overlap where only their bounds do. */
function isItsBounds(p: Placed): boolean {
  if (p.thing.shape.type !== 'box' || !isSolid(p)) return false;
  return rotationOf(p.pose).every((column) => column.some((c) => Math.abs(c) > 1 - 1e-9));
}

/** What belongs in the skin is not blocked by it. */
const isThroughHull = ({ thing }: Placed): boolean =>
  thing.opensToSea !== undefined ||
  thing.kind === 'skinFitting' ||
  thing.kind === 'seacock' ||
  thing.kind === 'logFitting';

/** What a drag holds now, as the painters want it. */
export const heldNow = (): Held => {
  const { thingId, start, place, along, pulled, refused, runs, findings, sent, answered } = useDrag.getState();
  return { thingId, start, place, along, pulled, refused, runs, findings, waiting: sent > answered };
};

export type Held = Pick<
  DragState,
  'thingId' | 'start' | 'place' | 'along' | 'pulled' | 'refused' | 'runs' | 'findings'
> & {
  readonly waiting: boolean;
};

/** What a drag and its answers show now; at rest, the distances around what is picked. */
export function liveOf(scene: Scene, drag: Held): Live {
  const { thingId, start, place, along, pulled, refused, runs, findings, waiting } = drag;
  const key = [scene, thingId, start, place, along, pulled, refused, runs, findings, waiting];
  if (lastLive?.key.every((k, i) => k === key[i])) return lastLive.live;
  const live = liveNow(scene, drag);
  lastLive = { key, live };
  return live;
}

/** Pointer, painters and probe ask for the same moment. */
let lastLive: { key: readonly unknown[]; live: Live } | null = null;

function liveNow(scene: Scene, drag: Held): Live {
  const { selection, boat, arrangementId } = scene;
  const moved =
    drag.thingId !== null && drag.place && drag.start ? scene.placed.find((p) => p.id === drag.thingId) : undefined;
  const moving = moved && drag.place ? { ...moved, pose: drag.place } : null;
  const alongside = moving ? goingAlong(scene, drag.along) : [];
  const move = moving ? new Map([moving, ...alongside.map(({ placed }) => placed)].map((p) => [p.id, p.pose])) : null;
  const paths = Object.values(drag.runs).flatMap((run) => pathOfRun(boat, arrangementId, run, move) ?? []);
  const picked = moving ?? (selection?.kind === 'thing' ? scene.placed.find((p) => p.id === selection.id) : undefined);
  const { findings, pulled, refused } = drag;
  if (!picked) return paths.length > 0 || pulled ? { ...STILL, paths, findings, pulled, refused } : STILL;

  const box = boxOf(picked);
  const gaps = gapsOf(scene, picked, detailFrame(scene.activeView));
  const contacts = moving
    ? gaps
        .filter((gap) => Math.abs(gap.gapM) < 5e-4)
        .map((gap): Contact => ({ axis: gap.axis, side: gap.side, at: gap.from, face: gap.face }))
    : [];
  const others = isItsBounds(picked)
    ? scene.placed
        .filter((p) => p.id !== picked.id && !(move?.has(p.id) ?? false) && isItsBounds(p))
        .map((p) => ({ id: p.id, box: boxOf(p) }))
    : [];
  const overlaps = overlapsOf(box, others).map(({ id, depthM, box: shared }) => ({
    id,
    depthM,
    low: shared.low,
    high: shared.high,
  }));
  return {
    moving: moving && drag.start ? { placed: moving, start: drag.start } : null,
    alongside,
    paths,
    contacts,
    gaps,
    overlaps,
    blocked:
      moving !== null &&
      (overlaps.length > 0 ||
        gaps.some((gap) => gap.gapM < -THROUGH_FROM && !(gap.face === null && isThroughHull(moving)))),
    findings,
    pulled,
    refused,
    marked: null,
    ghosts: [],
    waiting: drag.waiting,
  };
}

/** What goes along with a held thing is nothing to lie on or to be measured to. */
const heldAlong = (id: string): readonly string[] => [id, ...Object.keys(useDrag.getState().along)];

const goingAlong = (scene: Scene, along: DragState['along']): Live['alongside'] =>
  Object.entries(along).flatMap(([id, { start, place }]) => {
    const rest = scene.placed.find((p) => p.id === id);
    return rest ? [{ placed: { ...rest, pose: place }, start }] : [];
  });

/** Place of a held thing after the pointer has moved by some pixels: to the millimetre, or onto a face within the pull. */
export function placeAfter(
  scene: Scene,
  start: Place,
  placed: Placed,
  view: FieldView,
  by: Vec2,
  scale: number,
  free: boolean,
): Place {
  const frame = view === 'detail' ? detailFrame(scene.activeView) : FRAMES[view as ViewName];
  const [right, up] = paperAxes(frame);
  const wanted: [number, number, number] = [...pointAfter(scene, start.at, view, by, scale)];
  if (free) return { ...start, at: wanted };
  const moved: Vec3 = [wanted[0] - start.at[0], wanted[1] - start.at[1], wanted[2] - start.at[2]];
  const box = shifted(boxOf({ ...placed, pose: start }), moved);
  const { box: snapped, on } = snap(
    box,
    [right, up],
    facesFor(scene, heldAlong(placed.id)),
    PULL_PX / scale,
    scene.hull,
  );
  const at: [number, number, number] = [...wanted];
  for (const { axis } of on) at[axis] = micro(wanted[axis] + (snapped.low[axis] - box.low[axis]));
  return { ...start, at };
}

/** A point after the pointer has moved by some pixels in a view, to the millimetre. */
export function pointAfter(
  scene: Pick<Scene, 'activeView'>,
  start: Vec3,
  view: FieldView,
  by: Vec2,
  scale: number,
): Vec3 {
  const frame = view === 'detail' ? detailFrame(scene.activeView) : FRAMES[view as ViewName];
  const [right, up] = paperAxes(frame);
  const at: [number, number, number] = [start[0], start[1], start[2]];
  at[right] = mm(start[right] + (by[0] / scale) * (frame.right[right] as number));
  at[up] = mm(start[up] - (by[1] / scale) * (frame.up[up] as number));
  return at;
}

const mm = (metres: number): number => Math.round(metres * 1000) / 1000 + 0;

/** The precision of the file. */
const micro = (metres: number): number => Math.round(metres * 1e6) / 1e6 + 0;
