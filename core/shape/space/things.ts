import { byId } from '../../base/order';
import { Slices } from '../../base/slices';
import {
  along,
  cosSin,
  cross,
  directionInBoat,
  dot,
  norm,
  type Pose,
  pointInBoat,
  type Rotation,
  radians,
  rotate,
  rotationOf,
  scale,
  unit,
  type Vec2,
  type Vec3,
} from '../../base/vec';
import type { KeepOut, Service, Thing } from '../../boat/schema/boat';
import type { Cell, Layout } from '../layout/types';
import { sectorBoxes, sectorSpan } from './sector';
import type { BoxSolid, CylinderSolid, Layer, Solid } from './solids';

const AXES: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/**
 * What a thing at a pose fills (furnishing), what it moves through (sweep) and what its service asks to be clear
 * (serviceKeepOut). Ids: the thing, `THING/sweep/KEY`, `THING/service/KEY`; sorted by id.
 */
export function thingSolids(id: string, thing: Thing, pose: Pose): readonly Solid[] {
  const solids: Solid[] = [];
  const turn = rotationOf(pose);
  const put = (suffix: string, layer: Layer, label: string): SolidStart => ({
    id: suffix === '' ? id : `${id}/${suffix}`,
    owner: id,
    label,
    layer,
  });
  if (!('soft' in thing && thing.soft === true)) {
    const start = put('', 'furnishing', thing.name);
    const { shape } = thing;
    solids.push(
      shape.type === 'box'
        ? boxAt(start, pose.at, scale(shape.sizeM, 0.5), turn)
        : cylinderAt(start, pose.at, rotate(turn, AXES[shape.axis]), shape.lengthM, shape.diameterM / 2),
    );
  }
  for (const [key, sweep] of Object.entries(thing.sweeps)) {
    solids.push(...sweepSolids(put(`sweep/${key}`, 'sweep', `${thing.name}: ${sweep.why ?? key}`), sweep, pose));
  }
  for (const [key, service] of Object.entries(servicesWithRoom(thing))) {
    const label = `${thing.name}: ${service.name ?? service.task}`;
    solids.push(serviceSolid(put(`service/${key}`, 'serviceKeepOut', label), service, pose));
  }
  return solids.sort(byId);
}

type SolidStart = Pick<BoxSolid, 'id' | 'owner' | 'label' | 'layer'>;

const boxAt = (start: SolidStart, centre: Vec3, half: Vec3, axes: Rotation): BoxSolid => ({
  type: 'box',
  ...start,
  centre,
  half,
  axes,
});

const cylinderAt = (start: SolidStart, centre: Vec3, axis: Vec3, lengthM: number, radius: number): CylinderSolid => ({
  type: 'cylinder',
  ...start,
  from: along(centre, axis, -lengthM / 2),
  to: along(centre, axis, lengthM / 2),
  radius,
});

function sweepSolids(start: SolidStart, sweep: KeepOut, pose: Pose): Solid[] {
  const turn = rotationOf(pose);
  const centre = pointInBoat(pose, sweep.at);
  if (sweep.type === 'box') return [boxAt(start, centre, scale(sweep.sizeM, 0.5), turn)];
  const axis = rotate(turn, AXES[sweep.axis]);
  if (sweep.type === 'cylinder') return [cylinderAt(start, centre, axis, sweep.lengthM, sweep.diameterM / 2)];
  const span = sectorSpan(sweep.fromDeg, sweep.toDeg);
  if (span >= 360) return [cylinderAt(start, centre, axis, sweep.thicknessM, sweep.radiusM)];
  // Angles run right-handed about the axis from the axis that follows it in the cycle x, y, z... : x about z, y about x, z about y.
  const zero = rotate(turn, AXES[sweep.axis === 'z' ? 'x' : sweep.axis === 'x' ? 'y' : 'z']);
  const quarter = cross(axis, zero);
  const [cos, sin] = cosSin(sweep.fromDeg);
  const inBoat = ([u, v]: Vec2): Vec3 => along(scale(zero, u * cos - v * sin), quarter, u * sin + v * cos);
  return sectorBoxes(radians(span)).map((box, index) => {
    const outward = inBoat(box.axis);
    return boxAt(
      { ...start, id: `${start.id}/${String(index).padStart(2, '0')}` },
      along(centre, inBoat(box.centre), sweep.radiusM),
      [box.half[0] * sweep.radiusM, box.half[1] * sweep.radiusM, sweep.thicknessM / 2],
      [outward, cross(axis, outward), axis],
    );
  });
}

/** Service tasks that ask for a clear space of their own, by id; the others take only what hand, eye and tool need. */
export const servicesWithRoom = (
  thing: Pick<Thing, 'services'> | null | undefined,
): Readonly<Record<string, Service>> =>
  Object.fromEntries(Object.entries(thing?.services ?? {}).filter(([, { clearM }]) => clearM > 0));

/** A face that is pushed out along a direction: where the room of a service task starts, or a part on its way. */
export interface PushedFace {
  readonly at: Vec3;
  /** Unit, the way the room extends. */
  readonly direction: Vec3;
  /** Unit, along the width. */
  readonly across: Vec3;
  /** Width along `across` and height square to it; of a disc both are its diameter. */
  readonly sizeM: Vec2;
  readonly round: boolean;
}

