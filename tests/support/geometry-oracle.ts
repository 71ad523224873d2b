/**
 * Geometry of the oracle: written apart from the product's own, so that a mistake there is not repeated here.
 * Metres; distances are from a point to a closed solid, 0 inside it.
 */
export type P3 = readonly [number, number, number];
export type P2 = readonly [number, number];

export const plus = (a: P3, b: P3): P3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a: P3, b: P3): P3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: P3, k: number): P3 => [a[0] * k, a[1] * k, a[2] * k];
export const inner = (a: P3, b: P3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const outer = (a: P3, b: P3): P3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: P3): number => Math.hypot(a[0], a[1], a[2]);
export const gap = (a: P3, b: P3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
export const normalised = (a: P3): P3 => times(a, 1 / size(a));
/** Angle between two directions, radians; exact near 0 and pi. */
export const angleBetween = (a: P3, b: P3): number => Math.atan2(size(outer(a, b)), inner(a, b));

/** Turns a local vector: roll about x, then pitch about y, then yaw about z, degrees, one matrix after the other. */
export function turned(v: P3, yawDeg: number, pitchDeg: number, rollDeg: number): P3 {
  const quarter = Math.PI / 180;
  const [r, p, y] = [rollDeg * quarter, pitchDeg * quarter, yawDeg * quarter];
  const a: P3 = [v[0], v[1] * Math.cos(r) - v[2] * Math.sin(r), v[1] * Math.sin(r) + v[2] * Math.cos(r)];
  const b: P3 = [a[0] * Math.cos(p) + a[2] * Math.sin(p), a[1], -a[0] * Math.sin(p) + a[2] * Math.cos(p)];
  return [b[0] * Math.cos(y) - b[1] * Math.sin(y), b[0] * Math.sin(y) + b[1] * Math.cos(y), b[2]];
}

export function distanceToSegment(p: P3, a: P3, b: P3): number {
  const d = minus(b, a);
  const dd = inner(d, d);
  const t = dd > 0 ? Math.min(1, Math.max(0, inner(minus(p, a), d) / dd)) : 0;
  return gap(p, plus(a, times(d, t)));
}

/** Distance to a triangle by its plane where the foot lies inside, else by its three sides. */
export function distanceToTriangle(p: P3, a: P3, b: P3, c: P3): number {
  const n = outer(minus(b, a), minus(c, a));
  const nn = inner(n, n);
  if (nn > 1e-24) {
    const inAll =
      inner(outer(minus(b, a), minus(p, a)), n) >= 0 &&
      inner(outer(minus(c, b), minus(p, b)), n) >= 0 &&
      inner(outer(minus(a, c), minus(p, c)), n) >= 0;
    if (inAll) return Math.abs(inner(minus(p, a), n)) / Math.sqrt(nn);
  }
  return Math.min(distanceToSegment(p, a, b), distanceToSegment(p, b, c), distanceToSegment(p, c, a));
}

export function inPolygon(p: P2, polygon: readonly P2[]): boolean {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [xi, yi] = polygon[i] as P2;
    const [xj, yj] = polygon[j] as P2;
    if (yi > p[1] !== yj > p[1] && p[0] < xi + ((p[1] - yi) / (yj - yi)) * (xj - xi)) inside = !inside;
  }
  return inside;
}

export function distance2(p: P2, a: P2, b: P2): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const dd = dx * dx + dy * dy;
  const t = dd > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / dd)) : 0;
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

export const signedArea = (polygon: readonly P2[]): number =>
  polygon.reduce((sum, [x, y], i) => {
    const [u, v] = polygon[(i + 1) % polygon.length] as P2;
    return sum + (x * v - u * y) / 2;
  }, 0);

export interface Frame {
  readonly origin: P3;
  readonly u: P3;
  readonly v: P3;
  readonly n: P3;
}
export const frameOf = (origin: P3, n: P3, along: P3): Frame => {
  const u = normalised(minus(along, times(n, inner(along, n))));
  return { origin, u, v: outer(n, u), n };
};
export const onto = (f: Frame, p: P3): P2 => [inner(minus(p, f.origin), f.u), inner(minus(p, f.origin), f.v)];
export const above = (f: Frame, p: P3): number => inner(minus(p, f.origin), f.n);
export const lifted = (f: Frame, p: P2, h = 0): P3 =>
  plus(f.origin, plus(times(f.u, p[0]), plus(times(f.v, p[1]), times(f.n, h))));

/** A plane area: within every polygon of `all`, outside every polygon of `none`. Polygons may be concave. */
export interface Region {
  readonly frame: Frame;
  readonly all: readonly (readonly P2[])[];
  readonly none: readonly (readonly P2[])[];
  readonly boundary: readonly (readonly [P2, P2])[];
}

const holds = (p: P2, all: readonly (readonly P2[])[], none: readonly (readonly P2[])[]): boolean =>
  all.every((polygon) => inPolygon(p, polygon)) && !none.some((polygon) => inPolygon(p, polygon));

export const inRegion = (region: Region, p: P2): boolean => holds(p, region.all, region.none);

