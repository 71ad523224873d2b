import { along, cross, dot, scale, subtract, unit, type Vec3 } from '../../base/vec';
import type { HullSurface, WaterPlane } from './types';

/**
 * What the water does to the hull, upright, heeled or trimmed.
 *
 * Every triangle of the skin is cut at the water and integrated exactly. With h the height above the water and n the outward
 * normal, Gauss's theorem turns volumes into sums over the wetted skin alone, because h = 0 on the water plane:
 *   V = int h n.up dA,   int p dV = int p h n.up dA - up/2 int h^2 n.up dA,
 * and, since any q that does not change along `up` has int q n.up dA = 0 over the closed body,
 *   int q dA over the water plane = - int q n.up dA over the wetted skin.
 * The top is closed by flat strips from sheer to sheer, as a deck would be: beyond deck immersion the figures are those of a
 * decked hull, and `sheerHeightM` says so by being negative.
 */
export interface Hydrostatics {
  readonly volumeM3: number;
  /** Centre of buoyancy, boat frame; the zero vector where nothing is wet. */
  readonly buoyancy: Vec3;
  readonly waterplaneM2: number;
  /** Centre of flotation, in the water plane, boat frame. */
  readonly flotation: Vec3;
  /** Second moment of the water plane about the longitudinal axis through its centre, m4. */
  readonly transverseM4: number;
  /** Second moment of the water plane about the transverse axis through its centre, m4. */
  readonly longitudinalM4: number;
  /** Height of the transverse metacentre above the centre of buoyancy, I / V. */
  readonly transverseRadiusM: number;
  readonly longitudinalRadiusM: number;
  /** Length of the water plane from its aftmost to its foremost point. */
  readonly waterlineLengthM: number;
  /** From its port to its starboard edge; of two hulls, over both. */
  readonly waterlineBeamM: number;
  /** Wetted skin, transom included. */
  readonly wettedM2: number;
  /** Height of the lowest point of the sheer above the water. */
  readonly sheerHeightM: number;
}

/** Volumes below this are dry. */
const DRY_M3 = 1e-9;
/** A corner this near to the water lies in it. */
const AT_WATER_M = 1e-10;
/** Most steps of the search for a level, and the step at which it ends. */
const LEVEL_STEPS = 60;
const LEVEL_PRECISION_M = 1e-10;

/**
 * What the water plane makes of the closed mesh: exact sums over its triangles (divergence theorem), each cut at the water. Above the
 * sheer the hull is closed flat. Metres and their powers; nothing of it knows a density.
 */
export function hydrostatics(surface: HullSurface, water: WaterPlane): Hydrostatics {
  const up = unit(water.up);
  const lies = Math.abs(up[0]) > 0.999 ? ([0, 1, 0] as const) : ([1, 0, 0] as const);
  const forward = unit(subtract(lies, scale(up, dot(lies, up))));
  const port = cross(up, forward);
  // Heights are taken from the water plane at the middle of the hull's length, which keeps the sums small.
  const middle = (surface.aftM + surface.forwardM) / 2;
  const origin = along([middle, 0, 0], up, water.levelM / norm(water.up) - middle * up[0]);
  const sums = new WettedSums();
  const { vertices, deck, triangles } = surface;
  const local = new Float64Array(vertices.length);
  for (let v = 0; v < vertices.length; v += 3) {
    const x = (vertices[v] as number) - origin[0];
    const y = (vertices[v + 1] as number) - origin[1];
    const z = (vertices[v + 2] as number) - origin[2];
    local[v] = x * forward[0] + y * forward[1] + z * forward[2];
    local[v + 1] = x * port[0] + y * port[1] + z * port[2];
    // A sheer that lies in the water to within rounding is not under it.
    const height = x * up[0] + y * up[1] + z * up[2];
    local[v + 2] = Math.abs(height) < AT_WATER_M ? 0 : height;
  }
  sums.addAll(local, triangles, true);
  sums.addAll(local, deck, false);

  let sheerHeightM = Number.POSITIVE_INFINITY;
  for (const v of deck) sheerHeightM = Math.min(sheerHeightM, get(local, 3 * v + 2));
  const { volume, area } = sums;
  const wet = volume > DRY_M3;
  const u = area > 0 ? sums.areaU / area : 0;
  const v = area > 0 ? sums.areaV / area : 0;
  const longitudinalM4 = Math.max(0, sums.areaUU - area * u * u);
  const transverseM4 = Math.max(0, sums.areaVV - area * v * v);
  const place = (a: number, b: number, h: number): Vec3 => along(along(along(origin, forward, a), port, b), up, h);
  return {
    volumeM3: wet ? volume : 0,
    buoyancy: wet ? place(sums.volumeU / volume, sums.volumeV / volume, sums.volumeH / volume) : [0, 0, 0],
    waterplaneM2: Math.max(0, area),
    flotation: place(u, v, 0),
    transverseM4,
    longitudinalM4,
    transverseRadiusM: wet ? transverseM4 / volume : 0,
    longitudinalRadiusM: wet ? longitudinalM4 / volume : 0,
    waterlineLengthM: Math.max(0, sums.foremost - sums.aftmost),
    waterlineBeamM: Math.max(0, sums.portmost - sums.starboardmost),
    wettedM2: sums.wetted,
    sheerHeightM,
  };
}

