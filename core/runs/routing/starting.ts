import * as portable from '../../base/portable';
import { along, distance, dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { Task } from './attempt';
import type { End } from './leads';
import type { Element } from './polygon';
import type { Stop } from './stretch';
import { depthInPanel } from './structure';
import type { Between } from './waypoints';

/** The tangent polygon to begin with: corners where the way found turns, with as much straight as their bends may want. */
export function startingPolygon(
  task: Task,
  stretches: readonly (readonly Stop[])[],
  between: readonly Between[] = [],
): Element[] {
  const { line, ends, world } = task;
  const R = line.bendRadiusM;
  const points: Vec3[] = [ends[0].tip];
  const flat: (Stop | Between)[] = [];
  stretches.forEach((stops, k) => {
    flat.push(...stops);
    const next = between[k];
    if (next) flat.push(next);
  });
  const held = straightThrough(task, flat);
  points.push(...flat.map((stop) => (stop.kind === 'passage' ? stop.passage.at : stop.at)), ends[1].tip);
  const reachFrom = (k: number, other: number, direction: Vec3): number => {
    const [p, q] = [points[k] as Vec3, points[other] as Vec3];
    const d: Vec3 = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
    const length = portable.hypot(...d);
    if (length < 1e-9) return 0;
    const cos = (d[0] * direction[0] + d[1] * direction[1] + d[2] * direction[2]) / length;
    const angle = portable.acos(Math.max(-1, Math.min(1, cos)));
    return Math.min(R * portable.tan(Math.min(angle, 1.75) / 2), Math.max(0.45 * length, 0.3 * R));
  };
  const lead = (end: End, k: number, other: number): Element => ({
    kind: 'lead',
    at: end.lead.at,
    out: end.lead.direction,
    leadM: end.leadM,
    params: [end.leadM + reachFrom(k, other, end.lead.direction)],
  });
  const last = points.length - 1;
  const elements: Element[] = [lead(ends[0], 0, 1)];
  flat.forEach((stop, i) => {
    const k = i + 1;
    if (stop.kind === 'free') {
      elements.push({ kind: 'free', params: [...stop.at] });
      return;
    }
    if (stop.kind === 'clip') {
      const way = held.get(i);
      const [p, q] = way
        ? [along(stop.at, way, -1), along(stop.at, way, 1)]
        : [points[k - 1] as Vec3, points[k + 1] as Vec3];
      const size = Math.max(1e-6, distance(p, q));
      const [before, behind] = [distance(points[k - 1] as Vec3, stop.at), distance(points[k + 1] as Vec3, stop.at)];
      const reach = Math.min(0.5 * R + 0.02, 0.4 * before + 0.01);
      elements.push({
        kind: 'clip',
        at: stop.at,
        params: [
          stop.at[0] + ((p[0] - q[0]) / size) * reach,
          stop.at[1] + ((p[1] - q[1]) / size) * reach,
          stop.at[2] + ((p[2] - q[2]) / size) * reach,
          Math.min(0.5 * R + 0.02, 0.4 * behind + 0.01),
        ],
      });
      return;
    }
    const { passage, forward } = stop;
    const frame = world.structure.frames[passage.frame] as (typeof world.structure.frames)[number];
    const n: Vec3 = forward ? frame.n : [-frame.n[0], -frame.n[1], -frame.n[2]];
    const from: Vec3 = [
      passage.at[0] - frame.origin[0],
      passage.at[1] - frame.origin[1],
      passage.at[2] - frame.origin[2],
    ];
    elements.push({
      kind: 'hole',
      frame,
      panel: passage.panel,
      hole: passage.hole,
      forward,
      stubM: passage.stubM,
      params: [
        from[0] * frame.u[0] + from[1] * frame.u[1] + from[2] * frame.u[2],
        from[0] * frame.v[0] + from[1] * frame.v[1] + from[2] * frame.v[2],
        passage.stubM + reachFrom(k, k - 1, [-n[0], -n[1], -n[2]]),
        passage.stubM + reachFrom(k, k + 1, n),
      ],
    });
  });
  elements.push(lead(ends[1], last, last - 1));
  return elements;
}

/** A hole and a clip point this much of the bend radius apart leave no room for bends between them. */
const NO_BEND_BETWEEN = 0.8;

/**
 * Directions of the clip points that stand so near to a hole that is still to be drilled that the hose passes both in one straight; the hole
 * is put opposite the clip point. By the place in the list.
 */
function straightThrough({ line, hose, world }: Task, flat: (Stop | Between)[]): ReadonlyMap<number, Vec3> {
  const held = new Map<number, Vec3>();
  for (const [i, clip] of flat.entries()) {
    if (clip.kind !== 'clip') continue;
    for (const k of [i - 1, i + 1]) {
      const stop = flat[k];
      if (stop?.kind !== 'passage' || stop.passage.hole || held.has(i)) continue;
      const { passage, forward } = stop;
      const frame = world.structure.frames[passage.frame] as (typeof world.structure.frames)[number];
      const { n, origin, u, v } = frame;
      const from = subtract(clip.at, origin);
      const off = dot(from, n);
      if (Math.abs(off) > passage.stubM + NO_BEND_BETWEEN * line.bendRadiusM) continue;
      if (depthInPanel(frame, dot(from, u), dot(from, v)) < hose.holeRadiusM + passage.panel.edgeM) continue;
      held.set(i, scale(n, forward ? 1 : -1));
      flat[k] = { ...stop, passage: { ...passage, at: along(clip.at, n, -off) } };
    }
  }
  return held;
}
