import * as portable from '../../base/portable';
import {
  add,
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
import type { HullSurface } from '../../shape/hull/types';
import { HULL } from '../../shape/space/free-depth';
import { type AnySolid, segmentToSolid } from '../../shape/space/kernel';
import type { CylinderSolid, Solid } from '../../shape/space/solids';
import { byCount, type Met, type Named, obstructionsIn } from './in-the-way';
import type { Obstruction } from './reach/types';

export type Handle = NonNullable<NonNullable<Thing['valve']>['handle']>;

/** Nearer than this to a quarter about the axis, a direction that is said is the axis itself (cosine). */
const IS_AXIS = 0.9;
const STEP_DEG = 3;
/** How fine the free length of a lever is told, metres. */
const FINE_M = 2.5e-4;

export interface Swing<S> {
  /** How long a lever could be and still make its turn. As far as was looked, where nothing is in the way. */
  readonly freeM: number;
  /** What stops it first; null where nothing does. */
  readonly blocker: S | null;
  readonly at: Vec3;
}

/**
 * Room for the lever of a valve: the distance from its hub to what stands nearest in the sector that it sweeps, measured along the lever.
 * Where nobody knows which way the lever points, the best sector counts. Looked for as far as `capM`.
 */
export function leverRoom<S extends AnySolid>(
  handle: Handle,
  pose: Pose,
  solids: readonly S[],
  capM: number,
): Swing<S> {
  const { hub, zero, quarter, isKnown } = arcOf(handle, pose);
  const ray = (deg: number): Swing<S> => freeAlong(hub, towards(zero, quarter, deg), solids, capM);
  const steps = Math.max(1, Math.ceil(Math.abs(handle.swingDeg) / STEP_DEG));
  const stepDeg = handle.swingDeg / steps;
  const worstFrom = (rays: readonly Swing<S>[], start: number): Swing<S> =>
    Array.from({ length: steps + 1 }, (_, k) => rays[(start + k) % rays.length] as Swing<S>).reduce((worst, one) =>
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

/** Where a lever turns: from `zero` towards `quarter`; of one whose direction nobody knows `zero` is any. */
interface LeverArc {
  readonly hub: Vec3;
  readonly zero: Vec3;
  readonly quarter: Vec3;
  readonly isKnown: boolean;
}

function arcOf(handle: Handle, pose: Pose): LeverArc {
  const said = handle.direction ? unit(handle.direction) : null;
  const localAxis = unit(handle.axis ?? [0, 0, 1]);
  const isAxis = said !== null && handle.axis === undefined && Math.abs(dot(said, localAxis)) > IS_AXIS;
  const axis = directionInBoat(pose, localAxis);
  const flat = said && !isAxis ? along(said, localAxis, -dot(said, localAxis)) : null;
  const isKnown = flat !== null && norm(flat) > 0.1;
  const zero = isKnown ? directionInBoat(pose, unit(flat)) : squareTo(axis);
  return { hub: pointInBoat(pose, handle.at), zero, quarter: cross(axis, zero), isKnown };
}

export interface LeverSwing {
  readonly isFree: boolean;
  /** From where it stands open, or the longest free arc where nobody knows how it stands; to 0.01 degrees. */
  readonly freeDeg: number;
  readonly neededDeg: number;
  /** What stands in its turn, by the share of the turn that it stops. */
  readonly blockers: readonly Met[];
  readonly swept: readonly Solid[];
}

/** Thin levers are laid this far from one another; what is thinner than the step at the tip may be missed, degrees. */
const LAID_EVERY_DEG = 1;
const FINE_DEG = 0.01;
const DRAWN_EVERY_DEG = 15;
const LEVER_RADIUS_M = 0.006;

/**
 * How far the lever of a valve turns before it meets something, from where it stands open; where nobody knows which way it points, the
 * longest arc that is free anywhere round its axis. What the hub itself stands in or touches holds it and is in no way.
 */
export function leverSwing(
  handle: Handle,
  pose: Pose,
  around: readonly Obstruction[],
  hull: HullSurface | null = null,
): LeverSwing {
  const { hub, zero, quarter, isKnown } = arcOf(handle, pose);
  const { leverM } = handle;
  const neededDeg = Math.abs(handle.swingDeg);
  const sign = handle.swingDeg < 0 ? -1 : 1;
  const near = obstructionsIn(around, add(hub, [-leverM, -leverM, -leverM]), add(hub, [leverM, leverM, leverM])).filter(
    ({ solid }) => {
      const gapM = segmentToSolid(hub, hub, solid, leverM);
      return gapM > TOUCHES_M && gapM < leverM;
    },
  );
  const skin = hull && hull.clearance(hub, hub, TOUCHES_M) >= TOUCHES_M ? hull : null;
  const tipAt = (deg: number): Vec3 => along(hub, towards(zero, quarter, sign * deg), leverM);
  const metAt = (deg: number): readonly Named[] => {
    const tip = tipAt(deg);
    const met = near.filter(({ solid }) => segmentToSolid(hub, tip, solid, 1) <= TOUCHES_M);
    return skin && skin.clearance(hub, tip, TOUCHES_M) <= 0 ? [...met, HULL] : met;
  };
  const isFreeAt = (deg: number): boolean => metAt(deg).length === 0;
  /** Where it is stopped between an angle that is free and one that is not. */
  const between = (freeDeg: number, stoppedDeg: number): number => {
    let [free, stopped] = [freeDeg, stoppedDeg];
    while (Math.abs(stopped - free) > FINE_DEG) {
      const middle = (free + stopped) / 2;
      if (isFreeAt(middle)) free = middle;
      else stopped = middle;
    }
    return free;
  };
  const count = Math.max(1, Math.ceil((isKnown ? neededDeg : FULL_DEG) / LAID_EVERY_DEG));
  const stepDeg = (isKnown ? neededDeg : FULL_DEG) / count;
  const stops = Array.from({ length: isKnown ? count + 1 : count }, (_, k) => metAt(k * stepDeg));
  const isFree = stops.map((met) => met.length === 0);
  let [from, to] = [0, 0];
  if (isFree.every(Boolean)) to = isKnown ? neededDeg : FULL_DEG;
  else if (isKnown) {
    const first = isFree.indexOf(false);
    to = first === 0 ? 0 : between((first - 1) * stepDeg, first * stepDeg);
  } else {
    for (let start = 0; start < count; start += 1) {
      if (!isFree[start] || isFree[(start + count - 1) % count]) continue;
      let length = 1;
      while (isFree[(start + length) % count]) length += 1;
      const arc = [
        between(start * stepDeg, (start - 1) * stepDeg),
        between((start + length - 1) * stepDeg, (start + length) * stepDeg),
      ] as const;
      if (arc[1] - arc[0] > to - from + FINE_DEG) [from, to] = arc;
    }
  }
  const freeDeg = to - from;
  const usedDeg = Math.min(freeDeg, neededDeg);
  const begin = isKnown ? 0 : from + (freeDeg - usedDeg) / 2;
  const drawn = Math.max(1, Math.ceil(usedDeg / DRAWN_EVERY_DEG));
  const isDone = freeDeg >= neededDeg - 1e-9;
  return {
    isFree: isDone,
    freeDeg,
    neededDeg,
    blockers: isDone ? [] : byCount(stops),
    swept: Array.from(
      { length: drawn + 1 },
      (_, k): CylinderSolid => ({
        type: 'cylinder',
        id: 'lever',
        owner: 'lever',
        label: '',
        layer: 'sweep',
        from: hub,
        to: tipAt(begin + (usedDeg * k) / drawn),
        radius: LEVER_RADIUS_M,
      }),
    ),
  };
}
const FULL_DEG = 360;
const TOUCHES_M = 1e-7;

const towards = (zero: Vec3, quarter: Vec3, deg: number): Vec3 => {
  const angle = radians(deg);
  return along(
    [zero[0] * portable.cos(angle), zero[1] * portable.cos(angle), zero[2] * portable.cos(angle)],
    quarter,
    portable.sin(angle),
  );
};

/** How far a thin lever goes from its hub before it meets something. */
function freeAlong<S extends AnySolid>(hub: Vec3, way: Vec3, solids: readonly S[], capM: number): Swing<S> {
  let freeM = capM;
  let blocker: S | null = null;
  for (const solid of solids) {
    const isFree = (lengthM: number): boolean => segmentToSolid(hub, along(hub, way, lengthM), solid, 1) > TOUCHES_M;
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
