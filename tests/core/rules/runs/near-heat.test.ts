import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'runs/near-heat';
const KEY = `${RULE}|hose|`;
/** A hose of which the owner knows more or less. */
const made = (temperatureC?: number) => ({
  'lines.hose.kind': 'made',
  'lineKinds.made': {
    name: 'Made hose',
    what: 'hose',
    outsideM: 0.019,
    bendRadiusM: 0.104,
    supportM: 1,
    ...(temperatureC === undefined ? {} : { temperatureC }),
  },
});

describe('hose near heat', () => {
  it('fails over an engine: clip point at 50, half of 19 mm off it, so 40.5 or less (derived)', () => {
    const found = verdict(bent(RULE, {}), KEY);
    expect(found.outcome === 'fail' ? found.measured.value : 1).toBeLessThan(0.0406);
    expect(found).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      limit: { value: 0.15, bound: 'atLeast' },
      related: ['engine'],
      data: { heatC: 90, standsC: 60 },
    });
  });

  it('passes at the limit: kept as built 150 mm and half of 19 over it (derived)', () => {
    const at = (z: number) =>
      verdict(
        bent(RULE, {
          'fixtures.tee.pose.at.2': z,
          'fixtures.tap.pose.at.2': z,
          'arrangements.plan.clipPoints': {},
          'arrangements.plan.pins': {
            hose: {
              points: [
                [0.25, 0.05, z],
                [2.15, 0.05, z],
              ],
            },
          },
        }),
        KEY,
      );
    expect(at(0.1596)).toMatchObject({ outcome: 'pass', measured: { value: expect.closeTo(0.1501, 6) } });
    expect(at(0.1594)).toMatchObject({ outcome: 'fail', measured: { value: expect.closeTo(0.1499, 6) } });
  });

  it('takes the distance that the boat file gives', () => {
    const zones = { 'fixtures.engine.zones': { hot: { kind: 'hot', radiusM: 0.02 } } };
    expect(verdict(bent(RULE, zones), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 0.02 } });
  });

  it('lets a hose that stands the heat touch it', () => {
    expect(verdict(bent(RULE, made(100)), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 0 } });
    expect(verdict(bent(RULE, made(80)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('cannot tell of a kind without a highest temperature', () => {
    expect(verdict(bent(RULE, made()), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noTemperature' });
  });

  it('does not apply where nothing is hot, nor to what ends on it', () => {
    expect(verdict(bent(RULE, { 'fixtures.engine.kind': 'other' }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    const port = { at: [0.3, 0, 0.2], direction: [1, 0, 0], medium: 'freshWater' };
    expect(
      verdict(
        bent(RULE, {
          'fixtures.engine.ports': { out: port },
          'lines.hose.from': { thing: 'engine', port: 'out' },
          'arrangements.plan.clipPoints': {},
        }),
        KEY,
      ),
    ).toMatchObject({ outcome: 'notApplicable' });
  });
});
