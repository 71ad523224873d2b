import * as portable from '../../base/portable';
import { cosSin, dot, norm, type Pose, pointInBoat, rotationOf, scale, subtract, type Vec3 } from '../../base/vec';
import type { KeepOut } from '../../boat/schema/boat';
import { sectorSpan } from './sector';

/** Distance from a point to the space that something moves through, metres: exact, 0 within it. */
export function distanceToKeepOut(keepOut: KeepOut, pose: Pose, point: Vec3): number {
  const axes = rotationOf(pose);
  const off = subtract(point, pointInBoat(pose, keepOut.at));
  const [x, y, z] = [dot(off, axes[0]), dot(off, axes[1]), dot(off, axes[2])];
  if (keepOut.type === 'box') {
    const beyond = (value: number, side: number): number => Math.max(0, Math.abs(value) - side / 2);
    const [a, b, c] = keepOut.sizeM;
    return portable.hypot(beyond(x, a), beyond(y, b), beyond(z, c));
  }
  // along its axis, and across it from the direction that angles count from
  const [h, u, v] = keepOut.axis === 'z' ? [z, x, y] : keepOut.axis === 'x' ? [x, y, z] : [y, z, x];
  if (keepOut.type === 'cylinder')
    return portable.hypot(
      Math.max(0, Math.abs(h) - keepOut.lengthM / 2),
      Math.max(0, portable.hypot(u, v) - keepOut.diameterM / 2),
    );
  const beside = Math.max(0, Math.abs(h) - keepOut.thicknessM / 2);
  return portable.hypot(beside, fromSector(keepOut, u, v));
}

type Sector = Extract<KeepOut, { type: 'sector' }>;

function fromSector({ fromDeg, toDeg, radiusM }: Sector, u: number, v: number): number {
  const span = sectorSpan(fromDeg, toDeg);
  const turned = ((((portable.atan2(v, u) * 180) / Math.PI - fromDeg) % 360) + 360) % 360;
  if (span >= 360 || turned <= span) return Math.max(0, portable.hypot(u, v) - radiusM);
  return Math.min(fromSpoke(fromDeg, radiusM, u, v), fromSpoke(fromDeg + span, radiusM, u, v));
}

/** From the straight side of a sector. */
function fromSpoke(deg: number, radiusM: number, u: number, v: number): number {
  const [cos, sin] = cosSin(deg);
  const alongM = Math.min(radiusM, Math.max(0, u * cos + v * sin));
  return norm(subtract([u, v, 0], scale([cos, sin, 0], alongM)));
}
