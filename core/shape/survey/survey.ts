import { chiSquareExcess } from '../../base/formulas/distributions';
import type { Vec3 } from '../../base/vec';
import type { Boat } from '../../boat/schema/boat';
import { drawnPlaces } from '../../boat/survey-links';
import type { Adjusted } from './adjust';
import { LEAST_REDUNDANCY, leastFoundM, type Snooped, snooped, standardised } from './blunders';
import { type Loose, looseness } from './looseness';
import { type LeftOut, type Network, networkOf } from './network';
import { startOf } from './start';

/** What the readings of a survey say, and how far they can be trusted. Metres, boat frame. */
export interface SurveyResult {
  readonly points: Readonly<Record<string, PointResult>>;
  /** One for each reading that says something of a place sought, sorted by id. */
  readonly residuals: readonly ReadingResult[];
  /** Readings that do not belong, the clearest first. */
  readonly suspects: readonly Suspect[];
  /** What nothing fixes, and the readings that would. */
  readonly loose: Loose;
  readonly leftOut: readonly LeftOut[];
  readonly fit: Fit | null;
}

export interface PointResult {
  readonly at: Vec3;
  /** One standard deviation along x, y and z; null where the readings do not fix it. */
  readonly sdM: readonly [number | null, number | null, number | null];
  /** Held where the file has it; its readings check others. */
  readonly isHeld: boolean;
  /** Another place that fits the readings as well. */
  readonly mirror?: Vec3;
}

export interface ReadingResult {
  readonly reading: string;
  /** The reading less what the adjusted places give: positive where it is too long. */
  readonly residualM: number;
  /** The residual over its own standard deviation (w of data snooping); 0 where nothing checks the reading. */
  readonly standardised: number;
  /** Share of an error of this reading that shows in its residual, 0 to 1. */
  readonly redundancy: number;
  /** Least slip that would be found in four of five cases; null where nothing checks the reading. */
  readonly leastFoundM: number | null;
  readonly isSuspect: boolean;
}

export interface Suspect {
  readonly reading: string;
  /** By how much the reading is too long; negative when too short. */
  readonly offM: number;
  readonly standardised: number;
  /** Readings whose slip would explain the misfit as well. */
  readonly orElse: readonly string[];
}

/** How well the readings that are not suspected fit together. */
export interface Fit {
  /** Readings more than needed. */
  readonly spare: number;
  readonly chiSquare: number;
  /** Scatter of the readings against their grades: 1 as graded. Null without spare readings. */
  readonly scatter: number | null;
  /** Chance of a scatter as great as this if the readings were as good as graded. */
  readonly chance: number | null;
}

/** Pure and deterministic; null for a boat without a reading or a point. */
export function surveyed(boat: Boat): SurveyResult | null {
  const { survey } = boat;
  if (!survey || (Object.keys(survey.readings ?? {}).length === 0 && Object.keys(survey.points ?? {}).length === 0)) {
    return null;
  }
  const network = networkOf(boat, drawnPlaces(boat));
  const start = startOf(network);
  const found = snooped(network.observations, start.places);
  return {
    points: pointsOf(network, found, start.mirrors),
    residuals: residualsOf(network, found),
    suspects: found.suspects.map(({ index, offM, w, orElse }) => ({
      reading: idOf(network, index),
      offM,
      standardised: w,
      orElse: orElse.map((other) => idOf(network, other)),
    })),
    loose: looseness(network, found.kept, survey),
    leftOut: network.leftOut,
    fit: network.observations.length === 0 ? null : fitOf(found.kept),
  };
}

const idOf = ({ observations }: Network, index: number): string => observations[index]?.id ?? '';

function pointsOf(
  { free, given }: Network,
  { kept }: Snooped,
  mirrors: ReadonlyMap<number, Vec3>,
): SurveyResult['points'] {
  const points: Record<string, PointResult> = {};
  for (const [id, at] of Object.entries(given)) points[id] = { at, sdM: [0, 0, 0], isHeld: true };
  // Readings that scatter more than their grades allow fix a place less well than the grades say.
  const { chance, scatter } = fitOf(kept);
  const factor = chance !== null && chance < DOUBTED_BELOW ? Math.max(1, scatter ?? 1) : 1;
  free.forEach(({ id }, index) => {
    const deviation = (axis: number): number | null => {
      const unknown = 3 * index + axis;
      if (kept.loose.some((direction) => Math.abs(direction[unknown] ?? 0) > LOOSE_SHARE)) return null;
      return Math.sqrt(Math.max(0, kept.covariance.at[unknown * kept.covariance.n + unknown] ?? 0)) * factor;
    };
    const mirror = mirrors.get(index);
    points[id] = {
      at: kept.places[index] as Vec3,
      sdM: [deviation(0), deviation(1), deviation(2)],
      isHeld: false,
      ...(mirror ? { mirror } : {}),
    };
  });
  return points;
}

/** Chance of the scatter below which the grades are not believed. */
export const DOUBTED_BELOW = 0.05;
/** A coordinate takes part in a loose direction from this share on. */
const LOOSE_SHARE = 1e-3;

function residualsOf({ observations }: Network, { kept, suspects, indexInKept, whole }: Snooped): ReadingResult[] {
  return observations.map(({ id, sigmaM }, index) => {
    const suspect = suspects.find((one) => one.index === index);
    const place = indexInKept[index] ?? null;
    const redundancy = (place === null ? whole.redundancy[index] : kept.redundancy[place]) ?? 0;
    const residualM = place === null ? (suspect?.offM ?? 0) : (kept.residuals[place] ?? 0);
    return {
      reading: id,
      residualM,
      standardised: suspect ? suspect.w : standardised(residualM, sigmaM, redundancy),
      redundancy: redundancy < LEAST_REDUNDANCY ? 0 : redundancy,
      leastFoundM: leastFoundM(sigmaM, redundancy, observations.length),
      isSuspect: suspects.some((one) => one.index === index || one.orElse.includes(index)),
    };
  });
}

const fitOf = (kept: Adjusted): Fit => ({
  spare: kept.degrees,
  chiSquare: kept.chiSquare,
  scatter: kept.degrees > 0 ? Math.sqrt(kept.chiSquare / kept.degrees) : null,
  chance: kept.degrees > 0 ? chiSquareExcess(kept.chiSquare, kept.degrees) : null,
});
