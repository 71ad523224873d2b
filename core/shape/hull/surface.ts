import * as portable from '../../base/portable';
import type { Vec2, Vec3 } from '../../base/vec';
import type { Hull } from '../../boat/schema/boat';
import { clearanceField } from './clearance';
import { fairHalf } from './fairing';
import { type HalfSection, insideSection } from './inside';
import { at, gapOf } from './interpolant';
import { closedHalf, type HalfSkin, movedOutward, wholeSkin } from './skin';
import type { HullSurface } from './types';

/** Halvings of a gap between columns in which a buttock ends: to a tenth of a millimetre. */
const END_STEPS = 14;
/** Chords shorter than this have no direction. */
const LEAST_CHORD_M = 1e-9;

/**
 * The one hull surface of a boat.
 *
 * Stations are interpolated once to a fine grid whose quads are all cut along the same diagonal; sections, waterlines, volumes
 * and clearances read those triangles and nothing else, so no two answers can differ. The starboard side is the port side with
 * its sign changed, so both are the same to the last bit.
 *
 * Offsets taken inside are moved outward by shell and lining first: the surface is always the outer skin, and the free interior
 * always stays `insetM` off it.
 *
 * Above the sheer the interior is open: the hull has no deck here, and its sides go on upright from the sheer, so that what
 * stands under a cabin trunk or coaming is not "outside". `halfBreadthAt` and `contains` speak of the skin alone and end at
 * the sheer.
 *
 * A hull off the centreline (`offsetM`) is there twice, mirrored. Curves are given for the hull at +offsetM.
 *
 * `fineness` multiplies the number of facets each way: what it changes is what facets leave out.
 */
export function hullSurface(hull: Hull, fineness = 1): HullSurface {
  const insetM = hull.shellM + hull.liningM;
  const measured = fairHalf(hull, fineness);
  const outer = hull.measuredTo === 'inside' && insetM > 0 ? movedOutward(measured, insetM) : measured;
  const half = closedHalf(outer);
  const { offsetM } = hull;
  // A drawing of lines never asks for the mesh.
  let mesh: ReturnType<typeof wholeSkin> | null = null;
  const skin = (): ReturnType<typeof wholeSkin> => {
    mesh ??= wholeSkin(half, offsetM);
    return mesh;
  };
  const sections = new Sections(half);
  const clearance = clearanceField(half, sections, { insetM, offsetM });
  const columnX = [...outer.x];

  return {
    aftM: sections.aftM,
    forwardM: sections.forwardM,
    insetM,
    offsetM,
    get vertices() {
      return skin().vertices;
    },
    get triangles() {
      return skin().triangles;
    },
    get deck() {
      return skin().deck;
    },
    columnsM: outer.x,
    halfBreadthAt: (xM, zM) => Math.max(0, sections.halfBreadth(xM, zM)),
    keelAt: (xM) => sections.keel(xM),
    sheerAt: (xM) => sections.sheer(xM),
    sectionAt(xM) {
      const side = sections.outline(xM);
      const port = side.map(([y, z]): Vec2 => [offsetM + y, z]).reverse();
      const starboard = side.map(([y, z]): Vec2 => [offsetM - y, z]);
      const keelOnCentre = side[0]?.[0] === 0;
      return [...port, ...(keelOnCentre ? starboard.slice(1) : starboard)];
    },
    insideAt(xM, inset = insetM) {
      const { aftM, forwardM } = sections;
      const from = aftM + (sections.isAftClosed ? inset : 0);
      const to = forwardM - (sections.isForwardClosed ? inset : 0);
      if (!(xM >= from && xM <= to)) return [];
      const rings = insideSection(sections.facets(xM), inset);
      if (offsetM === 0) return rings;
      return [offsetM, -offsetM].flatMap((centre) => rings.map((ring) => ring.map(([y, z]): Vec2 => [y + centre, z])));
    },
    waterlineAt(zM) {
      const points: Vec2[] = [];
      let last: Vec2 | null = null;
      let lastDepth = 0;
      for (const x of columnX) {
        const depth = Math.min(zM - sections.keel(x), sections.sheer(x) - zM);
        const here: Vec2 = [x, Math.max(0, sections.halfBreadth(x, zM))];
        if (last && depth >= 0 !== lastDepth >= 0) {
          // The line starts or ends within this gap, where keel or sheer stands at z: both run straight between columns.
          const share = lastDepth / (lastDepth - depth);
          const end = last[0] + (x - last[0]) * share;
          points.push([end, Math.max(0, sections.halfBreadth(end, zM))]);
        }
        if (depth >= 0 && points[points.length - 1]?.[0] !== x) points.push(here);
        last = here;
        lastDepth = depth;
      }
      return points;
    },
    buttockAt(yM) {
      const points: Vec2[] = [];
      const reach = Math.abs(yM);
      let lastX: number | null = null;
      let last: number | null = null;
      for (const x of columnX) {
        const z = sections.lowestAt(x, reach);
        // It starts and ends between columns, where the section is just so wide.
        if (lastX !== null && (z === null) !== (last === null)) {
          const end = sections.endOfReach(z === null ? lastX : x, z === null ? x : lastX, reach);
          if (end[0] !== lastX && end[0] !== x) points.push(end);
        }
        if (z !== null) points.push([x, z]);
        lastX = x;
        last = z;
      }
      return points;
    },
    contains([x, y, z]) {
      if (x < sections.aftM || x > sections.forwardM) return false;
      const fromCentre = offsetM === 0 ? Math.abs(y) : Math.abs(Math.abs(y) - Math.abs(offsetM));
      return fromCentre < sections.halfBreadth(x, z);
    },
    clearance: (a: Vec3, b: Vec3, cutoffM: number) => clearance(a, b, cutoffM),
  };
}

