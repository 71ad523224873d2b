import * as portable from '../../base/portable';
import type { Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import type { Cell } from '../../shape/layout/types';
import { contains, type HoseClass, offsetsOf } from './nodes';

const RIDGE_EVERY_M = 0.3;
const RIDGE_TURN_RAD = 0.5;
const found = new WeakMap<HullSurface, readonly Ridge[]>();

/** Points of a cell beside hollows of the hull, where its section turns inwards: a taut hose lies on them. */
export function pointsByRidges(hull: HullSurface, cell: Cell, hose: HoseClass): Vec3[] {
  let ridges = found.get(hull);
  if (!ridges) {
    ridges = ridgesIn(hull);
    found.set(hull, ridges);
  }
  const points: Vec3[] = [];
  for (const { at: on, inwards } of ridges) {
    if (on[0] < cell.low[0] - 1e-9 || on[0] > cell.high[0] + 1e-9) continue;
    for (const offset of offsetsOf(hose)) {
      const inset = hull.insetM + offset;
      const at: Vec3 = [on[0], on[1] + inwards[0] * inset, on[2] + inwards[1] * inset];
      if (contains(cell, at, 0)) points.push(at);
    }
  }
  return points;
}

/** A place on the skin where a section turns inwards, with the direction into the boat in y and z. */
interface Ridge {
  readonly at: Vec3;
  readonly inwards: readonly [number, number];
}

function ridgesIn(hull: HullSurface): Ridge[] {
  const ridges: Ridge[] = [];
  const count = Math.max(1, Math.round((hull.forwardM - hull.aftM) / RIDGE_EVERY_M));
  for (let k = 1; k < count; k += 1) {
    const x = hull.aftM + ((hull.forwardM - hull.aftM) * k) / count;
    for (const [y, z, inY, inZ] of ridgesOf(hull.sectionAt(x))) ridges.push({ at: [x, y, z], inwards: [inY, inZ] });
  }
  return ridges;
}

/** Points of a section where it turns inwards by half a radian in all, with the direction into the boat. */
function ridgesOf(section: readonly (readonly [number, number])[]): (readonly [number, number, number, number])[] {
  const found: (readonly [number, number, number, number])[] = [];
  let turned = 0;
  for (let k = 1; k + 1 < section.length; k += 1) {
    const [ay, az] = section[k - 1] as readonly [number, number];
    const [by, bz] = section[k] as readonly [number, number];
    const [cy, cz] = section[k + 1] as readonly [number, number];
    const one = portable.hypot(by - ay, bz - az);
    const two = portable.hypot(cy - by, cz - bz);
    if (one < 1e-6 || two < 1e-6) continue;
    // From the port sheer round the keel the inside lies on the right hand: an inward turn is a left-hand one.
    const turn = portable.atan2(
      (by - ay) * (cz - bz) - (bz - az) * (cy - by),
      (by - ay) * (cy - by) + (bz - az) * (cz - bz),
    );
    turned = turn > 0 ? turned + turn : 0;
    if (turned < RIDGE_TURN_RAD) continue;
    turned = 0;
    const inY = (bz - az) / one + (cz - bz) / two;
    const inZ = -((by - ay) / one + (cy - by) / two);
    const length = portable.hypot(inY, inZ);
    if (length > 1e-9) found.push([by, bz, inY / length, inZ / length]);
  }
  return found;
}
