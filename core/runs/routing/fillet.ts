import * as portable from '../../base/portable';
import type { Vec3 } from '../../base/vec';
import type { Band } from './band';
import type { Element } from './polygon';
import type { Prim } from './types';

/** A primitive and the element of the tangent polygon whose straight it lies on. */
export interface Piece {
  readonly prim: Prim;
  readonly lengthM: number;
  readonly angle: number;
  readonly element: Element | null;
}

/** Lines shorter than this have no direction and are left out. */
const POINTLIKE_M = 1e-7;
const STRAIGHT_RAD = 1e-6;

/**
 * Lines and arcs of a relaxed band. Where two bends want a hair more straight than there is, both shrink until they fit: the
 * band works to a radius a hair above the least for that. Null when a bend would come out below `leastRadiusM`.
 */
export function filleted(band: Band, leastRadiusM: number): readonly Piece[] | null {
  const last = band.corners - 1;
  const at = (k: number): Vec3 => [band.x[k] as number, band.y[k] as number, band.z[k] as number];
  const tangents = Array.from({ length: last + 1 }, (_, k) => (k > 0 && k < last ? (band.tangent[k] as number) : 0));
  const ways: { d: Vec3; length: number }[] = [];
  for (let k = 0; k < last; k += 1) {
    const [a, b] = [at(k), at(k + 1)];
    const d: Vec3 = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    const length = portable.hypot(...d);
    ways.push({ d: length > 1e-12 ? [d[0] / length, d[1] / length, d[2] / length] : [0, 0, 0], length });
  }
  const share = tangents.map(() => 1);
  const limit = (k: number, roomM: number, wanted: number): void => {
    if (wanted > roomM && wanted > 0) share[k] = Math.min(share[k] as number, Math.max(0, roomM) / wanted);
  };
  for (let k = 0; k < last; k += 1) {
    const here = tangents[k] as number;
    const there = tangents[k + 1] as number;
    const { length } = ways[k] as { length: number };
    const element = band.elementOfEdge(k);
    if (element?.kind === 'hole') {
      limit(k, (element.params[2] as number) - element.stubM, here);
      limit(k + 1, (element.params[3] as number) - element.stubM, there);
    } else if (element?.kind === 'clip') {
      limit(k, length - (element.params[3] as number), here);
      limit(k + 1, element.params[3] as number, there);
    } else {
      const room = element?.kind === 'lead' ? length - element.leadM : length;
      if (here + there > room) {
        const fit = Math.max(0, room) / (here + there);
        share[k] = Math.min(share[k] as number, fit);
        share[k + 1] = Math.min(share[k + 1] as number, fit);
      }
    }
  }
  const pieces: Piece[] = [];
  let from = at(0);
  for (let k = 0; k < last; k += 1) {
    const way = ways[k] as { d: Vec3; length: number };
    const next = at(k + 1);
    const T = (tangents[k + 1] as number) * (share[k + 1] as number);
    const angle = k + 1 < last ? (band.angle[k + 1] as number) : 0;
    const bends = k + 1 < last && angle > STRAIGHT_RAD;
    const to: Vec3 = bends ? [next[0] - way.d[0] * T, next[1] - way.d[1] * T, next[2] - way.d[2] * T] : next;
    const lengthM = portable.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
    if (lengthM > POINTLIKE_M) {
      pieces.push({ prim: { kind: 'line', from, to }, lengthM, angle: 0, element: band.elementOfEdge(k) });
      from = to;
    }
    if (!bends) continue;
    const out = ways[k + 1] as { d: Vec3; length: number };
    const radius = T / portable.tan(angle / 2);
    if (!(radius >= leastRadiusM)) return null;
    const cos = portable.cos(angle);
    const sin = portable.sin(angle);
    const inward: Vec3 = [
      (out.d[0] - way.d[0] * cos) / sin,
      (out.d[1] - way.d[1] * cos) / sin,
      (out.d[2] - way.d[2] * cos) / sin,
    ];
    const size = portable.hypot(...inward);
    const centre: Vec3 = [
      to[0] + (inward[0] / size) * radius,
      to[1] + (inward[1] / size) * radius,
      to[2] + (inward[2] / size) * radius,
    ];
    const end: Vec3 = [next[0] + out.d[0] * T, next[1] + out.d[1] * T, next[2] + out.d[2] * T];
    const cross: Vec3 = [
      way.d[1] * inward[2] - way.d[2] * inward[1],
      way.d[2] * inward[0] - way.d[0] * inward[2],
      way.d[0] * inward[1] - way.d[1] * inward[0],
    ];
    const span = portable.hypot(...cross);
    const normal: Vec3 = [cross[0] / span, cross[1] / span, cross[2] / span];
    pieces.push({
      prim: { kind: 'arc', centre, radius, from: to, to: end, normal },
      lengthM: radius * angle,
      angle,
      element: null,
    });
    from = end;
  }
  return pieces;
}
