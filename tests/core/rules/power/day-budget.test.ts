import { mends } from '@core/engine/remedies/mending';
import { findingText } from '@core/output/text/finding-text';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/day-budget';
const KEY = `${RULE}|pump|`;
const HOURS = `${RULE}|pump|hours`;
const needs = (more: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(more).map(([key, value]) => [`needs.${key}`, value]));
const bank = (more: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(more).map(([key, value]) => [`fixtures.bank.electric.${key}`, value]));

describe("a day's water against a day's power", () => {
  it('takes 3 h and 60 Ah for 60 L; bank 25, sun 48, less 45 for all else leave 28 Ah (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'lessWater',
      measured: { value: expect.closeTo(60, 9), unit: 'Ah' },
      limit: { value: expect.closeTo(28, 9), bound: 'atMost' },
      data: {
        hours: 3,
        bankAh: 25,
        solarAh: expect.closeTo(48, 9),
        fittingL: expect.closeTo(28, 9),
        fittingLH: expect.closeTo((20 * 28) / 60, 9),
      },
    });
    expect(verdict(bent(RULE, needs({ waterLDay: 28 })), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, needs({ waterLDay: 28.1 })), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('adds what the flush drinks: 15 L more are 75 Ah, and 13 L are left to drink', () => {
    for (const flush of [needs({ flushL: 15 }), { 'parts.pump.flushL': 15 }])
      expect(verdict(bent(RULE, flush), KEY)).toMatchObject({
        measured: { value: expect.closeTo(75, 9) },
        data: { fittingL: expect.closeTo(13, 9) },
      });
  });

  it('has no bank where nothing fills it: sun and other charge alone cover each day', () => {
    expect(verdict(bent(RULE, needs({ chargeEveryDays: undefined })), KEY)).toMatchObject({
      limit: { value: expect.closeTo(3, 9) },
    });
    expect(verdict(bent(RULE, needs({ chargeEveryDays: undefined, otherChargeAhDay: 60 })), KEY)).toMatchObject({
      outcome: 'pass',
      limit: { value: expect.closeTo(63, 9) },
    });
  });

  it('says none where all else takes it, and where the flush alone takes more', () => {
    const none = verdict(bent(RULE, needs({ otherAhDay: 80 })), KEY);
    expect(none).toMatchObject({ outcome: 'fail', reason: 'none', data: { fittingL: 0 } });
    expect(findingText(none, boatOf(bent(RULE, {}))).why).toContain('no set');
    expect(verdict(bent(RULE, needs({ flushL: 30, otherAhDay: 45 })), KEY)).toMatchObject({ reason: 'none' });
  });

  it('draws half of lead and 0.8 of lithium (from memory), or what the bank says', () => {
    expect(verdict(bent(RULE, bank({ chemistry: 'lithium' })), KEY)).toMatchObject({ data: { bankAh: 40 } });
    expect(verdict(bent(RULE, bank({ usableShare: 0.3, chemistry: undefined })), KEY)).toMatchObject({
      data: { bankAh: 15 },
    });
  });

  it('counts panels that are drawn where no sum is given, and the feed pump of the set', () => {
    const panel = {
      name: 'Panel',
      kind: 'other',
      shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
      pose: { at: [2, 0.8, 0.3] },
      electric: { solarW: 80 },
    };
    expect(verdict(bent(RULE, { ...needs({ solarW: undefined }), 'fixtures.panel': panel }), KEY)).toMatchObject({
      data: { solarAh: expect.closeTo(24, 9) },
    });
    const feed = {
      name: 'Feed',
      kind: 'feedPump',
      shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
      electric: { drawA: 5 },
    };
    expect(verdict(bent(RULE, { 'parts.feed': feed }), KEY)).toMatchObject({
      measured: { value: expect.closeTo(75, 9) },
    });
  });

  it('is too slow where the hours do not do: 2 h of 20 L/h are 40 of 60 L', () => {
    expect(verdict(bent(RULE, {}), HOURS)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, needs({ runHoursDay: 2 })), HOURS)).toMatchObject({
      outcome: 'fail',
      reason: 'tooSlow',
      measured: { value: 40, unit: 'LDay' },
      limit: { value: 60, bound: 'atLeast' },
    });
    expect(verdict(bent(RULE, needs({ runHoursDay: 3 })), HOURS)).toMatchObject({ outcome: 'pass' });
  });

  it.each([
    ['noProduct', { 'parts.pump.productLH': undefined, 'parts.pump.kind': 'pumpModule' }],
    ['noCurrent', { 'parts.pump.electric.drawA': undefined }],
    ['noCapacity', bank({ capacityAh: undefined })],
    ['noChemistry', bank({ chemistry: undefined })],
    ['noVoltage', bank({ sourceV: undefined })],
  ])('cannot tell: %s', (reason, change) => {
    expect(verdict(bent(RULE, change), KEY)).toMatchObject({ outcome: 'cannotTell', reason });
  });

  it('says nothing without a wish, and nothing of a set that the bank does not drive', () => {
    expect(verdicts(bent(RULE, { needs: undefined }), RULE)).toEqual([]);
    expect(verdict(bent(RULE, { 'parts.pump.electric.drivenBy': 'engine' }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
  });

  it('offers to want as much as there is', () => {
    expect(mends(boatOf(bent(RULE, {})), KEY)).toContainEqual(
      expect.objectContaining({ change: 'value', what: { id: 'needs', field: 'waterLDay', from: 60, to: 28 } }),
    );
  });
});