/** Lowest height along `up` of the sheer, metres. */
export function lowestSheer({ vertices, deck }: HullSurface, up: Vec3): number {
  let lowest = Number.POSITIVE_INFINITY;
  for (const v of deck)
    lowest = Math.min(
      lowest,
      up[0] * get(vertices, 3 * v) + up[1] * get(vertices, 3 * v + 1) + up[2] * get(vertices, 3 * v + 2),
    );
  return lowest;
}

/** Mass that sinks the hull by one centimetre, kg per cm. */
export const immersionPerCm = (state: Hydrostatics, waterDensityKgM3: number): number =>
  (state.waterplaneM2 * waterDensityKgM3) / 100;

/**
 * Level, along `up`, at which the hull displaces `volumeM3`. Newton's steps by water plane area within a shrinking bracket, so it
 * always ends and always the same way. Returns null when the hull cannot displace that much.
 */
export function floatAt(surface: HullSurface, { volumeM3, up }: { volumeM3: number; up: Vec3 }): number | null {
  const axis = unit(up);
  const { heights, displaced } = sinking(surface, axis);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const height of heights) {
    low = Math.min(low, height);
    high = Math.max(high, height);
  }
  if (!(volumeM3 > 0) || volumeM3 > displaced(high).volumeM3) return null;
  let level = Math.min(high, Math.max(low, 0));
  if (level === low || level === high) level = (low + high) / 2;
  for (let step = 0; step < LEVEL_STEPS; step += 1) {
    const state = displaced(level);
    const excess = state.volumeM3 - volumeM3;
    if (excess > 0) high = level;
    else low = level;
    let next = level - excess / Math.max(1e-9, state.waterplaneM2);
    if (!(next > low && next < high)) next = (low + high) / 2;
    const moved = Math.abs(next - level);
    level = next;
    if (moved < LEVEL_PRECISION_M) break;
  }
  return level;
}

/** Volume that the hull displaces in a water, m3. */
export function displacement(surface: HullSurface, water: WaterPlane): number {
  return sinking(surface, unit(water.up)).displaced(water.levelM / norm(water.up)).volumeM3;
}

export interface Displaced {
  readonly volumeM3: number;
  readonly waterplaneM2: number;
}

/** What the hull displaces at any level along `up`, for those who ask at many. */
export const displacedAlong = (surface: HullSurface, up: Vec3): ((levelM: number) => Displaced) =>
  sinking(surface, unit(up)).displaced;

/**
 * Volume and water plane at any level along one vertical. A level moves no triangle seen from above, so their areas are taken
 * once: V = int h n.up dA and, for the water plane, A = - int n.up dA over the wetted skin.
 */
