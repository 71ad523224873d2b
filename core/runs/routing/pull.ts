import { footOnLeg } from '../../base/segment';
import { along, distance, dot, subtract, unit, type Vec3 } from '../../base/vec';
import { leadElements, type Task } from './attempt';
import { CLIP_STRAIGHT_M, cornersOf, type Element, placeCorners } from './polygon';
import { elementsFromSeed, type Seed } from './seed';
import type { Routed } from './types';

/** The corners of a new clip point stand this far from it, if its leg has the room: enough for a band to move them. */
const CORNER_M = 0.03;

/**
 * The polygon of a run that is to pass one clip point more than it did: the point that lies farthest off the run is the new
 * one, and it takes the nearest leg between its neighbours in the order of the clip points. Null when it is not one more.
 */
export function pulledElements(task: Task, previous: Routed): Element[] | null {
  const { clipPoints } = task.line;
  const seed = previous.seed as Seed;
  const before = seed.elements.filter(({ kind }) => kind === 'clip').length;
  if (clipPoints.length !== before + 1) return null;
  let added = 0;
  let farthest = -1;
  for (const [index, at] of clipPoints.entries()) {
    const off = Math.min(...previous.prims.map(({ from, to }) => distance(at, footOnLeg(at, from, to))));
    if (off <= farthest) continue;
    farthest = off;
    added = index;
  }
  const elements = elementsFromSeed(
    seed,
    task.world.structure,
    leadElements(task),
    clipPoints.filter((_, index) => index !== added),
  );
  return elements && withClip(elements, clipPoints[added] as Vec3, added);
}

/** A crossing that is held at a place in its panel. */
export interface SlidCrossing {
  /** Which of the crossings of the run, in their order. */
  readonly index: number;
  readonly at: Vec3;
  readonly diameterM: number;
}

const HELD_HOLE = 'held';

/** The polygon of a run with one of its holes at another place; null when it has no such crossing. */
export function slidElements(task: Task, previous: Routed, { index, at, diameterM }: SlidCrossing): Element[] | null {
  const seed = previous.seed as Seed;
  let hole = -1;
  const open = seed.elements.map((one) => {
    if (one.kind !== 'hole') return one;
    hole += 1;
    return hole === index ? { ...one, holeId: null } : one;
  });
  const elements = elementsFromSeed({ elements: open }, task.world.structure, leadElements(task), task.line.clipPoints);
  const held = elements?.filter(({ kind }) => kind === 'hole')[index];
  if (!elements || held?.kind !== 'hole') return null;
  const { origin, u, v } = held.frame;
  const off = subtract(at, origin);
  held.params[0] = dot(off, u);
  held.params[1] = dot(off, v);
  return elements.map((one) => (one === held ? { ...held, hole: { id: HELD_HOLE, at, diameterM, carries: [] } } : one));
}

/** A run through a hole that is held: nothing is drilled yet, and its seed starts the next one. */
export function asUndrilled(run: Routed, { index }: SlidCrossing): Routed {
  const crossings = run.crossings.map((one, k) => (k === index ? { ...one, holeId: null } : one));
  return { ...run, crossings };
}

/** The clip point between the elements whose leg is nearest to it, after so many others. */
function withClip(elements: readonly Element[], at: Vec3, clipsBefore: number): Element[] {
  let clips = 0;
  let best: { readonly after: number; readonly from: Vec3; readonly to: Vec3; readonly off: number } | null = null;
  for (let k = 0; k + 1 < elements.length; k += 1) {
    if (elements[k]?.kind === 'clip') clips += 1;
    if (clips !== clipsBefore) continue;
    const from = lastCorner(elements[k] as Element);
    const to = firstCorner(elements[k + 1] as Element);
    const off = distance(at, footOnLeg(at, from, to));
    if (!best || off < best.off) best = { after: k, from, to, off };
  }
  if (!best) return [...elements];
  const way = subtract(best.to, best.from);
  const length = distance(best.from, best.to);
  const room = Math.max(CLIP_STRAIGHT_M, Math.min(CORNER_M, length / 4));
  const corner = length > 1e-9 ? along(at, unit(way), -room) : at;
  const clip: Element = { kind: 'clip', at, params: [...corner, room] };
  return [...elements.slice(0, best.after + 1), clip, ...elements.slice(best.after + 1)];
}

function cornersIn(element: Element): readonly Vec3[] {
  const [x, y, z]: [number[], number[], number[]] = [[], [], []];
  placeCorners(element, 0, x, y, z);
  return Array.from({ length: cornersOf(element) }, (_, i): Vec3 => [x[i] as number, y[i] as number, z[i] as number]);
}

const firstCorner = (element: Element): Vec3 => cornersIn(element)[0] as Vec3;
const lastCorner = (element: Element): Vec3 => cornersIn(element).at(-1) as Vec3;
