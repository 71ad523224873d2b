import { readFileSync } from 'node:fs';
import { analyze } from '@core/analyze';
import { afterEach, describe, expect, it } from 'vitest';
import { boatFrom, completeBoats } from '../core/engine/moved-boats';
import { randomFrom } from '../support/random';

const ROUNDED = ['sin', 'cos', 'tan', 'atan', 'atan2', 'acos', 'asin', 'hypot', 'pow', 'cbrt', 'exp', 'log'] as const;
const plain = Math.sin;
const own = { ...Object.fromEntries(ROUNDED.map((name) => [name, Math[name]])) };

/** Other machines round the last digit of a sine in their own way: here by chance, up, down or not at all. */
function roundAnew(seed: number): void {
  const random = randomFrom(seed);
  for (const name of ROUNDED) {
    const exact = own[name] as (...figures: number[]) => number;
    const rounded = (...figures: number[]): number => {
      const value = exact(...figures);
      return Number.isInteger(value) ? value : value * (1 + Math.round(random() * 2 - 1) * Number.EPSILON);
    };
    Object.defineProperty(Math, name, { value: rounded, configurable: true, writable: true });
  }
}
afterEach(() => {
  for (const name of ROUNDED)
    Object.defineProperty(Math, name, { value: own[name], configurable: true, writable: true });
});

/** LAST_DIGITS_SEED: another rounding. */
const SEED = Number(process.env.LAST_DIGITS_SEED ?? 3);

describe('the last digit of a sine', () => {
  it('is another one while the test lasts', () => {
    roundAnew(SEED);
    const angles = Array.from({ length: 100 }, (_, k) => 0.1 + k / 7);
    expect(angles.filter((angle) => Math.sin(angle) !== plain(angle)).length).toBeGreaterThan(20);
  });

  // Every engine may round these in its own way, and the same boat has to give the same answer on each: the core asks none of them.
  it.each(completeBoats())('changes no bit of what is said of %s', (name) => {
    const boat = boatFrom(readFileSync(`sample-boats/complete/${name}/boat.json`, 'utf8'));
    const before = analyze(boat);
    roundAnew(SEED);
    expect(analyze(boat)).toEqual(before);
  });
});