/** Reads the half skin's triangles in planes of constant x: exact, and quick, because z never falls from keel to sheer. */
export class Sections {
  readonly aftM: number;
  readonly forwardM: number;
  readonly isAftClosed: boolean;
  readonly isForwardClosed: boolean;
  private readonly x: Float64Array;
  private readonly y: Float64Array;
  private readonly z: Float64Array;
  private readonly rows: number;

  constructor(half: HalfSkin) {
    // The columns that close the ends lie in the same plane as their neighbours and add nothing to a section.
    const first = half.columns > 1 && at(half.x, 0) === at(half.x, 1) ? 1 : 0;
    const last = half.columns > 1 && at(half.x, half.columns - 2) === at(half.x, half.columns - 1) ? 1 : 0;
    this.isAftClosed = first === 1;
    this.isForwardClosed = last === 1;
    this.rows = half.rows;
    this.x = half.x.slice(first, half.columns - last);
    this.y = half.y.slice(first * half.rows, (half.columns - last) * half.rows);
    this.z = half.z.slice(first * half.rows, (half.columns - last) * half.rows);
    this.aftM = at(this.x, 0);
    this.forwardM = at(this.x, this.x.length - 1);
  }

  keel(xM: number): number {
    return this.rowAt(xM, 0)[1];
  }

  sheer(xM: number): number {
    return this.rowAt(xM, this.rows - 1)[1];
  }

  sheerHalfBreadth(xM: number): number {
    return this.rowAt(xM, this.rows - 1)[0];
  }

