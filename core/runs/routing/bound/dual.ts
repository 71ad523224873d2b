import * as portable from '../../../base/portable';
import { add, angleBetween, cross, dot, norm, scale, subtract, type Vec3 } from '../../../base/vec';
import { type Domain, domainDistance, leastAlong, nearestInDomain, shifted } from './domain';

/**
 * A run as the bound sees it: a curve of least radius R that meets events in order. At a port and in a hole its direction is
 * fixed, in an open panel or between two cells of one compartment it is free.
 *
 * Leg with both directions fixed, displacement d, any unit u, f = angle to u at each end, Lmin any certified least length:
 *   length >= <d, u> + R (psi(f0) + psi(f1) - 2 psi(x)),  psi(a) = a - sin a,  x = max(0, (f0 + f1 - Lmin / R) / 2)
 * because 1 - <T, u> is at least 1 - cos(f0 - s/R) near one end and 1 - cos(f1 - (L-s)/R) near the other, and the two meet
 * where the angle is x. Without the last term the inequality is false for short legs.
 *
 * The first term is linear in the places of the holes, the second does not depend on them: for any choice of the u's the
 * minimum over all places is a corner of each domain. Every number computed here is therefore a bound, however well or badly
 * the u's were chosen.
 */
export interface BoundEvent {
  readonly domain: Domain;
  /** Direction of travel through the event, null where it is free. */
  readonly tangent: Vec3 | null;
  /** Straight length before and after the middle of the event. */
  readonly stub: number;
}

export interface Chain {
  readonly events: readonly BoundEvent[];
  /** Least length of each leg, whatever the places. */
  readonly leastLegs: readonly number[];
}

export interface Dual {
  /** One unit vector a leg. */
  readonly directions: readonly Vec3[];
  readonly places: readonly Vec3[];
  /** Least length of the chain, without the straight leads of its ends. */
  readonly value: number;
  /** Event whose place leaves the most undecided, and by how much (metres). */
  readonly loose: { readonly event: number; readonly gap: number };
}

const psi = (a: number): number => a - portable.sin(a);
/** Loss in the first w radians of turning back from the angle f. */
const psiWithin = (f: number, w: number): number => psi(f) - psi(Math.max(0, f - w));

/** Legs longer than this many radii gain nothing from a closer look: no two turns at their ends overlap. */
const CLOSE_LOOK_RADII = 2 * Math.PI;
/** A leg's own bound feeds on itself: what it gave last time is a least length for the next. */
const MOST_FEEDS = 24;
const FEED_WORTH = 1e-3;

/**
 * Least length of a leg between two events, whatever their places: their distance, the turn that the radius asks for, and for
 * short legs the inequality above along directions that suit it. Each value found is a certified least length, with which the
 * inequality gives more: a hose that must come back to where it is makes a whole circle.
 */
export function leastLeg(a: BoundEvent, b: BoundEvent, radius: number): number {
  const [ta, tb] = [a.tangent, b.tangent];
  const start = ta && a.stub > 0 ? shifted(a.domain, ta, a.stub) : a.domain;
  const end = tb && b.stub > 0 ? shifted(b.domain, tb, -b.stub) : b.domain;
  const turn = ta && tb ? radius * angleBetween(ta, tb) : 0;
  let least = Math.max(0, domainDistance(start, end), turn);
  if (!(radius > 0) || !(ta || tb) || least > CLOSE_LOOK_RADII * radius) return least;
  const valueAt = (x: number, y: number, z: number): number =>
    leastAlong(end, x, y, z) + leastAlong(start, -x, -y, -z) + lossAlone(ta, tb, x, y, z, least, radius);
  const u: [number, number, number] = [1, 0, 0];
  let value = Number.NEGATIVE_INFINITY;
  for (const [x, y, z] of startingDirections(subtract(end.centre, start.centre), ta, tb)) {
    const there = valueAt(x, y, z);
    if (there <= value) continue;
    value = there;
    u[0] = x;
    u[1] = y;
    u[2] = z;
  }
  for (let feed = 0; feed < MOST_FEEDS; feed++) {
    value = climbFreely(u, value, feed === 0 ? 0.5 : 0.06, valueAt);
    if (!(value > least * (1 + FEED_WORTH))) return Math.max(least, value);
    least = value;
    value = valueAt(u[0], u[1], u[2]);
  }
  return least;
}

