import { angleBetween, gap, inner, minus, normalised, outer, type P3, plus, size, times } from './geometry-oracle';

/** A run's centre line, read from its primitives. */
export type OraclePrim =
  | { readonly kind: 'line'; readonly from: P3; readonly to: P3 }
  | {
      readonly kind: 'arc';
      readonly centre: P3;
      readonly radius: number;
      readonly from: P3;
      readonly to: P3;
      readonly normal: P3;
    };

/** Turn of an arc about its normal, right-handed, from 0 up to a whole turn. */
export function arcAngle(arc: Extract<OraclePrim, { kind: 'arc' }>): number {
  const a = minus(arc.from, arc.centre);
  const b = minus(arc.to, arc.centre);
  const angle = Math.atan2(inner(outer(a, b), arc.normal), inner(a, b));
  return angle >= 0 ? angle : angle + 2 * Math.PI;
}

export const primLength = (prim: OraclePrim): number =>
  prim.kind === 'line' ? gap(prim.from, prim.to) : prim.radius * arcAngle(prim);

export function pointAt(prim: OraclePrim, s: number): P3 {
  if (prim.kind === 'line') {
    const l = gap(prim.from, prim.to);
    return l > 0 ? plus(prim.from, times(minus(prim.to, prim.from), s / l)) : prim.from;
  }
  const a = minus(prim.from, prim.centre);
  const b = outer(prim.normal, a);
  const t = s / prim.radius;
  return plus(prim.centre, plus(times(a, Math.cos(t)), times(b, Math.sin(t))));
}

export function tangentAt(prim: OraclePrim, s: number): P3 {
  if (prim.kind === 'line') return normalised(minus(prim.to, prim.from));
  const a = minus(prim.from, prim.centre);
  const b = outer(prim.normal, a);
  const t = s / prim.radius;
  return normalised(plus(times(a, -Math.sin(t)), times(b, Math.cos(t))));
}

export interface ShapeFault {
  readonly kind: 'radius' | 'arc' | 'joint' | 'tangent' | 'empty';
  readonly at: P3;
  readonly amount: number;
  readonly unit: 'm' | 'rad';
  readonly detail: string;
}

const EXACT_M = 1e-6;
const EXACT_RAD = 1e-5;
/** A line shorter than this has no direction worth comparing. */
const POINTLIKE = 1e-7;

/** Radii, arcs that lie on their circles, joints without gap or kink: compared where they are, not sampled. */
export function shapeFaults(prims: readonly OraclePrim[], leastRadius: number): ShapeFault[] {
  const faults: ShapeFault[] = [];
  if (prims.length === 0) return [{ kind: 'empty', at: [0, 0, 0], amount: 0, unit: 'm', detail: 'no primitives' }];
  for (const prim of prims) {
    if (![...prim.from, ...prim.to].every(Number.isFinite))
      faults.push({ kind: 'joint', at: prim.from, amount: Number.NaN, unit: 'm', detail: 'not a number' });
    if (prim.kind !== 'arc') continue;
    if (prim.radius < leastRadius - EXACT_M)
      faults.push({
        kind: 'radius',
        at: prim.from,
        amount: leastRadius - prim.radius,
        unit: 'm',
        detail: `radius ${prim.radius}, least ${leastRadius}`,
      });
    const off = Math.max(
      Math.abs(gap(prim.from, prim.centre) - prim.radius),
      Math.abs(gap(prim.to, prim.centre) - prim.radius),
      Math.abs(inner(minus(prim.from, prim.centre), prim.normal)),
      Math.abs(inner(minus(prim.to, prim.centre), prim.normal)),
      Math.abs(size(prim.normal) - 1) * prim.radius,
    );
    if (!(off <= EXACT_M))
      faults.push({ kind: 'arc', at: prim.from, amount: off, unit: 'm', detail: 'ends off its circle' });
  }
  const solid = prims.filter((prim) => primLength(prim) > POINTLIKE);
  for (let i = 0; i + 1 < prims.length; i++) {
    const [a, b] = [prims[i] as OraclePrim, prims[i + 1] as OraclePrim];
    const open = gap(a.to, b.from);
    if (!(open <= EXACT_M)) faults.push({ kind: 'joint', at: a.to, amount: open, unit: 'm', detail: 'gap at a joint' });
  }
  for (let i = 0; i + 1 < solid.length; i++) {
    const [a, b] = [solid[i] as OraclePrim, solid[i + 1] as OraclePrim];
    const kink = angleBetween(tangentAt(a, primLength(a)), tangentAt(b, 0));
    if (!(kink <= EXACT_RAD))
      faults.push({ kind: 'tangent', at: a.to, amount: kink, unit: 'rad', detail: 'kink at a joint' });
  }
  return faults;
}

export interface Trace {
  readonly lengthM: number;
  at(s: number): P3;
  tangent(s: number): P3;
}

export function traceOf(prims: readonly OraclePrim[]): Trace {
  const starts: number[] = [];
  let lengthM = 0;
  for (const prim of prims) {
    starts.push(lengthM);
    lengthM += primLength(prim);
  }
  const find = (s: number): readonly [OraclePrim, number] => {
    let i = 0;
    while (i + 1 < prims.length && s > (starts[i + 1] as number)) i += 1;
    return [prims[i] as OraclePrim, s - (starts[i] as number)];
  };
  return {
    lengthM,
    at: (s) => pointAt(...find(s)),
    tangent: (s) => tangentAt(...find(s)),
  };
}
