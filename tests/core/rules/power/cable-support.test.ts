import { readFileSync } from 'node:fs';
import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/cable-support';
const KEY = `${RULE}|on|`;
const hall = (
  JSON.parse(
    readFileSync(new URL('../../../../sample-boats/faulty/power-cable-support/expected.json', import.meta.url), 'utf8'),
  ) as {
    variants: { name: string; set: Record<string, unknown> }[];
  }
).variants.find(({ name }) => name.startsWith('800'))?.set as Record<string, unknown>;

describe('clips of power cables', () => {
  it('come every 450 mm at the widest (ISO 10133 7.3 and ABYC E-11, quoted)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: 0.6, unit: 'm' },
      limit: { value: 0.45, bound: 'atMost' },
    });
    expect(verdict(bent(RULE, { 'lines.on.clipM': 0.45 }), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('of the kind count where the line says nothing', () => {
    const kind = (supportM: number | undefined) =>
      bent(RULE, { 'lines.on.clipM': undefined, 'lineKinds.pair.supportM': supportM });
    expect(verdict(kind(0.5), KEY)).toMatchObject({ outcome: 'fail', measured: { value: 0.5 } });
    expect(verdict(kind(0.4), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(kind(undefined), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noSpacing' });
  });

  it('at a battery come every 300 mm (ISO 10133 7.4, quoted), but not on what is shorter', () => {
    const feed = (clipM: number) => bent(RULE, { 'fixtures.fuse.pose.at.0': 1.2, 'lines.feed.clipM': clipM });
    expect(verdict(feed(0.3), `${RULE}|feed|`)).toMatchObject({ outcome: 'pass' });
    expect(verdict(feed(0.31), `${RULE}|feed|`)).toMatchObject({
      outcome: 'fail',
      limit: { value: 0.3 },
      data: { atBattery: true },
    });
    expect(verdict(bent(RULE, { 'lines.feed.clipM': 0.4 }), `${RULE}|feed|`)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'short',
    });
  });

  it('begin within 1 m of a battery: of a box whose wall is 800 mm off yes, farther off no; the battery itself holds none', () => {
    const box = (x: number) => ({
      ...hall,
      'fixtures.wall': { ...(hall['fixtures.wall'] as object), pose: { at: [x, 1.9, -0.35] } },
    });
    const first = (x: number) => verdict(bent(RULE, box(x)), `${RULE}|feed|first`);
    // the box begins 200 mm before its middle; a bracket reaches as far again and the radius of the cable
    expect(first(1.55)).toMatchObject({ outcome: 'pass', related: ['bank'] });
    expect(first(2.3)).toMatchObject({ outcome: 'fail', severity: 'fault', limit: { value: 1 } });
  });

  it('say nothing of hoses, and of a cable without a run', () => {
    expect(verdicts(bent(RULE, { 'lines.on.medium': 'air' }), RULE).map(({ subject }) => subject)).not.toContain('on');
    expect(verdict(bent(RULE, { 'lineKinds.pair.outsideM': 0.9 }), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });

  it('are offered as close as they have to be', () => {
    expect(mends(boatOf(bent(RULE, {})), KEY)).toContainEqual(
      expect.objectContaining({ change: 'value', what: { id: 'on', field: 'clipM', from: 0.6, to: 0.45 } }),
    );
  });
});
