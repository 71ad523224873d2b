import * as portable from '../../base/portable';
import { signedArea } from '../../base/ring';
import { dot, type Vec2, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';

import { clipHalfPlane } from '../../shape/layout/polygon';
import { freeSection } from '../../shape/layout/room';
import type { Cell, Layout } from '../../shape/layout/types';
import { area, depthAxis, type Primitive, paperAxes, project, stroke, type ViewFrame } from './drawing';
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
  /** The room inside, with what stands above the sheer between its sides: a trunk is drawn there. */
  readonly free: readonly Ring[];
}

/** The depth towards the eye of a cut place. */
const depthOfCut = ({ frame, at }: Cut): number => at * (frame.toViewer[depthAxis(frame)] as number);

export function hullCut(hull: HullSurface, cut: Cut): HullCut {
  const open = skinIn(hull, cut);
  const outer = open.length < 3 ? [] : bothHulls(hull, cut, turnedLeft(open));
  const free = freeIn(hull, cut);
  return { outer, inner: intersectionOf(free, outer), free };
}

/** A hull off the centreline is there twice; in profile one hides the other. */
function bothHulls(hull: HullSurface, { frame }: Cut, one: Ring): Ring[] {
  if (hull.offsetM === 0 || frame.name === 'profile') return [one];
  return [one, frame.name === 'plan' ? acrossCentre(one) : one.map(([u, v]): Vec2 => [-u, v]).reverse()];
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

/**
 * The room inside shell and lining in a cut, open above the sheer between upright sides: in a section the surface's own rings, in plan
 * and profile their breadths and heights from column to column.
 */
function freeIn(hull: HullSurface, cut: Cut): Ring[] {
  const { frame, at } = cut;
  if (frame.name === 'section')
    return freeSection(hull, at, hull.insetM).map((ring) =>
      turnedLeft(ring.map(([y, z]) => project(frame, [at, y, z]))),
    );
  const centre = frame.name === 'plan' ? hull.offsetM : at < 0 ? -Math.abs(hull.offsetM) : Math.abs(hull.offsetM);
  const spanAt = (x: number): Span | null => {
    const rings = freeSection(hull, x, hull.insetM).filter((ring) => hull.offsetM === 0 || isAbout(ring, centre));
    return frame.name === 'plan' ? spanOf(rings, 1, at) : spanOf(rings, 0, at);
  };
  const rings = runsOf(hull, spanAt).map((run) =>
    turnedLeft([...run.map(([x, low]): Vec2 => [x, low]), ...run.map(([x, , high]): Vec2 => [x, high]).reverse()]),
  );
  return hull.offsetM !== 0 && frame.name === 'plan' ? [...rings, ...rings.map(acrossCentre)] : rings;
}

type Span = readonly [low: number, high: number];

const isAbout = (ring: Ring, centre: number): boolean =>
  Math.sign(ring.reduce((sum, [y]) => sum + y, 0)) === Math.sign(centre);

/** From the lowest to the highest place where rings cross a line, along its other axis; null where they miss it. */
function spanOf(rings: readonly Ring[], axis: 0 | 1, level: number): Span | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const ring of rings)
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const a = ring[i] as Vec2;
      const b = ring[j] as Vec2;
      if (a[axis] > level === b[axis] > level) continue;
      const place =
        a[(1 - axis) as 0 | 1] +
        ((b[(1 - axis) as 0 | 1] - a[(1 - axis) as 0 | 1]) * (level - a[axis])) / (b[axis] - a[axis]);
      low = Math.min(low, place);
      high = Math.max(high, place);
    }
  return low < high ? [low, high] : null;
}

/** Halvings of a gap between columns in which the room ends: to a tenth of a millimetre. */
const END_STEPS = 12;

/** Stretches of the hull along which there is room, [x, low, high] at its columns and at their ends. */
function runsOf(hull: HullSurface, spanAt: (x: number) => Span | null): (readonly [number, number, number])[][] {
  const runs: [number, number, number][][] = [];
  let run: [number, number, number][] = [];
  let before: { x: number; span: Span | null } | null = null;
  for (const x of hull.columnsM) {
    const span = spanAt(x);
    if (before && (before.span === null) !== (span === null)) {
      let [from, to] = [before.x, x];
      let last = before.span ?? (span as Span);
      for (let step = 0; step < END_STEPS; step++) {
        const middle = (from + to) / 2;
        const there = spanAt(middle);
        if (there) last = there;
        if ((there === null) === (before.span === null)) from = middle;
        else to = middle;
      }
      run.push([before.span === null ? to : from, last[0], last[1]]);
    }
    if (span) run.push([x, span[0], span[1]]);
    else if (run.length > 0) {
      runs.push(run);
      run = [];
    }
    before = { x, span };
  }
  return [...runs, run].filter((one) => one.length > 1);
}

/** Areas of the hull in a cut: free inside, and shell, lining and deadwood as solid. */
export function hullCutLines({ outer, inner }: Pick<HullCut, 'outer' | 'inner'>): Primitive[] {
  if (outer.length === 0) return [];
  return [
    ...(inner.length > 0 ? [area('hull/inside', 'hull', 'hullInside', inner)] : []),
    area('hull/poche', 'hull', 'poche', [...outer, ...inner]),
    ...outer.map((ring, i) => stroke(`hull/cut${i}`, 'hull', 'hullOutline', ring, true)),
    ...inner.map((ring, i) => stroke(`hull/inner${i}`, 'hull', 'innerSkin', ring, true)),
  ];
}

/** The convex polygon that a cut makes in a cell; empty when it misses. */
function cellInCut(cell: Cell, cut: Cut): Ring {
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
export function compartmentInCut(
  layout: Layout,
  compartment: string,
  cut: Cut,
  hull: Pick<HullCut, 'free'> | null,
): Ring[] {
  const pieces = (layout.cellsOf[compartment] ?? []).map((index) => cellInCut(layout.cells[index] as Cell, cut));
  const whole = unionOf(pieces.filter((ring) => ring.length > 2));
  return hull ? intersectionOf(whole, hull.free) : whole;
}

/** Walls in a cut as solid strips of their true thickness. */
export function wallsInCut(layout: Layout, cut: Cut, hull: Pick<HullCut, 'free'> | null): Primitive[] {
  const axis = depthAxis(cut.frame);
  const out: Primitive[] = [];
  const region = hull ? hull.free : null;
  for (const wall of layout.walls) {
    const across = project(cut.frame, wall.normal);
    const lean = portable.hypot(across[0], across[1]);
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
