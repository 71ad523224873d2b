import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'access/overlap';

describe('overlap of a part', () => {
  it('is measured along the way that parts the two soonest: 100 mm along x (derived: 700 - 600)', () => {
    expect(verdict(bent(RULE, {}), `${RULE}|station|battery`)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      cause: 'arrangement',
      measured: { value: expect.closeTo(-0.1, 6), unit: 'm' },
      limit: { value: 0, bound: 'atLeast' },
      related: ['battery'],
    });
  });

  it('follows the place of the part: 30 mm away is 30 mm less', () => {
    const moved = bent(RULE, { 'arrangements.plan.places.station.at': [0.47, 0.5, 0] });
    expect(verdict(moved, `${RULE}|station|battery`)).toMatchObject({ measured: { value: expect.closeTo(-0.07, 6) } });
  });

  it('passes at the limit: faces that touch share nothing', () => {
    const touching = bent(RULE, { 'arrangements.plan.places.station.at': [0.4, 0.5, 0] });
    expect(verdict(touching, `${RULE}|station|`)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0, 6) },
      closeCall: {},
    });
  });

  it('passes clean with more room than one and a half grades: two measured things, 5 mm each, 7.1 mm together', () => {
    const free = (gap: number) =>
      verdict(bent(RULE, { 'arrangements.plan.places.station.at': [0.4 - gap, 0.5, 0] }), `${RULE}|station|`);
    expect(free(0.01)).toMatchObject({ outcome: 'pass', closeCall: {} });
    expect(free(0.011)).toMatchObject({ outcome: 'pass', measured: { value: expect.closeTo(0.011, 6) } });
    expect(free(0.011)).not.toHaveProperty('closeCall');
  });

  it('is a close call beside a panel that it could reach if it is larger: half of 5 mm, times one and a half, is 3.75 mm (derived)', () => {
    const off = (gap: number) =>
      verdict(bent(RULE, { 'arrangements.plan.places.station.at': [0.25, 0.15 + gap, 0] }), `${RULE}|station|`);
    expect(off(0.0035)).toMatchObject({ outcome: 'pass', closeCall: {}, related: ['cabin|locker'] });
    expect(off(0.004)).not.toHaveProperty('closeCall');
    // Put against it, the part stands there whatever its size.
    expect(off(0)).not.toHaveProperty('closeCall');
  });

  it('names the panel that a part cuts', () => {
    const cut = verdicts(bent(RULE, { 'arrangements.plan.places.station.at': [0.25, 0.12, 0] }), RULE).filter(
      (f) => f.outcome === 'fail',
    );
    expect(cut.map((f) => f.subject)).toEqual(['station']);
    expect(cut[0]).toMatchObject({
      reason: 'throughWall',
      related: ['cabin|locker'],
      measured: { value: expect.closeTo(-0.03, 4) },
    });
  });

  it('cannot tell in undrawn space', () => {
    const outside = bent(RULE, { 'arrangements.plan.places.station.at': [3, 3, 0] });
    expect(verdicts(outside, RULE)).toMatchObject([{ outcome: 'cannotTell', reason: 'nowhere' }]);
  });

  it('does not apply to a part without a place', () => {
    expect(verdicts(bent(RULE, { 'arrangements.plan.places': {} }), RULE)).toEqual([]);
  });

  it('sees the hull: a through-hull may pierce it, anything else may not', () => {
    const station = (half: number) => ({
      xM: 0,
      points: [
        [half, -1],
        [half, 1],
      ],
    });
    const hull = { stations: { a: station(0.55), b: { ...station(0.55), xM: 2 } }, shellM: 0.01, grade: 'measured' };
    const fails = verdicts(bent(RULE, { hull, 'arrangements.plan.places.station.at': [0.3, 0.45, 0] }), RULE).filter(
      (f) => f.outcome === 'fail',
    );
    // the part reaches y 600 mm, the inner face of the shell stands at 540
    expect(fails).toMatchObject([{ reason: 'outsideHull', measured: { value: expect.closeTo(-0.06, 3) } }]);
    const fitting = {
      ...fails,
      hull,
      'parts.station.opensToSea': { at: [0, 0.15, 0], boreM: 0.02 },
      'arrangements.plan.places.station.at': [0.3, 0.45, 0],
    };
    expect(verdicts(bent(RULE, fitting), RULE).filter((f) => f.outcome === 'fail')).toEqual([]);
  });
});