function sinking(surface: HullSurface, axis: Vec3): { heights: Float64Array; displaced(levelM: number): Displaced } {
  const { vertices, triangles: skin, deck } = surface;
  const heights = new Float64Array(vertices.length / 3);
  for (let v = 0; v < heights.length; v += 1)
    heights[v] =
      axis[0] * get(vertices, 3 * v) + axis[1] * get(vertices, 3 * v + 1) + axis[2] * get(vertices, 3 * v + 2);
  const meshes = [skin, deck].map((triangles) => ({ triangles, flat: flatAreas(vertices, triangles, axis) }));
  const displaced = (levelM: number): Displaced => {
    let volume = 0;
    let area = 0;
    for (const { triangles, flat } of meshes)
      for (let t = 0; t < flat.length; t += 1) {
        const a = (heights[triangles[3 * t] as number] as number) - levelM;
        const b = (heights[triangles[3 * t + 1] as number] as number) - levelM;
        const c = (heights[triangles[3 * t + 2] as number] as number) - levelM;
        const wet = (a < 0 ? 1 : 0) + (b < 0 ? 1 : 0) + (c < 0 ? 1 : 0);
        if (wet === 0) continue;
        let moment = a + b + c;
        let share = 1;
        if (wet < 3) {
          // The corner that is alone, wet or dry, is a smaller triangle of the same slope, cut off at the water.
          const oneWet = wet === 1;
          const first = a < 0 === oneWet;
          const second = !first && b < 0 === oneWet;
          const alone = first ? a : second ? b : c;
          const tip =
            (alone / (alone - (first ? b : second ? c : a))) * (alone / (alone - (first ? c : second ? a : b)));
          share = oneWet ? tip : 1 - tip;
          moment = oneWet ? alone * tip : moment - alone * tip;
        }
        const seen = flat[t] as number;
        volume += (seen / 3) * moment;
        area -= seen * share;
      }
    return { volumeM3: volume > DRY_M3 ? volume : 0, waterplaneM2: Math.max(0, area) };
  };
  return { heights, displaced };
}

/** Area of each triangle seen from above, positive where it faces up. */
function flatAreas(vertices: Float64Array, triangles: Uint32Array, axis: Vec3): Float64Array {
  const flat = new Float64Array(triangles.length / 3);
  for (let t = 0; t < flat.length; t += 1) {
    const [a, b, c] = [3 * get(triangles, 3 * t), 3 * get(triangles, 3 * t + 1), 3 * get(triangles, 3 * t + 2)];
    const ux = get(vertices, b) - get(vertices, a);
    const uy = get(vertices, b + 1) - get(vertices, a + 1);
    const uz = get(vertices, b + 2) - get(vertices, a + 2);
    const vx = get(vertices, c) - get(vertices, a);
    const vy = get(vertices, c + 1) - get(vertices, a + 1);
    const vz = get(vertices, c + 2) - get(vertices, a + 2);
    flat[t] = ((uy * vz - uz * vy) * axis[0] + (uz * vx - ux * vz) * axis[1] + (ux * vy - uy * vx) * axis[2]) / 2;
  }
  return flat;
}

const get = (values: ArrayLike<number>, i: number): number => values[i] as number;
const norm = (a: Vec3): number => Math.sqrt(dot(a, a));

/** Sums over the wetted part of triangles given along (forward, port, up) from a point in the water plane. */
class WettedSums {
  volume = 0;
  volumeU = 0;
  volumeV = 0;
  volumeH = 0;
  area = 0;
  areaU = 0;
  areaV = 0;
  areaUU = 0;
  areaVV = 0;
  wetted = 0;
  /** Ends of the water plane. */
  aftmost = Number.POSITIVE_INFINITY;
  foremost = Number.NEGATIVE_INFINITY;
  starboardmost = Number.POSITIVE_INFINITY;
  portmost = Number.NEGATIVE_INFINITY;

