import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'runs/pinned';
/** Of the faulty boat: the tap stands 30 mm beside where the hose was pinned. */
const BACK = { 'arrangements.plan.places.tap.at': [1.6, 0.5, 0] };
const pins = (points: readonly (readonly number[])[], radiiM?: readonly number[]) => ({
  'arrangements.plan.pins': { hose: { points, ...(radiiM ? { radiiM } : {}) } },
});

describe('a run that is kept as built', () => {
  it('fits while its ends meet their ports', () => {
    expect(verdict(bent(RULE, BACK), `${RULE}|hose|`)).toMatchObject({ outcome: 'pass', limit: { bound: 'atLeast' } });
  });

  it('no longer meets a port that has moved, by that much', () => {
    // derived: the tap was moved 30 mm
    const found = verdict(bent(RULE, {}), `${RULE}|hose|endOff to`);
    expect(found).toMatchObject({ outcome: 'fail', severity: 'fault', related: expect.arrayContaining(['tap']) });
    expect(found.data.byM).toBeCloseTo(0.03, 6);
  });

  it('is told when the port looks another way', () => {
    const turned = { ...BACK, 'arrangements.plan.places.tap.yawDeg': 10 };
    const reasons = verdicts(bent(RULE, turned), RULE).flatMap((one) => (one.outcome === 'fail' ? [one.reason] : []));
    // the port swings aside with the tap that it sits on, so one or the other is said
    expect(reasons.some((reason) => reason === 'endTurned' || reason === 'endOff')).toBe(true);
  });

  it('is judged by its bends: one that is 40 mm tighter than its kind may is told by 40 mm', () => {
    // a step of 0.3 m to port and back inside the aft locker, all corners right angles
    const points = [
      [0.45, 0.5, 0],
      [0.63, 0.5, 0],
      [0.63, 0.8, 0],
      [1.3, 0.8, 0],
      [1.3, 0.5, 0],
      [1.55, 0.5, 0],
    ];
    // derived: least radius of the centre line 0.104 + 0.019 / 2 = 0.1135 m; 0.0735 is 40 mm less
    const found = verdict(
      bent(RULE, { ...BACK, ...pins(points, [0.0735, 0.0735, 0.0735, 0.0735]) }),
      `${RULE}|hose|bend`,
    );
    expect(found.data.byM).toBeCloseTo(0.04, 4);
    expect(found).toMatchObject({
      cause: 'arrangement',
      measured: { value: expect.closeTo(0.0735, 4), unit: 'm' },
      limit: { value: expect.closeTo(0.1135, 6), bound: 'atLeast' },
    });
    const kept = verdicts(bent(RULE, { ...BACK, ...pins(points, [0.1136, 0.1136, 0.1136, 0.1136]) }), RULE);
    expect(kept.filter(({ outcome }) => outcome === 'fail')).toEqual([]);
  });

  it('is judged by its first straight: 8 mm before the bend where the port is rigid over 40 (derived)', () => {
    // The bend of 0.1136 m takes its whole radius of the 0.1216 m before the corner: 8 mm are left straight.
    const points = [
      [0.45, 0.5, 0],
      [0.5716, 0.5, 0],
      [0.5716, 0.75, 0],
      [1.3, 0.75, 0],
      [1.3, 0.5, 0],
      [1.55, 0.5, 0],
    ];
    const rigid = { 'lines.hose.ends.from.rigidM': 0.04 };
    const found = verdict(
      bent(RULE, { ...BACK, ...rigid, ...pins(points, Array(4).fill(0.1136)) }),
      `${RULE}|hose|lead from`,
    );
    expect(found).toMatchObject({
      reason: 'lead',
      measured: { value: expect.closeTo(0.008, 4), unit: 'm' },
      limit: { bound: 'atLeast' },
    });
    expect(found.outcome === 'fail' && found.limit.value).toBeGreaterThanOrEqual(0.04);
  });

  it('must not pass a panel that may not be drilled, where no hole is recorded', () => {
    const noDrill = { ...BACK, 'panels.between.rule': 'noDrill' };
    expect(verdict(bent(RULE, noDrill), `${RULE}|hose|noDrill`)).toMatchObject({ outcome: 'fail' });
    const hole = { old: { at: [1.01, 0.5, 0], diameterM: 0.03 } };
    const through = verdicts(bent(RULE, { ...noDrill, 'panels.between.holes': hole }), RULE);
    expect(through.map(({ outcome }) => outcome)).toEqual(['pass']);
  });

  it('is told to be too wide for the hole that it passes', () => {
    const hole = { old: { at: [1.01, 0.5, 0], diameterM: 0.015 } };
    const found = verdict(bent(RULE, { ...BACK, 'panels.between.holes': hole }), `${RULE}|hose|hole`);
    // derived: a hose of 19 mm in a hole of 15 mm lacks 2 mm on either side
    expect(found.data.byM).toBeGreaterThan(0.0019);
    expect(found.data.byM).toBeLessThan(0.0023);
  });

  it('meets what was put in its way since', () => {
    const box = {
      name: 'Battery',
      kind: 'battery',
      shape: { type: 'box', sizeM: [0.1, 0.2, 0.2] },
      pose: { at: [0.75, 0.5, 0.05] },
    };
    const found = verdict(bent(RULE, { ...BACK, 'fixtures.battery': box }), `${RULE}|hose|clearance`);
    expect(found).toMatchObject({ outcome: 'fail', related: expect.arrayContaining(['battery']) });
  });

  it('speaks about pinned runs alone', () => {
    expect(verdicts(bent(RULE, { 'arrangements.plan.pins': undefined }), RULE)).toEqual([]);
  });
});
