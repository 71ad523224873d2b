import { along, dot, radians, subtract, unit, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import type { HullSurface } from '../../shape/hull/types';
import type { Blocker } from '../../shape/space/free-depth';
import { leafOf } from '../../shape/space/opened-walls';
import { overlapWithHull } from '../../shape/space/overlap';
import type { BoxSolid, Solid } from '../../shape/space/solids';
import { sweepPast, turnedSolid } from '../../shape/space/sweep';
import { OWN_WALL_COS, OWN_WALL_OUTSIDE_M, openingFrame } from '../../shape/space/ways-in';
import { inTheWay } from './in-the-way';
import type { Obstruction } from './reach/types';

export interface LidSwing {
  /** How far it opens: as far as it is said to, unless something is met before. */
  readonly angleDeg: number;
  readonly wantedDeg: number;
  /** Null where it opens all the way. */
  readonly blocker: Blocker | null;
  /** The leaf as it then stands in the way of other things. */
  readonly standing: Solid;
  /** The space that it swings through, as boxes to be drawn. */
  readonly swept: readonly Solid[];
}

/** A leaf stops this far short of what it meets, degrees: it stands clear of it. */
const CLEAR_DEG = 0.1;
/** Leaves drawn of a swing are this far from one another, degrees. */
const DRAWN_EVERY_DEG = 15;

/**
 * How far a hinged lid or door opens before its leaf meets something; null of an opening that is not hinged, or whose hinge side is not
 * said. The wall that it is hung on does not stop it, nor does what belongs to the opening.
 */
export function lidSwing(
  id: string,
  opening: Opening,
  around: readonly Obstruction[],
  hull: HullSurface | null,
): LidSwing | null {
  if (opening.how !== 'hinged' || !opening.swing) return null;
  const { hingeAlong, angleDeg: wantedDeg } = opening.swing;
  const shut = leafOf(id, opening, { hingeAlong, angleDeg: 0 });
  const [leaf, outside, axis] = shut.axes;
  // On the inner face of the shut leaf, along its hinge side; right-handed about it the leaf goes outwards.
  const about = along(along(shut.centre, leaf, -shut.half[0]), outside, -shut.half[1]);
  const at = (angleDeg: number): Solid => turnedSolid(shut, about, axis, radians(angleDeg));
  const others = around.filter((o) => o.owner !== id && !isHungOn(o, opening)).map(inTheWay);
  const { free, blocker } = sweepPast(others, hullAbout(shut, hull), shut, {
    kind: 'turn',
    about,
    axis,
    angleDeg: wantedDeg,
  });
  const angleDeg = blocker ? Math.max(0, free - CLEAR_DEG) : wantedDeg;
  const leaves = Math.max(1, Math.ceil(angleDeg / DRAWN_EVERY_DEG));
  return {
    angleDeg,
    wantedDeg,
    blocker,
    standing: at(angleDeg),
    swept: Array.from({ length: leaves + 1 }, (_, k) => at((angleDeg * k) / leaves)),
  };
}

/** A wall in the plane of the opening. */
function isHungOn({ solid }: Obstruction, opening: Opening): boolean {
  if (solid.type !== 'plate') return false;
  const { out } = openingFrame(opening);
  const normal = unit(solid.normal);
  return (
    Math.abs(dot(normal, out)) >= OWN_WALL_COS &&
    Math.abs(dot(subtract(opening.at, solid.polygon[0] as Vec3), normal)) <= OWN_WALL_OUTSIDE_M
  );
}

/** A leaf drawn in the skin of the hull is hung there, whatever the drawing says: the hull does not stop it. */
const hullAbout = (shut: BoxSolid, hull: HullSurface | null): HullSurface | null =>
  hull && overlapWithHull(shut, hull) === null ? hull : null;
