import { inOrder } from '../../base/order';
import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import { add, along, cosSin, cross, dot, scale, subtract, type Vec2, type Vec3 } from '../../base/vec';
import type { Opening } from '../../boat/schema/boat';
import { DEFAULT_THICKNESS_M } from '../layout/bind';
import { frameOf, fromPlane, intersectConvex, onPlane, type Side, subtractConvex } from '../layout/polygon';
import type { Layout, Wall } from '../layout/types';
import { roomPlate } from './convex';
import { type AnySolid, boundsOf } from './kernel';
import type { BoxSolid } from './solids';
import { wallsNear } from './walls-near';
import { OWN_WALL_COS, OWN_WALL_INSIDE_M, OWN_WALL_OUTSIDE_M, openingFrame } from './ways-in';

/** What an arm, an eye, a tool or a part may meet. Owner of a wall: its panel, or the compartment that it bounds; of a lid: its opening. */
export interface Obstruction {
  readonly owner: string;
  readonly label: string;
  readonly solid: AnySolid;
}

/** Sides of the polygon within a round opening: at a diameter of 0.5 m no more than 1.2 mm short of it. */
const ROUND_SIDES = 32;
/** What is left of a wall beside an opening and is no larger than this is dust (m2). */
const DUST_M2 = 1e-7;
/** An overlap of wall and opening that is no larger cuts nothing (m2). */
const TOUCH_M2 = 1e-6;

const WHOLE = new WeakMap<Wall, Obstruction>();

/**
 * Every wall near a box as plates, with the clear area of the openings cut out of the walls that they are in, and the lids of those that
 * are hinged standing open as their `swing` says. What slides, lifts out or is drawn aside leaves nothing. A rectangle is cut out exactly;
 * of a round opening the polygon whose corners lie on it, which is all within it. Walls bound room as everywhere: a panel fills the gap
 * between two outlines, towards undrawn space the drawn face is the bound.
 */
export function openedWalls(
  layout: Layout,
  openings: Readonly<Record<string, Opening>>,
  low: Vec3,
  high: Vec3,
): readonly Obstruction[] {
  const opened = inOrder(openings).map(([id, opening]) => ({ id, opening, rim: clearRim(opening) }));
  const walls = wallsNear(layout, low, high).flatMap(({ wall }) => {
    const cutting = opened.filter(({ opening, rim }) => isCutInto(opening, rim, wall, layout));
    return cutting.length === 0
      ? [wholeWall(wall, layout)]
      : cutWall(
          wall,
          cutting.map(({ opening, rim }) => ({ out: openingFrame(opening).out, rim })),
          layout,
        );
  });
  const lids = opened.flatMap(({ id, opening }) => {
    const lid = openLid(id, opening);
    return lid && meets(lid.solid, low, high) ? [lid] : [];
  });
  return [...walls, ...lids];
}

/** Outline of the clear area, counter-clockwise seen from outside; of a round one a polygon within it. */
function clearRim(opening: Opening): readonly Vec3[] {
  const { up, across } = openingFrame(opening);
  const at = ([i, j]: Vec2): Vec3 =>
    along(along(opening.at, across, (i * opening.widthM) / 2), up, (j * opening.heightM) / 2);
  if (opening.shape !== 'round') return [at([-1, -1]), at([1, -1]), at([1, 1]), at([-1, 1])];
  return Array.from({ length: ROUND_SIDES }, (_, k) => {
    const angle = (2 * Math.PI * k) / ROUND_SIDES;
    return at([portable.cos(angle), portable.sin(angle)]);
  });
}

/** The clear area as it lies in the plane of a wall, seen along the opening's axis. */
function holeIn(wall: Wall, plate: { readonly polygon: readonly Vec3[] }, out: Vec3, rim: readonly Vec3[]): Vec3[] {
  const on = plate.polygon[0] as Vec3;
  const slope = dot(out, wall.normal);
  return rim.map((p) => along(p, out, dot(subtract(on, p), wall.normal) / slope));
}

function isCutInto(opening: Opening, rim: readonly Vec3[], wall: Wall, layout: Layout): boolean {
  const { out } = openingFrame(opening);
  if (Math.abs(dot(wall.normal, out)) < OWN_WALL_COS) return false;
  const plate = roomPlate(wall, layout.panels);
  const frame = frameOf(wall.normal, plate.polygon[0] as Vec3);
  const flat = (ring: readonly Vec3[]): Vec2[] => anticlockwise(ring.map((p) => onPlane(frame, p)));
  const shared = intersectConvex(flat(plate.polygon), flat(holeIn(wall, plate, out, rim)));
  if (shared.length < 3 || signedArea(shared) < TOUCH_M2) return false;
  const offsets = shared.map((q) => dot(subtract(fromPlane(frame, q), opening.at), out));
  return Math.max(...offsets) >= -OWN_WALL_INSIDE_M && Math.min(...offsets) <= OWN_WALL_OUTSIDE_M;
}

