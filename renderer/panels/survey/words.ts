import type { Reading } from '@core/boat/survey-ends';

/** Kinds of readings as the entry offers them, the usual one first. */
export const READING_KINDS: readonly (readonly [Reading['kind'], string])[] = [
  ['distance', 'Distance'],
  ['diagonal', 'Diagonal'],
  ['height', 'Height above'],
  ['offset', 'Offset from plane'],
];

/** What was typed, where it says more than the value: a unit, feet, a fraction. */
export const typedBeside = (typed: string): { readonly typed?: string } =>
  /[^\d.,\s\u2009\u2212-]/.test(typed) ? { typed: typed.trim() } : {};
