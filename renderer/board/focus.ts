import type { Vec3 } from '@core/base/vec';
import { paperAxes, project, type ViewFrame } from '@core/output/views/drawing';
import { clipPointsOf } from '../store/clip-points';
import type { Gap } from '../tools/snap';
import { gapsOf } from './live';
import { detailFrame, type Live, type Scene } from './scene';
import { pixelsPerMetreOf, type Rect, type Transform } from './sheet';
import { boxOf } from './things';

/** Scales of the detail: those of the trade, and two between. */
const RATIOS = [5, 10, 15, 20, 25, 30, 40, 50, 75, 100] as const;

/** What the detail shows: a place, and how much around it must fit. */
export interface Focus {
  readonly frame: ViewFrame;
  readonly at: Vec3;
  /** Half width and height on paper, metres. */
  readonly half: readonly [number, number];
}

export function focusOf(scene: Scene, live: Live): Focus | null {
  const { selection, activeView } = scene;
  if (!selection) return null;
  const frame = detailFrame(activeView);
  const [right, up] = paperAxes(frame);
  if (selection.kind === 'thing') {
    const placed =
      live.moving?.placed.id === selection.id ? live.moving.placed : scene.placed.find((p) => p.id === selection.id);
    if (!placed) return null;
    // While it is held the scale stays that of its old place: a drawing that breathes under the hand cannot be read.
    const rest = scene.placed.find((p) => p.id === selection.id) ?? placed;
    const { low, high } = boxOf(rest);
    const gaps = live.moving ? gapsOf(scene, rest, frame) : live.gaps;
    const half = (axis: 0 | 1 | 2) => (high[axis] - low[axis]) / 2 + roomAlong(gaps, axis);
    return { frame, at: placed.pose.at, half: [half(right), half(up)] };
  }
  if (selection.kind === 'line') {
    const path = [...live.paths, ...scene.paths].find((p) => p.id === selection.id)?.path ?? [];
    if (path.length === 0) return null;
    return around(frame, path);
  }
  if (selection.kind === 'panel') {
    const points = (scene.layout.panels[selection.id]?.pieces ?? []).flat();
    return points.length === 0 ? null : around(frame, points);
  }
  if (selection.kind === 'opening') {
    const opening = scene.boat.openings[selection.id];
    return opening ? { frame, at: opening.at, half: [opening.widthM, opening.widthM] } : null;
  }
  if (selection.kind === 'compartment') {
    const cells = (scene.layout.cellsOf[selection.id] ?? []).flatMap((index) => scene.layout.cells[index] ?? []);
    if (cells.length === 0) return null;
    const low = (axis: 0 | 1 | 2) => Math.min(...cells.map((cell) => cell.low[axis]));
    const high = (axis: 0 | 1 | 2) => Math.max(...cells.map((cell) => cell.high[axis]));
    const at: Vec3 = [(low(0) + high(0)) / 2, (low(1) + high(1)) / 2, (low(2) + high(2)) / 2];
    return { frame, at, half: [(high(right) - low(right)) / 2 + 0.1, (high(up) - low(up)) / 2 + 0.1] };
  }
  if (selection.kind === 'clipPoint') {
    const points = clipPointsOf(scene.boat, scene.arrangementId);
    const at = points.find(({ id, line }) => id === selection.id && line === selection.line)?.at;
    return at ? { frame, at, half: [0.35, 0.35] } : null;
  }
  if (selection.kind === 'crossing') {
    const run = scene.report?.runs.find(({ lineId }) => lineId === selection.line);
    const at = run?.holes[Number(selection.id)]?.at;
    return at ? { frame, at, half: [0.35, 0.35] } : null;
  }
  if (selection.kind === 'finding') {
    const at = scene.report?.findings.find((f) => f.key === selection.id)?.at;
    return at ? { frame, at, half: [0.35, 0.35] } : null;
  }
  return null;
}

/** The middle of some points, with room for all of them. */
function around(frame: ViewFrame, points: readonly Vec3[]): Focus {
  const [right, up] = paperAxes(frame);
  const low = points.reduce((a, b): Vec3 => [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])]);
  const high = points.reduce((a, b): Vec3 => [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])]);
  const at: Vec3 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
  return { frame, at, half: [(high[right] - low[right]) / 2 + 0.1, (high[up] - low[up]) / 2 + 0.1] };
}

/** Room that the detail keeps beside a thing: up to the farther of its two faces, within reason. */
const LEAST_ROOM = 0.1;
const MOST_ROOM = 0.5;
function roomAlong(gaps: readonly Gap[], axis: number): number {
  const farthest = Math.max(0, ...gaps.filter((gap) => gap.axis === axis).map((gap) => gap.gapM));
  return Math.min(MOST_ROOM, Math.max(LEAST_ROOM, farthest + 0.06));
}

/** Frame of the detail, below its caption. */
export const detailBox = ({ x, y, w, h }: Rect): Rect => ({
  x: x + 8,
  y: y + 20,
  w: Math.max(40, w - 26),
  h: Math.max(40, h - 32),
});

/** The closest of the trade's scales at which the focus fits. */
export function detailTransform(field: Rect, focus: Focus): { readonly t: Transform; readonly ratio: number } {
  const box = detailBox(field);
  const fits = (ratio: number) => {
    const scale = pixelsPerMetreOf(ratio);
    return focus.half[0] * 2 * scale <= box.w && focus.half[1] * 2 * scale <= box.h;
  };
  const ratio = RATIOS.find(fits) ?? RATIOS[RATIOS.length - 1] ?? 100;
  const scale = pixelsPerMetreOf(ratio);
  const [u, v] = project(focus.frame, focus.at);
  return { ratio, t: { scale, x: box.x + box.w / 2 - u * scale, y: box.y + box.h / 2 + v * scale } };
}