const anticlockwise = (ring: Vec2[]): Vec2[] => (signedArea(ring) < 0 ? ring.reverse() : ring);

const ownerOf = (wall: Wall): string => wall.panelId ?? wall.id.split('/', 1)[0] ?? wall.id;

function wholeWall(wall: Wall, layout: Layout): Obstruction {
  const known = WHOLE.get(wall);
  if (known) return known;
  const whole: Obstruction = {
    owner: ownerOf(wall),
    label: wall.label,
    solid: { type: 'plate', id: wall.id, label: wall.label, normal: wall.normal, ...roomPlate(wall, layout.panels) },
  };
  WHOLE.set(wall, whole);
  return whole;
}

/** Above and below first, then beside: a wall and its mirror image are cut alike. */
const UPRIGHT_FIRST = ([, p]: Side, [, q]: Side): number => Math.abs(q) - Math.abs(p) || q - p;

function cutWall(
  wall: Wall,
  holes: readonly { readonly out: Vec3; readonly rim: readonly Vec3[] }[],
  layout: Layout,
): Obstruction[] {
  const plate = roomPlate(wall, layout.panels);
  const frame = frameOf(wall.normal, plate.polygon[0] as Vec3);
  const flat = (ring: readonly Vec3[]): Vec2[] => anticlockwise(ring.map((p) => onPlane(frame, p)));
  let rest: Vec2[][] = [flat(plate.polygon)];
  for (const { out, rim } of holes) {
    const hole = flat(holeIn(wall, plate, out, rim));
    rest = rest.flatMap((piece) => subtractConvex(piece, hole, UPRIGHT_FIRST));
  }
  return rest
    .filter((piece) => signedArea(piece) > DUST_M2)
    .map((piece, k) => ({
      owner: ownerOf(wall),
      label: wall.label,
      solid: {
        type: 'plate',
        id: `${wall.id}/${k}`,
        label: wall.label,
        normal: wall.normal,
        polygon: piece.map((q) => fromPlane(frame, q)),
        thicknessM: plate.thicknessM,
      },
    }));
}

/** The leaf of a hinged opening as it stands open. */
const openLid = (id: string, opening: Opening): Obstruction | null =>
  opening.how === 'hinged' && opening.swing
    ? { owner: id, label: opening.name, solid: leafOf(id, opening, opening.swing) }
    : null;

/** A leaf at an angle, shut at 0: its inner face turned about the hinge side of the clear area, outwards. */
export function leafOf(
  id: string,
  opening: Opening,
  { hingeAlong, angleDeg }: Pick<NonNullable<Opening['swing']>, 'hingeAlong' | 'angleDeg'>,
): BoxSolid {
  const { out, up, across } = openingFrame(opening);
  const isUpright = hingeAlong === 'left' || hingeAlong === 'right';
  const side = hingeAlong === 'right' || hingeAlong === 'top' ? 1 : -1;
  const [reach, wide] = isUpright
    ? ([opening.widthM, opening.heightM] as const)
    : ([opening.heightM, opening.widthM] as const);
  const towards = scale(isUpright ? across : up, -side);
  const [cos, sin] = cosSin(angleDeg);
  // Beside the clear area at a right angle, on the outside of the wall when it is laid back.
  const hinge = along(along(opening.at, towards, -reach / 2), out, Math.max(0, -cos) * DEFAULT_THICKNESS_M);
  const leaf = add(scale(towards, cos), scale(out, sin));
  const outside = add(scale(towards, -sin), scale(out, cos));
  return {
    type: 'box',
    id: `${id}/lid`,
    owner: id,
    label: opening.name,
    layer: 'structure',
    centre: along(along(hinge, leaf, reach / 2), outside, DEFAULT_THICKNESS_M / 2),
    half: [reach / 2, DEFAULT_THICKNESS_M / 2, wide / 2],
    axes: [leaf, outside, cross(leaf, outside)],
  };
}

function meets(solid: AnySolid, low: Vec3, high: Vec3): boolean {
  const b = boundsOf(solid);
  return [0, 1, 2].every((k) => (b[k] as number) <= (high[k] as number) && (b[k + 3] as number) >= (low[k] as number));
}
