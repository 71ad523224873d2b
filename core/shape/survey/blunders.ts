import { chiSquareExcess, studentLimit } from '../../base/formulas/distributions';
import type { Vec3 } from '../../base/vec';
import { type Adjusted, adjusted, computed } from './adjust';
import type { Observation } from './network';
import { shared } from './normal';

/**
 * Readings that do not belong, by data snooping: the residual of each reading over its own standard deviation (Baarda's w) is
 * compared with the scatter of the others. The largest is set aside and the rest adjusted again, as long as any stands out; then
 * the longest such row counts whose last member still stood out (so that one slip does not hide another).
 */
export interface Snooped {
  /** Adjustment of every reading. */
  readonly whole: Adjusted;
  readonly suspects: readonly Suspected[];
  /** Adjustment without the readings that are suspected alone; the places that hold. */
  readonly kept: Adjusted;
  /** By observation: its part in `kept`, or null where it is set aside. */
  readonly indexInKept: readonly (number | null)[];
}

export interface Suspected {
  /** Place in the list of observations. */
  readonly index: number;
  /** By how much the reading is too long, metres; negative when too short: what it says less what the others give. */
  readonly offM: number;
  /** How far it stands out, in standard deviations of its residual. */
  readonly w: number;
  /** Readings whose slip would explain the misfit as well: it cannot be told which of them is off. */
  readonly orElse: readonly number[];
}

/** Chance that a survey without a slip names one, all its readings together. */
const FALSE_ALARM = 0.01;
/** Grades are a word, not a calibration: they count as much as this many spare readings when the scatter is judged. */
const WORTH_OF_GRADES = 8;
/** A reading whose error shows by less than this share is checked by nothing. */
export const LEAST_REDUNDANCY = 0.01;
/** Difference of two squared w from which one slip is the likelier by 20 to 1. */
const TELLING = 6;
const MOST_SUSPECTS = 8;

export function snooped(observations: readonly Observation[], start: readonly Vec3[]): Snooped {
  const whole = adjusted(observations, start);
  const row: {
    readonly index: number;
    readonly stands: boolean;
    readonly w: number;
    readonly orElse: readonly number[];
  }[] = [];
  const inPlay = new Set(observations.map((_, index) => index));
  let now = whole;
  while (row.length < MOST_SUSPECTS && now.degrees > 0) {
    const indices = [...inPlay];
    const found = worst(
      indices.map((index) => observations[index] as Observation),
      now,
    );
    if (!found) break;
    const index = indices[found.place] as number;
    row.push({ index, stands: found.stands, w: found.w, orElse: found.alike.map((place) => indices[place] as number) });
    // Two that cannot be told apart would leave nothing to tell the next by.
    if (found.alike.length > 0) break;
    inPlay.delete(index);
    now = adjusted(
      [...inPlay].map((other) => observations[other] as Observation),
      now.places,
    );
  }
  const count = row.findLastIndex(({ stands }) => stands) + 1;
  const named = row.slice(0, count);
  const aside = new Set(named.filter(({ orElse }) => orElse.length === 0).map(({ index }) => index));
  const rest = observations.filter((_, index) => !aside.has(index));
  const kept = aside.size === 0 ? whole : adjusted(rest, whole.places);
  const order = observations.map((_, index) => index).filter((index) => !aside.has(index));
  const indexInKept = observations.map((_, index) => (aside.has(index) ? null : order.indexOf(index)));
  const suspects = named.map(({ index, w, orElse }): Suspected => {
    const own = observations[index] as Observation;
    const place = indexInKept[index] ?? null;
    const offM =
      place === null
        ? own.valueM - computed(own, kept.places)
        : (kept.residuals[place] ?? 0) / Math.max(LEAST_REDUNDANCY, kept.redundancy[place] ?? 0);
    return { index, offM, w, orElse };
  });
  return { whole, suspects, kept, indexInKept };
}

/** w of a reading: its residual over the standard deviation that this residual should have. */
export const standardised = (residualM: number, sigmaM: number, redundancy: number): number =>
  redundancy < LEAST_REDUNDANCY ? 0 : residualM / (sigmaM * Math.sqrt(redundancy));

/**
 * The reading that stands out most, whether it does so beyond chance, and those that tie with it. Compared with the scatter of
 * the others: an outside studentised residual, with the limit of Bonferroni over all readings.
 */
function worst(
  observations: readonly Observation[],
  now: Adjusted,
): { readonly place: number; readonly w: number; readonly stands: boolean; readonly alike: readonly number[] } | null {
  const all = observations.map(({ sigmaM }, i) => standardised(now.residuals[i] ?? 0, sigmaM, now.redundancy[i] ?? 0));
  let place = -1;
  all.forEach((w, i) => {
    if (place < 0 || Math.abs(w) > Math.abs(all[place] ?? 0)) place = i;
  });
  const w = all[place];
  if (w === undefined || w === 0) return null;
  const { scatter, degrees } = scatterWithout(w, now);
  const limit = studentLimit(FALSE_ALARM / observations.length, degrees);
  const own = now.design[place];
  const ownRedundancy = now.redundancy[place] ?? 0;
  const alike = all.flatMap((other, i) => {
    if (i === place || other === 0 || !own || (w * w - other * other) / scatter ** 2 > TELLING) return [];
    // Only a reading whose residual follows this one's can stand in for it.
    const row = now.design[i] ?? [];
    const follows = -shared(own, row, now.covariance) / Math.sqrt(ownRedundancy * (now.redundancy[i] ?? 1));
    return Math.abs(follows) > ALIKE ? [i] : [];
  });
  return { place, w, stands: Math.abs(w) / scatter > limit, alike };
}

/** Correlation of two residuals from which the slip of one looks like a slip of the other. */
const ALIKE = 0.8;

/**
 * Scatter of the other readings against their grades, 1 where they are as good as graded, and how many spare readings it is
 * worth. The grades have their say only as far as the scatter does not contradict them.
 */
function scatterWithout(
  w: number,
  { chiSquare, degrees }: Adjusted,
): { readonly scatter: number; readonly degrees: number } {
  const rest = Math.max(0, chiSquare - w * w);
  const spare = degrees - 1;
  if (spare === 0) return { scatter: 1, degrees: WORTH_OF_GRADES };
  const chance = chiSquareExcess(rest, spare);
  const worth = WORTH_OF_GRADES * Math.min(1, Math.min(chance, 1 - chance) / DOUBTED_FROM);
  return {
    scatter: Math.max(LEAST_SCATTER, Math.sqrt((worth + rest) / (worth + spare))),
    degrees: worth + spare,
  };
}

/** No tape is read fifty times better than its grade: readings without any scatter are made up, or rounded alike. */
const LEAST_SCATTER = 0.02;
/** Chance of so great or so small a scatter from which on the grades begin to be doubted. */
const DOUBTED_FROM = 0.1;

/** Least slip that would be found in four of five cases, metres; null where nothing checks the reading. */
export function leastFoundM(sigmaM: number, redundancy: number, readings: number): number | null {
  if (redundancy < LEAST_REDUNDANCY) return null;
  // Power 0.8: 0.84 standard deviations beyond the limit.
  return (sigmaM * (studentLimit(FALSE_ALARM / Math.max(1, readings), 60) + 0.84)) / Math.sqrt(redundancy);
}
