import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/compass-parts';
const KEY = `${RULE}|motor|`;
/** The motor ends at 1.1 m; the compass is 100 mm wide. */
const gap = (m: number) => ({ 'fixtures.compass.pose.at.0': 1.15 + m });
const zoned = (thing: string, radiusM: number) => ({
  [`fixtures.${thing}.zones`]: { about: { kind: 'magnetic', radiusM } },
});

describe('magnets by a compass', () => {
  it('keep 1 m off one that says nothing, from side to side (common practice, no source)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(0.6, 9), unit: 'm' },
      limit: { value: 1, bound: 'atLeast' },
      related: ['compass'],
      sources: [{ key: 'practice' }],
    });
    expect(verdict(bent(RULE, gap(1.0001)), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('keep the zone of the compass where it has one, and their own where that is larger', () => {
    expect(verdict(bent(RULE, zoned('compass', 0.5)), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 0.5 } });
    expect(verdict(bent(RULE, { ...zoned('compass', 0.5), ...zoned('motor', 0.7) }), KEY)).toMatchObject({
      outcome: 'fail',
      limit: { value: 0.7 },
      sources: [{ key: 'boat-file' }],
    });
    expect(verdict(bent(RULE, { ...zoned('compass', 0.8), ...zoned('motor', 0.7) }), KEY)).toMatchObject({
      limit: { value: 0.8 },
    });
  });

  it('that are no motor keep what they say themselves', () => {
    const iron = { 'fixtures.motor.electric': undefined, ...zoned('motor', 0.5), ...zoned('compass', 2) };
    expect(verdict(bent(RULE, iron), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 0.5 } });
    expect(verdict(bent(RULE, { ...iron, ...zoned('motor', 0.65) }), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('are a pump of the set without a word of its brushes, and not one without brushes', () => {
    const pump = (brushed: boolean | undefined) =>
      bent(RULE, { 'fixtures.motor.kind': 'feedPump', 'fixtures.motor.electric.brushed': brushed });
    expect(verdict(pump(undefined), KEY)).toMatchObject({ outcome: 'fail' });
    expect(verdicts(pump(false), RULE)).toEqual([]);
  });

  it('do not matter without a compass, and before they are placed', () => {
    expect(verdicts(bent(RULE, { 'fixtures.compass.kind': 'other' }), RULE)).toEqual([]);
    const { pose: _, ...motor } = (bent(RULE, {}) as { fixtures: { motor: { pose: object } } }).fixtures.motor;
    const loose = bent(RULE, { 'fixtures.motor': undefined, 'parts.motor': motor });
    expect(verdict(loose, KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'notPlaced' });
  });
});
