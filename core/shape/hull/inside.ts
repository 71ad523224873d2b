import { FillRule, intersectD } from 'clipper2-ts';
import * as portable from '../../base/portable';
import type { Vec2 } from '../../base/vec';

/** Half a section with what is needed to move its facets. */
export interface HalfSection {
  /** From the keel, on the centre plane, to the sheer, [half-breadth, z]; no two neighbours at one place. */
  readonly points: readonly Vec2[];
  /** Of each chord, and last of the upright side above the sheer: how far it moves inward within the section from x to x + 1. */
  readonly leans: readonly number[];
}

/** Above the sheer the sides go on upright, higher than any interior. */
const SKY_M = 50;
const WIDE_M = 1000;
/** A lip that stands into the interior is gone round in steps no larger than this, radians. */
const ROUND_STEP = 0.2;
/** Chords that are left shorter than this may point anywhere. */
const LEAST_LEFT_M = 1e-9;
/** Decimals that polygon clipping keeps. */
const DECIMALS = 8;

/**
 * The free interior of a section, about the hull's own centre, as counter-clockwise rings [y, z] (where a keel is too narrow for it,
 * port and starboard halves): the skin's facets moved in square to themselves. A facet that leans to the plane of the section by
 * an angle b moves by inset / cos b within it, which is exact for the facet; neighbours meet in their mitre where the interior
 * is convex, and in an arc about a lip that stands into it. Above the sheer the sides go on upright.
 */
export function insideSection({ points, leans }: HalfSection, insetM: number): readonly (readonly Vec2[])[] {
  const sheer = points[points.length - 1];
  if (!sheer || points.length < 2) return [];
  const outline: readonly Vec2[] = [...points, [sheer[0], SKY_M]];
  if (insetM === 0) return [bothSides(outline)];
  const chords = outline.slice(1).map((to, k) => chordOf(outline[k] as Vec2, to, leans[k] ?? 0, insetM));
  const { moved, isTurned } = joined(chords);
  return isTurned ? tidied(moved) : [bothSides(moved)];
}

const bothSides = (half: readonly Vec2[]): Vec2[] => {
  const starboard = half.map(([y, z]): Vec2 => [-y, z]).reverse();
  return [...(half[0]?.[0] === 0 ? starboard.slice(0, -1) : starboard), ...half];
};

interface Chord {
  readonly from: Vec2;
  readonly to: Vec2;
  /** Unit, from keel to sheer. */
  readonly along: Vec2;
  /** Unit, into the interior. */
  readonly inward: Vec2;
  readonly byM: number;
}

function chordOf(from: Vec2, to: Vec2, lean: number, insetM: number): Chord {
  const length = portable.hypot(to[0] - from[0], to[1] - from[1]);
  const along: Vec2 = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return { from, to, along, inward: [-along[1], along[0]], byM: insetM * portable.hypot(1, lean) };
}

const shifted = (p: Vec2, { inward, byM }: Chord): Vec2 => [p[0] + inward[0] * byM, p[1] + inward[1] * byM];

/**
 * The chords moved in and joined, first at the centre plane and last in the sky; and whether one of them was turned round by its
 * neighbours, or moved across the centre plane, so that the curve crosses itself.
 */
function joined(chords: readonly Chord[]): { readonly moved: readonly Vec2[]; readonly isTurned: boolean } {
  const first = chords[0] as Chord;
  const moved: Vec2[] = [atCentre(first)];
  let isTurned = (moved[0] as Vec2)[0] !== 0;
  const join = (chord: Chord, points: readonly Vec2[]): void => {
    const start = moved[moved.length - 1] as Vec2;
    const end = points[0] as Vec2;
    const leftM = (end[0] - start[0]) * chord.along[0] + (end[1] - start[1]) * chord.along[1];
    isTurned ||= leftM < -LEAST_LEFT_M || points.some(([y]) => y < 0);
    moved.push(...points);
  };
  chords.slice(1).forEach((next, k) => {
    const last = chords[k] as Chord;
    const turn = last.along[0] * next.along[1] - last.along[1] * next.along[0];
    const cosine = last.along[0] * next.along[0] + last.along[1] * next.along[1];
    // The interior lies to the left: turning right the skin stands into it.
    const angle = portable.atan2(turn, cosine);
    join(last, angle < -ROUND_STEP ? arc(last, next, -angle) : mitre(last, next, turn, angle));
  });
  const sky = chords[chords.length - 1] as Chord;
  join(sky, [shifted(sky.to, sky)]);
  return { moved, isTurned };
}

/** Where the first chord, moved in, meets its mirror image. */
function atCentre(first: Chord): Vec2 {
  const [y, z] = shifted(first.from, first);
  return first.along[0] > 1e-6 ? [0, z - (y * first.along[1]) / first.along[0]] : [y, z];
}

/** Where two neighbours meet; a step between them where they are nearly in line but their facets lean by so much more or less. */
function mitre(last: Chord, next: Chord, turn: number, angle: number): Vec2[] {
  const corner = shifted(last.to, last);
  const other = shifted(next.from, next);
  if (Math.abs(turn) < 1e-9) return [corner, other];
  // corner + t along = a point of the other line.
  const t = ((other[0] - corner[0]) * next.along[1] - (other[1] - corner[1]) * next.along[0]) / turn;
  const usual = Math.max(last.byM, next.byM) * portable.tan(Math.abs(angle) / 2);
  if (Math.abs(t) > 1.05 * usual + 2 * Math.abs(last.byM - next.byM)) return [corner, other];
  return [[corner[0] + last.along[0] * t, corner[1] + last.along[1] * t]];
}

function arc(last: Chord, next: Chord, angle: number): Vec2[] {
  const steps = Math.ceil(angle / ROUND_STEP);
  // Points on an arc of this much more than the inset enclose what the arc itself does.
  const wide = Math.sqrt(angle / steps / portable.sin(angle / steps));
  return Array.from({ length: steps + 1 }, (_, k) => {
    const share = k / steps;
    const byM = (last.byM + (next.byM - last.byM) * share) * (k === 0 || k === steps ? 1 : wide);
    const turned = -angle * share;
    const [c, s] = [portable.cos(turned), portable.sin(turned)];
    const [y, z] = last.inward;
    return [last.to[0] + (y * c - z * s) * byM, last.to[1] + (y * s + z * c) * byM];
  });
}

/** What is left of a curve that was turned over in narrow places: the port half and its mirror image. */
function tidied(moved: readonly Vec2[]): Vec2[][] {
  const last = moved[moved.length - 1] as Vec2;
  const first = moved[0] as Vec2;
  const around: readonly Vec2[] = [...moved, [-WIDE_M, last[1]], [-WIDE_M, first[1]]];
  const port: readonly Vec2[] = [
    [0, -WIDE_M],
    [WIDE_M, -WIDE_M],
    [WIDE_M, WIDE_M],
    [0, WIDE_M],
  ];
  const path = (ring: readonly Vec2[]) => ring.map(([x, y]) => ({ x, y }));
  return intersectD([path(around)], [path(port)], FillRule.Positive, DECIMALS).flatMap((ring) => {
    const half = ring.map(({ x, y }): Vec2 => [x, y]);
    return [half, half.map(([y, z]): Vec2 => [-y, z]).reverse()];
  });
}
