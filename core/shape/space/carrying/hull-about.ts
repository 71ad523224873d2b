import { add, scale, type Vec3 } from '../../../base/vec';
import type { HullSurface } from '../../hull/types';
import { TOUCH_M } from '../contact';
import { fromFrame, type WayFrame } from './way-frame';

/** The path of a body along the hull is looked at no farther apart (metres). */
const LOOK_M = 0.05;
const BISECT_M = 5e-4;

/** The hull about an opening, asked in the coordinates of the opening. */
export class HullAbout {
  constructor(
    private readonly hull: HullSurface | null,
    private readonly frame: WayFrame,
    /** It bounds only what is inside the opening. */
    private readonly insideOnly: boolean,
  ) {}

  get isThere(): boolean {
    return this.hull !== null;
  }

  /** Free distance of a segment, at most the cut-off. */
  free(a: Vec3, b: Vec3, cutoffM: number): number {
    const { hull, frame } = this;
    if (!hull) return cutoffM;
    let [p, q] = [a, b];
    if (this.insideOnly) {
      if (p[2] >= 0 && q[2] >= 0) return cutoffM;
      const cut = (from: Vec3, to: Vec3): Vec3 => {
        const t = from[2] / (from[2] - to[2]);
        return [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t, 0];
      };
      if (p[2] > 0) p = cut(p, q);
      else if (q[2] > 0) q = cut(q, p);
    }
    return hull.clearance(fromFrame(frame, p), fromFrame(frame, q), cutoffM);
  }

  /** How far the lines about a body go along a unit direction before they meet it, at most `mostM`; to half a millimetre. */
  travel(lines: readonly (readonly [Vec3, Vec3])[], direction: Vec3, mostM: number): number {
    const tips = [...new Set(lines.flat())];
    const by = (p: Vec3, t: number): Vec3 => add(p, scale(direction, t));
    const isFree = (from: number, to: number): boolean =>
      tips.every((p) => this.free(by(p, from), by(p, to), 0) >= -TOUCH_M) &&
      lines.every(([a, b]) => this.free(by(a, to), by(b, to), 0) >= -TOUCH_M);
    const steps = Math.max(1, Math.ceil(mostM / LOOK_M));
    for (let n = 0; n < steps; n += 1) {
      const [from, to] = [(mostM * n) / steps, (mostM * (n + 1)) / steps];
      if (isFree(from, to)) continue;
      let [low, high] = [from, to];
      while (high - low > BISECT_M) {
        const middle = (low + high) / 2;
        if (isFree(from, middle)) low = middle;
        else high = middle;
      }
      return low;
    }
    return mostM;
  }
}
