import { distance, type Vec3 } from '../base/vec';
import { structureOf } from '../runs/routing/structure';
import { nearnessOf } from '../runs/routing/wishes/nearness';
import { FACE_M } from '../runs/routing/wishes/prices';
import { HANGING_FULL_M } from '../runs/routing/wishes/wishes';
import { SolidPack } from '../shape/space/kernel';
import type { RunPoint } from './along-run';
import type { Facts } from './facts';

/** Length that a clip holds. */
const CLIP_M = 0.012;

/** Whether a bracket could hold a run at its points: a wall, the hull, or a thing large enough to screw a clip to is within reach. */
export function heldAlong(
  points: readonly RunPoint[],
  radiusM: number,
  clips: readonly Vec3[],
  facts: Facts,
  except: readonly string[] = [],
): readonly boolean[] {
  const built = builtHolder(radiusM, clips, facts);
  const held = points.map(({ at }) => built(at));
  // Things are asked for about what nothing built holds alone: a move elsewhere along the run is then no concern of it.
  const free = points.filter((_, k) => !held[k]);
  if (free.length === 0) return held;
  const faces = faceHolder(free, radiusM, facts, except);
  return points.map(({ at }, k) => held[k] === true || faces(at));
}

/** The same, asked point by point: for whoever needs few of them. */
export function holderOf(
  points: readonly RunPoint[],
  radiusM: number,
  clips: readonly Vec3[],
  facts: Facts,
  except: readonly string[] = [],
): (at: Vec3) => boolean {
  const built = builtHolder(radiusM, clips, facts);
  const faces = faceHolder(points, radiusM, facts, except);
  return (at) => built(at) || faces(at);
}

/** Walls, the hull and clip points. */
function builtHolder(radiusM: number, clips: readonly Vec3[], facts: Facts): (at: Vec3) => boolean {
  const nearness = nearnessOf(structureOf(facts.layout()), facts.hull());
  const reach = HANGING_FULL_M + radiusM;
  return ([x, y, z]) => nearness.at(x, y, z) <= reach || clips.some((clip) => distance(clip, [x, y, z]) < CLIP_M);
}

function faceHolder(
  points: readonly RunPoint[],
  radiusM: number,
  facts: Facts,
  except: readonly string[],
): (at: Vec3) => boolean {
  const faces = facesNear(points, facts, except);
  const reach = HANGING_FULL_M + radiusM;
  return ([x, y, z]) => {
    for (let k = 0; k < faces.size; k += 1) if (faces.distance(k, x, y, z, x, y, z, reach) < reach) return true;
    return false;
  };
}

/** Things beside the run that are large enough to screw a clip to. */
function facesNear(points: readonly RunPoint[], facts: Facts, except: readonly string[]): SolidPack {
  const reach = 2 * HANGING_FULL_M;
  const edge = (axis: 0 | 1 | 2, pick: (a: number, b: number) => number, start: number): number =>
    points.reduce((so, { at }) => pick(so, at[axis]), start);
  const low = (axis: 0 | 1 | 2): number => edge(axis, Math.min, Number.POSITIVE_INFINITY) - reach;
  const high = (axis: 0 | 1 | 2): number => edge(axis, Math.max, Number.NEGATIVE_INFINITY) + reach;
  const near = facts.solidsIn([low(0), low(1), low(2)], [high(0), high(1), high(2)]);
  const all = new SolidPack(near.filter(({ owner }) => !except.includes(owner)));
  return new SolidPack(
    all.solids.filter((_, k) => {
      const sides = [0, 1, 2].map(
        (axis) => (all.bounds[6 * k + 3 + axis] as number) - (all.bounds[6 * k + axis] as number),
      );
      sides.sort((a, b) => a - b);
      return (sides[1] as number) >= FACE_M;
    }),
  );
}
