import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/fuse-distance';
const KEY = `${RULE}|feed|`;
/** Port of the bank at x = 0.5 m, half the fuse 60 mm. */
const fuseAfter = (lengthM: number) => ({ 'fixtures.fuse.pose.at.0': 0.56 + lengthM });

describe('a fuse along its cable from the bank', () => {
  it('is a fault 500 mm off on a bare cable: 7 in are allowed (33 CFR 183.455(b)(1), published)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(0.5, 6), unit: 'm' },
      limit: { value: 0.1778, bound: 'atMost' },
      related: ['bank', 'fuse'],
      sources: [{ key: 'cfr-33-183', standing: 'published' }],
      hazards: ['dcFault'],
    });
  });

  it('passes at 177 mm and fails at 179 mm', () => {
    expect(verdict(bent(RULE, fuseAfter(0.177)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, fuseAfter(0.179)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('may be 40 in off in a sheath, of the line or of its kind (33 CFR 183.455(b)(2), published)', () => {
    for (const sheath of ['lines.feed.sheathed', 'lineKinds.pair.sheathed']) {
      expect(verdict(bent(RULE, { [sheath]: true, ...fuseAfter(1.015) }), KEY)).toMatchObject({ outcome: 'pass' });
      expect(verdict(bent(RULE, { [sheath]: true, ...fuseAfter(1.02) }), KEY)).toMatchObject({ outcome: 'fail' });
    }
  });

  it('may be 72 in off in a sheath at a battery by US practice, and the verdict names ABYC E-11 (quoted)', () => {
    const us = { practice: 'usVoluntary', 'lines.feed.sheathed': true };
    expect(verdict(bent(RULE, { ...us, ...fuseAfter(1.82) }), KEY)).toMatchObject({
      outcome: 'pass',
      limit: { value: 1.8288 },
      sources: [{ key: 'abyc-e11', standing: 'quoted' }],
    });
    expect(verdict(bent(RULE, { ...us, ...fuseAfter(1.84) }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
    });
    // at another source 40 in
    const other = { ...us, 'fixtures.bank.kind': 'other' };
    expect(verdict(bent(RULE, { ...other, ...fuseAfter(1.2) }), KEY)).toMatchObject({ limit: { value: 1.016 } });
  });

  it('is a danger where there is petrol aboard, and the words say whom the law binds', () => {
    const tank = { name: 'Tank', kind: 'fuelTank', shape: { type: 'box', sizeM: [0.2, 0.2, 0.2] }, fuel: 'petrol' };
    const cabin = {
      name: 'Cabin',
      view: 'plan',
      outline: [
        [5, 0],
        [6, 0],
        [6, 1],
        [5, 1],
      ],
      rangeM: [0, 1],
    };
    const json = bent(RULE, { 'compartments.far': cabin, 'fixtures.tank': { ...tank, pose: { at: [5.5, 0.5, 0.5] } } });
    expect(verdict(json, KEY)).toMatchObject({ outcome: 'fail', severity: 'danger', data: { isPetrol: true } });
  });

  it('is missing where a pump hangs on the bank: a danger of what is planned, an open question of what is aboard', () => {
    const straight = { 'lines.feed.to': { thing: 'motor', port: 'in' }, 'lines.on': undefined };
    expect(verdict(bent(RULE, straight), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'noFuse',
      measured: { value: 0, unit: 'count' },
      related: ['bank', 'motor'],
    });
    expect(verdict(bent(RULE, { ...straight, 'lines.feed.existing': true }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noFuseDrawn',
    });
  });

  it('is an open question of a panel aboard that hangs on its bank by a long cable', () => {
    const panel = { 'fixtures.fuse.kind': 'dcPanel', 'lines.feed.existing': true };
    expect(verdict(bent(RULE, panel), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noFuseDrawn' });
    expect(verdict(bent(RULE, { ...panel, ...fuseAfter(0.17) }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { ...panel, 'lines.feed.existing': false }), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('is not asked for in the return of single conductors, whether they say so or not', () => {
    const single = {
      'lineKinds.pair.conductors': 1,
      'fixtures.bank.ports.second': { at: [0.15, 0.08, -0.05], direction: [1, 0, 0], medium: 'dcPower' },
      'fixtures.motor.ports.back': { at: [-0.1, 0.08, 0], direction: [-1, 0, 0], medium: 'dcPower' },
      'lines.back': {
        name: 'Black cable',
        kind: 'pair',
        medium: 'dcPower',
        from: { thing: 'bank', port: 'second' },
        to: { thing: 'motor', port: 'back' },
      },
    };
    expect(verdicts(bent(RULE, single), RULE).map(({ key }) => key)).toEqual([KEY]);
    const named = bent(RULE, { ...single, 'lines.back.name': 'Motor to bank, minus' });
    expect(verdicts(named, RULE).map(({ key }) => key)).toEqual([KEY]);
  });

  it('does not apply to what cranks an engine, to what leads nowhere, without a run, and at a panel', () => {
    const engine = {
      'lines.feed.to': { thing: 'motor', port: 'in' },
      'fixtures.motor.kind': 'engine',
      'lines.on': undefined,
    };
    expect(verdict(bent(RULE, engine), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'cranking' });
    const nowhere = { 'fixtures.fuse.kind': 'busbar', 'lines.on': undefined };
    expect(verdict(bent(RULE, nowhere), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'leadsNowhere' });
    const stiff = { 'lineKinds.pair.outsideM': 0.9 };
    expect(verdict(bent(RULE, stiff), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noRun' });
    expect(verdicts(bent(RULE, { 'fixtures.bank.kind': 'dcPanel' }), RULE)).toEqual([]);
  });

  it('offers a sheath where that is enough, and it is', () => {
    const offers = mends(boatOf(bent(RULE, {})), KEY);
    expect(offers).toContainEqual(
      expect.objectContaining({ change: 'value', what: expect.objectContaining({ id: 'feed', field: 'sheathed' }) }),
    );
    expect(mends(boatOf(bent(RULE, fuseAfter(1.5))), KEY).map(({ change }) => change)).not.toContain('value');
  });
});
