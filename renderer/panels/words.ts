import type { Boat } from '@core/boat/schema/boat';
import { MATERIALS } from '@core/boat/schema/interior';
import { materialText } from '@core/output/text/schema-words';

/** Words of the schema's values as the screen shows them. */
export { MEDIUM_WORDS, mediumText } from '@core/output/text/schema-words';

export const RULE_WORDS = { open: 'Open', drill: 'May drill', noDrill: 'No drilling' } as const;

export const GRADE_WORDS = { measured: 'Measured', taped: 'Taped', scaled: 'Scaled', guessed: 'Guessed' } as const;

/** `engineSpace` to `engine space`, `dcPanel` to `DC panel`: for kinds that are plain words. */
export const plainWords = (camel: string): string =>
  camel.replace(/([a-z])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`).replace(/^dc(?= |$)/, 'DC');

export const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** Materials of panels and surfaces by their word in the file. */
export const MATERIAL_WORDS: Readonly<Record<string, string>> = Object.fromEntries(
  MATERIALS.map((material) => [material, sentence(materialText(material))]),
);

/** Materials of panels and surfaces, for a choice. */
export const MATERIAL_OPTIONS = MATERIALS.map((material) => [material, sentence(materialText(material))] as const);

export const practiceWords = (practice: Boat['practice']): string =>
  practice === 'usVoluntary' ? 'US voluntary practice' : 'ISO small-craft practice';
