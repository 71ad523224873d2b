import { add, cross, dot, norm, scale, squareTo, subtract, type Vec3 } from '../../../base/vec';
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

const psi = (a: number): number => a - Math.sin(a);
/** Loss in the first w radians of turning back from the angle f. */
const psiWithin = (f: number, w: number): number => psi(f) - psi(Math.max(0, f - w));
function angleOf(a: Vec3, b: Vec3): number {
  const x = a[1] * b[2] - a[2] * b[1];
  const y = a[2] * b[0] - a[0] * b[2];
  const z = a[0] * b[1] - a[1] * b[0];
  return Math.atan2(Math.sqrt(x * x + y * y + z * z), dot(a, b));
}

/** Legs longer than this many radii gain nothing worth having from a closer look. */
const CLOSE_LOOK_RADII = 7;
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
  const turn = ta && tb ? radius * angleOf(ta, tb) : 0;
  let least = Math.max(0, domainDistance(start, end), turn);
  if (!(radius > 0) || !(ta || tb) || least > CLOSE_LOOK_RADII * radius) return least;
  const apart = subtract(end.centre, start.centre);
  const valueAt = (u: Vec3): number =>
    leastAlong(end, u[0], u[1], u[2]) + leastAlong(start, -u[0], -u[1], -u[2]) + wholeLegLoss(ta, tb, u, least, radius);
  let best = bestOf(startingDirections(apart, ta, tb), valueAt);
  for (let feed = 0; feed < MOST_FEEDS; feed++) {
    best = climbed(best, valueAt);
    const value = valueAt(best);
    if (!(value > least * (1 + FEED_WORTH))) return Math.max(least, value);
    least = value;
  }
  return least;
}

/** Loss of a leg looked at alone: a free end takes no share of it. */
function wholeLegLoss(ta: Vec3 | null, tb: Vec3 | null, u: Vec3, least: number, radius: number): number {
  if (ta && tb) return bothEndsLoss(angleOf(ta, u), angleOf(tb, u), least, radius);
  return radius * psiWithin(angleOf((ta ?? tb) as Vec3, u), least / radius);
}

function startingDirections(apart: Vec3, ta: Vec3 | null, tb: Vec3 | null): Vec3[] {
  const found: Vec3[] = [];
  const put = (v: Vec3): void => {
    const l = norm(v);
    if (l > 1e-9) found.push(scale(v, 1 / l), scale(v, -1 / l));
  };
  for (const v of [apart, ta, tb]) if (v) put(v);
  if (ta) put(cross(ta, apart));
  if (ta && tb) {
    put(add(ta, tb));
    put(cross(ta, tb));
  }
  return found;
}

const bestOf = (some: readonly Vec3[], valueAt: (u: Vec3) => number): Vec3 =>
  some.reduce((best, u) => (valueAt(u) > valueAt(best) ? u : best));

/** Turns a direction, by ever smaller steps, to where the value is greatest near it. */
function climbed(from: Vec3, valueAt: (u: Vec3) => number): Vec3 {
  let at = from;
  let value = valueAt(at);
  for (let step = 0.5; step > 0.004; step /= 2) {
    const side = squareTo(at);
    const other = cross(at, side);
    for (const [i, j] of AROUND) {
      const v = add(at, add(scale(side, i * step), scale(other, j * step)));
      const u = scale(v, 1 / norm(v));
      const there = valueAt(u);
      if (there <= value) continue;
      at = u;
      value = there;
      break;
    }
  }
  return at;
}
const AROUND = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

/** Displacement from the end of one event's stub to the start of the next one's. */
function displacement(a: BoundEvent, b: BoundEvent, pa: Vec3, pb: Vec3): Vec3 {
  const [ta, tb, sa, sb] = [a.tangent, b.tangent, a.stub, b.stub];
  let [dx, dy, dz] = [pb[0] - pa[0], pb[1] - pa[1], pb[2] - pa[2]];
  if (ta) {
    dx -= ta[0] * sa;
    dy -= ta[1] * sa;
    dz -= ta[2] * sa;
  }
  if (tb) {
    dx -= tb[0] * sb;
    dy -= tb[1] * sb;
    dz -= tb[2] * sb;
  }
  return [dx, dy, dz];
}

/** Loss of a leg that has the angles f0 and f1 to its ends. */
function bothEndsLoss(f0: number, f1: number, least: number, radius: number): number {
  const x = Math.max(0, (f0 + f1 - least / radius) / 2);
  return Math.max(0, radius * (psi(f0) + psi(f1) - 2 * psi(x)));
}

