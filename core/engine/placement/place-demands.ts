import { distance, type Pose, type Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import type { Finding } from '../../rules/finding';

type Demand = NonNullable<Boat['demands']>[string];

/** A demand of the owner that holds for the parts that are asked for. */
export interface PlaceDemand extends Pick<Demand, 'kind' | 'place' | 'distanceM'> {
  readonly id: string;
}

/** Demands without a subject, and those about one of the parts or one of their lines, by id. */
export function demandsOn(boat: Boat, ids: readonly string[]): readonly PlaceDemand[] {
  return Object.entries(boat.demands ?? {})
    .filter(([, { subject }]) => subject === undefined || ids.includes(subject))
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([id, { kind, place, distanceM }]) => ({
      id,
      kind,
      ...(place === undefined ? {} : { place }),
      ...(distanceM === undefined ? {} : { distanceM }),
    }));
}

/** Demands that a compartment breaks wherever in it the parts stand: somebody sleeps in it; all of it is too far from the place. */
export function brokenBy(
  compartment: string,
  demands: readonly PlaceDemand[],
  boat: Boat,
  [low, high]: readonly [Vec3, Vec3],
): readonly string[] {
  return demands
    .filter((demand) => {
      if (demand.kind === 'notInBerthCompartment') return boat.compartments[compartment]?.berth === true;
      const from = placeOf(demand, boat);
      if (demand.kind !== 'keepWithin' || !from) return false;
      const nearest: Vec3 = [
        clamp(from[0], low[0], high[0]),
        clamp(from[1], low[1], high[1]),
        clamp(from[2], low[2], high[2]),
      ];
      return distance(from, nearest) > (demand.distanceM ?? Number.POSITIVE_INFINITY);
    })
    .map(({ id }) => id);
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

function placeOf({ place }: PlaceDemand, boat: Boat): Vec3 | null {
  const found =
    place !== undefined && Object.hasOwn(boat.standingPlaces, place) ? boat.standingPlaces[place] : undefined;
  return found ? (found.at as Vec3) : null;
}

/** Metres by which poses are farther from the named places than is demanded; 0: none is. */
export function tooFar(poses: readonly Pose[], demands: readonly PlaceDemand[], boat: Boat): number {
  let most = 0;
  for (const demand of demands) {
    const from = demand.kind === 'keepWithin' ? placeOf(demand, boat) : null;
    if (!from || demand.distanceM === undefined) continue;
    for (const { at } of poses) most = Math.max(most, distance(from, at) - demand.distanceM);
  }
  return most;
}

/** Demands against holes in the skin that a verdict on a new hole breaks. */
export const brokenByHole = (findings: readonly Finding[], demands: readonly PlaceDemand[]): readonly string[] =>
  findings.some(({ rule, outcome, data }) => rule === 'hull/new-hole' && outcome === 'fail' && data.isUnwanted === true)
    ? demands.filter(({ kind }) => kind === 'noNewHoleBelowWaterline' || kind === 'noHaulOut').map(({ id }) => id)
    : [];
