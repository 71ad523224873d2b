import { byId } from '../../base/order';
import * as portable from '../../base/portable';
import { add, along, cross, dot, scale, subtract, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../hull/types';
import { bounds } from '../layout/prism';
import type { Layout } from '../layout/types';
import { type Convex, convexOf } from './convex';
import type { Layer, Solid } from './solids';
import type { PushedFace } from './things';
import { wallsNear } from './walls-near';

/** What stops a query, and where. */
export interface Blocker {
  /** Id of the solid or wall, or 'hull'. */
  readonly id: string;
  /** Thing that the solid belongs to, panel or compartment of the wall, or 'hull'. */
  readonly owner: string;
  readonly label: string;
  readonly layer: Layer | 'wall' | 'hull';
  readonly at: Vec3;
}

/** How the hull is named wherever it is what stops something. */
export const HULL: Omit<Blocker, 'at'> = { id: 'hull', owner: 'hull', label: 'hull', layer: 'hull' };

/** Sides of the prism that stands for something round: 8 micrometres too wide at a radius of 0.1 m. */
const ROUND_SIDES = 256;
/** The first sides of a prism are those of a square. */
const SQUARE = 4;
/** A contact narrower than this across the moving face is a touch, not a stop (metres). */
const GRAZE_M = 1e-4;
/** Lines across the face that look for the hull are no further apart. */
const HULL_LINE_M = 0.025;
/** Farther than this from the hull the face advances by so much at once: as far as the hull answers from its grid. */
const HULL_NEAR_M = 0.1;
/** A place that is said to meet the hull is nearer to it than this. */
const HULL_WIDE_M = 0.1;
/** Beside the hull it advances by no less. */
const HULL_STEP_M = 5e-4;

export interface Surroundings {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  /** Solids that may be in the way, the thing's own left out by the caller. */
  readonly solids: readonly Solid[];
  /** Ids of walls that do not count, such as the one an opening is cut into. */
  readonly withoutWalls?: ReadonlySet<string>;
}

export interface FreeDepth {
  /** How far the face goes before something stops it; the cap when nothing does. */
  readonly freeM: number;
  /** Null when the cap was reached. */
  readonly blocker: Blocker | null;
}

/**
 * How far a rectangle or disc goes along its normal before it meets a solid, a wall or the hull. Exact against boxes and
 * plates; against cylinders, or with a disc, within 0.01 mm at a radius of 0.1 m; against the hull within 0.1 mm. Room counts
 * up to the drawn outlines of a compartment. Between equals the first by id is named.
 */
export function freeDepth(face: PushedFace, capM: number, around: Surroundings): FreeDepth {
  const frame = pushFrame(face);
  let freeM = capM;
  let blocker: Blocker | null = null;
  const meet = (body: Convex, name: Omit<Blocker, 'at'>, isAhead = false): void => {
    const hit = (isAhead ? flushContact(frame, body) : null) ?? firstContact(frame, body, freeM);
    if (!hit || hit.t > freeM - 1e-9) return;
    freeM = Math.max(0, hit.t);
    blocker = { ...name, at: hit.at };
  };
  for (const solid of [...around.solids].sort(byId))
    meet(convexOf(solid), { id: solid.id, owner: solid.owner, label: solid.label, layer: solid.layer });
  const [low, high] = sweptBounds(frame, capM);
  for (const { wall, body } of wallsNear(around.layout, low, high)) {
    if (around.withoutWalls?.has(wall.id)) continue;
    const owner = wall.panelId ?? wall.id.split('/', 1)[0] ?? wall.id;
    // The face of a room has no thickness: a push that starts on it leaves the room at once, or has its back to it.
    const isAhead = wall.panelId !== undefined || dot(wall.normal, face.direction) > 0;
    meet(body, { id: wall.id, owner, label: wall.label, layer: 'wall' }, isAhead);
  }
  if (around.hull) {
    const hit = hullContact(frame, around.hull, freeM);
    if (hit) {
      freeM = hit.t;
      blocker = { ...HULL, at: hit.at };
    }
  }
  return { freeM, blocker };
}

interface PushFrame {
  readonly origin: Vec3;
  readonly d: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly halfU: number;
  readonly halfV: number;
  readonly round: boolean;
  /** Half-planes of the moving shape in (u, v), drawn in by the graze. */
  readonly sides: readonly (readonly [number, number, number])[];
}

function pushFrame(face: PushedFace): PushFrame {
  const u = face.across;
  const v = cross(face.direction, u);
  const halfU = face.sizeM[0] / 2;
  const halfV = face.sizeM[1] / 2;
  const sides: (readonly [number, number, number])[] = [
    [1, 0, halfU - GRAZE_M],
    [-1, 0, halfU - GRAZE_M],
    [0, 1, halfV - GRAZE_M],
    [0, -1, halfV - GRAZE_M],
  ];
  // The square around a disc comes first: what misses it needs no finer cut.
  if (face.round)
    for (let k = 0; k < ROUND_SIDES; k++) {
      if (k % (ROUND_SIDES / 4) === 0) continue;
      const angle = (2 * Math.PI * k) / ROUND_SIDES;
      sides.push([portable.cos(angle), portable.sin(angle), halfU - GRAZE_M]);
    }
  return { origin: face.at, d: face.direction, u, v, halfU, halfV, round: face.round, sides };
}

function sweptBounds(frame: PushFrame, capM: number): readonly [Vec3, Vec3] {
  const corners = [0, capM].flatMap((t) =>
    [-1, 1].flatMap((a) => [-1, 1].map((b) => toBoat(frame, [a * frame.halfU, b * frame.halfV, t]))),
  );
  return bounds(corners);
}

/** Contact with a sheet in whose plane the pushed face starts; null where it starts elsewhere, or beside it. */
function flushContact(frame: PushFrame, body: Convex): { t: number; at: Vec3 } | null {
  const faces = body.faces(ROUND_SIDES);
  const [sheet] = faces;
  if (faces.length !== 1 || !sheet) return null;
  let ring: readonly Vec3[] = sheet.polygon.map((p): Vec3 => {
    const q = subtract(p, frame.origin);
    return [dot(q, frame.u), dot(q, frame.v), dot(q, frame.d)];
  });
  if (ring.some(([, , t]) => Math.abs(t) > GRAZE_M)) return null;
  for (const [a, b, c] of frame.sides) {
    if (ring.length === 0) return null;
    ring = clipInSpace(ring, a, b, c);
  }
  const [first] = ring;
  return first ? { t: 0, at: toBoat(frame, [first[0], first[1], 0]) } : null;
}

/** Least travel at which the pushed face meets the body, with the place; null when it passes it before `withinM`. */
function firstContact(frame: PushFrame, body: Convex, withinM: number): { t: number; at: Vec3 } | null {
  const { origin, d, u, v, halfU, halfV } = frame;
  const reach = (axis: Vec3): readonly [number, number] => {
    const from = dot(origin, axis);
    return [dot(body.support(scale(axis, -1)), axis) - from, dot(body.support(axis), axis) - from];
  };
  const [near, far] = reach(d);
  if (near > withinM || far < GRAZE_M) return null;
  const [lowU, highU] = reach(u);
  if (lowU > halfU - GRAZE_M || highU < GRAZE_M - halfU) return null;
  const [lowV, highV] = reach(v);
  if (lowV > halfV - GRAZE_M || highV < GRAZE_M - halfV) return null;

  const met = meetings(frame, body, withinM);
  if (met.least === Number.POSITIVE_INFINITY) return null;
  // Near faces alone tell where the body begins, unless they are a graze or lie behind.
  const { first, least, greatest } =
    met.first && met.first[2] < withinM && met.greatest >= GRAZE_M
      ? met
      : meetings(frame, body, Number.POSITIVE_INFINITY);
  if (!first || greatest < GRAZE_M) return null;
  // A body that is met before and behind the starting face stands in it already.
  return least < 0 ? { t: 0, at: startPlace(frame, body, first) } : { t: first[2], at: toBoat(frame, first) };
}

interface Meetings {
  /** The first place ahead, in (u, v, travel). */
  readonly first: Vec3 | null;
  /** Least and greatest travel at which a face is met. */
  readonly least: number;
  readonly greatest: number;
}

/** Every face of the body that begins before `withinM`, cut to the prism that the pushed face sweeps. */
function meetings(frame: PushFrame, body: Convex, withinM: number): Meetings {
  let first: Vec3 | null = null;
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const { polygon } of body.faces(ROUND_SIDES)) {
    // Once it is known that the body is met, only what is met before that counts.
    const limit: number = first && greatest >= GRAZE_M ? Math.min(withinM, first[2]) : withinM;
    if (!mayMeet(frame, polygon, limit)) continue;
    let ring: readonly Vec3[] = polygon.map((p): Vec3 => {
      const q = subtract(p, frame.origin);
      return [dot(q, frame.u), dot(q, frame.v), dot(q, frame.d)];
    });
    for (let side = 0; side < frame.sides.length && ring.length > 0; side += 1) {
      // What the square around a disc leaves may lie beyond that too.
      if (side === SQUARE && ring.every((p) => p[2] >= limit)) ring = [];
      const [a, b, c] = frame.sides[side] as PushFrame['sides'][number];
      ring = clipInSpace(ring, a, b, c);
    }
    for (const p of ring) {
      least = Math.min(least, p[2]);
      greatest = Math.max(greatest, p[2]);
      if (p[2] >= 0 && (!first || p[2] < first[2])) first = p;
    }
  }
  return { first, least, greatest };
}

