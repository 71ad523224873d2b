import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'runs/unsupported';
const KEY = `${RULE}|hose|`;
const made = (supportM?: number) => ({
  'lines.hose.kind': 'made',
  'lineKinds.made': {
    name: 'Made hose',
    what: 'hose',
    outsideM: 0.019,
    bendRadiusM: 0.104,
    ...(supportM === undefined ? {} : { supportM }),
  },
});
const narrow = {
  'compartments.hall.outline': [
    [0, 0.85],
    [3, 0.85],
    [3, 1.15],
    [0, 1.15],
  ],
};

describe('a hose that hangs free', () => {
  it('is advice: 2 m through the middle of a hold, a clip every 450 mm (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      measured: { value: expect.closeTo(2, 3), unit: 'm' },
      limit: { value: 0.45, bound: 'atMost' },
    });
  });

  it('passes at the limit', () => {
    expect(verdict(bent(RULE, made(2.001)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, made(1.999)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('is clipped as often as whoever entered it says: 0.45 m passes, 0.5 m does not (common practice, no source)', () => {
    expect(verdict(bent(RULE, { 'lines.hose.clipM': 0.45 }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: 0.45 },
      sources: [{ key: 'practice' }],
    });
    expect(verdict(bent(RULE, { 'lines.hose.clipM': 0.5 }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'clippedFar',
      measured: { value: 0.5 },
      limit: { value: 0.45 },
    });
  });

  it('quotes the practice of electric cables for cables alone', () => {
    expect(verdict(bent(RULE, {}), KEY).sources).toEqual([{ key: 'practice', standing: 'commonPractice' }]);
    const cable = { ...made(0.45), 'lineKinds.made.what': 'cable' };
    expect(verdict(bent(RULE, cable), KEY).sources).toMatchObject([{ key: 'iso-10133' }]);
  });

  it('does not ask about a line that is there until it is pinned: the way it is drawn is a guess', () => {
    expect(verdict(bent(RULE, { 'lines.hose.existing': true }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'wayUnknown',
    });
  });

  it('is held by a clip point in its middle', () => {
    const clip = { 'arrangements.plan.clipPoints': { hose: { c: { at: [1.5, 1, 0], order: 0 } } } };
    expect(verdict(bent(RULE, clip), KEY)).toMatchObject({ measured: { value: expect.closeTo(0.99, 2) } });
  });

  it('passes between walls 300 mm apart', () => {
    expect(verdict(bent(RULE, narrow), KEY)).toMatchObject({ outcome: 'pass', measured: { value: 0 } });
  });

  it('cannot tell of a kind that does not say how often it must be clipped, unless it is held all along', () => {
    expect(verdict(bent(RULE, made()), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noSpacing' });
    expect(verdict(bent(RULE, { ...made(), ...narrow }), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });

  it('does not apply to a line without a run', () => {
    expect(verdict(bent(RULE, { ...made(), 'lineKinds.made.outsideM': 3 }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'noRun',
    });
  });
});