  addAll(p: Float64Array, triangles: Uint32Array, isSkin: boolean): void {
    for (let t = 0; t < triangles.length; t += 3) {
      const a = 3 * (triangles[t] as number);
      const b = 3 * (triangles[t + 1] as number);
      const c = 3 * (triangles[t + 2] as number);
      const ha = p[a + 2] as number;
      const hb = p[b + 2] as number;
      const hc = p[c + 2] as number;
      const wet = (ha < 0 ? 1 : 0) + (hb < 0 ? 1 : 0) + (hc < 0 ? 1 : 0);
      if (wet === 0) continue;
      // Turned so that the odd one out comes first.
      const isFirst = wet === 3 || ha < 0 === (wet === 1);
      const isSecond = !isFirst && hb < 0 === (wet === 1);
      const i = isFirst ? a : isSecond ? b : c;
      const j = isFirst ? b : isSecond ? c : a;
      const k = isFirst ? c : isSecond ? a : b;
      const u1 = p[i] as number;
      const v1 = p[i + 1] as number;
      const h1 = p[i + 2] as number;
      const u2 = p[j] as number;
      const v2 = p[j + 1] as number;
      const h2 = p[j + 2] as number;
      const u3 = p[k] as number;
      const v3 = p[k + 1] as number;
      const h3 = p[k + 2] as number;
      if (wet === 3) {
        this.add(u1, v1, h1, u2, v2, h2, u3, v3, h3, isSkin);
        continue;
      }
      const s = h1 / (h1 - h2);
      const r = h1 / (h1 - h3);
      const u12 = u1 + (u2 - u1) * s;
      const v12 = v1 + (v2 - v1) * s;
      const u13 = u1 + (u3 - u1) * r;
      const v13 = v1 + (v3 - v1) * r;
      this.aftmost = Math.min(this.aftmost, u12, u13);
      this.foremost = Math.max(this.foremost, u12, u13);
      this.starboardmost = Math.min(this.starboardmost, v12, v13);
      this.portmost = Math.max(this.portmost, v12, v13);
      if (wet === 1) this.add(u1, v1, h1, u12, v12, 0, u13, v13, 0, isSkin);
      else {
        this.add(u12, v12, 0, u2, v2, h2, u3, v3, h3, isSkin);
        this.add(u12, v12, 0, u3, v3, h3, u13, v13, 0, isSkin);
      }
    }
  }

  /** One wet triangle. Products of two linear functions f, g integrate to A/12 (sum f sum g + sum f g) over its corners. */
  private add(
    u1: number,
    v1: number,
    h1: number,
    u2: number,
    v2: number,
    h2: number,
    u3: number,
    v3: number,
    h3: number,
    isSkin: boolean,
  ): void {
    // Twice the area seen from above, signed: n.up dA.
    const flat = (u2 - u1) * (v3 - v1) - (u3 - u1) * (v2 - v1);
    if (isSkin) {
      const nu = (v2 - v1) * (h3 - h1) - (v3 - v1) * (h2 - h1);
      const nv = (h2 - h1) * (u3 - u1) - (h3 - h1) * (u2 - u1);
      this.wetted += Math.sqrt(nu * nu + nv * nv + flat * flat) / 2;
    }
    const third = flat / 6;
    const twelfth = flat / 24;
    const u = u1 + u2 + u3;
    const v = v1 + v2 + v3;
    const h = h1 + h2 + h3;
    this.volume += third * h;
    this.volumeU += twelfth * (u * h + u1 * h1 + u2 * h2 + u3 * h3);
    this.volumeV += twelfth * (v * h + v1 * h1 + v2 * h2 + v3 * h3);
    this.volumeH += (twelfth * (h * h + h1 * h1 + h2 * h2 + h3 * h3)) / 2;
    this.area -= flat / 2;
    this.areaU -= third * u;
    this.areaV -= third * v;
    this.areaUU -= twelfth * (u * u + u1 * u1 + u2 * u2 + u3 * u3);
    this.areaVV -= twelfth * (v * v + v1 * v1 + v2 * v2 + v3 * v3);
  }
}
