import { type Boat, LIMITS } from '../../boat/schema/boat';
import { endNames } from '../../boat/survey-ends';
import type { Fixing, Motion } from '../../shape/survey/looseness';
import type { LeftOut } from '../../shape/survey/network';
import { DOUBTED_BELOW, type ReadingResult, type SurveyResult, type Suspect } from '../../shape/survey/survey';
import { digits, lengthText } from './quantity-text';

/** The verdicts of a survey in an owner's words. */

type Survey = NonNullable<Boat['survey']>;

/** What a point or datum is called, by its id or the name that a reading uses. */
export function surveyName(survey: Survey, end: string): string {
  const found = endNames(survey).get(end);
  const record = found && (found.kind === 'datum' ? survey.datums : survey.points)?.[found.id];
  return record?.name ?? end;
}

/** `Reading 7, mast to shelf`. */
export function readingName(survey: Survey, id: string): string {
  const reading = survey.readings?.[id];
  const ends = reading ? `, ${surveyName(survey, reading.from)} to ${surveyName(survey, reading.to)}` : '';
  return `Reading ${id}${ends}`;
}

/** `34 mm`, `3 mm`, `0.4 mm`: residuals are of tape readings, tenths only where all is below one. */
const slipText = (metres: number): string =>
  Math.abs(metres) < 0.001 ? `${digits(Math.abs(metres) * 1000, 1)} mm` : lengthText(Math.abs(metres));

const side = (metres: number): string => (metres < 0 ? 'short' : 'long');

/** `Reading 7, mast to shelf, is off by 34 mm (too long): measure again.` */
export function suspectText({ reading, offM, orElse }: Suspect, survey: Survey): string {
  if (orElse.length === 0) {
    return `${readingName(survey, reading)}, is off by ${slipText(offM)} (too ${side(offM)}): measure again.`;
  }
  const ids = [reading, ...orElse];
  const list = `${ids.slice(0, -1).join(', ')} or ${ids.at(-1)}`;
  return `Reading ${list} is off, by about ${slipText(offM)}: they cannot be told apart. Measure ${
    ids.length === 2 ? 'both' : 'all of them'
  } again, or take one more reading between their points.`;
}

/** What is to be said of one reading. */
export function residualText({ residualM, redundancy, isSuspect, leastFoundM }: ReadingResult): string {
  if (isSuspect) return `off by ${slipText(residualM)}, too ${side(residualM)}`;
  if (redundancy === 0) return 'nothing checks it';
  return leastFoundM === null ? 'fits' : `fits; slips from ${slipText(leastFoundM)} show`;
}

const LEFT_OUT: Readonly<Record<LeftOut['why'], string>> = {
  noAxis: 'an offset starts from a datum with an axis, and neither end is one',
  sameEnds: 'it begins and ends at the same point',
  bothGiven: 'both of its ends have a fixed place, so it tells nothing new',
  notPositive: 'a distance must be above 0',
  tooManyPoints: `at most ${LIMITS.surveyPoints} points can be adjusted together`,
  twoPlanes: 'it runs from plane to plane and touches no point',
};

const MOTIONS: Readonly<Record<Motion, string>> = {
  alongX: 'slide along the boat',
  alongY: 'slide across the boat',
  alongZ: 'slide up and down',
  aboutX: 'roll about the line of the boat',
  aboutY: 'pitch about a line across the boat',
  aboutZ: 'turn about the upright',
};
const AXES = { x: 'along the boat', y: 'across the boat', z: 'up and down' } as const;

/** What the owner should know besides residuals and suspects: what is loose or doubtful, what was left out and why. */
export function surveyNotes({ loose, points, fit, leftOut, residuals }: SurveyResult, survey: Survey): string[] {
  const notes = leftOut.map(({ reading, why, contradictsM }) =>
    contradictsM === undefined
      ? `${readingName(survey, reading)}, was left out: ${LEFT_OUT[why]}.`
      : `${readingName(survey, reading)}, is ${slipText(contradictsM)} too ${side(contradictsM)} for the fixed places of its ends: measure again, or see to the places.`,
  );
  if (loose.motions.length === Object.keys(MOTIONS).length) {
    notes.push('Nothing ties the survey to the boat yet.');
  } else if (loose.motions.length > 0) {
    notes.push(`As a whole the survey can still ${list(loose.motions.map((motion) => MOTIONS[motion]))}.`);
  }
  // Points that are loose in the same way are told of together.
  const looseAlike = new Map<string, string[]>();
  for (const { point, axes } of loose.points) {
    const where = axes.length === 3 ? '' : ` ${list(axes.map((axis) => AXES[axis]))}`;
    looseAlike.set(where, [...(looseAlike.get(where) ?? []), surveyName(survey, point)]);
  }
  for (const [where, names] of looseAlike) {
    notes.push(`${list(names)} ${names.length === 1 ? 'is' : 'are'} not fixed${where}.`);
  }
  notes.push(...fixingTexts(loose.wouldFix, survey));
  const mirrored = Object.entries(points).flatMap(([id, { mirror, sdM }]) =>
    mirror && !sdM.includes(null) ? [surveyName(survey, id)] : [],
  );
  if (mirrored.length > 0) {
    notes.push(
      `${list(mirrored.slice(0, 4))}${mirrored.length > 4 ? ` and ${mirrored.length - 4} more` : ''} could as well lie mirrored: the readings fit both ways. One height, offset or distance to another known point tells.`,
    );
  }
  if (fit && fit.spare === 0 && residuals.length > 0) {
    notes.push('No reading is checked by another: a slip would not show. Take a few more than are needed.');
  }
  if (fit?.scatter != null && fit.chance !== null && fit.chance < DOUBTED_BELOW && fit.scatter > 1) {
    notes.push(`The readings scatter ${digits(fit.scatter, 1)} times as much as their grades say.`);
  }
  return notes;
}

/** What would fix most; of points that want a place any one is a beginning, so they share a sentence. */
function fixingTexts(fixings: readonly Fixing[], survey: Survey): string[] {
  const placeless = fixings.filter(({ from }) => from === null).map(({ to }) => surveyName(survey, to));
  const rest = fixings.filter(({ from }) => from !== null).map((fixing) => fixingText(fixing, survey));
  if (placeless.length === 0) return rest;
  const any = placeless.length === 1 ? placeless[0] : `${placeless.slice(0, -1).join(', ')} or ${placeless.at(-1)}`;
  return [`Give ${any} a place, or measure it from a datum.`, ...rest];
}

/** `Would fix most: the height of the mast from the sole.` as an instruction. */
export function fixingText({ from, to, kind }: Fixing, survey: Survey): string {
  const point = surveyName(survey, to);
  if (from === null) return `Give ${point} a place, or measure it from a datum.`;
  const start = surveyName(survey, from);
  switch (kind) {
    case 'height':
      return `Take the height of ${point} from ${start}.`;
    case 'offset':
      return `Take the offset of ${point} from ${start}.`;
    default:
      return `Take the distance from ${start} to ${point}.`;
  }
}

const list = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
