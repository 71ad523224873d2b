import { footOnLeg, footOnSegment } from '@core/base/segment';
import { distance, type Vec2, type Vec3 } from '@core/base/vec';
import { project, type ViewFrame } from '@core/output/views/drawing';

/** A place on the centre line of a run. */
export interface OnRun {
  readonly at: Vec3;
  /** Metres from its start. */
  readonly alongM: number;
}

/** The place on a run whose picture is nearest to a point of the paper; of a cut only pieces between two depths count. */
export function placeUnder(
  path: readonly Vec3[],
  frame: ViewFrame,
  paper: Vec2,
  isSeen: (p: Vec3) => boolean = () => true,
): OnRun | null {
  let best: (OnRun & { readonly off: number }) | null = null;
  let before = 0;
  for (let k = 0; k + 1 < path.length; k += 1) {
    const [a, b] = [path[k] as Vec3, path[k + 1] as Vec3];
    const length = distance(a, b);
    const [p, q] = [project(frame, a), project(frame, b)];
    const foot = footOnSegment(paper, p, q);
    const shown = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const share = shown > 0 ? Math.hypot(foot[0] - p[0], foot[1] - p[1]) / shown : 0;
    const at = between(a, b, share);
    const off = Math.hypot(foot[0] - paper[0], foot[1] - paper[1]);
    if (isSeen(at) && (!best || off < best.off)) best = { at, alongM: before + share * length, off };
    before += length;
  }
  return best && { at: best.at, alongM: best.alongM };
}

/** The place on a run that is nearest to a point of the boat, and how far that is. */
export function placeNearest(path: readonly Vec3[], point: Vec3): (OnRun & { readonly offM: number }) | null {
  let best: (OnRun & { readonly offM: number }) | null = null;
  let before = 0;
  for (let k = 0; k + 1 < path.length; k += 1) {
    const [a, b] = [path[k] as Vec3, path[k + 1] as Vec3];
    const at = footOnLeg(point, a, b);
    const offM = distance(point, at);
    if (!best || offM < best.offM) best = { at, alongM: before + distance(a, at), offM };
    before += distance(a, b);
  }
  return best;
}

/** The place so many metres along a run, within its ends. */
export function placeAlong(path: readonly Vec3[], alongM: number): OnRun | null {
  let left = Math.max(0, alongM);
  let before = 0;
  for (let k = 0; k + 1 < path.length; k += 1) {
    const [a, b] = [path[k] as Vec3, path[k + 1] as Vec3];
    const length = distance(a, b);
    if (left <= length || k + 2 === path.length) {
      const share = length > 0 ? Math.min(1, left / length) : 0;
      return { at: between(a, b, share), alongM: before + share * length };
    }
    left -= length;
    before += length;
  }
  return null;
}

const between = (a: Vec3, b: Vec3, share: number): Vec3 => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
  a[2] + (b[2] - a[2]) * share,
];

/** The order of a new clip point among those of its line: between the two that come before and after it along the run. */
export function orderAt(
  path: readonly Vec3[],
  clips: readonly { readonly order: number; readonly at: Vec3 }[],
  alongM: number,
): number {
  // Counted along the given order, so that a run that passes a place twice does not mix them up.
  const index = clips.filter(({ at }) => (placeNearest(path, at)?.alongM ?? 0) < alongM).length;
  const before = clips[index - 1]?.order;
  const after = clips[index]?.order;
  if (before === undefined) return after === undefined ? 1 : after - 1;
  return after === undefined ? before + 1 : (before + after) / 2;
}
