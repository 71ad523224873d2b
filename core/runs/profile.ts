import * as portable from '../base/portable';
import { cross, dot, norm, subtract, unit, type Vec3 } from '../base/vec';
import type { WaterPlane } from '../shape/hull/types';
import { type Arc, arcSweep, pointOnArc, primLength } from './routing/prims';
import type { Prim } from './routing/types';

/** A point of a run's unrolled profile: metres along it, metres above the water, place in the boat. */
export interface ProfilePoint {
  readonly alongM: number;
  readonly heightM: number;
  readonly at: Vec3;
}

/**
 * Heights along a run at any attitude: ends of the pieces and the exact extremes of the arcs, so that the height is monotonous between
 * neighbours.
 */
export function unrolledProfile(prims: readonly Prim[], water: WaterPlane): ProfilePoint[] {
  const up = unit(water.up);
  const level = water.levelM / norm(water.up);
  const height = (p: Vec3) => dot(p, up) - level;
  const points: ProfilePoint[] = [];
  let alongM = 0;
  const put = (s: number, at: Vec3) => points.push({ alongM: s, heightM: height(at), at });
  prims.forEach((prim, i) => {
    if (i === 0) put(0, prim.from);
    if (prim.kind === 'arc')
      for (const angle of extremeAngles(prim, up)) put(alongM + angle * prim.radius, pointOnArc(prim, angle));
    alongM += primLength(prim);
    put(alongM, prim.to);
  });
  return points;
}

/** Angles inside an arc where its height is extreme: tan(angle) = (b.up) / (a.up). */
function extremeAngles(arc: Arc, up: Vec3): number[] {
  const a = subtract(arc.from, arc.centre);
  const b = cross(arc.normal, a);
  const first = portable.atan2(dot(b, up), dot(a, up));
  const sweep = arcSweep(arc);
  return [first - Math.PI, first, first + Math.PI, first + 2 * Math.PI].filter(
    (angle) => angle > 1e-9 && angle < sweep - 1e-9,
  );
}

export interface Crest extends ProfilePoint {
  /** How far the crest stands above the higher of the lowest points before and behind it: air up to here is trapped. */
  readonly trappedM: number;
}

/** The worst trapped crest: greatest height minus the higher of the two lowest points on either side; null without any. */
export function trappedCrest(profile: readonly ProfilePoint[]): Crest | null {
  const lowestAfter: number[] = [];
  let low = Number.POSITIVE_INFINITY;
  for (let i = profile.length - 1; i >= 0; i--) {
    low = Math.min(low, profile[i]?.heightM ?? low);
    lowestAfter[i] = low;
  }
  let worst: Crest | null = null;
  let lowestBefore = Number.POSITIVE_INFINITY;
  profile.forEach((point, i) => {
    lowestBefore = Math.min(lowestBefore, point.heightM);
    const trappedM = point.heightM - Math.max(lowestBefore, lowestAfter[i] ?? point.heightM);
    if (trappedM > 1e-9 && (!worst || trappedM > worst.trappedM + 1e-12)) worst = { ...point, trappedM };
  });
  return worst;
}
