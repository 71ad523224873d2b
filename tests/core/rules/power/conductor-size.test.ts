import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict } from '../judged';

const RULE = 'power/conductor-size';
const KEY = `${RULE}|on|`;
const draws = (amperes: number | undefined) => ({ 'fixtures.motor.electric.drawA': amperes });
const APART = { 'lines.on.bundle': undefined, 'lines.on2.bundle': undefined };

describe('the current in a power cable', () => {
  it('may be 0.6 of 35 A in a bundle of two pairs: 21 A (Table 5 published, bundle quoted from UL 1426 tables)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      measured: { value: 25, unit: 'A' },
      limit: { value: expect.closeTo(21, 9), bound: 'atMost' },
      related: ['on2'],
      data: { gauge: '14', bundled: 4 },
    });
    expect(verdict(bent(RULE, draws(21)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, draws(21.1)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('may be 35 A alone: the pumps moved apart, and no bundle said', () => {
    const far = { ...APART, 'fixtures.fuse2.pose.at.1': 0.9, 'fixtures.motor2.pose.at.1': 0.9, ...draws(34) };
    expect(verdict(bent(RULE, far), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 35 }, related: [] });
  });

  it('sees by itself that runs lie together, 4 mm apart over 3 m', () => {
    const beside = { ...APART, 'fixtures.fuse2.pose.at.1': 0.513, 'fixtures.motor2.pose.at.1': 0.513 };
    const size = {
      'fixtures.fuse.shape.sizeM.1': 0.01,
      'fixtures.fuse2.shape.sizeM.1': 0.01,
      'fixtures.motor.shape.sizeM.1': 0.01,
      'fixtures.motor2.shape.sizeM.1': 0.01,
    };
    expect(verdict(bent(RULE, { ...beside, ...size }), KEY)).toMatchObject({ data: { bundled: 4 }, related: ['on2'] });
  });

  it('may be 0.85 of that in an engine space (note 1 of Table 5, published)', () => {
    const engine = bent(RULE, {
      ...APART,
      'fixtures.fuse2.pose.at.1': 0.9,
      'fixtures.motor2.pose.at.1': 0.9,
      'compartments.locker.kind': 'engineSpace',
    });
    expect(verdict(engine, KEY)).toMatchObject({
      limit: { value: expect.closeTo(29.75, 9) },
      data: { engineSpace: true },
    });
  });

  it('is what the cable says, but no less than what one motor draws', () => {
    expect(verdict(bent(RULE, { 'lines.on.currentA': 30 }), KEY)).toMatchObject({ measured: { value: 30 } });
    expect(verdict(bent(RULE, { 'lines.on.currentA': 3 }), KEY)).toMatchObject({ measured: { value: 25 } });
    expect(verdict(bent(RULE, { 'lines.on.currentA': 30, ...draws(undefined) }), KEY)).toMatchObject({
      measured: { value: 30 },
    });
  });

  it('cannot tell without a copper area, nor where the insulation decides: 60 C carries 12 A, 105 C 21 A', () => {
    expect(verdict(bent(RULE, { 'lineKinds.thin.areaMm2': undefined }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noArea',
    });
    const bare = { 'lineKinds.thin.temperatureC': undefined };
    expect(verdict(bent(RULE, { ...bare, ...draws(15) }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noInsulation',
    });
    expect(verdict(bent(RULE, { ...bare, ...draws(12) }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { ...bare, ...draws(22) }), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('does not apply without a current, nor to copper that the table does not know', () => {
    expect(verdict(bent(RULE, draws(undefined)), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noCurrent' });
    expect(verdict(bent(RULE, { 'lineKinds.thin.areaMm2': 0.5 }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'notInTable',
    });
  });

  it('offers cable that is thick enough for the bundle: 6 mm2 counts as gauge 10, 60 x 0.6 = 36 A; 4 mm2 as 12, 27 A', () => {
    expect(mends(boatOf(bent(RULE, {})), KEY)).toContainEqual(
      expect.objectContaining({ change: 'kind', what: { line: 'on', from: 'thin', to: 'cable-pair-4' } }),
    );
  });
});
