import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/motor-voltage';
const KEY = `${RULE}|motor|`;
// 3.0 m from port to port and 0.1 m for the ends, out and back, of 2.5 mm2
const COPPER_M = 2 * 3.1;

describe('voltage at the motor', () => {
  it('is the source less I rho L / S with the ISO constant: 12.5 - 20 x 0.0164 x 6.2 / 2.5 (derived)', () => {
    const volts = 12.5 - (20 * 0.0164 * COPPER_M) / 2.5;
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(volts, 4), unit: 'V' },
      limit: { value: expect.closeTo(12.5 * 0.95, 9), bound: 'atLeast' },
    });
  });

  it('uses the constant of the practice that the boat follows, and names its source', () => {
    const volts = 12.5 - (20 * 0.017871 * COPPER_M) / 2.5;
    expect(verdict(bent(RULE, { practice: 'usVoluntary' }), KEY)).toMatchObject({
      measured: { value: expect.closeTo(volts, 4) },
      sources: [{ key: 'abyc-e11', standing: 'quoted' }],
    });
  });

  it('passes with copper enough, and at the limit', () => {
    expect(verdict(bent(RULE, { 'lineKinds.thin-pair.areaMm2': 6 }), KEY)).toMatchObject({ outcome: 'pass' });
    const atLimit = (20 * 0.0164 * COPPER_M) / (12.5 * 0.05);
    expect(verdict(bent(RULE, { 'lineKinds.thin-pair.areaMm2': Math.ceil(atLimit * 1e6) / 1e6 }), KEY)).toMatchObject({
      outcome: 'pass',
    });
    expect(verdict(bent(RULE, { 'lineKinds.thin-pair.areaMm2': Math.floor(atLimit * 1e4) / 1e4 }), KEY)).toMatchObject({
      outcome: 'fail',
    });
  });

  it('is asked of a pump that is aboard already, once its cables are drawn: the same volts (derived)', () => {
    const { motor } = bent(RULE, {}).parts as Record<string, object>;
    const aboard = {
      parts: {},
      'arrangements.plan.places': {},
      'fixtures.motor': { ...motor, pose: { at: [3.6, 0.5, -0.3] } },
    };
    expect(verdict(bent(RULE, { ...aboard, 'lines.cable.existing': true }), KEY)).toMatchObject({
      outcome: 'fail',
      cause: 'existing',
      measured: { value: expect.closeTo(12.5 - (20 * 0.0164 * COPPER_M) / 2.5, 4) },
    });
    expect(verdict(bent(RULE, { ...aboard, lines: {} }), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });

  it('loses half as much with half the current', () => {
    const half = verdict(bent(RULE, { 'parts.motor.electric.drawA': 10 }), KEY);
    expect(half).toMatchObject({ measured: { value: expect.closeTo(12.5 - (10 * 0.0164 * COPPER_M) / 2.5, 4) } });
  });

  it('counts what fuses and contacts take on the way', () => {
    const fuse = {
      name: 'Fuse',
      kind: 'fuse',
      shape: { type: 'box', sizeM: [0.1, 0.06, 0.06] },
      ports: {
        in: { at: [-0.05, 0, 0], direction: [-1, 0, 0], medium: 'dcPower' },
        out: { at: [0.05, 0, 0], direction: [1, 0, 0], medium: 'dcPower' },
      },
      electric: { leakOhm: 0.01 },
    };
    const json = bent(RULE, {
      'parts.fuse': fuse,
      'arrangements.plan.places.fuse': { at: [1.5, 0.5, -0.35] },
      'lines.cable.to': { thing: 'fuse', port: 'in' },
      'lines.on': {
        name: 'Fuse to pump',
        kind: 'thin-pair',
        medium: 'dcPower',
        from: { thing: 'fuse', port: 'out' },
        to: { thing: 'motor', port: 'plus' },
      },
    });
    // 2.9 m of cable, twice 0.1 m for ends, out and back, and 0.01 ohm
    expect(verdict(json, KEY)).toMatchObject({
      measured: { value: expect.closeTo(12.5 - 20 * (0.01 + (0.0164 * 2 * 3.1) / 2.5), 4) },
    });
  });

  it('cannot tell without a source, a return or a copper area', () => {
    expect(verdict(bent(RULE, { lines: {} }), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noSource' });
    expect(verdict(bent(RULE, { 'lineKinds.thin-pair.conductors': 1 }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noReturn',
    });
    expect(verdict(bent(RULE, { 'lineKinds.thin-pair.areaMm2': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noArea',
    });
  });

  it('takes the current of its cable where the motor states none, and the larger where a feeder is shared', () => {
    const volts = (amperes: number) => ({
      measured: { value: expect.closeTo(12.5 - (amperes * 0.0164 * COPPER_M) / 2.5, 4) },
    });
    expect(
      verdict(bent(RULE, { 'parts.motor.electric.drawA': undefined, 'lines.cable.currentA': 15 }), KEY),
    ).toMatchObject(volts(15));
    expect(verdict(bent(RULE, { 'lines.cable.currentA': 26 }), KEY)).toMatchObject(volts(26));
    expect(verdict(bent(RULE, { 'lines.cable.currentA': 5 }), KEY)).toMatchObject(volts(20));
  });

  it('cannot tell without the current, and does not apply where no electrics are drawn', () => {
    expect(verdict(bent(RULE, { 'parts.motor.electric': {} }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noCurrent',
    });
    const handPump = bent(RULE, { 'parts.motor.electric': undefined, 'parts.motor.ports': {}, lines: {} });
    expect(verdict(handPump, KEY)).toMatchObject({ outcome: 'notApplicable' });
  });

  it('says how many litres an hour are lost: 6.5 % of 30 (derived)', () => {
    const share = (20 * 0.0164 * COPPER_M) / 2.5 / 12.5;
    const found = verdict(bent(RULE, { 'parts.motor.productLH': 30 }), KEY);
    expect(found.data.lostLH).toBeCloseTo(30 * share, 6);
  });

  it('does not apply to what mains or the engine drive', () => {
    for (const drivenBy of ['ac', 'engine'])
      expect(verdict(bent(RULE, { 'parts.motor.electric.drivenBy': drivenBy }), KEY)).toMatchObject({
        outcome: 'notApplicable',
        reason: 'notFromBank',
      });
  });

  it('says nothing of what is no motor and draws nothing', () => {
    expect(verdicts(bent(RULE, { 'parts.motor.kind': 'other', 'parts.motor.electric': {} }), RULE)).toEqual([]);
  });
});