/** Loss of one leg to the directions fixed at its ends. */
function legLoss(a: BoundEvent, b: BoundEvent, u: Vec3, least: number, radius: number): number {
  if (!(radius > 0)) return 0;
  if (a.tangent && b.tangent) return bothEndsLoss(angleOf(a.tangent, u), angleOf(b.tangent, u), least, radius);
  const fixed = a.tangent ?? b.tangent;
  // The other half of the leg belongs to the free end.
  return fixed ? radius * psiWithin(angleOf(fixed, u), least / (2 * radius)) : 0;
}

/** Loss of turning from u to v about a free event: at least twice that of half the turn, taken up to a right angle. */
function freeLoss(u: Vec3, v: Vec3, before: number, after: number, radius: number): number {
  if (!(radius > 0)) return 0;
  const half = Math.min(angleOf(u, v), Math.PI / 2) / 2;
  return 2 * radius * psiWithin(half, Math.min(before, after) / (2 * radius));
}

/** Certified least length of the chain up to `last` (default: all of it), for these directions. */
export function dualValue(
  chain: Chain,
  directions: readonly Vec3[],
  radius: number,
  last = chain.events.length - 1,
): number {
  const { events, leastLegs } = chain;
  let sum = 0;
  for (let i = 0; i <= last; i++) {
    const event = events[i] as BoundEvent;
    const into = i > 0 ? (directions[i - 1] as Vec3) : null;
    const out = i < last ? (directions[i] as Vec3) : null;
    if (i > 0) sum += event.stub;
    if (i < last) sum += event.stub;
    const cx = (into ? into[0] : 0) - (out ? out[0] : 0);
    const cy = (into ? into[1] : 0) - (out ? out[1] : 0);
    const cz = (into ? into[2] : 0) - (out ? out[2] : 0);
    sum += leastAlong(event.domain, cx, cy, cz);
    if (event.tangent) {
      if (into) sum -= event.stub * dot(event.tangent, into);
      if (out) sum -= event.stub * dot(event.tangent, out);
    } else if (into && out) {
      sum += freeLoss(into, out, leastLegs[i - 1] as number, leastLegs[i] as number, radius);
    }
    if (out) sum += legLoss(event, events[i + 1] as BoundEvent, out, leastLegs[i] as number, radius);
  }
  return sum;
}

/**
 * A few uphill steps of a leg's direction `u` on the sphere, in place, its displacement (dx, dy, dz) held. Nothing here need be
 * certified: any direction gives a bound.
 */
function climb(
  u: [number, number, number],
  dx: number,
  dy: number,
  dz: number,
  ta: Vec3 | null,
  tb: Vec3 | null,
  least: number,
  radius: number,
): void {
  const step = 1 / (Math.sqrt(dx * dx + dy * dy + dz * dz) + 2 * radius + 1e-9);
  for (let turn = 0; turn < CLIMBS; turn++) {
    const [ux, uy, uz] = u;
    let gx = dx;
    let gy = dy;
    let gz = dz;
    const cosA = ta ? ta[0] * ux + ta[1] * uy + ta[2] * uz : 1;
    const cosB = tb ? tb[0] * ux + tb[1] * uy + tb[2] * uz : 1;
    const fa = ta ? arc(cosA) : 0;
    const fb = tb ? arc(cosB) : 0;
    const both = ta !== null && tb !== null;
    const x = both ? Math.max(0, (fa + fb - least / radius) / 2) : 0;
    if (ta && fa > 1e-7 && fa < Math.PI - 1e-7) {
      const back = both ? x : Math.max(0, fa - least / (2 * radius));
      const k = (radius * ((back > 0 ? Math.cos(back) : 1) - cosA)) / Math.sqrt(1 - cosA * cosA);
      gx -= k * (ta[0] - ux * cosA);
      gy -= k * (ta[1] - uy * cosA);
      gz -= k * (ta[2] - uz * cosA);
    }
    if (tb && fb > 1e-7 && fb < Math.PI - 1e-7) {
      const back = both ? x : Math.max(0, fb - least / (2 * radius));
      const k = (radius * ((back > 0 ? Math.cos(back) : 1) - cosB)) / Math.sqrt(1 - cosB * cosB);
      gx -= k * (tb[0] - ux * cosB);
      gy -= k * (tb[1] - uy * cosB);
      gz -= k * (tb[2] - uz * cosB);
    }
    const radial = gx * ux + gy * uy + gz * uz;
    const vx = ux + step * (gx - radial * ux);
    const vy = uy + step * (gy - radial * uy);
    const vz = uz + step * (gz - radial * uz);
    const l = Math.sqrt(vx * vx + vy * vy + vz * vz);
    if (l < 1e-12) return;
    u[0] = vx / l;
    u[1] = vy / l;
    u[2] = vz / l;
  }
}
const CLIMBS = 3;
const arc = (cos: number): number => Math.acos(cos > 1 ? 1 : cos < -1 ? -1 : cos);