  /** Half-breadth at a height, -1 where there is no hull: beyond the ends, below the keel, above the sheer. */
  halfBreadth(xM: number, zM: number): number {
    if (!(xM >= this.aftM && xM <= this.forwardM)) return -1;
    const { rows, y, z } = this;
    const i = gapOf(this.x, xM) * rows;
    const t = this.fraction(xM);
    if (zM < mixed(z, i, rows, t) || zM > mixed(z, i + rows - 1, rows, t)) return -1;
    // Greatest row at or below z: of a flat bottom its outer end.
    let low = 0;
    let high = rows - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (mixed(z, i + middle, rows, t) <= zM) low = middle;
      else high = middle - 1;
    }
    if (low === rows - 1) return mixed(y, i + low, rows, t);
    const diagonalZ = mixed(z, i + low, rows + 1, t);
    const diagonalY = mixed(y, i + low, rows + 1, t);
    return zM < diagonalZ
      ? between(mixed(z, i + low, rows, t), mixed(y, i + low, rows, t), diagonalZ, diagonalY, zM)
      : between(diagonalZ, diagonalY, mixed(z, i + low + 1, rows, t), mixed(y, i + low + 1, rows, t), zM);
  }

  /** Half section from keel to sheer, [half-breadth, z]; empty beyond the ends. */
  outline(xM: number): readonly Vec2[] {
    if (!(xM >= this.aftM && xM <= this.forwardM)) return [];
    const { rows, y, z } = this;
    const i = gapOf(this.x, xM) * rows;
    const t = this.fraction(xM);
    const points: Vec2[] = [];
    for (let j = 0; j < rows; j += 1) {
      points.push([at(y, i + j) * (1 - t) + at(y, i + rows + j) * t, at(z, i + j) * (1 - t) + at(z, i + rows + j) * t]);
      if (j < rows - 1 && t > 0 && t < 1)
        points.push([
          at(y, i + j) * (1 - t) + at(y, i + rows + j + 1) * t,
          at(z, i + j) * (1 - t) + at(z, i + rows + j + 1) * t,
        ]);
    }
    return points.filter((point, k) => k === 0 || point[0] !== points[k - 1]?.[0] || point[1] !== points[k - 1]?.[1]);
  }

  /** The outline with how each of its chords moves along the hull. */
  facets(xM: number): HalfSection {
    const { rows, x, y, z } = this;
    const gap = gapOf(x, xM);
    const i = gap * rows;
    const t = this.fraction(xM);
    const run = at(x, gap + 1) - at(x, gap);
    const points: Vec2[] = [];
    const leans: number[] = [];
    // Nodes of a chord's facet that lie on one line along the hull: where that line goes, the facet goes.
    let lastRise: Vec2 = [0, 0];
    const put = (from: number, to: number): void => {
      const point: Vec2 = [at(y, from) * (1 - t) + at(y, to) * t, at(z, from) * (1 - t) + at(z, to) * t];
      const rise: Vec2 = [(at(y, to) - at(y, from)) / run, (at(z, to) - at(z, from)) / run];
      const last = points[points.length - 1];
      if (last) {
        const dy = point[0] - last[0];
        const dz = point[1] - last[1];
        const length = portable.hypot(dy, dz);
        if (length < LEAST_CHORD_M) return;
        leans.push((lastRise[1] * dy - lastRise[0] * dz) / length);
      }
      points.push(point);
      lastRise = rise;
    };
    for (let j = 0; j < rows; j += 1) {
      put(i + j, i + rows + j);
      if (j < rows - 1 && t > 0 && t < 1) put(i + j, i + rows + j + 1);
    }
    return { points, leans: [...leans, -lastRise[0]] };
  }

  /** Lowest z at which the half section reaches a breadth, null where it never does. */
  lowestAt(xM: number, breadthM: number): number | null {
    let last: Vec2 | null = null;
    for (const point of this.outline(xM)) {
      if (point[0] >= breadthM) {
        if (!last || last[0] === point[0]) return point[1];
        return last[1] + ((point[1] - last[1]) * (breadthM - last[0])) / (point[0] - last[0]);
      }
      last = point;
    }
    return null;
  }

  /** The last place between one where the section reaches a breadth and one where it does not: [x, z]. */
  endOfReach(wideM: number, narrowM: number, breadthM: number): Vec2 {
    let wide = wideM;
    let narrow = narrowM;
    for (let step = 0; step < END_STEPS; step += 1) {
      const middle = (wide + narrow) / 2;
      if (this.lowestAt(middle, breadthM) === null) narrow = middle;
      else wide = middle;
    }
    return [wide, this.lowestAt(wide, breadthM) ?? this.sheer(wide)];
  }

  private fraction(xM: number): number {
    const gap = gapOf(this.x, xM);
    const from = at(this.x, gap);
    return Math.min(1, Math.max(0, (xM - from) / (at(this.x, gap + 1) - from)));
  }

  /** [half-breadth, z] of a row; the end's beyond the ends. */
  private rowAt(xM: number, j: number): Vec2 {
    const gap = gapOf(this.x, xM);
    const t = this.fraction(xM);
    const i = gap * this.rows + j;
    return [
      at(this.y, i) * (1 - t) + at(this.y, i + this.rows) * t,
      at(this.z, i) * (1 - t) + at(this.z, i + this.rows) * t,
    ];
  }
}

/** Between a value and the one `step` places on. */
const mixed = (values: Float64Array, k: number, step: number, t: number): number =>
  (values[k] as number) * (1 - t) + (values[k + step] as number) * t;

function between(fromZ: number, fromY: number, toZ: number, toY: number, z: number): number {
  const gap = toZ - fromZ;
  return gap > 0 ? fromY + ((toY - fromY) * (z - fromZ)) / gap : toY;
}
