import { along, subtract, type Vec3 } from '../../base/vec';
import type { Layout } from '../../shape/layout/types';
import type { AnySolid } from '../../shape/space/kernel';

/** What lies in other spaces than those that an arm may be in stands behind their walls: the arm meets the wall before. */

/** Points of a capsule are looked at this far apart. */
const LOOK_M = 0.1;

/** Whether a solid may be in one of the spaces: one that reaches through a wall is, and so is one in undrawn space. */
export function isIn(spaces: ReadonlySet<string>, solid: AnySolid, layout: Layout): boolean {
  const isThere = (p: Vec3): boolean => {
    const space = layout.compartmentAt(p);
    return space === null || spaces.has(space);
  };
  if (solid.type !== 'capsule') return true;
  const { from, to } = solid;
  const span = subtract(to, from);
  const steps = Math.max(1, Math.ceil(Math.max(...span.map(Math.abs)) / LOOK_M));
  for (let k = 0; k <= steps; k += 1) if (isThere(along(from, span, k / steps))) return true;
  return false;
}

/** Whether a wall, by its panel or its compartment, bounds one of the spaces. */
export function bounds(spaces: ReadonlySet<string>, owner: string, { panels }: Layout): boolean {
  const panel = panels[owner];
  return panel ? panel.between.some((id) => spaces.has(id)) : spaces.has(owner) || !owner.includes('|');
}
