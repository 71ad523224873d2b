import type { Boat, Compartment } from '@core/boat/schema/boat';
import {
  above,
  type Frame,
  frameOf,
  inner,
  inPolygon,
  inRegion,
  lifted,
  minus,
  onto,
  type P2,
  type P3,
  plus,
  type Region,
  regionOf,
  signedArea,
  size,
  times,
} from './geometry-oracle';

/** Reads compartments and panels straight from the boat file. */
export interface OraclePrism {
  readonly id: string;
  readonly low: P3;
  readonly high: P3;
  readonly faces: readonly OracleFace[];
  contains(p: P3): boolean;
}
export interface OracleFace {
  readonly compartment: string;
  readonly normal: P3;
  readonly points: readonly P3[];
}
export interface OracleHole {
  readonly id: string;
  readonly at: P3;
  readonly diameterM: number;
  readonly carriedM: readonly number[];
  /** Of a planned hole the lines that it is made for; null for one that is there. */
  readonly for: readonly string[] | null;
}
export interface OraclePanel {
  readonly between: readonly [string, string];
  /** Middle plane, normal from between[0] into between[1]. */
  readonly frame: Frame;
  readonly regions: readonly Region[];
  readonly gapM: number;
  readonly rule: 'open' | 'drill' | 'noDrill';
  readonly thicknessM: number;
  readonly edgeM: number;
  /** What drilling it costs, in metres of hose. */
  readonly newHoleCostM: number;
  readonly holes: readonly OracleHole[];
}

/** Where the outline's two directions and the range's direction go in the boat. */
const DIRECTIONS = { plan: [0, 1, 2], profile: [0, 2, 1], section: [1, 2, 0] } as const;

export function prismFrom(id: string, compartment: Compartment): OraclePrism {
  const [ia, ib, ic] = DIRECTIONS[compartment.view];
  const outline = compartment.outline as readonly P2[];
  const ring = signedArea(outline) > 0 ? outline : [...outline].reverse();
  const [c0, c1] = [Math.min(...compartment.rangeM), Math.max(...compartment.rangeM)];
  const raw = (a: number, b: number, c: number): P3 => {
    const p: [number, number, number] = [0, 0, 0];
    p[ia] = a;
    p[ib] = b;
    p[ic] = c;
    return p;
  };
  const corners = ring.flatMap(([a, b]) => [raw(a, b, c0), raw(a, b, c1)]);
  const middle = (k: 0 | 1): number =>
    (Math.min(...corners.map((p) => p[k])) + Math.max(...corners.map((p) => p[k]))) / 2;
  const [mx, my] = [middle(0), middle(1)];
  const angle = (compartment.yawDeg * Math.PI) / 180;
  const [co, si] = [Math.cos(angle), Math.sin(angle)];
  const spin = (p: P3): P3 => [
    mx + (p[0] - mx) * co - (p[1] - my) * si,
    my + (p[0] - mx) * si + (p[1] - my) * co,
    p[2],
  ];
  const spinBack = (p: P3): P3 => [
    mx + (p[0] - mx) * co + (p[1] - my) * si,
    my - (p[0] - mx) * si + (p[1] - my) * co,
    p[2],
  ];
  const turn = (d: P3): P3 => [d[0] * co - d[1] * si, d[0] * si + d[1] * co, d[2]];
  const faces: OracleFace[] = [
    { compartment: id, normal: turn(raw(0, 0, -1)), points: ring.map(([a, b]) => spin(raw(a, b, c0))) },
    { compartment: id, normal: turn(raw(0, 0, 1)), points: ring.map(([a, b]) => spin(raw(a, b, c1))) },
  ];
  ring.forEach(([a, b], i) => {
    const [d, e] = ring[(i + 1) % ring.length] as P2;
    const l = Math.hypot(d - a, e - b);
    if (l < 1e-9) return;
    faces.push({
      compartment: id,
      normal: turn(raw((e - b) / l, -(d - a) / l, 0)),
      points: [raw(a, b, c0), raw(d, e, c0), raw(d, e, c1), raw(a, b, c1)].map(spin),
    });
  });
  const placed = corners.map(spin);
  const bound = (pick: (...v: number[]) => number): P3 => [
    pick(...placed.map((p) => p[0])),
    pick(...placed.map((p) => p[1])),
    pick(...placed.map((p) => p[2])),
  ];
  return {
    id,
    low: bound(Math.min),
    high: bound(Math.max),
    faces,
    contains(p) {
      const q = spinBack(p);
      return q[ic] >= c0 && q[ic] <= c1 && inPolygon([q[ia], q[ib]], ring);
    },
  };
}