/** False of a polygon that lies beyond a side of the prism, or wholly farther off: most faces of what is near. */
function mayMeet({ origin, u, v, d, halfU, halfV }: PushFrame, polygon: readonly Vec3[], withinM: number): boolean {
  let [left, right, below, above, near] = [true, true, true, true, false];
  for (const p of polygon) {
    const x = p[0] - origin[0];
    const y = p[1] - origin[1];
    const z = p[2] - origin[2];
    const across = x * u[0] + y * u[1] + z * u[2];
    const along = x * v[0] + y * v[1] + z * v[2];
    left &&= across < GRAZE_M - halfU;
    right &&= across > halfU - GRAZE_M;
    below &&= along < GRAZE_M - halfV;
    above &&= along > halfV - GRAZE_M;
    near ||= x * d[0] + y * d[1] + z * d[2] < withinM;
  }
  return near && !left && !right && !below && !above;
}

const toBoat = ({ origin, u, v, d }: PushFrame, p: Vec3): Vec3 =>
  along(along(along(origin, u, p[0]), v, p[1]), d, p[2]);

/** A point of the starting face inside the body, or the first met beyond it, in (u, v, travel). */
function startPlace(frame: PushFrame, body: Convex, first: Vec3): Vec3 {
  const onFace = toBoat(frame, [first[0], first[1], 0]);
  return holds(body, onFace) ? onFace : toBoat(frame, first);
}

