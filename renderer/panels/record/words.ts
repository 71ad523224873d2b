import { fieldWords } from '@core/output/text/field-words';
import { MATERIAL_WORDS, plainWords, sentence } from '../words';

/** A field as its row is headed. */
export const labelOfKey = (key: string): string => sentence(fieldWords(key).label);

/** Names of keys and values in the schema's own descriptions. */
const CAMEL = /\b[a-z]+(?:[A-Z][a-z0-9]*)+\b/g;

/** What the schema says of a field, as a sentence in which keys and values are called as they are here. */
export const hintWords = (text: string): string => {
  const words = sentence(text.replace(CAMEL, (key) => fieldWords(key).label));
  return words.endsWith('.') ? words : `${words}.`;
};

/** A value of a choice in words. */
export const choiceWords = (option: string): string =>
  MATERIAL_WORDS[option] ?? OPTION_WORDS[option] ?? sentence(plainWords(option));

const OPTION_WORDS: Readonly<Record<string, string>> = {
  dc: 'Direct current',
  ac: 'Alternating current',
  grpSolid: 'Solid GRP',
  grpCored: 'Cored GRP',
  dcPower: 'DC pair',
  dzrBrass: 'DZR brass',
  isoSmallCraft: 'ISO small-craft practice',
  usVoluntary: 'US voluntary practice',
  centreline: 'Centre line',
  '+x': 'Its own +x, forward',
  '-x': 'Its own −x, aft',
  '+y': 'Its own +y, to port',
  '-y': 'Its own −y, to starboard',
  '+z': 'Its own +z, up',
  '-z': 'Its own −z, down',
};

/** Six ways along the axes, and how a direction is told by them. */
export const WAYS = {
  '+x': [1, 0, 0],
  '-x': [-1, 0, 0],
  '+y': [0, 1, 0],
  '-y': [0, -1, 0],
  '+z': [0, 0, 1],
  '-z': [0, 0, -1],
} as const;
export type Way = keyof typeof WAYS;

export const wayOf = (direction: readonly number[]): Way | 'other' =>
  (Object.keys(WAYS) as Way[]).find((way) => {
    const along = WAYS[way].reduce<number>((sum, part, k) => sum + part * (direction[k] ?? 0), 0);
    return along > 0.999 * Math.hypot(...direction);
  }) ?? 'other';

export const OWN_WAY_WORDS: Readonly<Record<Way | 'other', string>> = {
  '+x': 'its own +x',
  '-x': 'its own −x',
  '+y': 'its own +y',
  '-y': 'its own −y',
  '+z': 'its own +z, up',
  '-z': 'its own −z, down',
  other: 'slanting',
};

export const BOAT_WAY_WORDS: Readonly<Record<Way | 'other', string>> = {
  '+x': 'forward',
  '-x': 'aft',
  '+y': 'to port',
  '-y': 'to starboard',
  '+z': 'up',
  '-z': 'down',
  other: 'slanting',
};
