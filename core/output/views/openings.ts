import * as portable from '../../base/portable';
import { along, cross, dot, scale, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import { openingFrame } from '../../shape/space/ways-in';
import { circlePoints } from './curves';
import { type Primitive, project, stroke, type ViewFrame } from './drawing';

type Corner = readonly [number, number];
const CORNERS: readonly Corner[] = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
];

/**
 * The clear opening where it is seen from the front, a line where it is seen edge on; and of a hinged leaf the leaf as it
 * stands open, with the arc that its edge runs along. Left and right are those of someone who looks in from outside.
 */
export function openingLines(id: string, opening: Opening, frame: ViewFrame): Primitive[] {
  const { out, up, across } = openingFrame(opening);
  const at = (i: number, j: number): Vec3 =>
    along(along(opening.at, across, (i * opening.widthM) / 2), up, (j * opening.heightM) / 2);
  const rim = openingRim(opening);
  const drawn: Primitive[] = [
    stroke(
      `${id}/rim`,
      id,
      'opening',
      rim.map((p) => project(frame, p)),
      true,
    ),
  ];
  if (opening.how !== 'hinged' || !opening.swing) return drawn;
  const { hingeAlong, angleDeg } = opening.swing;
  const upright = hingeAlong === 'left' || hingeAlong === 'right';
  const side = hingeAlong === 'right' || hingeAlong === 'top' ? 1 : -1;
  const hinge = upright ? at(side, 0) : at(0, side);
  const free = upright ? at(-side, 0) : at(0, -side);
  const axis = upright ? up : across;
  const arm: Vec3 = [free[0] - hinge[0], free[1] - hinge[1], free[2] - hinge[2]];
  // Whichever sense carries the free edge outwards first.
  const sense = dot(cross(axis, arm), out) > 0 ? 1 : -1;
  const swung = (deg: number): Vec3 => along(hinge, turnedAbout(axis, sense * deg, arm), 1);
  const steps = Math.max(4, Math.ceil(angleDeg / 5));
  const arc = Array.from({ length: steps + 1 }, (_, k) => swung((angleDeg * k) / steps));
  return [
    ...drawn,
    stroke(
      `${id}/leaf`,
      id,
      'openingSwing',
      [hinge, swung(angleDeg)].map((p) => project(frame, p)),
    ),
    stroke(
      `${id}/arc`,
      id,
      'openingSwing',
      arc.map((p) => project(frame, p)),
    ),
  ];
}

/** The edge of the clear opening, boat frame. */
export function openingRim(opening: Opening): readonly Vec3[] {
  const { out, up, across } = openingFrame(opening);
  if (opening.shape === 'round') return circlePoints(opening.at, out, opening.widthM / 2);
  return CORNERS.map(([i, j]) =>
    along(along(opening.at, across, (i * opening.widthM) / 2), up, (j * opening.heightM) / 2),
  );
}

/** A vector turned about a unit axis, right-handed. */
function turnedAbout(axis: Vec3, deg: number, v: Vec3): Vec3 {
  const c = portable.cos((deg * Math.PI) / 180);
  const s = portable.sin((deg * Math.PI) / 180);
  const parallel = scale(axis, dot(axis, v) * (1 - c));
  return along(along(parallel, v, c), cross(axis, v), s);
}
