import { distance, distanceSquared, midpoint, type Vec3 } from '../../base/vec';
import { placesOn, primLength } from '../../runs/routing/prims';
import type { Routed } from '../../runs/routing/types';

/** Two runs that part by more than this somewhere go different ways; so do runs through other panels or holes this far apart. */
const PARTED_M = 0.12;
const SAMPLE_M = 0.04;

/** Places along the centre line, a few centimetres from one to the next. */
export function samplesOf({ prims }: Pick<Routed, 'prims'>): readonly Vec3[] {
  const points: Vec3[] = [];
  for (const prim of prims) {
    const parts = Math.max(1, Math.ceil(primLength(prim) / SAMPLE_M));
    const placeAt = placesOn(prim);
    for (let part = 0; part < parts; part += 1) points.push(placeAt(part / parts));
  }
  const last = prims.at(-1);
  return last ? [...points, last.to] : points;
}

/** How far the farthest place of either run is from the other, to a few millimetres. */
export function farthestApartM(a: Pick<Routed, 'prims'>, b: Pick<Routed, 'prims'>): number {
  const [p, q] = [samplesOf(a), samplesOf(b)];
  return Math.max(oneWay(p, q), oneWay(q, p));
}

function oneWay(from: readonly Vec3[], to: readonly Vec3[]): number {
  let worst = 0;
  for (const p of from) {
    let least = Number.POSITIVE_INFINITY;
    for (const q of to) least = Math.min(least, distanceSquared(p, q));
    worst = Math.max(worst, least);
  }
  // The nearest sample may lie half a step aside of the nearest place.
  return Math.sqrt(Math.max(0, worst - (SAMPLE_M / 2) ** 2));
}

/** Whether two runs go truly different ways: through other panels or places of them, or parting on the way. */
export function areDistinct(a: Routed, b: Routed): boolean {
  const isElsewhere =
    a.crossings.length !== b.crossings.length ||
    a.crossings.some(({ panelId, at }, k) => {
      const other = b.crossings[k];
      return !other || other.panelId !== panelId || distance(other.at, at) > PARTED_M;
    });
  return isElsewhere || farthestApartM(a, b) > PARTED_M;
}

/** The place of a run that lies farthest from another, with its length from the start. */
export function farthestPlace(
  run: Routed,
  other: Pick<Routed, 'prims'>,
): { readonly at: Vec3; readonly alongM: number } | null {
  const theirs = samplesOf(other);
  let best: { at: Vec3; alongM: number } | null = null;
  let most = -1;
  let start = 0;
  for (const prim of run.prims) {
    const lengthM = primLength(prim);
    // A clip holds a straight: the middle of one is where it can.
    if (prim.kind === 'line' && lengthM > LEAST_STRAIGHT_M) {
      const at = midpoint(prim.from, prim.to);
      const apart = Math.min(...theirs.map((p) => distanceSquared(p, at)));
      if (apart > most) {
        most = apart;
        best = { at, alongM: start + lengthM / 2 };
      }
    }
    start += lengthM;
  }
  return best;
}
const LEAST_STRAIGHT_M = 0.02;