function normal3(x: number, y: number, z: number, otherwise: Vec3): [number, number, number] {
  const l = Math.sqrt(x * x + y * y + z * z);
  return l > 1e-12 ? [x / l, y / l, z / l] : [...otherwise];
}

/** Rounds that gain less than this are idle; after a few of them no gain is left. */
const WORTH_M = 1e-6;
const MOST_IDLE = 4;

/** Finds good directions by letting places and directions follow each other; keeps the best certified value. */
export function optimiseDual(chain: Chain, radius: number, rounds: number, start: readonly Vec3[]): Dual {
  const { events, leastLegs } = chain;
  const places = events.map((event, i) => start[i] ?? event.domain.centre);
  tighten(events, places, 4);
  let directions: Vec3[] = leastLegs.map((_, j) => legDirection(events, places, j));
  let best = dualValue(chain, directions, radius);
  let kept = directions;
  let idle = 0;
  for (let round = 0; round < rounds; round++) {
    directions = directions.map((u, j) => {
      const [a, b] = [events[j] as BoundEvent, events[j + 1] as BoundEvent];
      const d = displacement(a, b, places[j] as Vec3, places[j + 1] as Vec3);
      const v: [number, number, number] = [u[0], u[1], u[2]];
      climb(v, d[0], d[1], d[2], a.tangent, b.tangent, leastLegs[j] as number, radius);
      return v;
    });
    const value = dualValue(chain, directions, radius);
    idle = value > best + WORTH_M ? 0 : idle + 1;
    if (value > best) {
      best = value;
      kept = directions;
    }
    if (idle === MOST_IDLE) break;
    // Places slide against the pull of the two directions that meet in them.
    const step = 0.5 / (1 + 0.3 * round);
    for (let i = 1; i + 1 < events.length; i++) {
      const event = events[i] as BoundEvent;
      if (event.domain.ring.length === 1) continue;
      const [into, out] = [directions[i - 1] as Vec3, directions[i] as Vec3];
      const reach =
        step * Math.min(event.domain.size, 0.5 * ((leastLegs[i - 1] as number) + (leastLegs[i] as number)) + 0.1);
      const p = places[i] as Vec3;
      places[i] = nearestInDomain(event.domain, [
        p[0] - reach * (into[0] - out[0]),
        p[1] - reach * (into[1] - out[1]),
        p[2] - reach * (into[2] - out[2]),
      ]);
    }
  }
  return { directions: kept, places, value: best, loose: loosest(events, places, kept) };
}

/** Pulls the string tight over the places, each between its neighbours. */
function tighten(events: readonly BoundEvent[], places: Vec3[], sweeps: number): void {
  for (let sweep = 0; sweep < sweeps; sweep++)
    for (let i = 1; i + 1 < events.length; i++) {
      const { domain } = events[i] as BoundEvent;
      if (domain.ring.length === 1) continue;
      const [a, b] = [places[i - 1] as Vec3, places[i + 1] as Vec3];
      const ha = Math.abs(dot(domain.normal, a) - domain.offset);
      const hb = Math.abs(dot(domain.normal, b) - domain.offset);
      const t = ha + hb > 1e-9 ? ha / (ha + hb) : 0.5;
      places[i] = nearestInDomain(domain, [
        a[0] + (b[0] - a[0]) * t,
        a[1] + (b[1] - a[1]) * t,
        a[2] + (b[2] - a[2]) * t,
      ]);
    }
}

function legDirection(events: readonly BoundEvent[], places: readonly Vec3[], j: number): Vec3 {
  const d = displacement(
    events[j] as BoundEvent,
    events[j + 1] as BoundEvent,
    places[j] as Vec3,
    places[j + 1] as Vec3,
  );
  const fallback = events[j]?.tangent ?? events[j + 1]?.tangent ?? [1, 0, 0];
  return normal3(d[0], d[1], d[2], fallback);
}

function loosest(events: readonly BoundEvent[], places: readonly Vec3[], directions: readonly Vec3[]): Dual['loose'] {
  let loose = { event: -1, gap: 0 };
  for (let i = 1; i + 1 < events.length; i++) {
    const event = events[i] as BoundEvent;
    const [into, out] = [directions[i - 1] as Vec3, directions[i] as Vec3];
    const c: Vec3 = [into[0] - out[0], into[1] - out[1], into[2] - out[2]];
    const gap = dot(c, places[i] as Vec3) - leastAlong(event.domain, c[0], c[1], c[2]);
    if (gap > loose.gap) loose = { event: i, gap };
  }
  return loose;
}