function holds(body: Convex, p: Vec3): boolean {
  const faces = body.faces(ROUND_SIDES);
  return faces.length > 1 && faces.every(({ polygon, normal }) => dot(normal, subtract(p, polygon[0] as Vec3)) <= 1e-9);
}

/** Keeps the part of a polygon in space where a x + b y <= c. */
function clipInSpace(ring: readonly Vec3[], a: number, b: number, c: number): readonly Vec3[] {
  if (ring.every((p) => a * p[0] + b * p[1] - c <= 0)) return ring;
  const out: Vec3[] = [];
  for (let i = 0; i < ring.length; i++) {
    const p = ring[i] as Vec3;
    const q = ring[(i + 1) % ring.length] as Vec3;
    const dp = a * p[0] + b * p[1] - c;
    const dq = a * q[0] + b * q[1] - c;
    if (dp <= 0) out.push(p);
    if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) out.push(along(p, subtract(q, p), dp / (dp - dq)));
  }
  return out;
}

/**
 * Travel at which a line of the moving face first leaves the hull. A line's free distance changes by no more than the travel,
 * so it may advance by it; each line goes for itself, and no further than the first that was stopped. Where the interior is
 * convex the outline of the face decides, and that is exact.
 */
function hullContact(frame: PushFrame, hull: HullSurface, withinM: number): { t: number; at: Vec3 } | null {
  // Most faces have the hull nowhere near: nothing of what they sweep is farther from its middle line than this.
  const reach = portable.hypot(frame.halfU, frame.halfV);
  if (hull.clearance(frame.origin, along(frame.origin, frame.d, withinM), reach) >= reach) return null;
  const lines = linesAcross(frame);
  let first = withinM;
  let isStopped = false;
  for (const [a, b] of lines) {
    const freeAt = (t: number, cutoffM: number): number =>
      hull.clearance(along(a, frame.d, t), along(b, frame.d, t), cutoffM);
    let t = 0;
    let free = freeAt(0, HULL_NEAR_M);
    if (free < -GRAZE_M) return { t: 0, at: worstPlace(frame, hull, lines, 0) };
    while (t < first) {
      const next = Math.min(first, t + Math.max(free, HULL_STEP_M));
      free = freeAt(next, HULL_NEAR_M);
      if (free >= -GRAZE_M) t = next;
      else {
        first = bisect(t, next, (s) => freeAt(s, 0) >= -GRAZE_M);
        t = first;
        isStopped = true;
      }
    }
  }
  return isStopped ? { t: first, at: worstPlace(frame, hull, lines, first) } : null;
}

