import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

/** Speeds in a shared bore: common practice, from memory. 1 m/s in 19 mm is 17.0 L/min (derived: 0.00028353 m2 x 60,000). */
const RULE = 'water/shared-intake';
const KEY = `${RULE}|cock|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const AT_ANCHOR = { runStates: { a: { name: 'At anchor', use: 'anchored' } } };
const deckWash = (flowLMin?: number) => ({
  'fixtures.engine.kind': 'deckWashPump',
  'fixtures.engine.name': 'Deck wash',
  'fixtures.engine.flowLMin': flowLMin,
});

describe('an intake that others draw through', () => {
  it('starves the engine, or the set, under engine', () => {
    const found = told({});
    expect(found).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'engineStarves',
      measured: { value: 28, unit: 'LMin' },
      related: ['engine', 'pump'],
    });
    expect(found.outcome === 'fail' && found.limit.value).toBeCloseTo(0.5 * 60_000 * (Math.PI / 4) * 0.019 ** 2, 9);
    expect(told({ 'fixtures.engine.flowLMin': undefined })).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { unit: 'count' },
    });
  });

  it('is advice at anchor, where the engine may charge', () => {
    expect(told(AT_ANCHOR)).toMatchObject({ outcome: 'fail', severity: 'advice', reason: 'shared' });
    expect(told({ runStates: {} })).toMatchObject({ outcome: 'fail', severity: 'advice', reason: 'shared' });
  });

  it('is held to the speed of all who draw at a time', () => {
    expect(told(deckWash(9))).toMatchObject({ outcome: 'pass', measured: { value: 17 } });
    expect(told(deckWash(9.1))).toMatchObject({ outcome: 'fail', severity: 'advice', reason: 'shared' });
    expect(told(deckWash())).toMatchObject({ outcome: 'fail', severity: 'advice', data: { lacks: 'Deck wash' } });
    expect(told({ 'fixtures.engine.kind': 'head', 'fixtures.engine.flowLMin': undefined })).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
    });
  });

  it('counts who is only named', () => {
    const alone = { 'lines.cooling': undefined };
    expect(told(alone)).toMatchObject({ outcome: 'notApplicable', reason: 'alone' });
    expect(told({ ...alone, 'fixtures.cock.sharedBy': ['engine'] })).toMatchObject({
      outcome: 'fail',
      reason: 'engineStarves',
    });
    expect(told({ ...alone, 'fixtures.cock.sharedBy': ['deck wash'] })).toMatchObject({
      outcome: 'fail',
      reason: 'shared',
    });
    expect(told({ ...alone, ...AT_ANCHOR, 'fixtures.cock.sharedBy': ['engine'] })).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
    });
  });

  it('gives enough in a wide bore', () => {
    expect(told({ 'fixtures.cock.opensToSea.boreM': 0.035 })).toMatchObject({ outcome: 'pass' });
  });
});
