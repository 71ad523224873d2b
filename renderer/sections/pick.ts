import { distanceToSegment } from '@core/base/segment';
import type { Vec2 } from '@core/base/vec';
import { type Transform, toPaper, toScreen, within } from '../board/sheet';
import type { SectionTarget } from './gesture';
import { outwardOnScreen } from './paint/body';
import { planTransform, profileTransform } from './paint/strips';
import type { SectionScene } from './scene';
import { bodyTransform, onBodyPlan } from './sheet';

/** Half of the hit area of a point, pixels; a weight counts as its point. */
const POINT_REACH = 14;
const CURVE_REACH = 9;
/** Middle of a weight outside its point. */
const WEIGHT_OUT = 16;

/** What lies under the pointer of the section board. */
export function targetAt(scene: SectionScene, at: Vec2): SectionTarget {
  const { sheet, active, body } = scene;
  for (const [field, transform] of [
    [sheet.profile, profileTransform],
    [sheet.plan, planTransform],
  ] as const) {
    if (!within(field, at)) continue;
    const x = toPaper(transform(scene), at)[0];
    const nearest = [...body].sort((a, b) => Math.abs(a.xM - x) - Math.abs(b.xM - x))[0];
    return nearest ? { kind: 'along', station: nearest.id } : { kind: 'ground' };
  }
  if (!within(sheet.body, at)) return { kind: 'ground' };
  const t = bodyTransform(sheet.body, scene.camera);
  const side = active.line.end === 'aft' ? -1 : 1;
  let best: { index: number; off: number } | null = null;
  active.points.forEach((point, index) => {
    const [x, y] = toScreen(t, onBodyPlan(active.line.end, point));
    const [ax, ay] = outwardOnScreen(active.points, index, side);
    const onPoint = Math.hypot(at[0] - x, at[1] - y);
    const onWeight = Math.hypot(at[0] - x - ax * WEIGHT_OUT, at[1] - y - ay * WEIGHT_OUT) + 2;
    const off = Math.min(onPoint, onWeight);
    if (off <= POINT_REACH && (!best || off < best.off)) best = { index, off };
  });
  const found = best as { index: number; off: number } | null;
  if (found) return { kind: 'point', station: active.id, index: found.index };
  // The active curve first: it lies on top.
  const order = [...body].sort((a, b) => Number(b.id === active.id) - Number(a.id === active.id));
  let nearest: { station: string; off: number } | null = null;
  for (const { id, end, points } of order) {
    const off = distanceToCurve(
      t,
      points.map((point) => onBodyPlan(end, point)),
      at,
    );
    if (off <= CURVE_REACH && (!nearest || off < nearest.off - 2)) nearest = { station: id, off };
  }
  return nearest ? { kind: 'curve', station: nearest.station } : { kind: 'ground' };
}

function distanceToCurve(t: Transform, points: readonly Vec2[], at: Vec2): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < points.length; i += 1) {
    const [a, b] = [toScreen(t, points[i] as Vec2), toScreen(t, points[i + 1] as Vec2)];
    least = Math.min(least, distanceToSegment(at, a, b));
  }
  return least;
}