/** Loss of a leg looked at alone: a free end takes no share of it. */
function lossAlone(
  ta: Vec3 | null,
  tb: Vec3 | null,
  x: number,
  y: number,
  z: number,
  least: number,
  radius: number,
): number {
  const fa = ta ? arc(ta[0] * x + ta[1] * y + ta[2] * z) : 0;
  const fb = tb ? arc(tb[0] * x + tb[1] * y + tb[2] * z) : 0;
  return ta && tb ? bothEndsLoss(fa, fb, least, radius) : radius * psiWithin(fa + fb, least / radius);
}

function startingDirections(apart: Vec3, ta: Vec3 | null, tb: Vec3 | null): Vec3[] {
  const found: Vec3[] = [];
  const put = (v: Vec3): void => {
    const l = norm(v);
    if (l > 1e-9) found.push(scale(v, 1 / l), scale(v, -1 / l));
  };
  put(apart);
  if (ta) put(ta);
  if (tb) put(tb);
  if (ta && tb) {
    put(add(ta, tb));
    put(cross(ta, tb));
  } else put(cross((ta ?? tb) as Vec3, apart));
  return found;
}

/** Turns a direction in place, by ever smaller steps, to where the value is greatest near it; gives that value. */
function climbFreely(
  u: [number, number, number],
  from: number,
  first: number,
  valueAt: (x: number, y: number, z: number) => number,
): number {
  let value = from;
  for (let step = first; step > 0.006; step /= 2) {
    const [ux, uy, uz] = u;
    // Two directions square to it.
    const flat = Math.abs(uz) < 0.7;
    const k = 1 / Math.sqrt(flat ? ux * ux + uy * uy : uy * uy + uz * uz);
    const [sx, sy, sz] = flat ? [-uy * k, ux * k, 0] : [0, -uz * k, uy * k];
    const [ox, oy, oz] = [uy * sz - uz * sy, uz * sx - ux * sz, ux * sy - uy * sx];
    const scaled = 1 / Math.sqrt(1 + step * step);
    for (let way = 0; way < 4; way++) {
      const side = way & 1 ? -step : step;
      const [i, j] = way < 2 ? [side, 0] : [0, side];
      const x = (ux + i * sx + j * ox) * scaled;
      const y = (uy + i * sy + j * oy) * scaled;
      const z = (uz + i * sz + j * oz) * scaled;
      const there = valueAt(x, y, z);
      if (there <= value) continue;
      value = there;
      u[0] = x;
      u[1] = y;
      u[2] = z;
      break;
    }
  }
  return value;
}

/** Loss of a leg that has the angles f0 and f1 to its ends. */
function bothEndsLoss(f0: number, f1: number, least: number, radius: number): number {
  const x = Math.max(0, (f0 + f1 - least / radius) / 2);
  return Math.max(0, radius * (psi(f0) + psi(f1) - 2 * psi(x)));
}

/** Loss of turning by an angle about a free event: at least twice that of half the turn, taken up to a right angle. */
function freeLoss(angle: number, before: number, after: number, radius: number): number {
  return 2 * radius * psiWithin(Math.min(angle, Math.PI / 2) / 2, Math.min(before, after) / (2 * radius));
}

/** Certified least length of the chain up to `last` (default: all of it), for these directions. */
export const dualValue = (
  chain: Chain,
  directions: readonly Vec3[],
  radius: number,
  last = chain.events.length - 1,
): number => valueAlong(chain, directions.flat(), radius, last);

/** The same, for directions three numbers a leg. */
function valueAlong({ events, leastLegs }: Chain, u: ArrayLike<number>, radius: number, last: number): number {
  let sum = 0;
  // Direction of the leg before, none before the first.
  let [px, py, pz] = [0, 0, 0];
  for (let i = 0; i <= last; i++) {
    const { domain, tangent, stub } = events[i] as BoundEvent;
    const isLast = i === last;
    const x = isLast ? 0 : (u[3 * i] as number);
    const y = isLast ? 0 : (u[3 * i + 1] as number);
    const z = isLast ? 0 : (u[3 * i + 2] as number);
    if (i > 0) sum += stub;
    if (!isLast) sum += stub;
    sum += leastAlong(domain, px - x, py - y, pz - z);
    if (tangent) sum -= stub * (tangent[0] * (px + x) + tangent[1] * (py + y) + tangent[2] * (pz + z));
    if (radius > 0) {
      const least = leastLegs[i] as number;
      if (!tangent && i > 0 && !isLast)
        sum += freeLoss(arc(px * x + py * y + pz * z), leastLegs[i - 1] as number, least, radius);
      if (!isLast) {
        const next = (events[i + 1] as BoundEvent).tangent;
        const f0 = tangent ? arc(tangent[0] * x + tangent[1] * y + tangent[2] * z) : 0;
        const f1 = next ? arc(next[0] * x + next[1] * y + next[2] * z) : 0;
        if (tangent && next) sum += bothEndsLoss(f0, f1, least, radius);
        // The other half of the leg belongs to the free end.
        else if (tangent || next) sum += radius * psiWithin(f0 + f1, least / (2 * radius));
      }
    }
    px = x;
    py = y;
    pz = z;
  }
  return sum;
}

