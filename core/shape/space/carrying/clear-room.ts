import { add, type Rotation, scale, subtract, type Vec3 } from '../../../base/vec';
import type { HullSurface } from '../../hull/types';
import { travelToContact } from '../contact';
import { convexOf } from '../convex';
import { nearestPoints } from '../convex-distance';
import { type AnySolid, SolidPack } from '../kernel';
import type { Obstruction } from '../opened-walls';
import { segmentBox } from '../segment-distance';
import type { Solid } from '../solids';
import { axesOf, type CarriedBody, type CarriedPose } from './carried-body';
import { boxCorners, type FlatBody, flatBody, linesAlong, plateBody } from './flat-body';
import { HullAbout } from './hull-about';
import { solidInFrame, type WayFrame } from './way-frame';

/** What is said of two bodies that share room. */
const IN_IT = -1e-3;
/** Axes of two nearly parallel edges part nothing that their faces do not. */
const LEAST_CROSS_SQUARED = 1e-10;
/** Lines about a round body that look for the hull. */
const ROUND_LINES = 16;
/** Index by which the hull is named. */
export const THE_HULL = -2;
const NOTHING = -1;
const NONE: ReadonlySet<number> = new Set();
/** Ends of the twelve edges of a box, by the order of its corners. */
const BOX_EDGES = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) =>
  [1, 2, 4].flatMap((bit) => ((i & bit) === 0 ? [[i, i | bit] as const] : [])),
);

export interface Travel {
  readonly freeM: number;
  /** Index of what stops it among the obstructions, THE_HULL, or -1. */
  readonly stop: number;
}

/** No farther from the plane of an opening stands the wall that it is in (metres). */
const FRAME_M = 0.15;
const isFrame = (solid: AnySolid): boolean =>
  solid.type === 'plate' && Math.abs(solid.normal[2]) > 0.9 && solid.polygon.every(([, , w]) => Math.abs(w) <= FRAME_M);

/**
 * The room about an opening in which a body is carried: what stands there, in the coordinates of the opening. Distances are never more than
 * the true ones, and not positive exactly where two bodies share room: flat bodies by separating axes, round ones by their distance.
 */
export class ClearRoom {
  readonly size: number;
  private readonly hull: HullAbout;
  private readonly solids: readonly AnySolid[];
  private readonly pack: SolidPack;
  private readonly flats: (FlatBody | null | undefined)[] = [];
  private readonly bounds: Float64Array;
  private readonly isCapsule: Uint8Array;
  private readonly ends: Float64Array;
  private body: CarriedBody = { half: [1e-6, 1e-6, 1e-6], round: null };
  private readonly axes = new Float64Array(9);
  private readonly centre = new Float64Array(3);
  private readonly spread = new Float64Array(3);
  private own: Solid | null = null;
  /** What was nearest when `room` was asked last. */
  nearest = NOTHING;
  /** Poses that were looked at. */
  looks = 0;
  /** Whether a thing is what is left of the wall about the opening. */
  readonly isFrame: readonly boolean[];
  /** How far that wall stands from the plane of the opening, inwards and outwards; not negative. */
  readonly frameM: readonly [number, number];

  constructor(
    readonly obstructions: readonly Obstruction[],
    readonly frame: WayFrame,
    hull: HullSurface | null,
    /** The hull bounds only what is inside the opening. */
    hullInsideOnly: boolean,
  ) {
    this.hull = new HullAbout(hull, frame, hullInsideOnly);
    const solids = obstructions.map(({ solid }) => solidInFrame(frame, solid));
    this.solids = solids;
    this.isFrame = solids.map(isFrame);
    this.size = solids.length;
    this.pack = new SolidPack(solids);
    this.bounds = this.pack.bounds;
    const framed = solids.flatMap((_, i) => (this.isFrame[i] ? [i * 6] : []));
    this.frameM = [
      Math.max(0, ...framed.map((b) => -(this.bounds[b + 2] as number))),
      Math.max(0, ...framed.map((b) => this.bounds[b + 5] as number)),
    ];
    this.isCapsule = Uint8Array.from(solids, (solid) => (solid.type === 'capsule' ? 1 : 0));
    this.ends = new Float64Array(this.size * 7);
    solids.forEach((solid, i) => {
      if (solid.type !== 'box' && solid.type !== 'plate')
        this.ends.set([...solid.from, ...solid.to, solid.radius], i * 7);
    });
  }

