import type { Vec3 } from '@core/base/vec';
import { domainOf } from '@core/runs/routing/bound/domain';
import { type BoundEvent, type Chain, dualValue, leastLeg, optimiseDual } from '@core/runs/routing/bound/dual';
import { type Dice, dice } from '../../../../support/dice';
import {
  angleBetween,
  inner,
  minus,
  normalised,
  outer,
  type P3,
  plus,
  times,
} from '../../../../support/geometry-oracle';

/**
 * Random curves in space, made of straights and of arcs no tighter than R, in any planes, with holes and free crossings set
 * on them afterwards. The bound knows only the events; the curve's length is added up while it is drawn.
 */
export interface DrawnCurve {
  readonly events: readonly BoundEvent[];
  readonly length: number;
  /** Length between each two events, straight hose in holes left out. */
  readonly legs: readonly number[];
}

interface Pen {
  at: P3;
  tangent: P3;
  length: number;
}

const anyDirection = (d: Dice): P3 => {
  for (;;) {
    const v: P3 = [d.from(-1, 1), d.from(-1, 1), d.from(-1, 1)];
    const l = Math.hypot(...v);
    if (l > 0.05 && l < 1) return times(v, 1 / l);
  }
};
const squareTo = (d: Dice, t: P3): P3 => {
  for (;;) {
    const v = anyDirection(d);
    const w = minus(v, times(t, inner(v, t)));
    if (Math.hypot(...w) > 0.1) return normalised(w);
  }
};

function forward(pen: Pen, length: number): void {
  pen.at = plus(pen.at, times(pen.tangent, length));
  pen.length += length;
}
function bend(pen: Pen, radius: number, turn: number, side: P3): void {
  const centre = plus(pen.at, times(side, radius));
  pen.at = plus(centre, plus(times(side, -radius * Math.cos(turn)), times(pen.tangent, radius * Math.sin(turn))));
  const t = plus(times(pen.tangent, Math.cos(turn)), times(side, Math.sin(turn)));
  pen.tangent = normalised(t);
  pen.length += radius * turn;
}

/** A square about a point of the curve, the point anywhere in it. */
function place(d: Dice, at: P3, normal: P3, half: number): BoundEvent['domain'] {
  const u = squareTo(d, normal);
  const v = outer(normal, u);
  const corner = plus(at, plus(times(u, d.from(-half, half)), times(v, d.from(-half, half))));
  const ring = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ].map(([a, b]) => plus(corner, plus(times(u, (a as number) * half), times(v, (b as number) * half))) as Vec3);
  return domainOf(half > 0 ? ring : [at], normal);
}

function drawCurve(d: Dice, radius: number): DrawnCurve {
  const pen: Pen = { at: [0, 0, 0], tangent: anyDirection(d), length: 0 };
  const events: BoundEvent[] = [{ domain: domainOf([pen.at], pen.tangent), tangent: pen.tangent, stub: 0 }];
  const legs: number[] = [];
  let legFrom = 0;
  const count = d.whole(4);
  const tiny = d.next() < 0.5;
  for (let k = 0; k <= count; k++) {
    const pieces = 1 + d.whole(4);
    // Whole legs in one plane, bending hard one way and then the other, come nearest to the bound.
    const plane = d.next() < 0.6 ? squareTo(d, pen.tangent) : null;
    const normal = plane ? outer(pen.tangent, plane) : null;
    for (let i = 0; i < pieces; i++) {
      if (d.next() < 0.4) forward(pen, d.from(0, tiny ? 0.1 : 1.5));
      const side = normal ? times(outer(normal, pen.tangent), d.next() < 0.5 ? 1 : -1) : squareTo(d, pen.tangent);
      const turn = d.from(0, tiny ? 0.6 : 2.8) * d.next();
      bend(pen, d.next() < 0.8 ? radius : radius * d.from(1, 3), turn, side);
      if (i + 1 === pieces && d.next() < 0.3) forward(pen, d.from(0, 0.5));
    }
    if (k === count) break;
    legs.push(pen.length - legFrom);
    const half = d.pick([0, 0, 0.02, 0.1, 0.3]);
    if (d.next() < 0.5) {
      const stub = d.from(0, 0.05);
      forward(pen, stub);
      events.push({ domain: place(d, pen.at, pen.tangent, half), tangent: pen.tangent, stub });
      forward(pen, stub);
    } else events.push({ domain: place(d, pen.at, anyDirection(d), half), tangent: null, stub: 0 });
    legFrom = pen.length;
  }
  legs.push(pen.length - legFrom);
  events.push({ domain: domainOf([pen.at], pen.tangent), tangent: pen.tangent, stub: 0 });
  return { events, length: pen.length, legs };
}

