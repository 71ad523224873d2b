import * as portable from '../../base/portable';
import {
  add,
  along,
  angleBetween,
  degrees,
  distance,
  dot,
  radians,
  scale,
  subtract,
  unit,
  type Vec3,
} from '../../base/vec';
import { discAxes, discPoints, evenPoint } from './eye-places';
import type { SeenDisc, SightRay, SightRays } from './sight-rays';

/** Half the width of a hand mirror, which is held clear of everything, and the longest way over it (from memory), metres. */
const MIRROR_RADIUS_M = 0.04;
export const MIRROR_PATH_M = 0.7;
/** Nearest and farthest place of the mirror before the disc, metres. */
const NEAR_M = 0.06;
const FAR_M = 0.45;
/** Nearer to the mirror than this nobody looks into it, metres. */
const EYE_M = 0.1;
/** Places of the mirror in fours, mirror images of one another about the axes of the disc. */
const QUADRANTS = 24;
const RINGS = [
  [4, 0.5],
  [8, 0.5],
] as const;

/** A disc seen over a hand mirror. */
export interface MirrorSight {
  readonly eye: Vec3;
  /** Middle of the mirror, where a hand must hold it, and the way it looks, unit. */
  readonly mirror: Vec3;
  readonly normal: Vec3;
  readonly share: number;
  /** From the eye over the mirror to the disc, metres. */
  readonly pathM: number;
  /** At the disc, between the line to the mirror and the normal; null without a normal. */
  readonly angleDeg: number | null;
  /** Both legs of each ray. */
  readonly rays: readonly SightRay[];
}

/** Where to hold a mirror so that enough of a disc is seen in it from one of the places of the eye; null where none was found. */
export function mirrorSight(
  disc: SeenDisc,
  eyes: readonly Vec3[],
  angleDeg: number,
  neededShare: number,
  rays: SightRays,
): MirrorSight | null {
  const [first] = eyes;
  if (!first) return null;
  const out = disc.normal ?? unit(subtract(scale(eyes.reduce(add), 1 / eyes.length), disc.at));
  const points = discPoints(disc.at, out, disc.radiusM, RINGS);
  for (let n = 1; n <= QUADRANTS; n += 1) {
    let best: Held | null = null;
    for (const mirror of heldAt(disc.at, out, n, angleDeg)) {
      if (!rays.isClear(mirror, MIRROR_RADIUS_M) || !rays.reaches(mirror, disc.at)) continue;
      for (const eye of eyes) {
        const held = lookOver(eye, mirror, disc.at, points, rays, best?.share ?? neededShare);
        if (held && held.share >= neededShare - 1e-9 && (!best || isBetter(held, best))) best = held;
      }
    }
    if (best) return drawn(best, disc, points, rays);
  }
  return null;
}

interface Held {
  readonly eye: Vec3;
  readonly mirror: Vec3;
  readonly normal: Vec3;
  readonly share: number;
  readonly pathM: number;
}

const isBetter = (a: Held, b: Held): boolean =>
  Math.abs(a.share - b.share) > 1e-9 ? a.share > b.share : a.pathM < b.pathM - 1e-12;

/** Four places before the disc, within the angle at which it can be read. */
function heldAt(at: Vec3, out: Vec3, n: number, angleDeg: number): readonly Vec3[] {
  const [u, v, w] = evenPoint(n);
  const awayM = NEAR_M + (FAR_M - NEAR_M) * u;
  const aslant = radians(angleDeg) * Math.sqrt(v);
  const round = (Math.PI / 2) * w;
  const [sin, cos] = [portable.sin(aslant) * awayM, portable.cos(aslant) * awayM];
  const { across, up } = discAxes(out);
  return [-1, 1].flatMap((i) =>
    [-1, 1].map((j) =>
      along(along(along(at, out, cos), across, i * sin * portable.cos(round)), up, j * sin * portable.sin(round)),
    ),
  );
}

function lookOver(
  eye: Vec3,
  mirror: Vec3,
  at: Vec3,
  points: readonly Vec3[],
  rays: SightRays,
  leastShare: number,
): Held | null {
  const [toEyeM, toDiscM] = [distance(eye, mirror), distance(mirror, at)];
  const pathM = toEyeM + toDiscM;
  if (pathM > MIRROR_PATH_M || toEyeM < EYE_M) return null;
  const half = add(scale(subtract(eye, mirror), 1 / toEyeM), scale(subtract(at, mirror), 1 / toDiscM));
  if (dot(half, half) < 1e-3 || !rays.isOpen(eye, mirror)) return null;
  const normal = unit(half);
  const mayMiss = Math.floor(points.length * (1 - leastShare) + 1e-9);
  let missed = 0;
  for (const point of points) {
    const on = onMirror(eye, point, mirror, normal);
    if (!on || !rays.isOpen(eye, on) || !rays.reaches(on, point)) missed += 1;
    if (missed > mayMiss) return null;
  }
  return { eye, mirror, normal, share: (points.length - missed) / points.length, pathM };
}

/** Where a ray from the eye to a point is reflected; null where it misses the mirror. */
function onMirror(eye: Vec3, point: Vec3, mirror: Vec3, normal: Vec3): Vec3 | null {
  const [a, b] = [dot(subtract(eye, mirror), normal), dot(subtract(point, mirror), normal)];
  if (a <= 0 || b <= 0) return null;
  const image = along(point, normal, -2 * b);
  const on = along(eye, subtract(image, eye), a / (a + b));
  return distance(on, mirror) <= MIRROR_RADIUS_M ? on : null;
}

function drawn(held: Held, disc: SeenDisc, points: readonly Vec3[], rays: SightRays): MirrorSight {
  const { eye, mirror, normal } = held;
  return {
    ...held,
    angleDeg: disc.normal ? degrees(angleBetween(disc.normal, subtract(mirror, disc.at))) : null,
    rays: points.flatMap((point) => {
      const on = onMirror(eye, point, mirror, normal);
      return on ? [rays.drawn(eye, on, false), rays.drawn(on, point)] : [];
    }),
  };
}
