import { footOnLeg } from '../../base/segment';
import { distance, midpoint, type Vec3 } from '../../base/vec';
import { type BoatRecipe, freeId } from '../../boat/edits';
import { primLength } from '../../runs/routing/prims';
import type { Routed, RunOutcome } from '../../runs/routing/types';
import type { Layout } from '../../shape/layout/types';
import { farthestPlace } from './distinct';

const MILLIMETRE = 0.001;
const point = (p: Vec3): [number, number, number] => [p[0], p[1], p[2]];

/** Straights shorter than this have no place for a clip. */
const CLIPPED_M = 0.06;

/**
 * Edits that may make the router lead the line as a run lies, the lightest first: the holes that it drills, then clip points where it
 * is farthest from the present run, then on each longer straight of it.
 */
export function choicesFor(
  run: Routed,
  present: RunOutcome,
  arrangementId: string,
  lineId: string,
  layout: Layout,
): readonly BoatRecipe[] {
  const holes = holesDrilled(run, arrangementId, lineId, layout);
  const far = present.status === 'routed' ? farthestPlace(run, present) : null;
  const one = far ? [far] : [];
  const several = straightPlaces(run).filter((place) => far === null || distance(place.at, far.at) > CLIPPED_M);
  const sets = [[], one, ...(several.length > 0 ? [[...one, ...several]] : [])];
  return sets
    .filter((clips, k) => k === 0 || clips.length > 0)
    .map((clips) => (boat) => {
      holes?.(boat);
      clipped(clips, run, arrangementId, lineId)(boat);
    });
}

/** Holes that the run drills, decided on for this line. */
function holesDrilled(run: Routed, arrangementId: string, lineId: string, layout: Layout): BoatRecipe | null {
  const drilled = run.crossings.filter(({ holeId }) => holeId === null);
  if (drilled.length === 0) return null;
  return (boat) => {
    const holes = boat.arrangements[arrangementId]?.newHoles;
    if (!holes) return;
    for (const { panelId, at, diameterM } of drilled) {
      const panel = layout.panels[panelId];
      if (!panel) continue;
      holes[freeId(holes, `${lineId}-hole`)] = {
        between: [...panel.between],
        at: point(at),
        diameterM: Math.ceil(diameterM / MILLIMETRE - 1e-6) * MILLIMETRE,
        for: [lineId],
      };
    }
  };
}

interface PlaceAlong {
  readonly at: Vec3;
  readonly alongM: number;
}

function straightPlaces({ prims, lengthM }: Routed): readonly PlaceAlong[] {
  const found: PlaceAlong[] = [];
  let start = 0;
  for (const prim of prims) {
    const length = primLength(prim);
    const alongM = start + length / 2;
    if (prim.kind === 'line' && length > CLIPPED_M && start > 0 && start + length < lengthM - 1e-6)
      found.push({ at: midpoint(prim.from, prim.to), alongM });
    start += length;
  }
  return found;
}

/** Clip points beside those that the line has, in the order in which the run passes them all. */
function clipped(clips: readonly PlaceAlong[], run: Routed, arrangementId: string, lineId: string): BoatRecipe {
  return (boat) => {
    const arrangement = boat.arrangements[arrangementId];
    if (!arrangement || clips.length === 0) return;
    const own = { ...arrangement.clipPoints[lineId] };
    const placed = [
      ...Object.entries(own).map(([id, clip]) => ({ id, at: clip.at, alongM: placeOf(clip.at, run) })),
      ...clips.map(({ at, alongM }) => ({ id: null, at: point(at), alongM })),
    ].sort((a, b) => a.alongM - b.alongM);
    const named: typeof own = {};
    // Ids that are there keep their clip; new ones follow.
    for (const { id, at } of placed) if (id !== null) named[id] = { ...own[id], at, order: 0 };
    const order: string[] = [];
    for (const { id, at } of placed) {
      const key = id ?? freeId(named, 'clip');
      named[key] = { ...named[key], at, order: 0 };
      order.push(key);
    }
    order.forEach((key, k) => {
      named[key] = { ...(named[key] as (typeof named)[string]), order: k + 1 };
    });
    arrangement.clipPoints[lineId] = named;
  };
}

/** Length along a run up to the place nearest to a point; bends by their chords, which is enough to tell an order. */
function placeOf(at: Vec3, { prims }: Routed): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  let start = 0;
  for (const prim of prims) {
    const length = primLength(prim);
    const foot = footOnLeg(at, prim.from, prim.to);
    const apart = distance(at, foot);
    if (apart < least) {
      least = apart;
      best = start + (length * distance(prim.from, foot)) / Math.max(distance(prim.from, prim.to), 1e-9);
    }
    start += length;
  }
  return best;
}