/** The boundary: every side of every polygon, cut at all meetings; a piece counts when the area lies on one side of it only. */
export function regionOf(frame: Frame, all: readonly (readonly P2[])[], none: readonly (readonly P2[])[] = []): Region {
  const sides: [P2, P2][] = [];
  for (const polygon of [...all, ...none])
    polygon.forEach((a, i) => {
      const b = polygon[(i + 1) % polygon.length] as P2;
      if (Math.hypot(b[0] - a[0], b[1] - a[1]) > 1e-9) sides.push([a, b]);
    });
  const boundary: [P2, P2][] = [];
  for (const [a, b] of sides) {
    const d: P2 = [b[0] - a[0], b[1] - a[1]];
    const l = Math.hypot(d[0], d[1]);
    const cuts = [0, 1];
    for (const [c, e] of sides) {
      const f: P2 = [e[0] - c[0], e[1] - c[1]];
      const det = d[0] * f[1] - d[1] * f[0];
      if (Math.abs(det) > 1e-15) {
        const t = ((c[0] - a[0]) * f[1] - (c[1] - a[1]) * f[0]) / det;
        const s = ((c[0] - a[0]) * d[1] - (c[1] - a[1]) * d[0]) / det;
        if (t > 0 && t < 1 && s > -1e-9 && s < 1 + 1e-9) cuts.push(t);
      } else
        for (const q of [c, e]) {
          const t = ((q[0] - a[0]) * d[0] + (q[1] - a[1]) * d[1]) / (l * l);
          if (t > 0 && t < 1 && distance2(q, a, b) < 1e-9) cuts.push(t);
        }
    }
    cuts.sort((x, y) => x - y);
    for (let i = 0; i + 1 < cuts.length; i++) {
      const [t0, t1] = [cuts[i] as number, cuts[i + 1] as number];
      if ((t1 - t0) * l < 1e-9) continue;
      const m: P2 = [a[0] + (d[0] * (t0 + t1)) / 2, a[1] + (d[1] * (t0 + t1)) / 2];
      const e = 1e-7;
      const left = holds([m[0] - (d[1] / l) * e, m[1] + (d[0] / l) * e], all, none);
      const right = holds([m[0] + (d[1] / l) * e, m[1] - (d[0] / l) * e], all, none);
      if (left !== right)
        boundary.push([
          [a[0] + d[0] * t0, a[1] + d[1] * t0],
          [a[0] + d[0] * t1, a[1] + d[1] * t1],
        ]);
    }
  }
  return { frame, all, none, boundary };
}

export const distanceToBoundary = (region: Region, p: P2): number =>
  region.boundary.reduce((best, [a, b]) => Math.min(best, distance2(p, a, b)), Number.POSITIVE_INFINITY);

const distanceInPlane = (region: Region, p: P2): number => (inRegion(region, p) ? 0 : distanceToBoundary(region, p));

/** Distance to a plane area that has round holes in it. */
export function distanceToRegion(
  region: Region,
  point: P3,
  holes: readonly { readonly at: P2; readonly radius: number }[] = [],
): number {
  const h = above(region.frame, point);
  const p = onto(region.frame, point);
  const hole = holes.find((one) => Math.hypot(p[0] - one.at[0], p[1] - one.at[1]) < one.radius);
  if (hole) return Math.hypot(h, hole.radius - Math.hypot(p[0] - hole.at[0], p[1] - hole.at[1]));
  return Math.hypot(h, distanceInPlane(region, p));
}

export type OracleSolid = {
  readonly owner: string;
  readonly label: string;
  readonly low: P3;
  readonly high: P3;
  readonly distance: (p: P3) => number;
};

/** From a point in local coordinates to a centred box. */
export const boxDistance = (p: P3, half: P3): number =>
  Math.hypot(
    Math.max(0, Math.abs(p[0]) - half[0]),
    Math.max(0, Math.abs(p[1]) - half[1]),
    Math.max(0, Math.abs(p[2]) - half[2]),
  );

/** `w` along the axis, `rho` from it. */
export const cylinderDistance = (w: number, rho: number, halfLength: number, radius: number): number =>
  Math.hypot(Math.max(0, Math.abs(w) - halfLength), Math.max(0, rho - radius));

/** Sector of a disc between two angles (radians, right-handed), with a thickness along w. */
export function sectorDistance([a, b, w]: P3, radius: number, from: number, to: number, halfThickness: number): number {
  const turn = 2 * Math.PI;
  const span = Math.min(turn, to >= from ? to - from : ((to - from) % turn) + turn);
  const rho = Math.hypot(a, b);
  const at = (((Math.atan2(b, a) - from) % turn) + turn) % turn;
  const flat =
    at <= span
      ? Math.max(0, rho - radius)
      : Math.min(
          distance2([a, b], [0, 0], [radius * Math.cos(from), radius * Math.sin(from)]),
          distance2([a, b], [0, 0], [radius * Math.cos(from + span), radius * Math.sin(from + span)]),
        );
  return Math.hypot(flat, Math.max(0, Math.abs(w) - halfThickness));
}
