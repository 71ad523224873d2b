import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'runs/supplied-length';
const KEY = `${RULE}|hose|`;
const supplied = (lengthM: number, spareM = 0.1) => ({ 'lines.hose.supplied': { lengthM, spareM } });

describe('a hose that is supplied with its ends on', () => {
  it('cannot reach when no way is short enough: 3.0 m needed, 2.4 m usable (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'cannotReach',
      severity: 'fault',
      measured: { value: expect.closeTo(3, 6), unit: 'm' },
      limit: { value: expect.closeTo(2.4, 9), bound: 'atMost' },
    });
  });

  it('follows the place of its end by the millimetre', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.tap.at': [3.52, 0.5, -0.35] }), KEY)).toMatchObject({
      measured: { value: expect.closeTo(2.97, 6) },
    });
  });

  it('reaches at the limit, inside the tape', () => {
    expect(verdict(bent(RULE, supplied(3.1)), KEY)).toMatchObject({ outcome: 'pass', closeCall: {} });
    const clean = verdict(bent(RULE, supplied(3.3)), KEY);
    expect(clean).toMatchObject({ outcome: 'pass' });
    expect(clean).not.toHaveProperty('closeCall');
  });

  it('cannot tell while the run is blocked by something else', () => {
    const wall = {
      name: 'Tank',
      kind: 'waterTank',
      shape: { type: 'box', sizeM: [0.2, 0.999, 0.899] },
      pose: { at: [2, 0.5, 0.05] },
    };
    expect(
      verdict(
        bent(RULE, { ...supplied(9), 'fixtures.wall': wall, 'compartments.cabin': undefined, openings: {} }),
        KEY,
      ),
    ).toMatchObject({ outcome: 'cannotTell' });
  });

  it('does not apply without a place, nor to a hose from the coil', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.tap': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
    expect(verdicts(bent(RULE, { 'lines.hose.supplied': undefined }), RULE)).toEqual([]);
  });
});
