import { distance, type Vec3 } from '../../base/vec';
import type { Task } from './attempt';
import type { End } from './leads';
import type { Element } from './polygon';
import type { Stop } from './search';
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
  points.push(...flat.map((stop) => (stop.kind === 'passage' ? stop.passage.at : stop.at)), ends[1].tip);
  const reachFrom = (k: number, other: number, direction: Vec3): number => {
    const [p, q] = [points[k] as Vec3, points[other] as Vec3];
    const d: Vec3 = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
    const length = Math.hypot(...d);
    if (length < 1e-9) return 0;
    const cos = (d[0] * direction[0] + d[1] * direction[1] + d[2] * direction[2]) / length;
    const angle = Math.acos(Math.max(-1, Math.min(1, cos)));
    return Math.min(R * Math.tan(Math.min(angle, 1.75) / 2), Math.max(0.45 * length, 0.3 * R));
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
      const [p, q] = [points[k - 1] as Vec3, points[k + 1] as Vec3];
      const size = Math.max(1e-6, distance(p, q));
      const reach = Math.min(0.5 * R + 0.02, 0.4 * distance(p, stop.at) + 0.01);
      elements.push({
        kind: 'clip',
        at: stop.at,
        params: [
          stop.at[0] + ((p[0] - q[0]) / size) * reach,
          stop.at[1] + ((p[1] - q[1]) / size) * reach,
          stop.at[2] + ((p[2] - q[2]) / size) * reach,
          Math.min(0.5 * R + 0.02, 0.4 * distance(q, stop.at) + 0.01),
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
