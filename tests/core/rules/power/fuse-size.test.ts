import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/fuse-size';
const KEY = `${RULE}|fuse|`;
const rated = (amperes: number | undefined) => ({ 'fixtures.fuse.electric.ratingA': amperes });
const kind = (more: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(more).map(([key, value]) => [`lineKinds.pair.${key}`, value]));

describe('a fuse and the cable behind it', () => {
  it('may be rated at 150 % of Table 5: 80 A of gauge 8 at 105 C make 120 A (33 CFR 183.455(c), published)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      measured: { value: 150, unit: 'A' },
      limit: { value: 120, bound: 'atMost' },
      related: ['on'],
      data: { gauge: '8', ampacityA: 80 },
    });
    expect(verdict(bent(RULE, rated(120)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, rated(121)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it.each([
    // ampacity from the table by hand
    [5.26, 105, '10', 90],
    [10, 60, '8', 82.5],
    [16, 75, '6', 142.5],
    [33.6, 90, '2', 270],
  ])('%s mm2 with insulation for %s C counts as gauge %s: %s A', (areaMm2, temperatureC, gauge, limit) => {
    expect(verdict(bent(RULE, kind({ areaMm2, temperatureC })), KEY)).toMatchObject({
      limit: { value: expect.closeTo(limit, 9) },
      data: { gauge },
    });
  });

  it('counts an engine space: 80 x 0.85 x 1.5 = 102 A (note 1 of Table 5)', () => {
    const hot = bent(RULE, { 'compartments.locker.kind': 'engineSpace', ...rated(110) });
    expect(verdict(hot, KEY)).toMatchObject({ outcome: 'fail', limit: { value: expect.closeTo(102, 9) } });
  });

  it('without the rating of the insulation is sure where all agree: 60 C allows 82.5 A, 105 C 120 A', () => {
    const bare = kind({ temperatureC: undefined });
    expect(verdict(bent(RULE, { ...bare, ...rated(80) }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { ...bare, ...rated(125) }), KEY)).toMatchObject({ outcome: 'fail' });
    expect(verdict(bent(RULE, { ...bare, ...rated(100) }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noInsulation',
    });
  });

  it('looks at the thinnest conductor behind it, and not behind the next fuse', () => {
    const thin = {
      ...kind({}),
      'lineKinds.thin': {
        name: 'Thin',
        what: 'cable',
        outsideM: 0.008,
        bendRadiusM: 0.03,
        areaMm2: 2.5,
        conductors: 2,
        temperatureC: 105,
      },
    };
    const more = {
      ...thin,
      ...rated(60),
      'fixtures.bar': {
        name: 'Bar',
        kind: 'busbar',
        shape: { type: 'box', sizeM: [0.1, 0.05, 0.05] },
        pose: { at: [2, 0.5, -0.35] },
        ports: {
          in: { at: [-0.05, 0, 0], direction: [-1, 0, 0], medium: 'dcPower' },
          out: { at: [0.05, 0, 0], direction: [1, 0, 0], medium: 'dcPower' },
        },
      },
      'lines.on.to': { thing: 'bar', port: 'in' },
      'lines.off': {
        name: 'Bar to pump',
        kind: 'thin',
        medium: 'dcPower',
        from: { thing: 'bar', port: 'out' },
        to: { thing: 'motor', port: 'in' },
      },
    };
    // gauge 14 carries 35 A: 52.5 A
    expect(verdict(bent(RULE, more), KEY)).toMatchObject({ outcome: 'fail', limit: { value: 52.5 }, related: ['off'] });
    const guarded = { ...more, 'fixtures.bar.kind': 'breaker', 'fixtures.bar.electric': { ratingA: 40 } };
    expect(verdict(bent(RULE, guarded), KEY)).toMatchObject({ outcome: 'pass', related: ['on'] });
    expect(verdict(bent(RULE, guarded), `${RULE}|bar|`)).toMatchObject({ outcome: 'pass', limit: { value: 52.5 } });
  });

  it('is too small below its load, and fits at it', () => {
    const load = (amperes: number) =>
      verdict(bent(RULE, { ...rated(20), 'fixtures.motor.electric.drawA': amperes }), `${KEY}load`);
    expect(load(20)).toMatchObject({ outcome: 'pass' });
    expect(load(21)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: 20 },
      limit: { value: 21, bound: 'atLeast' },
    });
  });

  it('cannot tell without a rating or a copper area, and does not apply without a source or a cable', () => {
    expect(verdict(bent(RULE, rated(undefined)), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noRating',
      missing: { path: 'fixtures.fuse.electric.ratingA', unit: 'A' },
    });
    expect(verdict(bent(RULE, kind({ areaMm2: undefined })), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'noArea',
    });
    expect(verdict(bent(RULE, { 'lines.on': undefined }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdicts(bent(RULE, { 'lines.feed': undefined }), RULE)).toEqual([]);
  });

  it('offers a rating that cable and load allow, and thicker cable', () => {
    const offers = mends(boatOf(bent(RULE, {})), KEY);
    // 20 A and a quarter: 25 A
    expect(offers).toContainEqual(
      expect.objectContaining({ change: 'value', what: { id: 'fuse', field: 'electric.ratingA', from: 150, to: 25 } }),
    );
    expect(offers).toContainEqual(
      expect.objectContaining({ change: 'kind', what: expect.objectContaining({ line: 'on', to: 'cable-pair-16' }) }),
    );
  });
});
