import { add, along, cross, dot, norm, scale, squareTo, subtract, type Vec3 } from '../../../base/vec';
import { nearestOnPolygon } from '../../../shape/layout/polygon';

/** Where an event may be: a convex polygon in a plane, or one point. */
export interface Domain {
  readonly ring: readonly Vec3[];
  readonly normal: Vec3;
  /** dot(normal, p) of its plane. */
  readonly offset: number;
  readonly centre: Vec3;
  /** Greatest distance from the centre. */
  readonly size: number;
  /** The event may lie this far from the polygon, metres. */
  readonly roundM: number;
}

/** The ring is put counter-clockwise about the normal. */
export function domainOf(ring: readonly Vec3[], normal: Vec3, roundM = 0): Domain {
  let [sx, sy, sz] = [0, 0, 0];
  for (const p of ring) {
    sx += p[0];
    sy += p[1];
    sz += p[2];
  }
  const share = 1 / ring.length;
  const centre: Vec3 = [sx * share, sy * share, sz * share];
  let size = 0;
  let turn = 0;
  for (let k = 0; k < ring.length; k++) {
    const p = ring[k] as Vec3;
    const q = ring[k + 1 === ring.length ? 0 : k + 1] as Vec3;
    const [wx, wy, wz] = [p[0] - centre[0], p[1] - centre[1], p[2] - centre[2]];
    const [nx, ny, nz] = [q[0] - centre[0], q[1] - centre[1], q[2] - centre[2]];
    size = Math.max(size, Math.sqrt(wx * wx + wy * wy + wz * wz));
    turn += (wy * nz - wz * ny) * normal[0] + (wz * nx - wx * nz) * normal[1] + (wx * ny - wy * nx) * normal[2];
  }
  return { ring: turn < 0 ? [...ring].reverse() : ring, normal, offset: dot(normal, centre), centre, size, roundM };
}

/** The domain moved by `by` along a unit vector. */
export function shifted({ ring, normal, offset, centre, size, roundM }: Domain, way: Vec3, by: number): Domain {
  return {
    ring: ring.map((p) => along(p, way, by)),
    normal,
    offset: offset + by * dot(normal, way),
    centre: along(centre, way, by),
    size,
    roundM,
  };
}

/** Square round a disc of that radius: a hole with some play. */
export function squareAbout(at: Vec3, normal: Vec3, radius: number): Domain {
  if (!(radius > 0)) return domainOf([at], normal);
  const u = scale(squareTo(normal), radius);
  const v = cross(normal, u);
  return domainOf(
    [add(add(at, u), v), add(subtract(at, u), v), subtract(subtract(at, u), v), subtract(add(at, u), v)],
    normal,
  );
}

/** Least of dot(c, p) over the domain: at a corner, or as far beyond it as the event may lie. */
export function leastAlong({ ring, roundM }: Domain, cx: number, cy: number, cz: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < ring.length; k++) {
    const p = ring[k] as Vec3;
    const value = cx * p[0] + cy * p[1] + cz * p[2];
    if (value < least) least = value;
  }
  return roundM > 0 ? least - roundM * Math.sqrt(cx * cx + cy * cy + cz * cz) : least;
}

export const nearestInDomain = (domain: Pick<Domain, 'ring' | 'normal'>, p: Vec3): Vec3 =>
  domain.ring.length === 1 ? (domain.ring[0] as Vec3) : nearestOnPolygon(domain.ring, domain.normal, p);

/** Certified least distance of two domains: what separates them along the line of their (nearly) nearest points. */
export function domainDistance(a: Domain, b: Domain): number {
  let p = nearestInDomain(a, b.centre);
  let q = nearestInDomain(b, p);
  for (let k = 0; k < 8; k++) {
    p = nearestInDomain(a, q);
    const next = nearestInDomain(b, p);
    const moved = norm(subtract(next, q));
    q = next;
    if (moved < 1e-6) break;
  }
  const d = subtract(q, p);
  const far = norm(d);
  if (far < 1e-9) return 0;
  const [x, y, z] = scale(d, 1 / far);
  return Math.max(0, leastAlong(b, x, y, z) + leastAlong(a, -x, -y, -z));
}

/** The part of the domain with dot(n, p) <= offset; null when nothing is left. */
export function cutDomain(domain: Domain, n: Vec3, offset: number): Domain | null {
  const { ring } = domain;
  const kept: Vec3[] = [];
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i] as Vec3;
    const b = ring[(i + 1) % ring.length] as Vec3;
    const ha = dot(n, a) - offset;
    const hb = dot(n, b) - offset;
    if (ha <= 0) kept.push(a);
    if (ha * hb < 0) {
      const t = ha / (ha - hb);
      kept.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t]);
    }
  }
  return kept.length > 0 ? domainOf(kept, domain.normal, domain.roundM) : null;
}

/** Two halves, cut across the longest side-to-side direction. */
export function halves(domain: Domain): readonly Domain[] {
  let far: Vec3 = domain.centre;
  let near: Vec3 = domain.centre;
  let most = 0;
  for (const p of domain.ring)
    for (const q of domain.ring) {
      const d = norm(subtract(p, q));
      if (d > most) {
        most = d;
        far = p;
        near = q;
      }
    }
  if (most < 1e-6) return [domain];
  const n = scale(subtract(far, near), 1 / most);
  const middle = (dot(n, far) + dot(n, near)) / 2;
  const parts = [cutDomain(domain, n, middle), cutDomain(domain, scale(n, -1), -middle)];
  return parts.filter((part): part is Domain => part !== null);
}
