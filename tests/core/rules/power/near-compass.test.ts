import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/near-compass';
const KEY = `${RULE}|cable|`;
const amperes = (a: number | undefined) => ({ 'lines.cable.currentA': a, 'fixtures.pump.electric.drawA': undefined });

/** As built: straight from the fuse to the pump. */
const STRAIGHT = {
  'arrangements.plan.pins': {
    cable: {
      points: [
        [0.25, 0.3, -0.35],
        [2.75, 0.3, -0.35],
      ],
    },
  },
};

describe('a power cable near a compass', () => {
  // 2.5 m of cable, the compass half a metre beside its middle: 1e-7 x 25 / 0.5 x 2 x 1.25 / sqrt(1.25^2 + 0.5^2) = 9.285 microtesla
  // (derived, Biot-Savart along the run); 20 x sin 1 degree = 0.349 are allowed.
  it('must keep as far off as its current needs: 0.5 x 9.285 / 0.349 = 13.3 m (derived)', () => {
    expect(verdict(bent(RULE, STRAIGHT), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(0.5, 4), unit: 'm' },
      limit: { value: expect.closeTo(13.3, 2), unit: 'm', bound: 'atLeast' },
      related: ['compass'],
      data: {
        isPair: false,
        microtesla: expect.closeTo(9.285, 3),
        squareDeg: expect.closeTo(24.9, 1),
        worstDeg: expect.closeTo(27.66, 2),
        longWireMicrotesla: expect.closeTo(10, 3),
        longWireDeg: expect.closeTo(30, 1),
      },
    });
  });

  it('passes at the limit: 25 x 0.349 / 9.285 = 0.940 A (derived)', () => {
    expect(verdict(bent(RULE, { ...STRAIGHT, ...amperes(0.939) }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { ...STRAIGHT, ...amperes(0.941) }), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('is none of the business of a compass straight ahead of its end (derived: dl x r = 0)', () => {
    const radial = {
      'fixtures.compass.pose.at': [0.25, 0.3, 0.3],
      'fixtures.fuse.ports.out': { at: [0.05, 0, -0.1], direction: [0, 0, -1], medium: 'dcPower', role: 'both' },
      'fixtures.fuse.pose.at': [0.2, 0.3, 0],
      'fixtures.pump.pose.at': [0.25, 0.3, -0.35],
      'fixtures.pump.ports.out': { at: [0, 0, 0.05], direction: [0, 0, 1], medium: 'dcPower', role: 'both' },
      'arrangements.plan.clipPoints': {},
    };
    expect(verdict(bent(RULE, radial), KEY)).toMatchObject({
      outcome: 'pass',
      data: { microtesla: expect.closeTo(0, 6), longWireMicrotesla: expect.closeTo(12.5, 1) },
    });
  });

  it('passes as a pair: 2.5 mm apart the field is some 200 times less (derived)', () => {
    expect(verdict(bent(RULE, { 'lineKinds.single.conductors': 2 }), KEY)).toMatchObject({
      outcome: 'pass',
      data: { isPair: true, microtesla: expect.closeTo(0.05, 2), longWireMicrotesla: expect.closeTo(0.05, 3) },
    });
  });

  it('takes the current of what it feeds where the line has none', () => {
    expect(verdict(bent(RULE, { 'lines.cable.currentA': undefined }), KEY)).toMatchObject({
      outcome: 'fail',
      data: { amperes: 25 },
    });
  });

  it('cannot tell without a current, and says where to enter it', () => {
    expect(verdict(bent(RULE, amperes(undefined)), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noCurrent',
      missing: { path: 'lines.cable.currentA', unit: 'A' },
    });
  });

  it('does not apply without a compass, and not to a hose', () => {
    expect(verdict(bent(RULE, { 'fixtures.compass.kind': 'other' }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'lines.cable.medium': 'air' }), RULE)).toEqual([]);
  });
});
