import type { Vec3 } from '../base/vec';
import type { Blocker } from '../shape/space/free-depth';
import type { Facts } from './facts';
import type { GradeShare } from './finding';

/** How well the place of what stops something is known along the way there, a unit vector. */
export function gradesOfBlocker(
  { id, owner, layer, at }: Blocker,
  way: Vec3,
  facts: Pick<Facts, 'gradeOfHull' | 'gradeOfWall' | 'gradesAlong'>,
): readonly GradeShare[] {
  if (layer === 'hull') return [facts.gradeOfHull(at)];
  return layer === 'wall' ? [facts.gradeOfWall(id)] : facts.gradesAlong(owner, way);
}
