import { between } from '../assess/flooding/falling';
import type { Vec3 } from '../base/vec';
import type { Facts } from './facts';

/** Whether something turns aside water that falls from one place to another: a thing but those named, or the border of two compartments. */
export function isSheltered(from: Vec3, to: Vec3, except: readonly string[], facts: Facts): boolean {
  const low: Vec3 = [Math.min(from[0], to[0]), Math.min(from[1], to[1]), Math.min(from[2], to[2])];
  const high: Vec3 = [Math.max(from[0], to[0]), Math.max(from[1], to[1]), Math.max(from[2], to[2])];
  const around = {
    layout: facts.layout(),
    openings: facts.openings(),
    solids: facts.solidsIn(low, high),
    ignores: new Set(except),
  };
  return between(from, to, around) !== null;
}
