import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'access/services-taken';
const KEY = `${RULE}|gland|`;
const NUTS = `${KEY}nuts`;
const box = (z: number) => ({ 'arrangements.plan.places.box.at': [0.6, 0.5, z] });

describe('what the plan takes from the boat', () => {
  it('is told by task, before and after: 100 mm are left of 250 (derived)', () => {
    expect(verdict(bent(RULE, {}), NUTS)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      cause: 'arrangement',
      reason: 'taken',
      measured: { value: expect.closeTo(0.1, 6), unit: 'm' },
      limit: { value: 0.25, bound: 'atLeast' },
      related: ['box'],
      data: { before: 1, now: 0, beforeM: expect.closeTo(0.5, 6), wasCapped: true },
    });
  });

  it('passes where just enough is left', () => {
    expect(verdict(bent(RULE, box(0.15)), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0, 6) },
      limit: { value: 0, bound: 'atLeast' },
      closeCall: expect.anything(),
    });
    expect(verdict(bent(RULE, box(0.2)), KEY)).toMatchObject({ measured: { value: expect.closeTo(0.05, 6) } });
    expect(verdict(bent(RULE, box(0.149)), NUTS)).toMatchObject({ outcome: 'fail' });
  });

  it('leaves alternatives: one way of doing it is enough', () => {
    const side = {
      task: 'other',
      at: [0.1, 0, 0],
      direction: [1, 0, 0],
      acrossM: [0.1, 0.1],
      clearM: 0.25,
      either: 'nuts',
    };
    const both = { 'fixtures.gland.services.nuts.either': 'nuts', 'fixtures.gland.services.side': side };
    expect(verdict(bent(RULE, both), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('takes nothing where it could not be done before, nor where no part stands near', () => {
    expect(verdict(bent(RULE, { 'fixtures.gland.services.nuts.clearM': 0.8 }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: 0, unit: 'count' },
    });
    // that is for the boat as bought, and is told there
    const bought = bent(RULE, { 'fixtures.gland.services.nuts.clearM': 0.8 });
    expect(verdict(bought, 'access/service-space|gland|nuts')).toMatchObject({ outcome: 'fail', cause: 'existing' });
  });

  it('cannot tell sure where a part stands at the edge of the room, beside it or in it', () => {
    const aside = (y: number) => bent(RULE, { 'arrangements.plan.places.box.at': [0.6, y, 0] });
    // Derived: half of 200 and half of 300 mm: clear by 2 mm, in it by 2 mm.
    expect(verdict(aside(0.752), KEY)).toMatchObject({ outcome: 'pass', closeCall: expect.anything() });
    expect(verdict(aside(0.748), NUTS)).toMatchObject({ outcome: 'fail', closeCall: expect.anything() });
    const far = verdict(aside(0.8), KEY);
    expect(far.outcome === 'pass' && far.closeCall).toBeFalsy();
  });

  it('is not asked of what has no tasks', () => {
    expect(verdicts(bent(RULE, { 'fixtures.gland.services': {} }), RULE)).toEqual([]);
  });

  it('is not told twice: the room of what is aboard is judged without the plan', () => {
    expect(verdict(bent(RULE, {}), 'access/service-space|gland|nuts')).toMatchObject({ outcome: 'pass' });
  });
});