/** The face from which the room of a service task starts, in the boat. */
export function serviceFace(service: Service, pose: Pose): PushedFace {
  const [width, height] = service.acrossM;
  return {
    at: pointInBoat(pose, service.at),
    direction: directionInBoat(pose, unit(service.direction)),
    across: serviceAcross(service, pose).width,
    sizeM: service.round ? [width, width] : [width, height],
    round: service.round,
  };
}

/** Two hands work 150 mm apart where the record does not say where. From memory. */
const HALF_APART_M = 0.075;

/** Where the hands of a task work, in the boat: nowhere, at its place, or at two. */
export function handPoints(service: Service, hands: 0 | 1 | 2, pose: Pose): readonly Vec3[] {
  const { at, across } = serviceFace(service, pose);
  if (hands < 2) return hands === 1 ? [at] : [];
  if (service.secondAt) return [at, pointInBoat(pose, service.secondAt)];
  return [along(at, across, -HALF_APART_M), along(at, across, HALF_APART_M)];
}

/** The space that a service task asks for: its face pushed out along the direction. */
export function serviceSolid(start: SolidStart, service: Service, pose: Pose): Solid {
  const { at, direction, across, sizeM, round } = serviceFace(service, pose);
  const centre = along(at, direction, service.clearM / 2);
  if (round) return cylinderAt(start, centre, direction, service.clearM, sizeM[0] / 2);
  const half: Vec3 = [service.clearM / 2, sizeM[0] / 2, sizeM[1] / 2];
  return boxAt(start, centre, half, [direction, across, cross(direction, across)]);
}

/** Nearer to the vertical than this a direction counts as vertical (cosine). */
const VERTICAL = 0.9;

/**
 * Directions of width and height of a service space, in the boat: chosen in the frame of the thing, so that they turn with it.
 * Without a direction of its own the width is level, or along x where the space opens up or down.
 */
function serviceAcross(service: Service, pose: Pose): { readonly width: Vec3; readonly height: Vec3 } {
  const local = unit(service.direction);
  const usual: Vec3 = Math.abs(local[2]) > VERTICAL ? [1, 0, 0] : cross([0, 0, 1], local);
  const flat = (v: Vec3): Vec3 => along(v, local, -dot(v, local));
  const asked = service.across ? flat(unit(service.across)) : null;
  const width = unit(asked && norm(asked) > 1e-6 ? asked : flat(usual));
  return { width: directionInBoat(pose, width), height: directionInBoat(pose, cross(local, width)) };
}

/** Least value of dot(normal, p) over a solid; the normal is a unit vector. */
export function leastAlong(solid: Solid, normal: Vec3): number {
  if (solid.type === 'box') {
    const { half, axes } = solid;
    return (
      dot(solid.centre, normal) -
      half[0] * Math.abs(dot(axes[0], normal)) -
      half[1] * Math.abs(dot(axes[1], normal)) -
      half[2] * Math.abs(dot(axes[2], normal))
    );
  }
  const ends = Math.min(dot(solid.from, normal), dot(solid.to, normal));
  if (solid.type === 'capsule') return ends - solid.radius;
  const cosine = dot(unit(along(solid.to, solid.from, -1)), normal);
  return ends - solid.radius * Math.sqrt(Math.max(0, 1 - cosine * cosine));
}

/** Bounds of a solid along the axes of the boat. */
export function solidBounds(solid: Solid): { readonly low: Vec3; readonly high: Vec3 } {
  if (solid.type === 'capsule') {
    const { from, to, radius } = solid;
    return {
      low: [Math.min(from[0], to[0]) - radius, Math.min(from[1], to[1]) - radius, Math.min(from[2], to[2]) - radius],
      high: [Math.max(from[0], to[0]) + radius, Math.max(from[1], to[1]) + radius, Math.max(from[2], to[2]) + radius],
    };
  }
  const least = (normal: Vec3): number => leastAlong(solid, normal);
  return {
    low: [least([1, 0, 0]), least([0, 1, 0]), least([0, 0, 1])],
    high: [-least([-1, 0, 0]), -least([0, -1, 0]), -least([0, 0, -1])],
  };
}

/**
 * Cells that come within `marginM` of a solid, in order. By separating planes of the cells and the boat's axes alone: now
 * and then a cell too many, never one too few.
 */
export function cellsTouching(layout: Layout, solid: Solid, marginM: number): readonly number[] {
  const found: number[] = [];
  for (const cell of slicesOf(layout).meeting(solidBounds(solid), marginM)) {
    if (cell.planes.some(({ normal, offset }) => leastAlong(solid, normal) > offset + marginM)) continue;
    found.push(cell.index);
  }
  return found;
}

const slicesByLayout = new WeakMap<Layout, Slices<Cell>>();

function slicesOf(layout: Layout): Slices<Cell> {
  const known = slicesByLayout.get(layout);
  if (known) return known;
  const slices = new Slices(layout.cells);
  slicesByLayout.set(layout, slices);
  return slices;
}
