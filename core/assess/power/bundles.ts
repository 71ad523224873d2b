import { distanceSquared, type Vec3 } from '../../base/vec';
import { placesOn, primLength } from '../../runs/routing/prims';
import type { Prim } from '../../runs/routing/types';

/** A power cable as it lies. */
export interface LaidCable {
  readonly id: string;
  readonly conductors: number;
  readonly radiusM: number;
  /** Word of the bundle that it is said to be tied into. */
  readonly bundle: string | null;
  readonly prims: readonly Prim[];
}

export interface Bundle {
  /** Conductors that carry current, its own included. */
  readonly conductors: number;
  /** The other cables, sorted. */
  readonly others: readonly string[];
}

/** Sheaths this near to one another give their heat to one another. */
const BESIDE_M = 0.01;
/** What lies together for less cools at its ends: 24 in, common practice, no source. */
const TOGETHER_M = 0.61;
const STEP_M = 0.03;

/** By cable: what lies in one bundle with it. Where a word of its bundle is given that counts, else how the runs lie. */
export function bundles(cables: readonly LaidCable[]): ReadonlyMap<string, Bundle> {
  const traced = cables.map((cable) => ({ cable, points: pointsOn(cable.prims) }));
  return new Map(
    traced.map(({ cable, points }) => {
      const others =
        cable.bundle === null
          ? besideFor(
              cable,
              points,
              traced.filter((other) => other.cable !== cable && other.cable.bundle === null),
            )
          : cables.filter((other) => other !== cable && other.bundle === cable.bundle);
      const conductors = others.reduce((sum, other) => sum + other.conductors, cable.conductors);
      return [cable.id, { conductors, others: others.map(({ id }) => id).sort() }];
    }),
  );
}

interface Points {
  readonly places: readonly Vec3[];
  readonly stepM: number;
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Cables that lie beside it over the most of them for long enough: the greatest set of which each point of that stretch sees all. */
function besideFor(
  cable: LaidCable,
  { places, stepM, low, high }: Points,
  others: readonly { readonly cable: LaidCable; readonly points: Points }[],
): readonly LaidCable[] {
  const near = others.filter(({ points }) =>
    [0, 1, 2].every(
      (k) =>
        (low[k] as number) <= (points.high[k] as number) + NEAR_M &&
        (points.low[k] as number) <= (high[k] as number) + NEAR_M,
    ),
  );
  if (near.length === 0) return [];
  const lengthOf = new Map<string, { readonly cables: readonly LaidCable[]; lengthM: number }>();
  for (const place of places) {
    const beside = near.filter(({ cable: other, points }) => {
      // Points of the other stand up to half a step along it from the nearest place on it.
      const reach = (cable.radiusM + other.radiusM + BESIDE_M) ** 2 + (points.stepM / 2) ** 2;
      return points.places.some((at) => distanceSquared(at, place) <= reach);
    });
    if (beside.length === 0) continue;
    const key = beside.map(({ cable: other }) => other.id).join('|');
    const known = lengthOf.get(key) ?? { cables: beside.map(({ cable: other }) => other), lengthM: 0 };
    known.lengthM += stepM;
    lengthOf.set(key, known);
  }
  // A set counts where it and all that hold it lie together for long enough.
  const sets = [...lengthOf.values()].filter(
    ({ cables }) =>
      [...lengthOf.values()]
        .filter((one) => cables.every((other) => one.cables.includes(other)))
        .reduce((sum, { lengthM }) => sum + lengthM, 0) >= TOGETHER_M,
  );
  return sets.reduce<readonly LaidCable[]>((most, { cables }) => (cables.length > most.length ? cables : most), []);
}

/** Farther apart than any two sheaths that touch. */
const NEAR_M = 0.1;

function pointsOn(prims: readonly Prim[]): Points {
  const places: Vec3[] = [];
  let lengthM = 0;
  for (const prim of prims) {
    const length = primLength(prim);
    const count = Math.max(1, Math.ceil(length / STEP_M));
    const placeAt = placesOn(prim);
    for (let k = 0; k < count; k++) places.push(placeAt((k + 0.5) / count));
    lengthM += length;
  }
  const edge = (pick: (...values: number[]) => number, start: number): Vec3 =>
    places.reduce<Vec3>(
      (so, at) => [pick(so[0], at[0]), pick(so[1], at[1]), pick(so[2], at[2])],
      [start, start, start],
    );
  return {
    places,
    stepM: places.length === 0 ? STEP_M : lengthM / places.length,
    low: edge(Math.min, Number.POSITIVE_INFINITY),
    high: edge(Math.max, Number.NEGATIVE_INFINITY),
  };
}