/**
 * A few uphill steps of the direction of leg j on the sphere, in place, its two places held. Nothing here need be certified: any
 * direction gives a bound.
 */
function climb(chain: Chain, p: Float64Array, u: Float64Array, j: number, radius: number): void {
  const [dx, dy, dz] = displacement(chain, p, j);
  const ta = (chain.events[j] as BoundEvent).tangent;
  const tb = (chain.events[j + 1] as BoundEvent).tangent;
  const least = chain.leastLegs[j] as number;
  const both = ta !== null && tb !== null;
  const step = 1 / (Math.sqrt(dx * dx + dy * dy + dz * dz) + 2 * radius + 1e-9);
  let ux = u[3 * j] as number;
  let uy = u[3 * j + 1] as number;
  let uz = u[3 * j + 2] as number;
  for (let turn = 0; turn < CLIMBS; turn++) {
    let gx = dx;
    let gy = dy;
    let gz = dz;
    const cosA = ta ? ta[0] * ux + ta[1] * uy + ta[2] * uz : 1;
    const cosB = tb ? tb[0] * ux + tb[1] * uy + tb[2] * uz : 1;
    const fa = ta ? arc(cosA) : 0;
    const fb = tb ? arc(cosB) : 0;
    const x = both ? Math.max(0, (fa + fb - least / radius) / 2) : 0;
    if (ta && fa > 1e-7 && fa < Math.PI - 1e-7) {
      const back = both ? x : Math.max(0, fa - least / (2 * radius));
      const k = (radius * ((back > 0 ? portable.cos(back) : 1) - cosA)) / Math.sqrt(1 - cosA * cosA);
      gx -= k * (ta[0] - ux * cosA);
      gy -= k * (ta[1] - uy * cosA);
      gz -= k * (ta[2] - uz * cosA);
    }
    if (tb && fb > 1e-7 && fb < Math.PI - 1e-7) {
      const back = both ? x : Math.max(0, fb - least / (2 * radius));
      const k = (radius * ((back > 0 ? portable.cos(back) : 1) - cosB)) / Math.sqrt(1 - cosB * cosB);
      gx -= k * (tb[0] - ux * cosB);
      gy -= k * (tb[1] - uy * cosB);
      gz -= k * (tb[2] - uz * cosB);
    }
    const radial = gx * ux + gy * uy + gz * uz;
    const vx = ux + step * (gx - radial * ux);
    const vy = uy + step * (gy - radial * uy);
    const vz = uz + step * (gz - radial * uz);
    const l = Math.sqrt(vx * vx + vy * vy + vz * vz);
    if (l < 1e-12) break;
    ux = vx / l;
    uy = vy / l;
    uz = vz / l;
  }
  u[3 * j] = ux;
  u[3 * j + 1] = uy;
  u[3 * j + 2] = uz;
}
const CLIMBS = 3;
const arc = (cos: number): number => portable.acos(cos > 1 ? 1 : cos < -1 ? -1 : cos);

/** Of leg j: from the end of one event's stub to the start of the next one's. */
function displacement({ events }: Chain, p: Float64Array, j: number): Vec3 {
  const [a, b] = [events[j] as BoundEvent, events[j + 1] as BoundEvent];
  const [ta, tb] = [a.tangent ?? STILL, b.tangent ?? STILL];
  const [i, k] = [3 * j, 3 * j + 3];
  return [
    (p[k] as number) - (p[i] as number) - ta[0] * a.stub - tb[0] * b.stub,
    (p[k + 1] as number) - (p[i + 1] as number) - ta[1] * a.stub - tb[1] * b.stub,
    (p[k + 2] as number) - (p[i + 2] as number) - ta[2] * a.stub - tb[2] * b.stub,
  ];
}
const STILL: Vec3 = [0, 0, 0];

