import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import {
  type Axis,
  add,
  along,
  cross,
  directionInBoat,
  type Pose,
  pointInBoat,
  rotationOf,
  scale,
  squareTo,
  UNIT_AXES,
  unit,
  type Vec2,
  type Vec3,
} from '../../base/vec';
import { halfOf } from '../../boat/catalogue/face-places';
import type { KeepOut, Service, Shape } from '../../boat/schema/boat';
import { convexHull } from '../../shape/layout/outline';
import { circlePoints } from './curves';
import { project, type ViewFrame } from './drawing';
import type { Ring } from './polygons';

export const axisIndex = (axis: 'x' | 'y' | 'z'): Axis => (axis === 'x' ? 0 : axis === 'y' ? 1 : 2);

function boxCorners(centre: Vec3, half: Vec3): Vec3[] {
  const corners: Vec3[] = [];
  for (const sx of [-1, 1])
    for (const sy of [-1, 1])
      for (const sz of [-1, 1])
        corners.push([centre[0] + sx * half[0], centre[1] + sy * half[1], centre[2] + sz * half[2]]);
  return corners;
}

/** Points in the thing's frame whose convex hull is the envelope. */
export function envelopePoints(shape: Shape): Vec3[] {
  const half = halfOf(shape);
  if (shape.type === 'box') return boxCorners([0, 0, 0], half);
  const k = axisIndex(shape.axis);
  const axis = UNIT_AXES[k];
  return [
    ...circlePoints(scale(axis, half[k]), axis, shape.diameterM / 2),
    ...circlePoints(scale(axis, -half[k]), axis, shape.diameterM / 2),
  ];
}

/** What the envelope covers on paper. */
export const silhouetteOf = (shape: Shape, pose: Pose, frame: ViewFrame): Ring =>
  convexHull(envelopePoints(shape).map((p) => project(frame, pointInBoat(pose, p))));

/** Axis-parallel bounds in the boat of a turned envelope, exact for boxes and for cylinders. */
export function boundsInBoat(shape: Shape, pose: Pose): { readonly low: Vec3; readonly high: Vec3 } {
  const r = rotationOf(pose);
  const half = halfOf(shape);
  const reach: [number, number, number] = [0, 0, 0];
  for (let axis = 0; axis < 3; axis++) {
    const parts = [r[0], r[1], r[2]].map((column, k) => (column[axis] as number) * half[k as Axis]);
    if (shape.type === 'box')
      reach[axis] = Math.abs(parts[0] as number) + Math.abs(parts[1] as number) + Math.abs(parts[2] as number);
    else {
      // A disc of radius R reaches R sqrt(1 - n^2) along a direction that makes n with its axis.
      const k = axisIndex(shape.axis);
      const n = r[k][axis as Axis];
      reach[axis] = Math.abs(n) * half[k] + (shape.diameterM / 2) * Math.sqrt(Math.max(0, 1 - n * n));
    }
  }
  return {
    low: [pose.at[0] - reach[0], pose.at[1] - reach[1], pose.at[2] - reach[2]],
    high: [pose.at[0] + reach[0], pose.at[1] + reach[1], pose.at[2] + reach[2]],
  };
}

/** Outline on paper of a space that a thing moves through. */
export function keepOutOutline(space: KeepOut, pose: Pose, frame: ViewFrame): Ring {
  const inView = (p: Vec3): Vec2 => project(frame, pointInBoat(pose, p));
  if (space.type === 'box')
    return convexHull(boxCorners(space.at, [space.sizeM[0] / 2, space.sizeM[1] / 2, space.sizeM[2] / 2]).map(inView));
  const k = axisIndex(space.axis);
  const axis = UNIT_AXES[k];
  if (space.type === 'cylinder')
    return convexHull(
      [space.lengthM / 2, -space.lengthM / 2]
        .flatMap((h) => circlePoints(along(space.at, axis, h), axis, space.diameterM / 2))
        .map(inView),
    );
  return sectorOutline(space, k, inView);
}

/** A fan seen square to its plane is its own outline; seen edge on it is a strip. */
function sectorOutline(space: Extract<KeepOut, { type: 'sector' }>, k: Axis, inView: (p: Vec3) => Vec2): Ring {
  const a = UNIT_AXES[((k + 1) % 3) as Axis];
  const b = UNIT_AXES[((k + 2) % 3) as Axis];
  const from = (space.fromDeg * Math.PI) / 180;
  const sweep = (((space.toDeg - space.fromDeg) % 360) + 360) % 360 || 360;
  const steps = Math.max(4, Math.ceil(sweep / 4));
  const fan = (offset: number): Vec3[] => {
    const hub = along(space.at, UNIT_AXES[k], offset);
    const rim = Array.from({ length: steps + 1 }, (_, i) => {
      const t = from + ((sweep * Math.PI) / 180) * (i / steps);
      return along(along(hub, a, space.radiusM * portable.cos(t)), b, space.radiusM * portable.sin(t));
    });
    return sweep === 360 ? rim : [hub, ...rim];
  };
  const top = fan(space.thicknessM / 2).map(inView);
  const strip = convexHull([...top, ...fan(-space.thicknessM / 2).map(inView)]);
  const flat = Math.abs(signedArea(top));
  return flat > 0.2 * Math.abs(signedArea(strip)) ? top : strip;
}

/** Outline on paper of the clear space that a service task asks for. */
export function serviceOutline(service: Service, pose: Pose, frame: ViewFrame): Ring {
  const from = pointInBoat(pose, service.at);
  const way = unit(directionInBoat(pose, service.direction));
  const to = along(from, way, service.clearM);
  if (service.round) {
    const radius = service.acrossM[0] / 2;
    return convexHull(
      [...circlePoints(from, way, radius), ...circlePoints(to, way, radius)].map((p) => project(frame, p)),
    );
  }
  const wide = service.across ? squared(directionInBoat(pose, service.across), way) : squareTo(way);
  const tall = cross(way, wide);
  const corners: Vec3[] = [];
  for (const end of [from, to])
    for (const i of [-0.5, 0.5])
      for (const j of [-0.5, 0.5])
        corners.push(add(along(end, wide, i * service.acrossM[0]), scale(tall, j * service.acrossM[1])));
  return convexHull(corners.map((p) => project(frame, p)));
}

const squared = (v: Vec3, n: Vec3): Vec3 => {
  const k = v[0] * n[0] + v[1] * n[1] + v[2] * n[2];
  return unit(along(v, n, -k));
};