  /** Most of what stands about an opening is never come near to: its faces are counted when it is. */
  private flatAt(i: number): FlatBody | null {
    const known = this.flats[i];
    if (known !== undefined) return known;
    const solid = this.solids[i] as AnySolid;
    const flat =
      solid.type === 'box'
        ? flatBody(boxCorners(solid.centre, solid.half, solid.axes), solid.axes, solid.axes)
        : solid.type === 'plate'
          ? plateBody(solid)
          : null;
    this.flats[i] = flat;
    return flat;
  }

  /** The body that is carried from now on. */
  carry(body: CarriedBody): void {
    this.body = body;
  }

  private put({ at, turn }: CarriedPose): void {
    axesOf(turn, this.axes);
    this.centre.set(at);
    this.own = null;
    const { axes, spread, body } = this;
    const { half, round } = body;
    for (let k = 0; k < 3; k += 1) {
      if (round === null)
        spread[k] =
          half[0] * Math.abs(axes[k] as number) +
          half[1] * Math.abs(axes[3 + k] as number) +
          half[2] * Math.abs(axes[6 + k] as number);
      else {
        const c = axes[3 * round + k] as number;
        spread[k] = half[round] * Math.abs(c) + this.radius() * Math.sqrt(Math.max(0, 1 - c * c));
      }
    }
  }

  private radius(): number {
    const { half, round } = this.body;
    return half[(((round ?? 0) + 1) % 3) as 0 | 1 | 2];
  }

  /** Half of what the body takes up along an axis of the frame. */
  spreadOf(pose: CarriedPose): Vec3 {
    this.put(pose);
    return [this.spread[0] as number, this.spread[1] as number, this.spread[2] as number];
  }

  /** Free distance about the body, at most `capM`; stops at the first thing that it meets. */
  room(pose: CarriedPose, capM: number): number {
    this.looks += 1;
    this.put(pose);
    this.nearest = NOTHING;
    let best = capM;
    for (let i = 0; i < this.size; i += 1) {
      const d = this.separation(i, best);
      if (d >= best) continue;
      best = d;
      this.nearest = i;
      if (d <= 0) return d;
    }
    const d = this.hullRoom(best);
    if (d < best) {
      best = d;
      this.nearest = THE_HULL;
    }
    return best;
  }

  /** Free distance to each thing nearer than `capM`, told one by one. */
  eachNear(pose: CarriedPose, capM: number, tell: (index: number, distanceM: number) => void): void {
    this.put(pose);
    for (let i = 0; i < this.size; i += 1) {
      const d = this.separation(i, capM);
      if (d < capM) tell(i, d);
    }
    const d = this.hullRoom(capM);
    if (d < capM) tell(THE_HULL, d);
  }

  /** Free distance about a point, at most `capM`. */
  aboutPoint(p: Vec3, capM: number): number {
    let best = capM;
    for (let i = 0; i < this.size; i += 1)
      best = Math.min(best, this.pack.distance(i, p[0], p[1], p[2], p[0], p[1], p[2], best));
    return Math.min(best, this.hull.free(p, p, best));
  }

  /** Lower bound of the distance to one thing; `limit` or more when it is at least that. */
  private separation(i: number, limit: number): number {
    const { bounds, centre, spread } = this;
    const b = i * 6;
    for (let k = 0; k < 3; k += 1) {
      const c = centre[k] as number;
      const s = spread[k] as number;
      if ((bounds[b + k] as number) - (c + s) >= limit || c - s - (bounds[b + 3 + k] as number) >= limit) return limit;
    }
    const flat = this.flatAt(i);
    if (this.body.round === null) {
      if (flat) return this.flatGap(flat, limit);
      const d = this.boxToRound(i);
      if (d > 0 || this.isCapsule[i] === 1 || d <= -(this.ends[i * 7 + 6] as number)) return d;
      // The round ends that it does not have may be all that it meets.
      return Math.max(d, this.boxToCylinder(i, limit));
    }
    const k = this.body.round;
    const h = this.body.half[k];
    const r = this.radius();
    const [x, y, z] = [this.axes[3 * k] as number, this.axes[3 * k + 1] as number, this.axes[3 * k + 2] as number];
    const [cx, cy, cz] = [centre[0] as number, centre[1] as number, centre[2] as number];
    const d =
      this.pack.distance(i, cx - x * h, cy - y * h, cz - z * h, cx + x * h, cy + y * h, cz + z * h, limit + r) - r;
    if (d > 0 || d <= -r) return d;
    return flat ? Math.max(d, this.roundGap(flat, limit)) : this.exact(i);
  }