function bisect(from: number, to: number, isFree: (t: number) => boolean): number {
  let [low, high] = [from, to];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (isFree(middle)) low = middle;
    else high = middle;
  }
  return low;
}

function worstPlace(frame: PushFrame, hull: HullSurface, lines: readonly (readonly [Vec3, Vec3])[], t: number): Vec3 {
  let best: Vec3 = frame.origin;
  let least = HULL_WIDE_M;
  const by = scale(frame.d, t);
  for (const [a, b] of lines)
    for (let k = 0; k <= 8; k++) {
      const p = add(along(a, subtract(b, a), k / 8), by);
      const free = hull.clearance(p, p, Math.max(0, least));
      if (free < least - 1e-9) {
        least = free;
        best = p;
      }
    }
  return best;
}

/** The outline of the moving face and lines across it, drawn in by the graze. */
function linesAcross(frame: PushFrame): (readonly [Vec3, Vec3])[] {
  const { halfU, halfV } = frame;
  const at = (a: number, b: number): Vec3 => toBoat(frame, [a, b, 0]);
  const n = Math.max(1, Math.ceil((2 * halfV) / HULL_LINE_M));
  if (!frame.round) {
    const across = Array.from({ length: n + 1 }, (_, i) => -halfV + (2 * halfV * i) / n);
    return [
      ...across.map((b) => [at(-halfU, b), at(halfU, b)] as const),
      [at(-halfU, -halfV), at(-halfU, halfV)],
      [at(halfU, -halfV), at(halfU, halfV)],
    ];
  }
  const sides = 64;
  const rim = (k: number): Vec3 => {
    const angle = (2 * Math.PI * k) / sides;
    return at(halfU * portable.cos(angle), halfU * portable.sin(angle));
  };
  const across = Array.from({ length: n - 1 }, (_, i) => -halfU + (2 * halfU * (i + 1)) / n).map((b) => {
    const a = Math.sqrt(Math.max(0, halfU * halfU - b * b));
    return [at(-a, b), at(a, b)] as const;
  });
  return [...Array.from({ length: sides }, (_, k) => [rim(k), rim(k + 1)] as const), ...across];
}
