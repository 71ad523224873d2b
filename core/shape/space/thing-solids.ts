import {
  add,
  along,
  cross,
  directionInBoat,
  type Pose,
  pointInBoat,
  type Rotation,
  radians,
  rotate,
  rotationOf,
  scale,
  squareTo,
  unit,
  type Vec2,
  type Vec3,
} from '../../base/vec';
import type { Fixture, KeepOut, Service, Thing } from '../../boat/schema/boat';
import type { Layer, Solid } from './solids';

type Axis = 'x' | 'y' | 'z';
const UNIT: Readonly<Record<Axis, Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };
/** The plane of a sector about an axis: its angles count from the first direction towards the second. */
const SECTOR_PLANE: Readonly<Record<Axis, readonly [Vec3, Vec3]>> = {
  x: [UNIT.y, UNIT.z],
  y: [UNIT.z, UNIT.x],
  z: [UNIT.x, UNIT.y],
};
/** Boxes stand outside the sector that they cover by no more than this share of its radius. */
export const SECTOR_SPILL = 0.02;

/** Which of a thing's solids are asked for. */
export interface SolidChoice {
  readonly envelope: boolean;
  readonly sweeps: boolean;
  readonly services: boolean;
}
export const ENVELOPE_AND_SWEEPS: SolidChoice = { envelope: true, sweeps: true, services: false };

/**
 * The solids of a thing in the boat: its envelope (furnishing), what it moves through (sweep) and the room its service tasks
 * ask for (serviceKeepOut). Ids are `thing`, `thing/sweep/KEY` and `thing/service/KEY`, pieces of one with `#n`.
 * A soft fixture has no envelope.
 */
export function thingSolids(
  thing: Thing | Fixture,
  pose: Pose,
  id: string,
  choice: SolidChoice = ENVELOPE_AND_SWEEPS,
): Solid[] {
  const out: Solid[] = [];
  const isSoft = 'soft' in thing && thing.soft === true;
  if (choice.envelope && !isSoft) out.push(envelopeSolid(thing, pose, id));
  if (choice.sweeps)
    for (const key of Object.keys(thing.sweeps).sort())
      out.push(
        ...keepOutSolids(thing.sweeps[key] as KeepOut, pose, {
          id: `${id}/sweep/${key}`,
          owner: id,
          label: `sweep of ${thing.name}`,
          layer: 'sweep',
        }),
      );
  if (choice.services)
    for (const key of Object.keys(thing.services).sort()) {
      const service = thing.services[key] as Service;
      out.push(
        serviceSolid(serviceRoom(service, pose), service.clearM, {
          id: `${id}/service/${key}`,
          owner: id,
          label: `service room of ${thing.name}`,
          layer: 'serviceKeepOut',
        }),
      );
    }
  return out;
}

interface Name {
  readonly id: string;
  readonly owner: string;
  readonly label: string;
  readonly layer: Layer;
}

/** The thing's own box or cylinder in the boat. */
export function envelopeSolid(thing: Thing | Fixture, pose: Pose, id: string): Solid {
  const named: Name = { id, owner: id, label: thing.name, layer: 'furnishing' };
  const { shape } = thing;
  if (shape.type === 'box') {
    const [x, y, z] = shape.sizeM;
    return { type: 'box', ...named, centre: pose.at, half: [x / 2, y / 2, z / 2], axes: rotationOf(pose) };
  }
  return rod(named, pose.at, directionInBoat(pose, UNIT[shape.axis]), shape.lengthM, shape.diameterM / 2);
}

const rod = (named: Name, centre: Vec3, axis: Vec3, lengthM: number, radius: number): Solid => ({
  type: 'cylinder',
  ...named,
  from: along(centre, axis, -lengthM / 2),
  to: along(centre, axis, lengthM / 2),
  radius,
});

function keepOutSolids(keepOut: KeepOut, pose: Pose, named: Name): Solid[] {
  const centre = pointInBoat(pose, keepOut.at);
  if (keepOut.type === 'box') {
    const [x, y, z] = keepOut.sizeM;
    return [{ type: 'box', ...named, centre, half: [x / 2, y / 2, z / 2], axes: rotationOf(pose) }];
  }
  const axis = directionInBoat(pose, UNIT[keepOut.axis]);
  if (keepOut.type === 'cylinder') return [rod(named, centre, axis, keepOut.lengthM, keepOut.diameterM / 2)];

  const { radiusM, thicknessM } = keepOut;
  const span = sectorSpan(keepOut.fromDeg, keepOut.toDeg);
  if (span >= 360) return [rod(named, centre, axis, thicknessM, radiusM)];
  const turn = rotationOf(pose);
  const [first, second] = SECTOR_PLANE[keepOut.axis].map((v) => rotate(turn, v)) as [Vec3, Vec3];
  const from = radians(keepOut.fromDeg);
  return sectorBoxes(radians(span)).map((box, k) => {
    const [cos, sin] = [Math.cos(from), Math.sin(from)];
    const inBoat = ([u, v]: Vec2): Vec3 => add(scale(first, u * cos - v * sin), scale(second, u * sin + v * cos));
    const u = inBoat(box.axis);
    return {
      type: 'box',
      ...named,
      id: `${named.id}#${k + 1}`,
      centre: along(centre, inBoat(box.centre), radiusM),
      half: [box.half[0] * radiusM, box.half[1] * radiusM, thicknessM / 2],
      axes: [u, cross(axis, u), axis],
    };
  });
}