  /** A cylinder against a flat body, by axes that may part them: without those at which a rim meets an edge, so now and then too little. */
  private roundGap({ corners, faces, edges }: FlatBody, limit: number): number {
    const { axes, centre } = this;
    const k = this.body.round as 0 | 1 | 2;
    const [ax, ay, az] = [axes[3 * k] as number, axes[3 * k + 1] as number, axes[3 * k + 2] as number];
    const h = this.body.half[k];
    const r = this.radius();
    let most = this.gapAlong(corners, ax, ay, az, h);
    if (most >= limit) return most;
    for (let f = 0; f < faces.length; f += 5) {
      const [x, y, z] = [faces[f] as number, faces[f + 1] as number, faces[f + 2] as number];
      const p = (centre[0] as number) * x + (centre[1] as number) * y + (centre[2] as number) * z;
      const c = ax * x + ay * y + az * z;
      const half = h * Math.abs(c) + r * Math.sqrt(Math.max(0, 1 - c * c));
      most = Math.max(most, (faces[f + 3] as number) - p - half, p - half - (faces[f + 4] as number));
      if (most >= limit) return most;
    }
    for (let e = 0; e < edges.length; e += 3) {
      const x = (edges[e + 1] as number) * az - (edges[e + 2] as number) * ay;
      const y = (edges[e + 2] as number) * ax - (edges[e] as number) * az;
      const z = (edges[e] as number) * ay - (edges[e + 1] as number) * ax;
      most = Math.max(most, this.gapSquareTo(corners, x, y, z, r));
      if (most >= limit) return most;
    }
    for (let c = 0; c < corners.length; c += 3) {
      const x = (corners[c] as number) - (centre[0] as number);
      const y = (corners[c + 1] as number) - (centre[1] as number);
      const z = (corners[c + 2] as number) - (centre[2] as number);
      const t = x * ax + y * ay + z * az;
      most = Math.max(most, this.gapSquareTo(corners, x - ax * t, y - ay * t, z - az * t, r));
      if (most >= limit) return most;
    }
    return most;
  }

  /** Gap along a way square to the axis of the body, of any length. */
  private gapSquareTo(corners: Float64Array, x: number, y: number, z: number, radius: number): number {
    const squared = x * x + y * y + z * z;
    if (squared < LEAST_CROSS_SQUARED) return Number.NEGATIVE_INFINITY;
    const inverse = 1 / Math.sqrt(squared);
    return this.gapAlong(corners, x * inverse, y * inverse, z * inverse, radius);
  }

  private flatGap({ corners, faces, edges }: FlatBody, limit: number): number {
    const { axes, centre } = this;
    const [h0, h1, h2] = this.body.half;
    const cx = centre[0] as number;
    const cy = centre[1] as number;
    const cz = centre[2] as number;
    let most = Number.NEGATIVE_INFINITY;
    for (let f = 0; f < faces.length; f += 5) {
      const nx = faces[f] as number;
      const ny = faces[f + 1] as number;
      const nz = faces[f + 2] as number;
      const p = cx * nx + cy * ny + cz * nz;
      const r =
        h0 * Math.abs((axes[0] as number) * nx + (axes[1] as number) * ny + (axes[2] as number) * nz) +
        h1 * Math.abs((axes[3] as number) * nx + (axes[4] as number) * ny + (axes[5] as number) * nz) +
        h2 * Math.abs((axes[6] as number) * nx + (axes[7] as number) * ny + (axes[8] as number) * nz);
      const gap = Math.max((faces[f + 3] as number) - p - r, p - r - (faces[f + 4] as number));
      if (gap > most) {
        if (gap >= limit) return gap;
        most = gap;
      }
    }
    for (let k = 0; k < 3; k += 1) {
      const gap = this.gapAlong(
        corners,
        axes[3 * k] as number,
        axes[3 * k + 1] as number,
        axes[3 * k + 2] as number,
        k === 0 ? h0 : k === 1 ? h1 : h2,
      );
      if (gap > most) {
        if (gap >= limit) return gap;
        most = gap;
      }
    }
    for (let e = 0; e < edges.length; e += 3)
      for (let k = 0; k < 3; k += 1) {
        const ax = axes[3 * k] as number;
        const ay = axes[3 * k + 1] as number;
        const az = axes[3 * k + 2] as number;
        let x = (edges[e + 1] as number) * az - (edges[e + 2] as number) * ay;
        let y = (edges[e + 2] as number) * ax - (edges[e] as number) * az;
        let z = (edges[e] as number) * ay - (edges[e + 1] as number) * ax;
        const squared = x * x + y * y + z * z;
        if (squared < LEAST_CROSS_SQUARED) continue;
        const inverse = 1 / Math.sqrt(squared);
        x *= inverse;
        y *= inverse;
        z *= inverse;
        const gap = this.gapAlong(corners, x, y, z, this.halfAlong(x, y, z));
        if (gap > most) {
          if (gap >= limit) return gap;
          most = gap;
        }
      }
    return most;
  }

