import type { Vec2 } from '@core/base/vec';
import type { Station } from '@core/boat/station-edits';
import type { SectionCrossing, UnfairPoint } from '@core/shape/hull/fairness';
import { lengthUnit, wholeLength } from '../panels/format';
import { GRADE_WORDS } from '../panels/words';
import type { DisplayUnits } from '../store/types';

/** What the section board says. Points are counted from 1 at the keel, as in the table. */

/** `move point 4 inboard 6 mm` */
export function moveWords({ index, fairAt, offM }: UnfairPoint, point: Vec2, units: DisplayUnits): string {
  const dy = fairAt[0] - point[0];
  const dz = fairAt[1] - point[1];
  const by = `${wholeLength(Math.abs(offM), units)} ${lengthUnit(units)}`;
  const way = Math.abs(dy) >= Math.abs(dz) ? (dy > 0 ? 'outboard' : 'inboard') : dz > 0 ? 'up' : 'down';
  return `move point ${index + 1} ${way} ${by}`;
}

/** `comb turns twice in 180 mm` */
export function turnsWords({ turns, withinM }: UnfairPoint, units: DisplayUnits): string {
  const often =
    turns === 0 ? 'makes a wave' : turns === 1 ? 'turns once' : turns === 2 ? 'turns twice' : `turns ${turns} times`;
  return `comb ${often} in ${wholeLength(withinM, units)} ${lengthUnit(units)}`;
}

/** Why the move may be made, or may not: what the tape can tell. */
export function withinTapeWords(unfair: UnfairPoint, gradeM: number, units: DisplayUnits): string {
  const bump = `${wholeLength(Math.abs(unfair.offM), units)} ${lengthUnit(units)}`;
  const tape = `${wholeLength(gradeM, units)} ${lengthUnit(units)}`;
  return isWithinTape(unfair, gradeM)
    ? `The readings are good to ${tape}, the bump is ${bump}: it may be the tape or the boat.`
    : `The bump is ${bump}, more than the ${tape} that the readings are good to: measure again, or it is the boat.`;
}

/** A move within the accuracy of the readings contradicts none of them. */
export const isWithinTape = ({ offM }: UnfairPoint, gradeM: number): boolean => Math.abs(offM) <= gradeM;

export function crossingWords({ kind, between }: SectionCrossing): string {
  const [a, b] = [between[0] + 1, between[1] + 1];
  switch (kind) {
    case 'itself':
      return `The section crosses itself between points ${a} and ${a + 1} and points ${b} and ${b + 1}.`;
    case 'falls':
      return `Point ${b} lies below point ${a}: a section never falls on its way from keel to sheer.`;
    case 'centreline':
      return `Point ${a} lies beyond the centreline.`;
  }
}

const TAKEN_WORDS: Readonly<Record<NonNullable<Station['taken']>, string>> = {
  tape: 'tape',
  traced: 'traced',
  table: 'table',
  interpolated: 'interpolated',
  form: 'form',
};

/** How a station was taken; where the file does not say, how good it is. */
export const takenWords = (station: Pick<Station, 'taken' | 'grade'>, hullGrade: keyof typeof GRADE_WORDS): string =>
  station.taken ? TAKEN_WORDS[station.taken] : GRADE_WORDS[station.grade ?? hullGrade];

/** Why a held or typed point stays where it is; null where it may go. */
export function limitWords(points: readonly Vec2[], index: number, [y, z]: Vec2, units: DisplayUnits): string | null {
  const height = (at: number): string => `${wholeLength(at, units)} ${lengthUnit(units)}`;
  if (y < 0) return `Point ${index + 1} cannot pass the centreline: half-breadth at least 0.`;
  const low = points[index - 1]?.[1];
  if (low !== undefined && z < low)
    return `Point ${index + 1} cannot go below point ${index}, at ${height(low)}: the section would cross itself.`;
  const high = points[index + 1]?.[1];
  if (high !== undefined && z > high)
    return `Point ${index + 1} cannot go above point ${index + 2}, at ${height(high)}: the section would cross itself.`;
  return null;
}
