import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'access/way-in';
const KEY = `${RULE}|station|`;

describe('way in of a part', () => {
  it('fails with proof when its smallest section is larger than the opening: 380 in 300 (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'tooBig',
      severity: 'fault',
      measured: { value: expect.closeTo(-0.08, 6), unit: 'm' },
      related: ['door'],
    });
  });

  it('passes at the limit: 380 x 400 in 380 x 400', () => {
    expect(verdict(bent(RULE, { 'openings.door.widthM': 0.4, 'openings.door.heightM': 0.38 }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0, 6) },
      closeCall: {},
    });
  });

  it('passes with what is to spare at the tightest place: 450 - 380 (derived)', () => {
    expect(verdict(bent(RULE, { 'openings.door.widthM': 0.45, 'openings.door.heightM': 0.5 }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.07, 6) },
    });
  });

  it('takes the way that was chosen instead of the best one', () => {
    const wide = {
      name: 'Hatch',
      compartment: 'locker',
      to: 'outside',
      at: [0.6, 0.5, 0.5],
      normal: [0, 0, 1],
      widthM: 0.9,
      heightM: 0.9,
    };
    expect(verdict(bent(RULE, { 'openings.hatch': wide }), KEY)).toMatchObject({ outcome: 'pass', related: ['hatch'] });
    expect(
      verdict(bent(RULE, { 'openings.hatch': wide, 'arrangements.plan.places.station.wayIn': ['door'] }), KEY),
    ).toMatchObject({ outcome: 'fail', related: ['door'] });
  });

  it('cannot tell without an opening, nor where the room behind is too short to be sure', () => {
    expect(verdict(bent(RULE, { openings: {} }), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noWay' });
  });

  it('turns a long part along the opening: 1.1 m of vessel, broadside through a slot 1.12 x 0.12 into a locker 1 m deep', () => {
    const vessel = {
      name: 'Membrane',
      kind: 'membrane',
      shape: { type: 'cylinder', diameterM: 0.08, lengthM: 1.1, axis: 'x' },
      grade: 'measured',
    };
    const slot = { 'openings.door.widthM': 1.12, 'openings.door.heightM': 0.12, 'parts.station': vessel };
    expect(verdict(bent(RULE, slot), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.02, 6) },
    });
  });

  it('does not take a part in through an opening that is nowhere near its compartment', () => {
    expect(
      verdict(
        bent(RULE, { 'openings.door.at': [8, 8, 8], 'openings.door.widthM': 2, 'openings.door.heightM': 2 }),
        KEY,
      ),
    ).toMatchObject({ outcome: 'cannotTell', reason: 'intoNothing', related: ['door'] });
  });

  it('does not apply where the person stands in the same compartment', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.station.at': [0.6, -0.5, 0] }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'standsThere',
    });
  });
});
