import { along, dot, subtract, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';
import type { Layout } from '../layout/types';
import { convexOf } from './convex';
import { nearestPoints } from './convex-distance';
import type { Blocker } from './free-depth';
import { hullDistance, overlapOfBodies } from './overlap';
import { type Clearance, HULL, type Mover, type Obstacle, type Scene, sceneOf } from './scene';
import type { Solid } from './solids';
import { type Motion, type Sweep, sweepThrough } from './sweep';
import { type Field, fieldTo, type Way, wayBetween } from './way';

export interface Sight {
  readonly isSeen: boolean;
  readonly blocker: Blocker | null;
}

export interface Fall {
  /** Where it lands; null when nothing catches it. */
  readonly at: Vec3 | null;
  readonly dropM: number;
  readonly blocker: Blocker | null;
}

/** A point is a segment without length. */
export interface Segment {
  readonly from: Vec3;
  readonly to: Vec3;
}

/** Free space with one interface for everything that moves through it; every answer names its blocker. */
export interface Space {
  /** Nearest thing to a segment or solid, up to cutoffM (default 0.5 m). */
  clearance(shape: Segment | Solid, mover: Mover, cutoffM?: number): Clearance;
  /** Cost of the way from anywhere to the goal over the panels that the mover passes, solids left out. */
  field(goal: Vec3, mover: Mover): Field;
  /** A way of straight legs, at most so many counted steps of search. */
  way(from: Vec3, to: Vec3, mover: Mover, steps: number): Way;
  /** Whether a straight line is free; it may end half a millimetre before the target, which lies on a surface. */
  sight(eye: Vec3, target: Vec3, mover: Mover): Sight;
  /** How far a solid goes along a straight line or about an axis. */
  sweep(shape: Solid, motion: Motion, mover: Mover): Sweep;
  /** Where something let go lands, falling against `up` (unit). */
  fall(from: Vec3, up: Vec3, mover: Mover): Fall;
}

const CUTOFF_M = 0.5;
const SIGHT_END_M = 5e-4;
const DEEPEST_FALL_M = 20;

export function createSpace(layout: Layout, hull: HullSurface | null, solids: readonly Solid[]): Space {
  const scene = sceneOf(layout, hull, solids);
  /** First stop of a line: what stands at the end of the longest free piece. */
  const firstStop = (from: Vec3, to: Vec3, mover: Mover): { share: number; blocker: Blocker } | null => {
    const line = subtract(to, from);
    const end = (t: number): Vec3 => along(from, line, t);
    if (scene.segment(from, to, mover, 1e-6).freeM > 0) return null;
    let [low, high] = [0, 1];
    while ((high - low) * Math.sqrt(dot(line, line)) > 1e-5) {
      const middle = (low + high) / 2;
      if (scene.segment(from, end(middle), mover, 1e-6).freeM > 0) low = middle;
      else high = middle;
    }
    const hit = scene.segment(from, end(high), mover, 1e-6).blocker;
    return hit ? { share: low, blocker: { ...hit, at: end(low) } } : null;
  };
  return {
    clearance: (shape, mover, cutoffM = CUTOFF_M) =>
      'type' in shape
        ? solidClearance(scene, shape, mover, cutoffM)
        : scene.segment(shape.from, shape.to, mover, cutoffM),
    field: (goal, mover) => fieldTo(scene, goal, mover),
    way: (from, to, mover, steps) => wayBetween(scene, from, to, mover, steps),
    sight(eye, target, mover) {
      const line = subtract(target, eye);
      const length = Math.sqrt(dot(line, line));
      const end = along(eye, line, Math.max(0, 1 - SIGHT_END_M / Math.max(length, SIGHT_END_M)));
      const stop = firstStop(eye, end, mover);
      return { isSeen: stop === null, blocker: stop?.blocker ?? null };
    },
    sweep: (shape, motion, mover) => sweepThrough(scene, shape, motion, mover),
    fall(from, up, mover) {
      const stop = firstStop(from, along(from, up, -DEEPEST_FALL_M), mover);
      if (!stop) return { at: null, dropM: DEEPEST_FALL_M, blocker: null };
      return { at: stop.blocker.at, dropM: stop.share * DEEPEST_FALL_M, blocker: stop.blocker };
    },
  };
}

function solidClearance(scene: Scene, shape: Solid, mover: Mover, cutoffM: number): Clearance {
  const body = convexOf(shape);
  const reach = cutoffM + mover.radiusM;
  const [low, high] = [body.low, body.high];
  const near = scene.near(
    [low[0] - reach, low[1] - reach, low[2] - reach],
    [high[0] + reach, high[1] + reach, high[2] + reach],
    mover,
  );
  let best: Clearance = { freeM: cutoffM, blocker: null };
  for (const i of near) {
    const obstacle = scene.obstacles[i] as Obstacle;
    if (obstacle.name.owner === shape.owner) continue;
    const { distanceM, onFirst } = nearestPoints(body, obstacle.body);
    const deep = distanceM > 0 ? null : overlapOfBodies(body, obstacle.body);
    const freeM = (deep ? -deep.depthM : distanceM) - mover.radiusM;
    if (freeM < best.freeM) best = { freeM, blocker: { ...obstacle.name, at: deep?.at ?? onFirst } };
  }
  if (scene.hull) {
    const free = hullDistance(scene.hull, shape, reach);
    if (free.distanceM - mover.radiusM < best.freeM)
      best = { freeM: free.distanceM - mover.radiusM, blocker: { ...HULL, at: free.at } };
  }
  return best;
}
