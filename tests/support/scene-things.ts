import { type Dice, micro, micro3 } from './dice';
import { gap, minus, type OracleSolid, type P2, type P3, plus, size, times, turned } from './geometry-oracle';
import type { OraclePrism } from './interior-oracle';
import { type HullRoom, hullRoom, ring } from './scene-interior';

export interface Stood {
  readonly id: string;
  readonly room: OraclePrism;
  readonly at: P3;
  readonly half: P3;
  readonly yawDeg: number;
  readonly reach: number;
  /** An upright cylinder within its box. */
  readonly round?: boolean;
  ports: { id: string; at: P3; direction: P3; local: P3; localDirection: P3 }[];
}

const corners = (at: P3, half: P3, yawDeg: number): P3[] =>
  [-1, 0, 1].flatMap((i) =>
    [-1, 0, 1].flatMap((j) =>
      [-1, 1].map((k) => plus(at, turned([i * half[0], j * half[1], k * half[2]], yawDeg, 0, 0))),
    ),
  );

/** A box somewhere in a room, clear of its walls, of the hull and of what stands there. */
export function stand(
  d: Dice,
  id: string,
  room: OraclePrism,
  half: P3,
  stood: readonly Stood[],
  keepClear: readonly Keep[],
  hull: HullRoom = hullRoom,
): Stood | null {
  for (let tries = 0; tries < 60; tries++) {
    const yawDeg = d.next() < 0.35 ? micro(d.from(-45, 45)) : 0;
    const at = micro3([
      d.from(room.low[0], room.high[0]),
      d.from(room.low[1], room.high[1]),
      d.from(room.low[2], room.high[2]),
    ]);
    const reach = size(half);
    const grown: P3 = [half[0] + 0.03, half[1] + 0.03, half[2] + 0.02];
    if (!corners(at, grown, yawDeg).every((p) => room.contains(p) && hull(p) > 0.06)) continue;
    if (stood.some((one) => gap(one.at, at) < one.reach + reach + 0.01 && overlap(one, { at, half: grown, yawDeg })))
      continue;
    const local = (p: P3): P3 => turned(minus(p, at), -yawDeg, 0, 0);
    if (keepClear.some((keep) => keep.points.some((p) => outside(local(p), half) < keep.radius))) continue;
    return { id, room, at, half, yawDeg, reach, ports: [] };
  }
  return null;
}
export interface Keep {
  readonly points: readonly P3[];
  readonly radius: number;
}
const outside = (p: P3, half: P3): number =>
  Math.hypot(
    Math.max(0, Math.abs(p[0]) - half[0]),
    Math.max(0, Math.abs(p[1]) - half[1]),
    Math.max(0, Math.abs(p[2]) - half[2]),
  );

/** Separating directions of two upright boxes: their own sides and the vertical. */
function overlap(a: { at: P3; half: P3; yawDeg: number }, b: { at: P3; half: P3; yawDeg: number }): boolean {
  const axes = [a, b]
    .flatMap((one) => [turned([1, 0, 0], one.yawDeg, 0, 0), turned([0, 1, 0], one.yawDeg, 0, 0)])
    .concat([[0, 0, 1]]);
  const span = (one: { at: P3; half: P3; yawDeg: number }, axis: P3): P2 => {
    const along = corners(one.at, one.half, one.yawDeg).map((p) => p[0] * axis[0] + p[1] * axis[1] + p[2] * axis[2]);
    return [Math.min(...along), Math.max(...along)];
  };
  return axes.every((axis) => {
    const [[a0, a1], [b0, b1]] = [span(a, axis), span(b, axis)];
    return a1 > b0 && b1 > a0;
  });
}

/** The side of a cylinder meets its box in one upright line. */
const across = (thing: Stood, axis: number, k: number): number => (thing.round && axis !== 2 && k !== 2 ? 0 : 1);

/** A port on a side of a thing with straight room before it. */
export function openPort(
  d: Dice,
  thing: Stood,
  radius: number,
  room: number,
  solids: readonly OracleSolid[],
  keeps: readonly Keep[],
  hull: HullRoom = hullRoom,
): { port: Stood['ports'][number]; keep: Keep } | null {
  for (let tries = 0; tries < 40; tries++) {
    const axis = d.whole(3);
    const sign = d.next() < 0.5 ? -1 : 1;
    const localDirection: [number, number, number] = [0, 0, 0];
    localDirection[axis] = sign;
    const local = micro3(
      [0, 1, 2].map((k) =>
        k === axis
          ? sign * (thing.half[k] as number)
          : d.from(-0.7, 0.7) * (thing.half[k] as number) * across(thing, axis, k),
      ) as unknown as P3,
    );
    const direction = turned(localDirection, thing.yawDeg, 0, 0);
    const at = plus(thing.at, turned(local, thing.yawDeg, 0, 0));
    if (thing.ports.some((one) => gap(one.at, at) < 0.07)) continue;
    const points = Array.from({ length: 12 }, (_, k) => plus(at, times(direction, ((k + 1) * room) / 12)));
    const need = radius + 0.012;
    const ok = points.every(
      (p) =>
        hull(p) > need + 0.05 &&
        ring(p, direction, need).every((q) => thing.room.contains(q)) &&
        solids.every((solid) => solid.owner === thing.id || solid.distance(p) > need) &&
        keeps.every((keep) => keep.points.every((q) => gap(p, q) > need + keep.radius)),
    );
    if (!ok) continue;
    const id = `n${thing.ports.length}`;
    return { port: { id, at, direction, local, localDirection }, keep: { points: [at, ...points], radius: need } };
  }
  return null;
}

export const solidOf = (one: Stood): OracleSolid => ({
  owner: one.id,
  label: one.id,
  low: minus(one.at, [one.reach, one.reach, one.reach]),
  high: plus(one.at, [one.reach, one.reach, one.reach]),
  distance: (p) => outside(turned(minus(p, one.at), -one.yawDeg, 0, 0), one.half),
});
