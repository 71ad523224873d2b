import { displacedAlong, lowestSheer } from '../../shape/hull/hydrostatics';
import type { HullSurface, WaterPlane } from '../../shape/hull/types';
import { volumeBelow } from '../../shape/layout/room';
import type { Layout } from '../../shape/layout/types';
import { joinedAt, type Spread } from './waterways';

/** Where the water stands in the end: as high inside as outside. */
export interface Balance {
  /** The sea about the boat as it then floats; inside it stands as high. */
  readonly water: WaterPlane;
  /** Compartments that flood, sorted. */
  readonly reached: readonly string[];
  /** How much deeper she floats for the buoyancy that is lost, metres; null: no hull is drawn, and it is left out. */
  readonly sinkageM: number | null;
  /** More floods than she can carry: the water is that at which her deck goes under. */
  readonly founders: boolean;
}

export interface FloodedSpace {
  readonly layout: Layout;
  readonly hull: HullSurface | null;
  /** How water spreads from the level of the sea on. */
  readonly spread: Spread;
  /** Share of a compartment that water can fill. */
  readonly permeability: (compartment: string) => number;
}

/** Steps of the search for a sinkage, and the step at which it ends. */
const STEPS = 40;
const PRECISION_M = 5e-5;
/** More heel than this, as the cosine: the deck edge may go under without water coming in there. */
const HEELED_COS = 0.99;

/**
 * Static balance of a compartment that is open to the sea: every compartment that the water gets to fills to the level of the sea. With a
 * hull the buoyancy of what floods is lost, and she sinks until the rest carries her, upright or at the heel of the plane; heel and trim
 * stay as they are. What was reached stays open: the level only rises on the way.
 */
export function balance(start: string, space: FloodedSpace, sea: WaterPlane): Balance {
  const { layout, hull, spread, permeability } = space;
  const raised = (byM: number): WaterPlane => ({ up: sea.up, levelM: sea.levelM + byM });
  if (!hull) return { water: sea, reached: joinedAt(start, spread, 0), sinkageM: null, founders: false };
  const displaced = displacedAlong(hull, sea.up);
  const afloat = displaced(sea.levelM);
  const deckM = sea.up[2] < HEELED_COS ? highestOf(hull, sea) : lowestSheer(hull, sea.up) - sea.levelM;
  const mostM = Math.max(0, deckM);
  let sinkageM = 0;
  let reached = joinedAt(start, spread, 0);
  for (;;) {
    const lostM3 = (byM: number): number =>
      reached.reduce((sum, id) => sum + permeability(id) * volumeBelow(layout, hull, id, raised(byM)), 0);
    // What she lacks of the volume that carried her: falls as she sinks.
    const lacksM3 = (byM: number): number => afloat.volumeM3 + lostM3(byM) - displaced(sea.levelM + byM).volumeM3;
    const found = rootOfFalling(lacksM3, sinkageM, mostM, afloat.waterplaneM2);
    const founders = found === null;
    sinkageM = found ?? mostM;
    const then = joinedAt(start, spread, sinkageM);
    if (founders || then.length === reached.length)
      return { water: raised(sinkageM), reached: then, sinkageM, founders };
    reached = then;
  }
}

/** Height of the highest point of the skin above the water. */
function highestOf({ vertices }: HullSurface, { up, levelM }: WaterPlane): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (let v = 0; v < vertices.length; v += 3)
    highest = Math.max(
      highest,
      (vertices[v] as number) * up[0] + (vertices[v + 1] as number) * up[1] + (vertices[v + 2] as number) * up[2],
    );
  return highest - levelM;
}

/** Where a function that falls passes zero, from `low` on; null when it does not up to `high`. Secants within a shrinking bracket. */
function rootOfFalling(of: (x: number) => number, low: number, high: number, slope: number): number | null {
  let [a, fa] = [low, of(low)];
  if (fa <= 0) return low;
  let [b, fb]: [number, number | null] = [high, null];
  let [before, fBefore] = [a, fa];
  let x = slope > 0 ? a + fa / slope : (a + b) / 2;
  for (let step = 0; step < STEPS; step += 1) {
    if (!(x > a && x < b)) {
      // beyond the bracket: its far end is asked first, for without a root there she founders
      if (fb === null) {
        fb = of(b);
        if (fb > 0) return null;
      }
      x = (a + b) / 2;
    }
    const fx = of(x);
    const moved = Math.abs(x - before);
    if (fx > 0) [a, fa] = [x, fx];
    else [b, fb] = [x, fx];
    if (moved < PRECISION_M || fx === 0 || b - a < PRECISION_M) return x;
    const next = x - (fx * (x - before)) / (fx - fBefore);
    [before, fBefore] = [x, fx];
    x = next;
  }
  return x;
}
