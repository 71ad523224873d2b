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

/** Practice: limber holes are of what a plan may take from the boat. Common practice, no source. */
describe('a limber hole', () => {
  // Hole of 25 mm in a bulkhead between two lockers 20 mm apart, its middle 20 mm over the floor.
  const limber = (x: number, y = 0.5) => ({
    'compartments.aft': {
      name: 'Aft',
      view: 'plan',
      outline: [
        [3, 0],
        [4, 0],
        [4, 1],
        [3, 1],
      ],
      rangeM: [-0.5, 0.5],
    },
    'compartments.well': {
      name: 'Well',
      view: 'plan',
      outline: [
        [4.02, 0],
        [5, 0],
        [5, 1],
        [4.02, 1],
      ],
      rangeM: [-0.5, 0.5],
    },
    flooding: { limberHoles: { low: { between: ['aft', 'well'], at: [4.01, 0.5, -0.48], diameterM: 0.025 } } },
    'parts.box.shape': { type: 'box', sizeM: [0.3, 0.4, 0.25] },
    'arrangements.plan.places.box': { at: [x - 0.15, y, -0.375] },
  });
  const told = (x: number, y?: number) =>
    verdicts(bent(RULE, limber(x, y)), RULE).filter((one) => one.subject === 'box');

  it('is not stood before: nothing is left of 25 mm by a box flush with the bulkhead, 15 by one 15 mm off (derived)', () => {
    expect(told(4)).toMatchObject([
      {
        key: `${RULE}|box|low`,
        outcome: 'fail',
        severity: 'fault',
        cause: 'arrangement',
        reason: 'limberCovered',
        measured: { value: expect.closeTo(0, 6), unit: 'm' },
        limit: { value: 0.025, bound: 'atLeast' },
      },
    ]);
    expect(told(3.985)).toMatchObject([{ outcome: 'fail', measured: { value: expect.closeTo(0.015, 6) } }]);
  });

  it('is left alone by what stands farther off, or beside it', () => {
    for (const [x, y] of [
      [3.97, 0.5],
      [4, 0.72],
    ] as const)
      expect(told(x, y)).toMatchObject([{ outcome: 'notApplicable', reason: 'coversNone' }]);
  });
});
