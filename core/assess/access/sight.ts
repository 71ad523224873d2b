import * as portable from '../../base/portable';
import { angleBetween, degrees, distance, radians, subtract, unit, type Vec3 } from '../../base/vec';
import type { HullSurface } from '../../shape/hull/types';
import { discPoints, eyePlaces } from './eye-places';
import { byCount, type Met, obstructionsIn } from './in-the-way';
import { type MirrorSight, mirrorSight } from './mirror-sight';
import type { Region } from './reach/posture-region';
import type { Obstruction } from './reach/types';
import { type SeenDisc, type SightRay, SightRays } from './sight-rays';

export interface SightLimits {
  /** Nearer than this nobody can focus, metres; default 0.15. */
  readonly nearestM?: number;
  readonly distanceM: number;
  /** Between the line of sight and the normal, degrees. */
  readonly angleDeg: number;
  /** Share of the disc that must be seen from one place of the eye; default 0.8. */
  readonly share?: number;
  /** Whether a hand mirror is looked for where the eye alone does not do. */
  readonly mirrorOk: boolean;
  /** Arms that are in the way where hand and eye work together. */
  readonly arms?: readonly Obstruction[];
  readonly hull?: HullSurface | null;
}

export interface SightAnswer {
  readonly isSeen: boolean;
  /** The place that sees most within the limits; without any, the one that comes nearest to them. Null: no place for an eye at all. */
  readonly eye: Vec3 | null;
  /** Share of the rays from there that arrive. */
  readonly share: number;
  readonly neededShare: number;
  /** Share of the places of the eye from which it is seen: where it is small, from a narrow spot only. */
  readonly placesShare: number;
  readonly distanceM: number | null;
  /** Null where the disc has no normal. */
  readonly angleDeg: number | null;
  /** Why it is not seen; null where it is. */
  readonly lacks: 'place' | 'distance' | 'angle' | 'blocked' | null;
  /** What stops rays, and how many: from the best place where it is seen, else from all places within the limits. */
  readonly blockers: readonly Met[];
  readonly rays: readonly SightRay[];
  /** Rays that were tried. */
  readonly tried: number;
  /** Its own answer, never a yes of the eye: null where none was asked for, needed or found. */
  readonly mirror: MirrorSight | null;
}

const NEAREST_M = 0.15;
const SHARE = 0.8;
/** Rings of points on the disc: how many, and by what part of their spacing they are turned. */
const EIGHT = [
  [4, 0.5],
  [4, 0],
] as const;
const TWELVE = [
  [4, 0.5],
  [8, 0.5],
] as const;
const SIXTY = [
  [4, 0.5],
  [8, 0.5],
  [12, 0.5],
  [16, 0.5],
  [20, 0.5],
] as const;
/** Octants of eye places and points of the disc, from coarse to fine: 152 x 8, 512 x 12, 1000 x 12. */
const STAGES = [
  [19, EIGHT],
  [64, TWELVE],
  [125, TWELVE],
] as const;
const ENOUGH_OCTANTS = 64;
/** So many of the best places are looked from again, at sixty points. */
const CONFIRMED = 8;
/** Octants of places that tell what is in the way where it is not seen, and those from which a mirror is looked into. */
const EXPLAIN_OCTANTS = 8;
const MIRROR_OCTANTS = 19;

interface Place {
  readonly eye: Vec3;
  readonly distanceM: number;
  readonly angleDeg: number | null;
  readonly share: number;
}

/**
 * Whether somebody sees a disc: whether there is a place of the eye in one of the boxes from which enough of it is seen within distance and
 * angle. A person moves the head, so that the best place decides, not the mean of all. A yes is looked at again with sixty rays; a no may
 * miss what is seen from a narrow spot only.
 */