const PARALLEL = 0.99985;
const GAP_FROM = -0.0041;
const GAP_TO = 0.0601;
/** Narrower meetings of two faces are no panels. */
const NARROWEST = 0.02;
/** A record farther from every panel of its pair binds to none. */
const BIND_WITHIN = 0.3;
const DEFAULT_THICKNESS = 0.012;
const DEFAULT_EDGE = 0.015;

export function panelsFrom(
  boat: Boat,
  prisms: readonly OraclePrism[],
  extraHoles: Boat['arrangements'][string]['newHoles'],
): OraclePanel[] {
  const found: { between: [string, string]; frame: Frame; regions: Region[]; gapM: number }[] = [];
  prisms.forEach((a, i) => {
    for (const b of prisms.slice(i + 1)) {
      if (
        [0, 1, 2].some(
          (k) =>
            (a.low[k] as number) > (b.high[k] as number) + GAP_TO ||
            (b.low[k] as number) > (a.high[k] as number) + GAP_TO,
        )
      )
        continue;
      for (const fa of a.faces)
        for (const fb of b.faces) {
          if (inner(fa.normal, fb.normal) > -PARALLEL) continue;
          const [pa, pb] = [fa.points[0] as P3, fb.points[0] as P3];
          if (Math.abs(inner(minus(pb, pa), fa.normal)) > 0.25) continue;
          const frame = middlePlane(fa, fb);
          const region = regionOf(frame, [fa.points.map((p) => onto(frame, p)), fb.points.map((p) => onto(frame, p))]);
          if (region.boundary.length === 0 || widthOf(region) < NARROWEST) continue;
          const centre = centreOf(region);
          // Outward of the one face and outward of the other, added up.
          const gapM = inner(minus(centre, pa), fa.normal) + inner(minus(centre, pb), fb.normal);
          if (gapM < GAP_FROM || gapM > GAP_TO) continue;
          const same = found.find(
            (one) =>
              one.between[0] === a.id &&
              one.between[1] === b.id &&
              inner(one.frame.n, frame.n) > 0.99999 &&
              Math.abs(above(one.frame, frame.origin)) < 0.002,
          );
          if (same) same.regions.push(region);
          else found.push({ between: [a.id, b.id], frame, regions: [region], gapM });
        }
    }
  });
  const records = bind(boat, found);
  return found.map((one, k) => {
    const data = records.get(k);
    const holes: OracleHole[] = Object.entries(data?.holes ?? {}).map(([id, hole]) => ({
      id,
      at: footOn(one, hole.at),
      diameterM: hole.diameterM,
      carriedM: Object.values(hole.carries).map((c) => c.diameterM),
      for: null,
    }));
    for (const [id, hole] of Object.entries(extraHoles))
      if (
        samePair(hole.between, one.between) &&
        nearestOf(found, hole.between, hole.at) === k &&
        size(minus(footOn(one, hole.at), hole.at)) <= BIND_WITHIN
      )
        holes.push({ id, at: footOn(one, hole.at), diameterM: hole.diameterM, carriedM: [], for: hole.for });
    return {
      between: one.between,
      frame: one.frame,
      regions: one.regions,
      gapM: one.gapM,
      rule: data?.rule ?? 'drill',
      thicknessM: data?.thicknessM ?? (one.gapM > 0.001 ? one.gapM : DEFAULT_THICKNESS),
      edgeM: data?.edgeM ?? DEFAULT_EDGE,
      newHoleCostM: data?.newHoleCostM ?? boat.newHoleCostM,
      holes,
    };
  });
}

/** The points as far from the one face as from the other: between anti-parallel faces that may lean by a degree. */
function middlePlane(a: OracleFace, b: OracleFace): Frame {
  const [pa, pb] = [a.points[0] as P3, b.points[0] as P3];
  const lean = minus(a.normal, b.normal);
  const n = times(lean, 1 / size(lean));
  const level = (inner(a.normal, pa) - inner(b.normal, pb)) / size(lean);
  const origin = plus(pa, times(n, level - inner(n, pa)));
  return frameOf(origin, n, minus(a.points[1] as P3, pa));
}

const centreOf = (region: Region): P3 => {
  const points = region.boundary.flat();
  const mean = (k: 0 | 1): number => points.reduce((sum, p) => sum + p[k], 0) / points.length;
  return lifted(region.frame, [mean(0), mean(1)]);
};

type Found = { between: readonly [string, string]; frame: Frame; regions: readonly Region[] };

const samePair = (a: readonly string[], b: readonly string[]): boolean =>
  (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);

