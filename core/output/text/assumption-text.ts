import { ENGINE_VERSION } from '../../base/engine-version';
import { gradeM } from '../../boat/accuracy';
import type { Boat } from '../../boat/schema/boat';
import { GRADES } from '../../boat/schema/quantities';
import { allowancesOf } from '../takeoff/input';
import { digits } from './quantity-text';
import { gradeText } from './schema-words';

const PRACTICE: Readonly<Record<Boat['practice'], string>> = {
  isoSmallCraft: 'ISO small craft',
  usVoluntary: 'US voluntary',
};

export const practiceText = (practice: Boat['practice']): string => PRACTICE[practice];

const percent = (share: number): string =>
  `${digits(share * 100, Number.isInteger(Math.round(share * 1e6) / 1e4) ? 0 : 1)} %`;

/** What a sheet or a list reckons with, sentence by sentence: allowances, practice, arrangement, accuracy, and what worked it out. */
export function assumptionTexts(
  boat: Boat,
  arrangement: string,
  length: (metres: number) => string,
): readonly string[] {
  const settings = allowancesOf(boat.takeoff);
  const grades = GRADES.map((grade) => `${gradeText(grade)} ${length(gradeM(boat, grade))}`).join(', ');
  return [
    `Lengths: the run, ${length(settings.makingUpM)} made up at each end, and ${percent(settings.reserveShare)} in reserve or what the ends leave open where that is more; hoses with crimped ends ${percent(settings.shorteningShare)} for shortening.`,
    `Practice: ${practiceText(boat.practice)}. Arrangement: ${arrangement}. Greatest heel ${digits(boat.greatestHeelDeg, 0)}°.`,
    `Accuracy, two standard deviations: ${grades}.`,
    `Engine ${ENGINE_VERSION}. A planning aid: check on board before you drill, cut or buy.`,
  ];
}