export function sightOf(
  disc: SeenDisc,
  eyes: readonly Region[],
  around: readonly Obstruction[],
  limits: SightLimits,
): SightAnswer {
  const needed = limits.share ?? SHARE;
  const all = [...around, ...(limits.arms ?? [])];
  const [low, high] = boundsAbout(eyes, disc);
  const rays = new SightRays(obstructionsIn(all, low, high), limits.hull ?? null, disc);
  let look: Look = { best: null, placesShare: 0 };
  let eyesAt: readonly Vec3[] = [];
  for (const [octants, rings] of STAGES) {
    eyesAt = eyePlaces(eyes, octants);
    look = lookFrom(eyesAt, rings, disc, limits, rays, needed);
    if (look.best && look.best.share >= needed) break;
    // Where not one ray arrives from half a thousand places, more of them find nothing either.
    if (look.best?.share === 0 && octants >= ENOUGH_OCTANTS) break;
  }
  const { best, placesShare } = look;
  const isSeen = best !== null && best.share >= needed;
  const place =
    best ??
    nearestTo(
      limits,
      eyesAt.map((eye) => measured(disc, eye)),
    );
  const pointsFor = pointsOn(disc, isSeen ? SIXTY : EIGHT);
  const lookedFrom = isSeen
    ? [(best as Place).eye]
    : eyePlaces(eyes, EXPLAIN_OCTANTS).filter((eye) => violation(measured(disc, eye), limits) === 0);
  return {
    isSeen,
    eye: place?.eye ?? null,
    share: best?.share ?? 0,
    neededShare: needed,
    placesShare,
    distanceM: place?.distanceM ?? null,
    angleDeg: place?.angleDeg ?? null,
    lacks: isSeen ? null : lackOf(best, place, limits),
    blockers: byCount(lookedFrom.flatMap((eye) => pointsFor(eye).map((to) => rays.stops(eye, to)))),
    rays: place ? pointsOn(disc, TWELVE)(place.eye).map((to) => rays.drawn(place.eye, to)) : [],
    mirror:
      isSeen || !limits.mirrorOk
        ? null
        : mirrorSight(
            disc,
            eyePlaces(eyes, MIRROR_OCTANTS),
            limits.angleDeg,
            needed,
            new SightRays(all, limits.hull ?? null, disc),
          ),
    tried: rays.tried,
  };
}

interface Look {
  readonly best: Place | null;
  readonly placesShare: number;
}

function lookFrom(
  eyes: readonly Vec3[],
  rings: typeof EIGHT | typeof TWELVE,
  disc: SeenDisc,
  limits: SightLimits,
  rays: SightRays,
  needed: number,
): Look {
  const mayDo = withinLimits(disc, limits);
  const pointsFor = pointsOn(disc, rings);
  const count = rings.reduce((sum, [n]) => sum + n, 0);
  const mayMiss = Math.floor(count * (1 - needed) + 1e-9);
  const seeing: Place[] = [];
  let least = count;
  let most: Place | null = null;
  for (const eye of eyes) {
    if (!mayDo(eye)) continue;
    const place = measured(disc, eye);
    if (violation(place, limits) > 0) continue;
    let missed = 0;
    // Nothing is learnt from a place that is worse than the best and does not do.
    const enough = Math.max(mayMiss, least);
    for (const to of pointsFor(place.eye)) {
      if (!rays.reaches(place.eye, to)) missed += 1;
      if (missed > enough) break;
    }
    if (missed > enough) continue;
    const seen = { ...place, share: (count - missed) / count };
    least = Math.min(least, missed);
    if (missed <= mayMiss) seeing.push(seen);
    if (!most || isBetter(seen, most)) most = seen;
  }
  const placesShare = eyes.length > 0 ? seeing.length / eyes.length : 0;
  seeing.sort((a, b) => (isBetter(a, b) ? -1 : isBetter(b, a) ? 1 : 0));
  let best: Place | null = null;
  const sixtyFor = pointsOn(disc, SIXTY);
  for (const place of seeing.slice(0, CONFIRMED)) {
    const points = sixtyFor(place.eye);
    const share = points.filter((to) => rays.reaches(place.eye, to)).length / points.length;
    const looked = { ...place, share };
    if (!best || isBetter(looked, best)) best = looked;
  }
  return { best: best ?? most, placesShare };
}

