import { dot, type Vec2, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { signedArea } from '../../shape/layout/outline';
import { clipHalfPlane } from '../../shape/layout/polygon';
import type { Cell, Layout } from '../../shape/layout/types';
import { area, depthAxis, lift, type Primitive, paperAxes, project, stroke, type ViewFrame } from './drawing';
import { acrossCentre, placesAlong } from './hull-lines';
import { intersectionOf, type Ring, unionOf } from './polygons';

/** A cut is the plane square to a view at one place: `at` is the boat coordinate across the view, metres. */
export interface Cut {
  readonly frame: ViewFrame;
  readonly at: number;
}

/** The hull in a cut: skin outside and the free face inside shell and lining. */
export interface HullCut {
  readonly outer: readonly Ring[];
  readonly inner: readonly Ring[];
}

/** The depth towards the eye of a cut place. */
const depthOfCut = ({ frame, at }: Cut): number => at * (frame.toViewer[depthAxis(frame)] as number);

export function hullCut(hull: HullSurface, cut: Cut): HullCut {
  const open = skinIn(hull, cut);
  if (open.length < 3) return { outer: [], inner: [] };
  const outer = turnedLeft(open);
  const inner = innerFace(hull, outer, cut);
  if (inner.length < 3) return bothHulls(hull, cut, { outer: [outer], inner: [] });
  return bothHulls(hull, cut, {
    outer: [outer],
    inner: intersectionOf(cut.frame.name === 'plan' ? [inner] : [raisedTo(inner, outer)], [outer]),
  });
}

/** A hull off the centreline is there twice; in profile one hides the other. */
function bothHulls(hull: HullSurface, { frame }: Cut, one: HullCut): HullCut {
  if (hull.offsetM === 0 || frame.name === 'profile') return one;
  const across = (ring: Ring): Ring =>
    frame.name === 'plan' ? acrossCentre(ring) : ring.map(([u, v]): Vec2 => [-u, v]).reverse();
  return { outer: [...one.outer, ...one.outer.map(across)], inner: [...one.inner, ...one.inner.map(across)] };
}

/** The skin ends at the sheer and the surface knows no deck: the inner face goes straight up to the sheer line. */
function raisedTo(inner: Ring, outer: Ring): Ring {
  const us = inner.map((p) => p[0]);
  const left = us.indexOf(Math.min(...us));
  const right = us.indexOf(Math.max(...us));
  const top = Math.max(...outer.map((p) => p[1])) + 1;
  // Turning left, the bottom runs from left to right; the top is closed over it.
  const bottom = left <= right ? inner.slice(left, right + 1) : [...inner.slice(left), ...inner.slice(0, right + 1)];
  const first = bottom[0] as Vec2;
  const last = bottom[bottom.length - 1] as Vec2;
  return [...bottom, [last[0], top], [first[0], top]];
}

function skinIn(hull: HullSurface, { frame, at }: Cut): Ring {
  if (frame.name === 'section') return hull.sectionAt(at).map(([y, z]) => project(frame, [at, y, z]));
  if (frame.name === 'plan') {
    const half = hull.waterlineAt(at);
    return [
      ...half.map(([x, b]): Vec2 => [x, hull.offsetM + b]),
      ...[...half].reverse().map(([x, b]): Vec2 => [x, hull.offsetM - b]),
    ];
  }
  const bottom = hull.buttockAt(Math.abs(at) - Math.abs(hull.offsetM));
  const first = bottom[0];
  const last = bottom[bottom.length - 1];
  if (!first || !last) return [];
  const top = placesAlong(hull)
    .filter((x) => x > first[0] && x < last[0])
    .map((x): Vec2 => [x, hull.sheerAt(x)])
    .reverse();
  return [...bottom, [last[0], hull.sheerAt(last[0])], ...top, [first[0], hull.sheerAt(first[0])]];
}

const turnedLeft = (ring: Ring): Ring => (signedArea(ring) < 0 ? [...ring].reverse() : ring);

/** Free distances are asked for no farther than this, metres: enough for a step of the search. */
const AHEAD = 0.03;

/**
 * The inner face, found where the hull's own clearance is nought, so that it is the face that hoses and parts keep off.
 * Points whose inward way meets no free space (a deadwood, a sharp stem) drop out: there the hull is solid.
 */
function innerFace(hull: HullSurface, outer: Ring, { frame, at }: Cut): Ring {
  const depth = depthOfCut({ frame, at });
  const inset = hull.insetM;
  const found: Vec2[] = [];
  let last = inset;
  for (let i = 0; i < outer.length; i++) {
    const before = outer[(i + outer.length - 1) % outer.length] as Vec2;
    const here = outer[i] as Vec2;
    const after = outer[(i + 1) % outer.length] as Vec2;
    const du = after[0] - before[0];
    const dv = after[1] - before[1];
    const length = Math.hypot(du, dv);
    if (length < 1e-9) continue;
    const inward: Vec2 = [-dv / length, du / length];
    // The face is nearly as far off as at the last point, so the search starts there.
    let t = last;
    for (let step = 0; step < 12; step++) {
      const p = lift(frame, [here[0] + inward[0] * t, here[1] + inward[1] * t], depth);
      const free = hull.clearance(p, p, AHEAD);
      if (Math.abs(free) < 2e-4) {
        found.push([here[0] + inward[0] * t, here[1] + inward[1] * t]);
        last = t;
        break;
      }
      t -= free;
      if (t < 0 || t > inset * 4 + 0.1) break;
    }
  }
  return found;
}

/** Areas of the hull in a cut: free inside, and shell, lining and deadwood as solid. */
export function hullCutLines({ outer, inner }: HullCut): Primitive[] {
  if (outer.length === 0) return [];
  return [
    ...(inner.length > 0 ? [area('hull/inside', 'hull', 'hullInside', inner)] : []),
    area('hull/poche', 'hull', 'poche', [...outer, ...inner]),
    ...outer.map((ring, i) => stroke(`hull/cut${i}`, 'hull', 'hullOutline', ring, true)),
    ...inner.map((ring, i) => stroke(`hull/inner${i}`, 'hull', 'innerSkin', ring, true)),
  ];
}

/** The convex polygon that a cut makes in a cell; empty when it misses. */
export function cellInCut(cell: Cell, cut: Cut): Ring {
  const axis = depthAxis(cut.frame);
  if (cut.at <= cell.low[axis] || cut.at >= cell.high[axis]) return [];
  const [right, up] = paperAxes(cut.frame);
  const corners = [cell.low, cell.high].map((p) => project(cut.frame, p)) as [Vec2, Vec2];
  const u0 = Math.min(corners[0][0], corners[1][0]) - 1;
  const u1 = Math.max(corners[0][0], corners[1][0]) + 1;
  const v0 = Math.min(corners[0][1], corners[1][1]) - 1;
  const v1 = Math.max(corners[0][1], corners[1][1]) + 1;
  let ring: Vec2[] = [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ];
  for (const { normal, offset } of cell.planes) {
    const a = normal[right] * (cut.frame.right[right] as number);
    const b = normal[up] * (cut.frame.up[up] as number);
    const c = offset - normal[axis] * cut.at;
    if (Math.abs(a) < 1e-12 && Math.abs(b) < 1e-12) {
      if (c < 0) return [];
      continue;
    }
    ring = clipHalfPlane(ring, a, b, c);
    if (ring.length < 3) return [];
  }
  return ring;
}

/** Outline of a compartment in a cut, kept inside the hull where there is one. */
export function compartmentInCut(layout: Layout, compartment: string, cut: Cut, hull: HullCut | null): Ring[] {
  const pieces = (layout.cellsOf[compartment] ?? []).map((index) => cellInCut(layout.cells[index] as Cell, cut));
  const whole = unionOf(pieces.filter((ring) => ring.length > 2));
  if (!hull) return whole;
  return intersectionOf(whole, freeRegion(hull, cut));
}

/** The inside of the hull and, in upright cuts, all that stands above the sheer between its sides: a trunk is drawn there. */
function freeRegion(hull: HullCut, cut: Cut): readonly Ring[] {
  if (hull.inner.length === 0) return [];
  if (cut.frame.name === 'plan') return hull.inner;
  const above = hull.inner.map((ring): Ring => {
    const us = ring.map((p) => p[0]);
    const left = ring[us.indexOf(Math.min(...us))] as Vec2;
    const right = ring[us.indexOf(Math.max(...us))] as Vec2;
    const top = Math.max(...ring.map((p) => p[1])) + 10;
    return [left, right, [right[0], top], [left[0], top]];
  });
  return unionOf([...hull.inner, ...above]);
}

/** Walls in a cut as solid strips of their true thickness. */
export function wallsInCut(layout: Layout, cut: Cut, hull: HullCut | null): Primitive[] {
  const axis = depthAxis(cut.frame);
  const out: Primitive[] = [];
  const region = hull ? freeRegion(hull, cut) : null;
  for (const wall of layout.walls) {
    const across = project(cut.frame, wall.normal);
    const lean = Math.hypot(across[0], across[1]);
    // Nearly parallel to the paper: it would smear over the view.
    if (lean < 0.2) continue;
    const cutLine = polygonInPlane(wall.polygon, axis, cut.at);
    if (!cutLine) continue;
    const [p, q] = cutLine.map((c) => project(cut.frame, c)) as [Vec2, Vec2];
    const half = wall.thicknessM / 2 / (lean * lean);
    const strip: Ring = [
      [p[0] + across[0] * half, p[1] + across[1] * half],
      [q[0] + across[0] * half, q[1] + across[1] * half],
      [q[0] - across[0] * half, q[1] - across[1] * half],
      [p[0] - across[0] * half, p[1] - across[1] * half],
    ];
    const rings = region ? intersectionOf([turnedLeft(strip)], region) : [strip];
    if (rings.length > 0) out.push(area(`${wall.id}/cut`, wall.panelId ?? wall.id, 'panelCut', rings));
  }
  return out;
}

/** The two ends of a convex polygon's cut by the plane `p[axis] = level`. */
function polygonInPlane(polygon: readonly Vec3[], axis: 0 | 1 | 2, level: number): [Vec3, Vec3] | null {
  const found: Vec3[] = [];
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i] as Vec3;
    const b = polygon[(i + 1) % polygon.length] as Vec3;
    const da = a[axis] - level;
    const db = b[axis] - level;
    if (da < 0 === db < 0) continue;
    const t = da / (da - db);
    found.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t]);
  }
  return found.length === 2 ? [found[0] as Vec3, found[1] as Vec3] : null;
}

/** Whether a thing between two planes is met by the cut. */
export const isCut = (low: Vec3, high: Vec3, cut: Cut): boolean => {
  const axis = depthAxis(cut.frame);
  return low[axis] <= cut.at && cut.at <= high[axis];
};

/** How far behind the cut a point lies, away from the eye; negative in front of it. */
export const behind = (p: Vec3, cut: Cut): number => depthOfCut(cut) - dot(cut.frame.toViewer, p);

/** The slab behind a cut, as bounds along the boat axis across the view. */
export function slabBehind(cut: Cut, deepM: number, beforeM = 0): readonly [number, number] {
  const axis = depthAxis(cut.frame);
  const away = -(cut.frame.toViewer[axis] as number);
  const far = cut.at + away * deepM;
  const near = cut.at - away * beforeM;
  return far < near ? [far, near] : [near, far];
}
