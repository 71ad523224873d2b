import type { Vec2, Vec3 } from '@core/base/vec';
import { FRAMES, paperAxes, type ViewName } from '@core/output/views/drawing';
import { type Camera, type Extent, type Sheet, toPaper, transformOf } from './sheet';

export const CLOSEST = 1500;
/** One notch of the wheel. */
export const ZOOM_STEP = 1.18;
/** Pixels, and lines, that a wheel reports for one notch; one event counts for so many notches at most. */
const NOTCH = { px: 100, lines: 3 } as const;
const MOST_NOTCHES = 3;

/** What a turn of the wheel multiplies the scale by. */
export function wheelFactor({ deltaMode, deltaY }: Pick<WheelEvent, 'deltaMode' | 'deltaY'>): number {
  const notches = deltaY / (deltaMode === 0 ? NOTCH.px : NOTCH.lines);
  return ZOOM_STEP ** -Math.max(-MOST_NOTCHES, Math.min(MOST_NOTCHES, notches));
}

/** Moves the camera so that the drawing follows the pointer by (dx, dy) pixels in one view. */
export function panned(camera: Camera, view: ViewName, dx: number, dy: number): Camera {
  const frame = FRAMES[view];
  const [right, up] = paperAxes(frame);
  const at: [number, number, number] = [...camera.at];
  at[right] -= (dx / camera.scale) * (frame.right[right] as number);
  at[up] += (dy / camera.scale) * (frame.up[up] as number);
  return { ...camera, at };
}

/** Zooms by a factor and keeps the boat point under the pointer of that view where it is. */
export function zoomedAbout(sheet: Sheet, camera: Camera, view: ViewName, pointer: Vec2, factor: number): Camera {
  const scale = Math.min(CLOSEST, Math.max(sheet.fit.scale * 0.6, camera.scale * factor));
  const before = toPaper(transformOf(sheet, camera, view), pointer);
  const next = { ...camera, scale };
  const after = toPaper(transformOf(sheet, next, view), pointer);
  const frame = FRAMES[view];
  const [right, up] = paperAxes(frame);
  const at: [number, number, number] = [...next.at];
  at[right] += (before[0] - after[0]) * (frame.right[right] as number);
  at[up] += (before[1] - after[1]) * (frame.up[up] as number);
  return { scale, at };
}

/** Zooms about the middle of the fields. */
export const zoomed = (sheet: Sheet, camera: Camera, factor: number): Camera => ({
  ...camera,
  scale: Math.min(CLOSEST, Math.max(sheet.fit.scale * 0.6, camera.scale * factor)),
});

/** Keeps some of the boat in sight. */
export function kept(camera: Camera, extent: Extent): Camera {
  const clamp = (k: 0 | 1 | 2) => Math.min(extent.high[k], Math.max(extent.low[k], camera.at[k]));
  const at: Vec3 = [clamp(0), clamp(1), clamp(2)];
  return at[0] === camera.at[0] && at[1] === camera.at[1] && at[2] === camera.at[2] ? camera : { ...camera, at };
}

/** The camera part of the way to another: a glide. */
export const between = (a: Camera, b: Camera, t: number): Camera => ({
  scale: a.scale * (b.scale / a.scale) ** t,
  at: [a.at[0] + (b.at[0] - a.at[0]) * t, a.at[1] + (b.at[1] - a.at[1]) * t, a.at[2] + (b.at[2] - a.at[2]) * t],
});