const psi = (a: number): number => a - Math.sin(a);

export interface FuzzCount {
  readonly curves: number;
  readonly above: number;
  /** Single legs below their own least length, and those that would be if it were half as much again. */
  readonly legsAbove: number;
  readonly legsAboveHalfMore: number;
  readonly within: number;
  /** Curves that fall below the bound when its term for short legs, or its windows, are left out. */
  readonly withoutShortLegs: number;
  readonly withoutWindows: number;
}

export function fuzzChains(seed: number, curves: number): FuzzCount {
  const d = dice(seed);
  let [above, within, withoutShortLegs, withoutWindows, legsAbove, legsAboveHalfMore] = [0, 0, 0, 0, 0, 0];
  for (let n = 0; n < curves; n++) {
    const radius = d.pick([0.05, 0.15, 0.4, 1]);
    const { events, length, legs } = drawCurve(d, radius);
    const leastLegs = events.slice(1).map((event, j) => leastLeg(events[j] as BoundEvent, event, radius));
    const chain: Chain = { events, leastLegs };
    if (legs.some((leg, j) => (leastLegs[j] as number) > leg + 1e-9)) legsAbove += 1;
    if (legs.some((leg, j) => 1.5 * (leastLegs[j] as number) > leg + 1e-9)) legsAboveHalfMore += 1;
    const dual = optimiseDual(chain, radius, 12, []);
    if (dual.value > length * (1 - 1e-3)) within += 1;
    // Any directions must do, not only the ones that were found: each mutant picks those that suit it best.
    const own = (u: readonly Vec3[]): number => dualValue(chain, u, radius);
    const roomy = (pick: 'short' | 'windows') => (u: readonly Vec3[]) => own(u) + leftOut(chain, u, radius)[pick];
    if (Math.max(dual.value, sought(d, dual.directions, own)) > length + 1e-9) above += 1;
    if (sought(d, dual.directions, roomy('short')) > length + 1e-6) withoutShortLegs += 1;
    if (sought(d, dual.directions, roomy('windows')) > length + 1e-6) withoutWindows += 1;
  }
  return { curves, above, legsAbove, legsAboveHalfMore, within, withoutShortLegs, withoutWindows };
}

/** Greatest value found by turning one direction at a time, at random. */
function sought(d: Dice, start: readonly Vec3[], value: (u: readonly Vec3[]) => number): number {
  let best = value(start);
  let at = start;
  for (let k = 0; k < 16; k++) {
    const j = d.whole(at.length);
    const turned = normalised(plus(at[j] as P3, times(anyDirection(d), d.pick([0.05, 0.2, 0.8]))));
    const next = at.map((u, i) => (i === j ? turned : u));
    const there = value(next);
    if (there > best) {
      best = there;
      at = next;
    }
  }
  return best;
}

/** What the two safeguards of the bound take off: the mutants keep it. Written from the formulas, not from the code. */
function leftOut(
  { events, leastLegs }: Chain,
  directions: readonly Vec3[],
  radius: number,
): { short: number; windows: number } {
  let [short, windows] = [0, 0];
  directions.forEach((u, j) => {
    const [a, b] = [events[j] as BoundEvent, events[j + 1] as BoundEvent];
    const least = leastLegs[j] as number;
    const f = [a, b].map((event) => (event.tangent ? angleBetween(event.tangent, u) : null));
    if (f[0] != null && f[1] != null) short += 2 * radius * psi(Math.max(0, (f[0] + f[1] - least / radius) / 2));
    else for (const one of f) if (one != null) windows += radius * psi(Math.max(0, one - least / (2 * radius)));
    const next = directions[j + 1];
    if (!next || b.tangent) return;
    const half = Math.min(angleBetween(u, next), Math.PI / 2) / 2;
    windows += 2 * radius * psi(Math.max(0, half - Math.min(least, leastLegs[j + 1] as number) / (2 * radius)));
  });
  return { short, windows };
}
