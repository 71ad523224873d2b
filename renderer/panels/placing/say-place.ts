import type { Boat } from '@core/boat/schema/boat';
import { type CompartmentAnswer, PLACE_TESTS, type PlaceTest } from '@core/engine/placement/place-report';
import type { DisplayUnits } from '../../store/types';
import { figure, lengthUnit, wholeLength } from '../format';
import { TEST_WORDS } from './words';

export interface PlaceWords {
  /** What decides, a sentence; empty where nothing needs saying. */
  readonly decides: string;
  /** A word of the reason for the drawing. */
  readonly short: string;
  /** What it costs against where the parts are now. */
  readonly differs: string;
  readonly tests: Readonly<Record<PlaceTest, string>>;
  /** Demands that it breaks, a sentence each. */
  readonly breaks: readonly string[];
}

/** The answer about a compartment in words, in the units on screen. */
export function placeWords(answer: CompartmentAnswer, _boat: Boat, units: DisplayUnits): PlaceWords {
  const said = (test: PlaceTest): string => {
    const { measured, limit } = answer.tests[test];
    if (!measured) return '';
    const one = (value: number): string =>
      measured.unit === 'm' ? `${wholeLength(value, units)} ${lengthUnit(units)}` : figure(value, 0);
    return limit
      ? `${one(measured.value)}, ${limit.bound === 'atLeast' ? 'at least' : 'at most'} ${one(limit.value)}`
      : one(measured.value);
  };
  const tests = Object.fromEntries(PLACE_TESTS.map((test) => [test, said(test)])) as Record<PlaceTest, string>;
  const { decides } = answer;
  const best = answer.best;
  return {
    decides: decides ? `${TEST_WORDS[decides]}: ${tests[decides] || answer.tests[decides].reason}` : '',
    short: decides && answer.verdict === 'no' ? (answer.tests[decides].reason ?? '').slice(0, 12) : '',
    differs: best
      ? [
          best.moreHoseM === null
            ? ''
            : `${best.moreHoseM > 0 ? '+' : '\u2212'}${figure(Math.abs(best.moreHoseM), 2)} m`,
          best.newHoles ? `${best.newHoles} holes` : '',
        ]
          .filter(Boolean)
          .join(', ')
      : '',
    tests,
    breaks: answer.breaks.map(String),
  };
}
