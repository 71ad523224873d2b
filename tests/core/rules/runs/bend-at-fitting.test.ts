import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'runs/bend-at-fitting';
const KEY = `${RULE}|tube|`;
/** Derived: a corner of 45 degrees takes 120 tan 22.5 before it. */
const TANGENT = 0.12 * Math.tan(Math.PI / 8);
const pinned = (cornerM: number) => ({
  'arrangements.plan.pins.tube.points': [
    [0.45, 0.5, 0],
    [0.45 + cornerM, 0.5, 0],
    [0.55 + cornerM, 0.6, 0],
    [1.15, 0.6, 0],
  ],
});
const hose = { 'lineKinds.made.what': 'hose', 'lineKinds.made.crimpedEnds': true };

describe('the bend behind a fitting', () => {
  it('of pushed-in tube begins after five diameters (common practice): 100 - 49.7 - 30 = 20.3 of 75 mm (derived)', () => {
    expect(verdict(bent(RULE, {}), `${KEY}from`)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'tubeBends',
      measured: { value: expect.closeTo(0.1 - TANGENT - 0.03, 6), unit: 'm' },
      limit: { value: expect.closeTo(0.075, 9), bound: 'atLeast' },
      related: ['tee'],
    });
    expect(verdict(bent(RULE, pinned(0.075 + 0.03 + TANGENT + 1e-5)), `${KEY}from`)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, pinned(0.074 + 0.03 + TANGENT)), `${KEY}from`)).toMatchObject({ outcome: 'fail' });
  });

  it('begins where the kind says, if it says so', () => {
    expect(verdict(bent(RULE, { 'lineKinds.made.straightM': 0.02 }), `${KEY}from`)).toMatchObject({
      outcome: 'pass',
      limit: { value: 0.02 },
    });
  });

  it('of a made-up hose that lies begins after one and a half (quoted, weak)', () => {
    expect(verdict(bent(RULE, hose), `${KEY}from`)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'hoseBends',
      limit: { value: expect.closeTo(0.0225, 9) },
    });
    expect(verdict(bent(RULE, { ...hose, ...pinned(0.11) }), `${KEY}from`)).toMatchObject({ outcome: 'pass' });
    // one that is still to be led keeps what its kind asks
    expect(verdict(bent(RULE, { ...hose, 'arrangements.plan.pins': {} }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
  });

  it('is told once of a run as built: by that rule where the kind asked for it', () => {
    expect(verdict(bent(RULE, { 'lineKinds.made.straightM': 0.03 }), `${KEY}to`)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { 'lineKinds.made.straightM': 0.03 }), 'runs/pinned|tube|lead from')).toMatchObject({
      outcome: 'fail',
    });
  });

  it('does not matter at an elbow, nor to soft hose', () => {
    const elbows = { 'lineKinds.made.end.angleDeg': 90 };
    expect(verdict(bent(RULE, { ...elbows }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdict(bent(RULE, { 'lineKinds.made.what': 'hose' }), KEY)).toMatchObject({ reason: 'softHose' });
    expect(
      verdict(
        bent(RULE, {
          'lines.tube.to': { thing: 'tee', port: 'out' },
          'lines.tube.from': { thing: 'tap', port: 'out' },
          'arrangements.plan.pins': {},
        }),
        `${KEY}from`,
      ).outcome,
    ).toBe('fail');
  });
});
