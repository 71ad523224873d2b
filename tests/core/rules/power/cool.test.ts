import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/cool';
const KEY = `${RULE}|pump|`;
const locker = (more: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(more).map(([key, value]) => [`compartments.locker.${key}`, value]));

describe('the air about what runs', () => {
  it('is 15 K warmer in a shut locker of 9 W/K with 135 W (derived): 53 C on a day of 38', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(53, 9), unit: 'C' },
      limit: { value: 50, bound: 'atMost' },
      related: ['locker'],
      data: { riseK: expect.closeTo(15, 9) },
    });
    expect(verdict(bent(RULE, locker({ summerTemperatureC: 35 })), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, locker({ summerTemperatureC: 35.1 })), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('without a word of the sides counts 3 W/m2K of plywood: 17 m2 of this locker, 51 W/K (derived)', () => {
    // 2 x (4 x 1 + 4 x 0.9 + 1 x 0.9) m2
    expect(verdict(bent(RULE, locker({ wallWK: undefined })), KEY)).toMatchObject({
      outcome: 'pass',
      data: { wallWK: expect.closeTo(51, 9), riseK: expect.closeTo(135 / 51, 9) },
    });
  });

  it('is cooler with vents, and the draught over half the height balances the heat (derived)', () => {
    const found = verdict(bent(RULE, locker({ ventAreaM2: 0.04 })), KEY);
    const riseK = Number(found.data.riseK);
    const flow = ((0.6 * 0.02) / Math.SQRT2) * Math.sqrt((2 * 9.81 * 0.45 * riseK) / (273.15 + 38));
    expect(9 * riseK + 1.2 * 1005 * flow * riseK).toBeCloseTo(135, 6);
    expect(found).toMatchObject({ outcome: 'pass' });
  });

  it('gets the heat of all that runs there, but not of the engine', () => {
    const other = (kind: string) => ({
      'fixtures.other': {
        name: 'Other',
        kind,
        shape: { type: 'box', sizeM: [0.2, 0.2, 0.2] },
        pose: { at: [3, 0.5, 0] },
        heatW: 45,
      },
    });
    expect(verdict(bent(RULE, other('fridge')), KEY)).toMatchObject({ measured: { value: expect.closeTo(58, 9) } });
    expect(verdict(bent(RULE, other('engine')), KEY)).toMatchObject({ measured: { value: expect.closeTo(53, 9) } });
  });

  it('is as measured where it was: the temperature, or what it rises by', () => {
    expect(verdict(bent(RULE, locker({ measuredC: 49 })), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: 49 },
      data: { by: 'measured' },
    });
    expect(verdict(bent(RULE, locker({ measuredRiseK: 13 })), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: 51 },
      data: { by: 'measuredRise' },
    });
  });

  it('cannot be told without the day, the heat or what it stands', () => {
    const noDay = locker({ summerTemperatureC: undefined });
    expect(verdict(bent(RULE, noDay), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noSummer',
      data: { riseK: expect.closeTo(15, 6) },
    });
    expect(verdict(bent(RULE, { 'fixtures.pump.heatW': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noHeat',
    });
    expect(verdict(bent(RULE, { 'fixtures.pump.greatestC': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noGreatest',
    });
  });

  it('passes on any day where it would at 40 C: 55 C for 15 K (common practice, no source)', () => {
    const stands = (greatestC: number) =>
      verdict(bent(RULE, { ...locker({ summerTemperatureC: undefined }), 'fixtures.pump.greatestC': greatestC }), KEY);
    expect(stands(55)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(55, 9) },
      data: { isAnyDay: true },
    });
    expect(stands(54.9)).toMatchObject({ outcome: 'cannotTell' });
  });

  it('is not asked about where nobody says anything and it hardly warms', () => {
    const mild = {
      ...locker({ summerTemperatureC: undefined, wallWK: undefined }),
      'fixtures.pump.greatestC': undefined,
    };
    expect(verdict(bent(RULE, mild), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'mild' });
  });

  it('is not asked for where nothing is said, nor in no compartment', () => {
    expect(
      verdicts(bent(RULE, { 'fixtures.pump.greatestC': undefined, 'fixtures.pump.heatW': undefined }), RULE),
    ).toEqual([]);
    expect(verdict(bent(RULE, { 'fixtures.pump.pose.at.0': 9 }), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });

  it('is off the engine by 500 mm, from side to side (common practice, no source)', () => {
    const engine = (gapM: number) => ({
      'fixtures.engine': {
        name: 'Engine',
        kind: 'engine',
        shape: { type: 'box', sizeM: [0.6, 0.4, 0.4] },
        pose: { at: [2.5 + gapM, 0.5, -0.2] },
        grade: 'measured',
      },
    });
    expect(verdict(bent(RULE, engine(0.4)), `${KEY}hot`)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      measured: { value: expect.closeTo(0.4, 6), unit: 'm' },
      limit: { value: 0.5, bound: 'atLeast' },
      related: ['engine'],
    });
    expect(verdict(bent(RULE, engine(0.5001)), `${KEY}hot`)).toMatchObject({ outcome: 'pass' });
    expect(
      verdicts(bent(RULE, { ...engine(0.4), 'fixtures.engine.kind': 'other' }), RULE).map(({ key }) => key),
    ).toEqual([KEY]);
  });

  it('is mended by the smallest usual vent that is enough', () => {
    const offer = mends(boatOf(bent(RULE, {})), KEY).find(({ change }) => change === 'value');
    expect(offer).toMatchObject({ what: { id: 'locker', field: 'ventAreaM2' } });
    const half = verdict(bent(RULE, locker({ ventAreaM2: Number(offer?.what.to) / 3 })), KEY);
    expect(half).toMatchObject({ outcome: 'fail' });
  });
});
