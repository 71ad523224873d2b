import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'hull/new-hole';
const KEY = `${RULE}|cock|`;
const CHECKED = ['stringer', 'core', 'keel', 'tabbing', 'slingLine', 'strut', 'flangeRoom'];
/** Derived: the hole lies 100 mm below the middle of the seacock, which is at z -300. */
const DEPTH = 0.4;

describe('a hole that is planned below the waterline', () => {
  it('is a fault until its place was looked at from both sides (common practice, no source)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'unchecked',
      measured: { value: expect.closeTo(DEPTH, 6), unit: 'm' },
      limit: { value: 0, bound: 'atMost' },
      hazards: ['hullHole'],
      data: { missing: CHECKED.join(',') },
    });
    const some = { 'parts.cock.opensToSea.checked': CHECKED.slice(1) };
    expect(verdict(bent(RULE, some), KEY)).toMatchObject({ outcome: 'fail', data: { missing: 'stringer' } });
  });

  it('passes once all of it was looked at', () => {
    expect(verdict(bent(RULE, { 'parts.cock.opensToSea.checked': CHECKED }), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('is against the wish of who wants none', () => {
    for (const kind of ['noNewHoleBelowWaterline', 'noHaulOut'])
      expect(
        verdict(bent(RULE, { 'parts.cock.opensToSea.checked': CHECKED, 'demands.d': { kind } }), KEY),
      ).toMatchObject({ outcome: 'fail', reason: 'notWanted' });
  });

  it('may be one of the holes that the arrangement has decided on', () => {
    const hole = { between: ['locker', 'skin'], at: [0.6, 0.4, -0.4], diameterM: 0.03 };
    const found = verdict(bent(RULE, { 'arrangements.plan.newHoles.h': hole }), `${RULE}|h|`);
    expect(found).toMatchObject({
      outcome: 'fail',
      cause: 'arrangement',
      measured: { value: expect.closeTo(DEPTH, 6) },
    });
    const inside = { 'arrangements.plan.newHoles.h': { ...hole, between: ['locker', 'cabin'] } };
    expect(verdicts(bent(RULE, inside), RULE).map(({ subject }) => subject)).toEqual(['cock']);
  });

  it('does not apply above it, and is a close call just above it', () => {
    const at = (z: number) => verdict(bent(RULE, { 'arrangements.plan.places.cock.at': [0.6, 0.4, z] }), KEY);
    expect(at(0.5)).toMatchObject({ outcome: 'notApplicable', reason: 'aboveWater' });
    // Derived: the hole is 100 below the middle: 50 mm dry, and the water is good to 100 mm.
    expect(at(0.15)).toMatchObject({ outcome: 'pass', closeCall: expect.anything() });
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), KEY)).toMatchObject({ reason: 'notPlaced' });
  });

  it('is never asked about what is aboard already', () => {
    expect(verdicts(bent('hull/through-hull-sound', {}), RULE)).toEqual([]);
  });
});
