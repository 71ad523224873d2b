import { describe, expect, it } from 'vitest';
import { bent, faultyBoat, verdicts } from '../judged';
import { asFixtures, drawnBackwards, renamed } from './turned';

/** A circuit means the same whatever its records are called, in whatever order they stand, and from whichever end a line is drawn. */
const CIRCUIT_RULES = [
  'water/dead-head',
  'water/product-open',
  'water/reject-to-tap',
  'water/flush-chlorine',
  'water/backflow',
  'water/vented-suction',
  'water/line-rating',
  'water/flush-reaches',
] as const;

const told = (json: unknown, rule: string): readonly string[] =>
  verdicts(json, rule)
    .map((one) => `${one.outcome} ${'severity' in one ? one.severity : ''} ${'reason' in one ? one.reason : ''}`)
    .sort();

describe.each(CIRCUIT_RULES)('%s', (rule) => {
  const plain = told(faultyBoat(rule), rule);

  it('finds its fault', () => {
    expect(plain.filter((one) => one.startsWith('fail')).length).toBeGreaterThan(0);
  });

  it('says the same of other ids in another order', () => {
    expect(told(renamed(faultyBoat(rule)).json, rule)).toEqual(plain);
  });

  it('says the same of lines that are drawn from their other ends', () => {
    expect(told(drawnBackwards(faultyBoat(rule)), rule)).toEqual(plain);
  });

  it('says the same of what is aboard already', () => {
    expect(told(asFixtures(faultyBoat(rule)), rule)).toEqual(plain);
  });
});

describe('the whole circuit without a fault', () => {
  const clean = () => bent('water/flush-water', { 'parts.tank.liquidL': 200 });
  const wrong = (json: unknown) =>
    [...CIRCUIT_RULES, 'water/isolated', 'water/tank-end', 'water/flush-water', 'water/shared-intake']
      .flatMap((rule) => verdicts(json, rule))
      .filter(({ outcome }) => outcome === 'fail' || outcome === 'cannotTell')
      .map(({ key }) => key);

  it('is clean, however it is called, drawn or entered', () => {
    expect(wrong(clean())).toEqual([]);
    expect(wrong(renamed(clean()).json)).toEqual([]);
    expect(wrong(drawnBackwards(clean()))).toEqual([]);
  });
});