/** Rounds that gain less than this are idle; after a few of them no gain is left. */
const WORTH_M = 1e-7;
const MOST_IDLE = 4;

/** Finds good directions by letting places and directions follow each other; keeps the best certified value. */
export function optimiseDual(chain: Chain, radius: number, rounds: number, start: readonly Vec3[]): Dual {
  const { events, leastLegs } = chain;
  const last = events.length - 1;
  const p = new Float64Array(3 * events.length);
  events.forEach(({ domain }, i) => {
    p.set(start[i] ?? domain.centre, 3 * i);
  });
  tighten(events, p, start.length > 0 ? 2 : 4);
  const u = new Float64Array(3 * last);
  for (let j = 0; j < last; j++) {
    const [x, y, z] = displacement(chain, p, j);
    const l = Math.sqrt(x * x + y * y + z * z);
    const fallback = events[j]?.tangent ?? events[j + 1]?.tangent ?? [1, 0, 0];
    u.set(l > 1e-12 ? [x / l, y / l, z / l] : fallback, 3 * j);
  }
  let best = valueAlong(chain, u, radius, last);
  const kept = u.slice();
  let idle = 0;
  for (let round = 0; round < rounds; round++) {
    for (let j = 0; j < last; j++) climb(chain, p, u, j, radius);
    const value = valueAlong(chain, u, radius, last);
    idle = value > best + WORTH_M ? 0 : idle + 1;
    if (value > best) {
      best = value;
      kept.set(u);
    }
    if (idle === MOST_IDLE) break;
    // Places slide against the pull of the two directions that meet in them.
    const step = 0.5 / (1 + 0.3 * round);
    for (let i = 1; i < last; i++) {
      const { domain } = events[i] as BoundEvent;
      if (domain.ring.length === 1) continue;
      const reach = step * Math.min(domain.size, 0.5 * ((leastLegs[i - 1] as number) + (leastLegs[i] as number)) + 0.1);
      const k = 3 * i;
      const pull = (axis: number): number =>
        (p[k + axis] as number) - reach * ((u[k - 3 + axis] as number) - (u[k + axis] as number));
      p.set(nearestInDomain(domain, [pull(0), pull(1), pull(2)]), k);
    }
  }
  return {
    directions: leastLegs.map((_, j) => vectorAt(kept, j)),
    places: events.map((_, i) => vectorAt(p, i)),
    value: best,
    loose: loosest(events, p, kept),
  };
}

const vectorAt = (flat: Float64Array, k: number): Vec3 => [
  flat[3 * k] as number,
  flat[3 * k + 1] as number,
  flat[3 * k + 2] as number,
];

/** Pulls the string tight over the places, each between its neighbours. */
function tighten(events: readonly BoundEvent[], p: Float64Array, sweeps: number): void {
  for (let sweep = 0; sweep < sweeps; sweep++)
    for (let i = 1; i + 1 < events.length; i++) {
      const { domain } = events[i] as BoundEvent;
      if (domain.ring.length === 1) continue;
      const [a, b] = [vectorAt(p, i - 1), vectorAt(p, i + 1)];
      const ha = Math.abs(dot(domain.normal, a) - domain.offset);
      const hb = Math.abs(dot(domain.normal, b) - domain.offset);
      const t = ha + hb > 1e-9 ? ha / (ha + hb) : 0.5;
      p.set(
        nearestInDomain(domain, [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t]),
        3 * i,
      );
    }
}

function loosest(events: readonly BoundEvent[], p: Float64Array, u: Float64Array): Dual['loose'] {
  let loose = { event: -1, gap: 0 };
  for (let i = 1; i + 1 < events.length; i++) {
    const { domain } = events[i] as BoundEvent;
    const [into, out] = [vectorAt(u, i - 1), vectorAt(u, i)];
    const c = subtract(into, out);
    // How far it may lie beside its polygon is no part of what halves of it could settle.
    const gap = dot(c, vectorAt(p, i)) - leastAlong(domain, c[0], c[1], c[2]) - domain.roundM * norm(c);
    if (gap > loose.gap) loose = { event: i, gap };
  }
  return loose;
}