/** More of it, then straighter, then from nearer. */
function isBetter(a: Place, b: Place): boolean {
  if (Math.abs(a.share - b.share) > 1e-9) return a.share > b.share;
  const [one, other] = [a.angleDeg ?? 0, b.angleDeg ?? 0];
  if (Math.abs(one - other) > 1e-9) return one < other;
  return a.distanceM < b.distanceM - 1e-12;
}

type Rings = readonly (readonly [number, number])[];

/** Points of the disc as it turns to an eye: always the same ones where it has a normal. */
function pointsOn(disc: SeenDisc, rings: Rings): (eye: Vec3) => readonly Vec3[] {
  const { at, normal, radiusM } = disc;
  if (!normal) return (eye) => discPoints(at, unit(subtract(eye, at)), radiusM, rings);
  const points = discPoints(at, normal, radiusM, rings);
  return () => points;
}

function measured(disc: SeenDisc, eye: Vec3): Omit<Place, 'share'> {
  return {
    eye,
    distanceM: distance(eye, disc.at),
    angleDeg: disc.normal ? degrees(angleBetween(disc.normal, subtract(eye, disc.at))) : null,
  };
}

/** A cheap no for places that are surely beyond the limits of distance or angle; most are. */
function withinLimits({ at, normal }: SeenDisc, limits: SightLimits): (eye: Vec3) => boolean {
  const far = limits.distanceM * (1 + ROUNDING);
  const near = (limits.nearestM ?? NEAREST_M) * (1 - ROUNDING);
  const cosine = limits.angleDeg < 180 ? portable.cos(radians(limits.angleDeg)) - ROUNDING : -2;
  return (eye) => {
    const x = eye[0] - at[0];
    const y = eye[1] - at[1];
    const z = eye[2] - at[2];
    const squared = x * x + y * y + z * z;
    if (squared > far * far || squared < near * near) return false;
    return !normal || x * normal[0] + y * normal[1] + z * normal[2] >= cosine * Math.sqrt(squared) - ROUNDING;
  };
}
/** What is nearer to a limit than this share is measured. */
const ROUNDING = 1e-9;

/** How far a place is from the limits, as a share of them; 0 within. */
function violation(place: Omit<Place, 'share'>, limits: SightLimits): number {
  const far = Math.max(0, place.distanceM / limits.distanceM - 1);
  const near = Math.max(0, 1 - place.distanceM / (limits.nearestM ?? NEAREST_M));
  const aslant = place.angleDeg === null ? 0 : Math.max(0, place.angleDeg / limits.angleDeg - 1);
  return Math.max(far, near, aslant);
}

function nearestTo(limits: SightLimits, places: readonly Omit<Place, 'share'>[]): Omit<Place, 'share'> | null {
  let best: Omit<Place, 'share'> | null = null;
  for (const place of places) if (!best || violation(place, limits) < violation(best, limits) - 1e-12) best = place;
  return best;
}

function lackOf(best: Place | null, place: Omit<Place, 'share'> | null, limits: SightLimits): SightAnswer['lacks'] {
  if (best) return 'blocked';
  if (!place) return 'place';
  const { angleDeg } = place;
  const aslant = angleDeg === null ? 0 : angleDeg / limits.angleDeg - 1;
  return aslant >= violation(place, limits) - 1e-12 ? 'angle' : 'distance';
}

/** Bounds of all lines from the places of the eye to the disc. */
function boundsAbout(eyes: readonly Region[], { at, radiusM }: SeenDisc): readonly [Vec3, Vec3] {
  const extent = (k: 0 | 1 | 2, sign: 1 | -1): number =>
    eyes.reduce(
      (far, { centre, half, axes }) => {
        const reach = axes.reduce((sum, axis, i) => sum + Math.abs(axis[k]) * (half[i] ?? 0), 0);
        return Math.max(far, sign * centre[k] + reach);
      },
      sign * at[k] + radiusM,
    );
  return [
    [-extent(0, -1), -extent(1, -1), -extent(2, -1)],
    [extent(0, 1), extent(1, 1), extent(2, 1)],
  ];
}