/** Degrees swept from one angle to the other, right-handed; equal angles are a full turn. */
export const sectorSpan = (fromDeg: number, toDeg: number): number => {
  if (toDeg - fromDeg >= 360) return 360;
  const span = (((toDeg - fromDeg) % 360) + 360) % 360;
  return span === 0 ? 360 : span;
};

interface FlatBox {
  readonly centre: Vec2;
  readonly half: Vec2;
  readonly axis: Vec2;
}

/**
 * Boxes that cover the sector of radius 1 from angle 0 to `span` (radians), each standing out of it by SECTOR_SPILL at most:
 * ring sectors are halved until the corners of the box around each keep that.
 */
export function sectorBoxes(span: number): FlatBox[] {
  const out: FlatBox[] = [];
  const cover = (r0: number, r1: number, a0: number, a1: number): void => {
    const box = boxAround(r0, r1, a0, a1, span);
    if (box.spill <= SECTOR_SPILL) out.push(box);
    else if (r1 - r0 > (a1 - a0) * r1) {
      cover(r0, (r0 + r1) / 2, a0, a1);
      cover((r0 + r1) / 2, r1, a0, a1);
    } else {
      cover(r0, r1, a0, (a0 + a1) / 2);
      cover(r0, r1, (a0 + a1) / 2, a1);
    }
  };
  const wedges = Math.ceil(span / (Math.PI / 2));
  for (let k = 0; k < wedges; k++) cover(0, 1, (span * k) / wedges, (span * (k + 1)) / wedges);
  return out;
}

/** The box around a ring sector of at most 90 degrees that stands out of the whole least: along its middle or one of its sides. */
function boxAround(r0: number, r1: number, a0: number, a1: number, span: number): FlatBox & { readonly spill: number } {
  const tries = [(a0 + a1) / 2, a0, a1].map((angle) => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    // Extremes of the ring sector along and across the axis: its four corners, and the arc's own tip where the axis meets it.
    const tips = [a0, a1].flatMap((a) => [r0, r1].map((r): Vec2 => [r * Math.cos(a - angle), r * Math.sin(a - angle)]));
    const us = tips.map((p) => p[0]).concat(r1);
    const vs = tips.map((p) => p[1]);
    const [lowU, highU, lowV, highV] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
    const toPlane = (u: number, v: number): Vec2 => [u * c - v * s, u * s + v * c];
    const corners = [toPlane(lowU, lowV), toPlane(lowU, highV), toPlane(highU, lowV), toPlane(highU, highV)];
    return {
      centre: toPlane((lowU + highU) / 2, (lowV + highV) / 2),
      half: [(highU - lowU) / 2, (highV - lowV) / 2] as Vec2,
      axis: [c, s] as Vec2,
      spill: Math.max(...corners.map((p) => distanceToSector(p, span))),
    };
  });
  return tries.reduce((best, next) => (next.spill < best.spill ? next : best));
}

/** How far a point is outside the sector of radius 1 from angle 0 to span. */
function distanceToSector([x, y]: Vec2, span: number): number {
  const r = Math.hypot(x, y);
  const angle = ((Math.atan2(y, x) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  if (r < 1e-12 || angle <= span) return Math.max(0, r - 1);
  const toRay = (a: number): number => {
    const t = Math.min(1, Math.max(0, x * Math.cos(a) + y * Math.sin(a)));
    return Math.hypot(x - t * Math.cos(a), y - t * Math.sin(a));
  };
  return Math.min(toRay(0), toRay(span));
}

/** The face from which a service task's room starts, in the boat. */
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

export function serviceRoom(service: Service, pose: Pose): PushedFace {
  const local = unit(service.direction);
  const wish = service.across ? flattened(service.across, local) : squareTo(local);
  const [width, height] = service.acrossM;
  return {
    at: pointInBoat(pose, service.at),
    direction: directionInBoat(pose, local),
    across: directionInBoat(pose, wish),
    sizeM: service.round ? [width, width] : [width, height],
    round: service.round,
  };
}

/** The part of `v` square to the unit vector n, or any direction square to it when nothing is left. */
function flattened(v: Vec3, n: Vec3): Vec3 {
  const d = v[0] * n[0] + v[1] * n[1] + v[2] * n[2];
  const rest = along(v, n, -d);
  return Math.hypot(...rest) > 1e-9 * Math.hypot(...v) ? unit(rest) : squareTo(n);
}

function serviceSolid(face: PushedFace, clearM: number, named: Name): Solid {
  const centre = along(face.at, face.direction, clearM / 2);
  if (face.round) return rod(named, centre, face.direction, clearM, face.sizeM[0] / 2);
  const axes: Rotation = [face.direction, face.across, cross(face.direction, face.across)];
  return { type: 'box', ...named, centre, half: [clearM / 2, face.sizeM[0] / 2, face.sizeM[1] / 2], axes };
}
