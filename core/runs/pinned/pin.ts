import * as portable from '../../base/portable';
import { along, angleBetween, cross, distance, norm, scale, squareTo, subtract, unit, type Vec3 } from '../../base/vec';
import { arcSweep, pointOnArc } from '../routing/prims';
import type { Prim } from '../routing/types';

/** A run as built, as the boat file keeps it. */
export interface Pin {
  /** Port, corners of the tangent polygon in order, port: metres, boat frame. */
  readonly points: readonly Vec3[];
  /** Radius of the bend at each corner, metres; 0 where two straights meet. Without it each bends as tightly as its kind may. */
  readonly radiiM?: readonly number[] | undefined;
}

/** Turns below this are no bends: radians. */
const STRAIGHT_RAD = 1e-6;
/** Straights shorter than this are left out, metres. */
const POINTLIKE_M = 1e-7;
/** An arc that turns farther is told by two corners: the tangents at the ends of a half turn never meet. Radians. */
const MOST_TURN_RAD = 2.6;

/** The pin of a run: laid again from it, the run is the same to a micrometre or two. Throws on a run without length. */
export function pinOf(prims: readonly Prim[]): Pin {
  const [first] = prims;
  const last = prims.at(-1);
  if (!first || !last) throw new Error('pinOf: expected a run with at least one piece, got none');
  const points: Vec3[] = [first.from];
  const radiiM: number[] = [];
  prims.forEach((prim, k) => {
    if (prim.kind === 'line') {
      if (k > 0 && prims[k - 1]?.kind === 'line') {
        points.push(prim.from);
        radiiM.push(0);
      }
      return;
    }
    const sweep = arcSweep(prim);
    const parts = Math.ceil(sweep / MOST_TURN_RAD);
    const turn = sweep / parts;
    for (let part = 0; part < parts; part += 1) {
      const out = scale(subtract(pointOnArc(prim, (part + 0.5) * turn), prim.centre), 1 / portable.cos(turn / 2));
      points.push([prim.centre[0] + out[0], prim.centre[1] + out[1], prim.centre[2] + out[2]]);
      radiiM.push(prim.radius);
    }
  });
  points.push(last.to);
  return { points, radiiM };
}

/**
 * Lines and arcs of a pin. Where its corners stand too close for their bends, the bends are made tighter until they fit: the run
 * that comes out can always be drawn, and whether it may bend so is for the check to say.
 */
export function primsOfPin({ points, radiiM }: Pin, usualRadiusM: number): readonly Prim[] {
  const legs = points.slice(1).map((to, k) => {
    const from = points[k] as Vec3;
    const lengthM = distance(from, to);
    return { lengthM, way: lengthM > POINTLIKE_M ? scale(subtract(to, from), 1 / lengthM) : ([0, 0, 0] as Vec3) };
  });
  const turns = legs.slice(1).map(({ way }, k) => angleBetween((legs[k] as (typeof legs)[number]).way, way));
  const wanted = turns.map((turn, k) =>
    turn > STRAIGHT_RAD ? (radiiM?.[k] ?? usualRadiusM) * portable.tan(Math.min(turn, 3.1) / 2) : 0,
  );
  const share = wanted.map(() => 1);
  legs.forEach(({ lengthM }, k) => {
    const taken = (wanted[k - 1] ?? 0) + (wanted[k] ?? 0);
    if (taken <= lengthM) return;
    for (const corner of [k - 1, k])
      if (corner >= 0 && corner < share.length) share[corner] = Math.min(share[corner] as number, lengthM / taken);
  });
  const prims: Prim[] = [];
  let from = points[0] as Vec3;
  legs.forEach(({ way }, k) => {
    const corner = points[k + 1] as Vec3;
    const tangentM = (wanted[k] ?? 0) * (share[k] ?? 1);
    const to = along(corner, way, -tangentM);
    if (distance(from, to) > POINTLIKE_M) prims.push({ kind: 'line', from, to });
    from = to;
    if (tangentM <= 0) return;
    const next = (legs[k + 1] as (typeof legs)[number]).way;
    const turn = turns[k] as number;
    const radius = tangentM / portable.tan(turn / 2);
    const across = subtract(next, scale(way, portable.cos(turn)));
    // A pin that turns right back lies in any plane.
    const inward = norm(across) > 1e-9 ? unit(across) : squareTo(way);
    const end = along(corner, next, tangentM);
    prims.push({
      kind: 'arc',
      centre: along(to, inward, radius),
      radius,
      from: to,
      to: end,
      normal: cross(way, inward),
    });
    from = end;
  });
  return prims;
}
