import * as portable from '../../base/portable';
import {
  along,
  cross,
  directionInBoat,
  dot,
  norm,
  type Pose,
  pointInBoat,
  radians,
  squareTo,
  unit,
  type Vec3,
} from '../../base/vec';
import type { Thing } from '../../boat/schema/boat';
import { segmentToSolid } from '../../shape/space/kernel';
import type { Solid } from '../../shape/space/solids';

export type Handle = NonNullable<NonNullable<Thing['valve']>['handle']>;

/** Nearer than this to a quarter about the axis, a direction that is said is the axis itself (cosine). */
const IS_AXIS = 0.9;
const STEP_DEG = 3;
/** How fine the free length of a lever is told, metres. */
const FINE_M = 2.5e-4;

export interface Swing {
  /** How long a lever could be and still make its turn. As far as was looked, where nothing is in the way. */
  readonly freeM: number;
  /** What stops it first; null where nothing does. */
  readonly blocker: Solid | null;
  readonly at: Vec3;
}

/**
 * Room for the lever of a valve: the distance from its hub to what stands nearest in the sector that it sweeps, measured along the lever.
 * Where nobody knows which way the lever points, the best sector counts. Looked for as far as `capM`.
 */
export function leverRoom(handle: Handle, pose: Pose, solids: readonly Solid[], capM: number): Swing {
  const hub = pointInBoat(pose, handle.at);
  const said = handle.direction ? unit(handle.direction) : null;
  const localAxis = unit(handle.axis ?? [0, 0, 1]);
  const isAxis = said !== null && handle.axis === undefined && Math.abs(dot(said, localAxis)) > IS_AXIS;
  const axis = directionInBoat(pose, localAxis);
  const flat = said && !isAxis ? along(said, localAxis, -dot(said, localAxis)) : null;
  const isKnown = flat !== null && norm(flat) > 0.1;
  const zero = isKnown ? directionInBoat(pose, unit(flat)) : squareTo(axis);
  const quarter = cross(axis, zero);
  const ray = (deg: number): Ray => freeAlong(hub, towards(zero, quarter, deg), solids, capM);
  const steps = Math.max(1, Math.ceil(Math.abs(handle.swingDeg) / STEP_DEG));
  const stepDeg = handle.swingDeg / steps;
  const worstFrom = (rays: readonly Ray[], start: number): Ray =>
    Array.from({ length: steps + 1 }, (_, k) => rays[(start + k) % rays.length] as Ray).reduce((worst, one) =>
      one.freeM < worst.freeM - 1e-9 ? one : worst,
    );
  if (isKnown) {
    const rays = Array.from({ length: steps + 1 }, (_, k) => ray(k * stepDeg));
    return worstFrom(rays, 0);
  }
  const around = Array.from({ length: Math.round(360 / Math.max(1e-6, Math.abs(stepDeg))) }, (_, k) =>
    ray(k * stepDeg),
  );
  return around
    .map((_, start) => worstFrom(around, start))
    .reduce((best, one) => (one.freeM > best.freeM + 1e-9 ? one : best));
}

type Ray = Swing;

const towards = (zero: Vec3, quarter: Vec3, deg: number): Vec3 => {
  const angle = radians(deg);
  return along(
    [zero[0] * portable.cos(angle), zero[1] * portable.cos(angle), zero[2] * portable.cos(angle)],
    quarter,
    portable.sin(angle),
  );
};

/** How far a thin lever goes from its hub before it meets something. */
function freeAlong(hub: Vec3, way: Vec3, solids: readonly Solid[], capM: number): Ray {
  let freeM = capM;
  let blocker: Solid | null = null;
  for (const solid of solids) {
    const isFree = (lengthM: number): boolean => segmentToSolid(hub, along(hub, way, lengthM), solid, 1) > 1e-7;
    if (isFree(freeM)) continue;
    let [low, high] = [0, freeM];
    while (high - low > FINE_M) {
      const middle = (low + high) / 2;
      if (isFree(middle)) low = middle;
      else high = middle;
    }
    freeM = low;
    blocker = solid;
  }
  return { freeM, blocker, at: along(hub, way, freeM) };
}
