import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/battery-place';
const key = (instance: string) => `${RULE}|bank|${instance}`;
const tank = (at: readonly number[], more: object = {}) => ({
  'fixtures.tank': {
    name: 'Fuel tank',
    kind: 'fuelTank',
    shape: { type: 'box', sizeM: [0.6, 0.4, 0.4] },
    pose: { at },
    grade: 'measured',
    ...more,
  },
});

describe('the place of a battery', () => {
  it('lets it give 10 mm by ISO 10133 (quoted) and 1 in by 33 CFR 183.420 (published)', () => {
    const gives = (movesM: number, practice: string) =>
      verdict(bent(RULE, { 'fixtures.bank.movesM': movesM, practice }), key('held'));
    expect(gives(0.02, 'isoSmallCraft')).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      measured: { value: 0.02 },
      limit: { value: 0.01 },
      sources: [{ key: 'iso-10133' }],
    });
    expect(gives(0.01, 'isoSmallCraft')).toMatchObject({ outcome: 'pass' });
    expect(gives(0.0254, 'usVoluntary')).toMatchObject({ outcome: 'pass', sources: [{ key: 'cfr-33-183' }] });
    expect(gives(0.026, 'usVoluntary')).toMatchObject({ outcome: 'fail' });
  });

  it('is no place where it is said to be loose; where it is said to be held it passes', () => {
    const held = (heldDown: boolean) =>
      verdict(bent(RULE, { 'fixtures.bank.movesM': undefined, 'fixtures.bank.heldDown': heldDown }), key('held'));
    expect(held(false)).toMatchObject({ outcome: 'fail', reason: 'loose' });
    expect(held(true)).toMatchObject({ outcome: 'pass' });
  });

  it('stands above the bilge water: its bottom at z = -0.4 m', () => {
    const water = (z: number) => verdict(bent(RULE, { 'compartments.locker.bilgeWaterM': z }), key('dry'));
    expect(water(-0.35)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'inWater',
      measured: { value: expect.closeTo(-0.05, 9), unit: 'm' },
    });
    expect(water(-0.4)).toMatchObject({ outcome: 'pass', measured: { value: expect.closeTo(0, 9) } });
    expect(verdict(bent(RULE, { 'compartments.locker.kind': 'bilge' }), key('dry'))).toMatchObject({
      outcome: 'cannotTell',
      reason: 'bilgeWaterUnknown',
    });
  });

  it('has a vent for flooded lead, and none is asked for otherwise', () => {
    const vent = (chemistry: string, ventAreaM2?: number) =>
      bent(RULE, { 'fixtures.bank.electric.chemistry': chemistry, 'compartments.locker.ventAreaM2': ventAreaM2 });
    expect(verdict(vent('floodedLead', 0), key('aired'))).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      hazards: ['dcFault', 'ignition'],
    });
    expect(verdict(vent('floodedLead', 0.001), key('aired'))).toMatchObject({ outcome: 'pass' });
    expect(verdict(vent('floodedLead'), key('aired'))).toMatchObject({ outcome: 'cannotTell', reason: 'ventUnknown' });
    expect(verdicts(vent('lithium', 0), RULE).map(({ key: found }) => found)).toEqual([key('held')]);
  });

  it('is neither above nor below fuel (33 CFR 183.420(d), published): 100 mm of it would be', () => {
    // the bank ends at 0.5 m, the tank begins 0.3 m before its middle
    const beside = (x: number) => verdict(bent(RULE, tank([x, 0.5, 0.2])), key('over tank'));
    expect(beside(0.7)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'overFuel',
      measured: { value: expect.closeTo(0.1, 9) },
      limit: { value: 0 },
      data: { isAbove: true },
    });
    expect(beside(0.8)).toMatchObject({ outcome: 'pass' });
    expect(beside(0.9)).toMatchObject({ outcome: 'pass', measured: { value: expect.closeTo(-0.1, 9) } });
  });

  it('is 300 mm from bare metal of the fuel that reaches above it, 12 in by 33 CFR 183.420(c) (published)', () => {
    const metal = (gapM: number, more: object = {}) =>
      verdict(bent(RULE, { ...tank([0.8 + gapM, 0.5, -0.15], { bareMetal: true }), ...more }), key('metal tank'));
    expect(metal(0.29)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(0.29, 6) },
      limit: { value: 0.3 },
    });
    expect(metal(0.3001)).toMatchObject({ outcome: 'pass' });
    expect(metal(0.302, { practice: 'usVoluntary' })).toMatchObject({ outcome: 'fail', limit: { value: 0.3048 } });
    const covered = verdicts(bent(RULE, tank([1, 0.5, -0.15])), RULE).map(({ key: found }) => found);
    expect(covered).toEqual([key('held'), key('over tank')]);
  });

  it('is mended by straps and by a vent', () => {
    expect(mends(boatOf(bent(RULE, {})), key('held'))).toContainEqual(
      expect.objectContaining({
        change: 'add',
        what: { item: 'straps', to: 'bank' },
        hazards: ['dcFault', 'ignition'],
      }),
    );
    const shut = { 'fixtures.bank.electric.chemistry': 'floodedLead', 'compartments.locker.ventAreaM2': 0 };
    expect(mends(boatOf(bent(RULE, shut)), key('aired'))).toContainEqual(
      expect.objectContaining({
        change: 'value',
        what: expect.objectContaining({ id: 'locker', field: 'ventAreaM2' }),
      }),
    );
  });

  it('is not spoken of where nothing is entered', () => {
    expect(verdict(bent(RULE, { 'fixtures.bank.movesM': undefined }), key(''))).toMatchObject({
      outcome: 'notApplicable',
      reason: 'nothingEntered',
    });
  });
});
