import { dot, type Vec3 } from '../../base/vec';
import { heeled } from '../../shape/hull/attitude';
import type { HullSurface, WaterPlane } from '../../shape/hull/types';

/** Greatest heel of a curve, degrees, and the steps in which a hull is floated for it. */
export const GREATEST_HEEL_DEG = 45;
const FLOAT_STEP_DEG = 2.5;
/** Angles at which a curve is drawn, and its crossings looked for. */
const CURVE_STEP_DEG = 2.5;

/** Waters at any heel from 45 degrees to port to 45 to starboard. */
export interface HeelingWaters {
  /** Heel in degrees, + with starboard down. */
  at(heelDeg: number): WaterPlane;
}

/**
 * The water about a boat at any heel: the plane turns exactly, its level keeps the displacement at the angles of the curve and follows a cubic
 * through four neighbours between (within 0.2 mm of floating the hull anew, a chine that comes out of the water included). Without a hull it turns about the centreline at its level.
 */
export function heelingWaters(upright: WaterPlane, hull: HullSurface | null): HeelingWaters {
  const tackOf = (heelDeg: number): 'port' | 'starboard' => (heelDeg < 0 ? 'port' : 'starboard');
  const turned = (heelDeg: number): WaterPlane => heeled(upright, Math.abs(heelDeg), tackOf(heelDeg), null);
  if (!hull) return { at: turned };
  const knots = 2 * (GREATEST_HEEL_DEG / FLOAT_STEP_DEG) + 1;
  const lifts = Array.from({ length: knots }, (_, i) => {
    const heelDeg = i * FLOAT_STEP_DEG - GREATEST_HEEL_DEG;
    const floating = heeled(upright, Math.abs(heelDeg), tackOf(heelDeg), hull);
    return floating.levelM - turned(heelDeg).levelM;
  });
  return {
    at(heelDeg) {
      const place = (heelDeg + GREATEST_HEEL_DEG) / FLOAT_STEP_DEG;
      const { up, levelM } = turned(heelDeg);
      return { up, levelM: levelM + cubicAt(lifts, place) };
    },
  };
}

/** The cubic through four neighbouring values, at a place counted in their steps. */
function cubicAt(values: readonly number[], place: number): number {
  const first = Math.max(0, Math.min(values.length - 4, Math.floor(place) - 1));
  const t = place - first;
  const [a = 0, b = 0, c = 0, d = 0] = values.slice(first, first + 4);
  return (
    (-a * (t - 1) * (t - 2) * (t - 3)) / 6 +
    (b * t * (t - 2) * (t - 3)) / 2 -
    (c * t * (t - 1) * (t - 3)) / 2 +
    (d * t * (t - 1) * (t - 2)) / 6
  );
}

/** How deep a point lies below the water, metres; negative above it. */
export const depthBelow = (water: WaterPlane, point: Vec3): number => water.levelM - dot(water.up, point);

export interface Immersion {
  /** [heel, + with starboard down, degrees; depth, metres], from port to starboard. */
  readonly curve: readonly (readonly [number, number])[];
  readonly uprightM: number;
  /** Least heel at which the point crosses the water with port down, and with starboard down; null when it does not up to 45 degrees. */
  readonly crossesDeg: { readonly port: number | null; readonly starboard: number | null };
}

/** Depth of a point, boat frame, over heel to either side, with where it crosses the water. */
export function immersionOf(point: Vec3, waters: HeelingWaters): Immersion {
  const depthAt = (heelDeg: number): number => depthBelow(waters.at(heelDeg), point);
  const steps = Math.round(GREATEST_HEEL_DEG / CURVE_STEP_DEG);
  const curve = Array.from({ length: 2 * steps + 1 }, (_, i): readonly [number, number] => {
    const heelDeg = (i - steps) * CURVE_STEP_DEG;
    return [heelDeg, depthAt(heelDeg)];
  });
  const crossing = (side: 1 | -1): number | null => {
    const isUnder = depthAt(0) > 0;
    for (let i = 1; i <= steps; i++) {
      const heelDeg = i * CURVE_STEP_DEG;
      if (depthAt(side * heelDeg) > 0 === isUnder) continue;
      let [before, after] = [heelDeg - CURVE_STEP_DEG, heelDeg];
      while (after - before > 1e-6) {
        const middle = (before + after) / 2;
        if (depthAt(side * middle) > 0 === isUnder) before = middle;
        else after = middle;
      }
      return (before + after) / 2;
    }
    return null;
  };
  return { curve, uprightM: depthAt(0), crossesDeg: { port: crossing(-1), starboard: crossing(1) } };
}