/** Nearest point of a panel to a point. */
function footOn(panel: Found, p: P3): P3 {
  let best: P3 = panel.frame.origin;
  let least = Number.POSITIVE_INFINITY;
  for (const region of panel.regions) {
    const q = onto(region.frame, p);
    const candidates: P2[] = inRegion(region, q) ? [q] : [];
    for (const [a, b] of region.boundary) {
      const d: P2 = [b[0] - a[0], b[1] - a[1]];
      const t = Math.min(1, Math.max(0, ((q[0] - a[0]) * d[0] + (q[1] - a[1]) * d[1]) / (d[0] * d[0] + d[1] * d[1])));
      candidates.push([a[0] + d[0] * t, a[1] + d[1] * t]);
    }
    for (const c of candidates) {
      const point = lifted(region.frame, c);
      const d = size(minus(point, p));
      if (d < least) {
        least = d;
        best = point;
      }
    }
  }
  return best;
}

function nearestOf(found: readonly Found[], pair: readonly string[], p: P3): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  found.forEach((one, k) => {
    if (!samePair(one.between, pair)) return;
    const d = size(minus(footOn(one, p), p));
    if (d < least) {
      least = d;
      best = k;
    }
  });
  return best;
}

/** Each record goes to the nearest panel of its pair; of two that claim one panel the nearer has it. */
function bind(boat: Boat, found: readonly Found[]): Map<number, Boat['panels'][string]> {
  const bound = new Map<number, { data: Boat['panels'][string]; distance: number }>();
  for (const data of Object.values(boat.panels)) {
    const k = nearestOf(found, data.between, data.near);
    const panel = found[k];
    if (!panel) continue;
    const distance = size(minus(footOn(panel, data.near), data.near));
    if (distance > BIND_WITHIN) continue;
    const other = bound.get(k);
    if (!other || distance < other.distance) bound.set(k, { data, distance });
  }
  return new Map([...bound].map(([k, one]) => [k, one.data]));
}

function widthOf(region: Region): number {
  const points = region.boundary.flat();
  let least = Number.POSITIVE_INFINITY;
  for (const [a, b] of region.boundary) {
    const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (l < 1e-6) continue;
    const across = points.map((p) => ((p[0] - a[0]) * -(b[1] - a[1]) + (p[1] - a[1]) * (b[0] - a[0])) / l);
    least = Math.min(least, Math.max(...across) - Math.min(...across));
  }
  return least;
}

/** Wall surfaces: faces without the panels in them, and the two sides of each closed panel. */
export interface OracleWall {
  readonly region: Region;
  readonly panel: number | null;
  readonly label: string;
  readonly low: P3;
  readonly high: P3;
}

export function wallsFrom(prisms: readonly OraclePrism[], panels: readonly OraclePanel[]): OracleWall[] {
  const walls: OracleWall[] = [];
  const put = (region: Region, panel: number | null, label: string): void => {
    const points = region.boundary.flat().map((p) => lifted(region.frame, p));
    if (points.length === 0) return;
    const bound = (pick: (...v: number[]) => number): P3 => [
      pick(...points.map((p) => p[0])),
      pick(...points.map((p) => p[1])),
      pick(...points.map((p) => p[2])),
    ];
    walls.push({ region, panel, label, low: bound(Math.min), high: bound(Math.max) });
  };
  for (const prism of prisms)
    for (const face of prism.faces) {
      const origin = face.points[0] as P3;
      const frame = frameOf(origin, face.normal, minus(face.points[1] as P3, origin));
      const away: P2[][] = [];
      for (const panel of panels) {
        if (!panel.between.includes(prism.id)) continue;
        if (Math.abs(inner(panel.frame.n, face.normal)) < PARALLEL) continue;
        if (!panel.regions.some((one) => Math.abs(above(frame, centreOf(one))) <= GAP_TO / 2 + 0.001)) continue;
        const out = inner(panel.frame.n, face.normal) * (panel.between[0] === prism.id ? 1 : -1);
        if (out < 0) continue;
        // The face's own outline is one of the panel's two: the other one cuts the panel out of it.
        const other = panel.between[0] === prism.id ? 1 : 0;
        for (const region of panel.regions)
          away.push((region.all[other] as readonly P2[]).map((p) => onto(frame, lifted(region.frame, p))));
      }
      put(regionOf(frame, [face.points.map((p) => onto(frame, p))], away), null, `wall of ${prism.id}`);
    }
  panels.forEach((panel, k) => {
    if (panel.rule === 'open') return;
    for (const region of panel.regions)
      for (const side of [-1, 1]) {
        const frame = {
          ...region.frame,
          origin: plus(region.frame.origin, times(region.frame.n, (side * panel.thicknessM) / 2)),
        };
        put({ ...region, frame }, k, `panel ${panel.between.join('/')}`);
      }
  });
  return walls;
}
