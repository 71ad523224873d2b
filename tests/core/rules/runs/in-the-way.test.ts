import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'runs/in-the-way';
const KEY = `${RULE}|hose|`;
const BOWL = `${KEY}filter/service/bowl`;
const width = (metres: number) => ({ 'fixtures.filter.services.bowl.acrossM.0': metres });
const noService = { 'fixtures.filter.services': {} };

describe('a hose in the way', () => {
  it('of a bowl is advice: 300 mm, and half of 19 mm on each side (derived)', () => {
    expect(verdict(bent(RULE, {}), BOWL)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'service',
      measured: { value: expect.closeTo(0.32, 1) },
      limit: { value: 0.1, bound: 'atMost' },
      related: ['filter'],
    });
  });

  it('passes at the limit: 75 mm and twice 9.5 (derived)', () => {
    expect(verdict(bent(RULE, width(0.075)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, width(0.11)), BOWL)).toMatchObject({ outcome: 'fail' });
  });

  it('of feet is advice', () => {
    const place = { standingPlaces: { step: { name: 'Step', at: [1, 0.05, -0.05] } } };
    expect(verdict(bent(RULE, { ...noService, ...place }), `${KEY}step/feet`)).toMatchObject({
      outcome: 'fail',
      reason: 'feet',
      measured: { value: expect.closeTo(0.42, 1) },
    });
  });

  it('of stowage is advice, unless it ends there', () => {
    const stowage = { ...noService, 'compartments.locker.stowage': true };
    expect(verdict(bent(RULE, stowage), KEY)).toMatchObject({ outcome: 'notApplicable' });
    const three = {
      ...noService,
      'compartments.locker.outline': square(0, 0.6),
      'compartments.middle': {
        name: 'Sail locker',
        view: 'plan',
        outline: square(0.6, 1.4),
        rangeM: [-0.4, 0.5],
        stowage: true,
      },
      'compartments.fore': { name: 'Fore', view: 'plan', outline: square(1.4, 2), rangeM: [-0.4, 0.5] },
      'panels.one': { between: ['locker', 'middle'], near: [0.6, 0.5, 0], rule: 'open' },
      'panels.two': { between: ['middle', 'fore'], near: [1.4, 0.5, 0], rule: 'open' },
    };
    expect(verdict(bent(RULE, three), `${KEY}middle/stowage`)).toMatchObject({
      outcome: 'fail',
      reason: 'stowage',
      measured: { value: expect.closeTo(0.8, 1) },
    });
  });

  it('does not apply where nothing needs room', () => {
    expect(verdict(bent(RULE, noService), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noneNear' });
  });
});

function square(from: number, to: number): readonly (readonly [number, number])[] {
  return [
    [from, 0],
    [to, 0],
    [to, 1],
    [from, 1],
  ];
}