  private halfAlong(x: number, y: number, z: number): number {
    const { axes } = this;
    const [h0, h1, h2] = this.body.half;
    return (
      h0 * Math.abs((axes[0] as number) * x + (axes[1] as number) * y + (axes[2] as number) * z) +
      h1 * Math.abs((axes[3] as number) * x + (axes[4] as number) * y + (axes[5] as number) * z) +
      h2 * Math.abs((axes[6] as number) * x + (axes[7] as number) * y + (axes[8] as number) * z)
    );
  }

  private gapAlong(corners: Float64Array, x: number, y: number, z: number, half: number): number {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let c = 0; c < corners.length; c += 3) {
      const p = (corners[c] as number) * x + (corners[c + 1] as number) * y + (corners[c + 2] as number) * z;
      if (p < low) low = p;
      if (p > high) high = p;
    }
    const { centre } = this;
    const p = (centre[0] as number) * x + (centre[1] as number) * y + (centre[2] as number) * z;
    return Math.max(low - p - half, p - half - high);
  }

  private boxToRound(i: number): number {
    const { axes, centre, ends } = this;
    const [h0, h1, h2] = this.body.half;
    const e = i * 7;
    const px = (ends[e] as number) - (centre[0] as number);
    const py = (ends[e + 1] as number) - (centre[1] as number);
    const pz = (ends[e + 2] as number) - (centre[2] as number);
    const dx = (ends[e + 3] as number) - (ends[e] as number);
    const dy = (ends[e + 4] as number) - (ends[e + 1] as number);
    const dz = (ends[e + 5] as number) - (ends[e + 2] as number);
    const on = (k: number, x: number, y: number, z: number): number =>
      x * (axes[k] as number) + y * (axes[k + 1] as number) + z * (axes[k + 2] as number);
    return (
      segmentBox(
        on(0, px, py, pz),
        on(3, px, py, pz),
        on(6, px, py, pz),
        on(0, dx, dy, dz),
        on(3, dx, dy, dz),
        on(6, dx, dy, dz),
        h0,
        h1,
        h2,
      ) - (ends[e + 6] as number)
    );
  }

  /** A box against a cylinder, in the same way. */
  private boxToCylinder(i: number, limit: number): number {
    const e = i * 7;
    const { ends, axes, centre } = this;
    const middle = [0, 1, 2].map((k) => ((ends[e + k] as number) + (ends[e + 3 + k] as number)) / 2);
    const span = [0, 1, 2].map((k) => (ends[e + 3 + k] as number) - (ends[e + k] as number));
    const length = Math.sqrt(span.reduce((sum, s) => sum + s * s, 0));
    const [dx, dy, dz] = span.map((s) => s / length) as [number, number, number];
    const radius = ends[e + 6] as number;
    const [mx, my, mz] = middle.map((m, k) => m - (centre[k] as number)) as [number, number, number];
    const gap = (x: number, y: number, z: number): number => {
      const squared = x * x + y * y + z * z;
      if (squared < LEAST_CROSS_SQUARED) return Number.NEGATIVE_INFINITY;
      const inverse = 1 / Math.sqrt(squared);
      const [u, v, w] = [x * inverse, y * inverse, z * inverse];
      const c = dx * u + dy * v + dz * w;
      const half = (length / 2) * Math.abs(c) + radius * Math.sqrt(Math.max(0, 1 - c * c));
      return Math.abs(mx * u + my * v + mz * w) - half - this.halfAlong(u, v, w);
    };
    let most = gap(dx, dy, dz);
    for (let k = 0; k < 9 && most < limit; k += 3) {
      const [x, y, z] = [axes[k] as number, axes[k + 1] as number, axes[k + 2] as number];
      most = Math.max(most, gap(x, y, z), gap(dy * z - dz * y, dz * x - dx * z, dx * y - dy * x));
    }
    const own = this.ownSolid();
    if (own.type !== 'box') return most;
    for (const [px, py, pz] of boxCorners(own.centre, own.half, own.axes)) {
      if (most >= limit) return most;
      const x = mx + (centre[0] as number) - px;
      const y = my + (centre[1] as number) - py;
      const z = mz + (centre[2] as number) - pz;
      const t = x * dx + y * dy + z * dz;
      most = Math.max(most, gap(x - dx * t, y - dy * t, z - dz * t));
    }
    return most;
  }

  private exact(i: number): number {
    const { distanceM } = nearestPoints(convexOf(this.ownSolid()), convexOf(this.solids[i] as AnySolid));
    return distanceM > 1e-9 ? distanceM : IN_IT;
  }

  private ownAxes(): Rotation {
    const { axes } = this;
    return [0, 1, 2].map((k) => [axes[3 * k], axes[3 * k + 1], axes[3 * k + 2]]) as unknown as Rotation;
  }

  private ownSolid(): Solid {
    if (this.own) return this.own;
    const { centre, body } = this;
    const name = { id: '', owner: '', label: '', layer: 'furnishing' } as const;
    const at: Vec3 = [centre[0] as number, centre[1] as number, centre[2] as number];
    const axes = this.ownAxes();
    if (body.round === null) this.own = { ...name, type: 'box', centre: at, half: body.half, axes };
    else {
      const by = scale(axes[body.round], body.half[body.round]);
      this.own = { ...name, type: 'cylinder', from: subtract(at, by), to: add(at, by), radius: this.radius() };
    }
    return this.own;
  }

  /** How far the body goes along a unit direction of the frame before it meets something, at most `mostM`, alongside what it touches; `except`: what is passed. */
  travel(pose: CarriedPose, direction: Vec3, mostM: number, except: ReadonlySet<number> = NONE): Travel {
    this.looks += 1;
    this.put(pose);
    const { bounds, centre, spread } = this;
    let freeM = mostM;
    let stop = NOTHING;
    for (let i = 0; i < this.size; i += 1) {
      if (except.has(i)) continue;
      const b = i * 6;
      let isBeside = false;
      for (let k = 0; k < 3 && !isBeside; k += 1) {
        const by = (direction[k] as number) * freeM;
        const low = (centre[k] as number) - (spread[k] as number) + Math.min(0, by);
        const high = (centre[k] as number) + (spread[k] as number) + Math.max(0, by);
        isBeside = (bounds[b + k] as number) > high || (bounds[b + 3 + k] as number) < low;
      }
      if (isBeside) continue;
      const contact = travelToContact(this.ownSolid(), convexOf(this.solids[i] as AnySolid), direction, freeM);
      if (!contact) continue;
      freeM = contact.t;
      stop = i;
      if (freeM <= 0) return { freeM: 0, stop };
    }
    if (except.has(THE_HULL)) return { freeM, stop };
    const inHull = this.hullTravel(direction, freeM);
    return inHull < freeM ? { freeM: inHull, stop: THE_HULL } : { freeM, stop };
  }

  /** Lines about the body by which the hull is met: the edges of a box, lines along a round one. */
  private hullLines(): readonly (readonly [Vec3, Vec3])[] {
    const own = this.ownSolid();
    if (own.type !== 'box') return linesAlong(own.from, own.to, own.radius, ROUND_LINES);
    const corners = boxCorners(own.centre, own.half, own.axes);
    return BOX_EDGES.map(([i, j]) => [corners[i] as Vec3, corners[j] as Vec3]);
  }

  private hullRoom(capM: number): number {
    if (!this.isByHull(capM)) return capM;
    let best = capM;
    for (const [a, b] of this.hullLines()) {
      best = Math.min(best, this.hull.free(a, b, best));
      if (best <= 0) return best;
    }
    return best;
  }

  /** False where the hull is farther off than the body reaches about its longest axis. */
  private isByHull(capM: number): boolean {
    if (!this.hull.isThere) return false;
    const { half, round } = this.body;
    const k = round ?? (half[0] >= half[1] && half[0] >= half[2] ? 0 : half[1] >= half[2] ? 1 : 2);
    const [p, q] = [half[((k + 1) % 3) as 0 | 1 | 2], half[((k + 2) % 3) as 0 | 1 | 2]];
    const aboutM = (round === null ? Math.sqrt(p * p + q * q) : p) + capM;
    const at = [this.centre[0] as number, this.centre[1] as number, this.centre[2] as number];
    const end = (side: number): Vec3 =>
      at.map((c, n) => c + side * half[k] * (this.axes[3 * k + n] as number)) as unknown as Vec3;
    return this.hull.free(end(-1), end(1), aboutM) < aboutM;
  }

  private hullTravel(direction: Vec3, mostM: number): number {
    return this.isByHull(mostM) ? this.hull.travel(this.hullLines(), direction, mostM) : mostM;
  }
}
