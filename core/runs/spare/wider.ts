/**
 * The run led wider: a corner of its tangent polygon is moved out until the run is as long as the hose. For small spare lengths in runs
 * of many bends, whose straights are too short for a bulge.
 */
import * as portable from '../../base/portable';
import { along, cross, distance, dot, norm, scale, subtract, unit, type Vec3 } from '../../base/vec';
import { type Pin, pinOf, primsOfPin } from '../pinned/pin';
import { lengthOf } from '../routing/prims';
import type { Crossing, Prim, Routed } from '../routing/types';

export interface Wider {
  readonly prims: readonly Prim[];
  /** Corner as it was, and how far it was moved. */
  readonly at: Vec3;
  readonly movedM: number;
}

const DIRECTIONS = 8;
/** No corner is led farther aside than this. */
const MOST_M = 1.2;
const HALVINGS = 44;
/** A leg and a hole's axis are one within this. */
const ON_AXIS_M = 1e-3;

/** Runs of that length in the order in which they are to be looked at: those that move their corner least come first. */
export function* widerRuns(run: Routed, radiusM: number, lengthM: number, clips: readonly Vec3[]): Generator<Wider> {
  const pin = pinOf(run.prims);
  const found: Wider[] = [];
  for (let corner = 1; corner + 1 < pin.points.length; corner += 1)
    for (const way of waysOf(pin, corner, run.crossings, clips)) {
      const wider = widened(pin, corner, way, radiusM, lengthM);
      if (wider) found.push(wider);
    }
  yield* found.sort((a, b) => a.movedM - b.movedM);
}

/** Ways in which a corner may move: a leg that leaves a port, passes a hole or is held by a clip keeps its line. */
function waysOf(
  { points }: Pin,
  corner: number,
  crossings: readonly Crossing[],
  clips: readonly Vec3[],
): readonly Vec3[] {
  const [before, at, after] = [points[corner - 1], points[corner], points[corner + 1]] as [Vec3, Vec3, Vec3];
  const isHeld = (leg: number): boolean => {
    const [from, to] = [points[leg] as Vec3, points[leg + 1] as Vec3];
    return (
      leg === 0 ||
      leg === points.length - 2 ||
      [...crossings.map((one) => one.at), ...clips].some((place) => isOn(place, from, to))
    );
  };
  const [heldBefore, heldAfter] = [isHeld(corner - 1), isHeld(corner)];
  if (heldBefore && heldAfter) return [];
  // Along a line that is held a corner moves away from where it is held.
  if (heldBefore) return distance(before, at) > 1e-6 ? [unit(subtract(at, before))] : [];
  if (heldAfter) return distance(after, at) > 1e-6 ? [unit(subtract(at, after))] : [];
  const chord = subtract(after, before);
  if (norm(chord) < 1e-6) return [];
  const axis = unit(chord);
  const off = subtract(at, before);
  const out = subtract(off, scale(axis, dot(off, axis)));
  if (norm(out) < 1e-6) return [];
  const u = unit(out);
  const v = cross(axis, u);
  return Array.from({ length: DIRECTIONS }, (_, k) => {
    const angle = (2 * Math.PI * k) / DIRECTIONS;
    return along(scale(u, portable.cos(angle)), v, portable.sin(angle));
  });
}

function isOn(place: Vec3, from: Vec3, to: Vec3): boolean {
  const lengthM = distance(from, to);
  if (lengthM < 1e-9) return false;
  const way = scale(subtract(to, from), 1 / lengthM);
  const s = dot(subtract(place, from), way);
  return s > -ON_AXIS_M && s < lengthM + ON_AXIS_M && distance(place, along(from, way, s)) < ON_AXIS_M;
}

function widened(pin: Pin, corner: number, way: Vec3, radiusM: number, lengthM: number): Wider | null {
  const at = pin.points[corner] as Vec3;
  const radiiM = pin.points
    .slice(1, -1)
    .map((_, k) => (Math.abs(k + 1 - corner) <= 1 ? radiusM : (pin.radiiM?.[k] ?? 0)));
  const moved = (byM: number): readonly Prim[] =>
    primsOfPin({ points: pin.points.map((p, k) => (k === corner ? along(at, way, byM) : p)), radiiM }, radiusM);
  let [low, high] = [0, 0.01];
  while (lengthOf(moved(high)) < lengthM) {
    low = high;
    high *= 1.5;
    if (high > MOST_M) return null;
  }
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    if (lengthOf(moved(middle)) < lengthM) low = middle;
    else high = middle;
  }
  const prims = moved(high);
  const isLegal = prims.every((prim) => prim.kind === 'line' || prim.radius >= radiusM - 1e-9);
  return isLegal && Math.abs(lengthOf(prims) - lengthM) < 1e-7 ? { prims, at, movedM: high } : null;
}
