import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'access/service-space';
const KEY = `${RULE}|filter|bowl`;
const at = (z: number) => ({ 'arrangements.plan.places.filter.at': [0.6, 0.5, z] });

describe('clear space of a service task', () => {
  it('is measured to the first thing in the way: 25 of 60 mm under a bowl (derived: -375 - -400)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      measured: { value: expect.closeTo(0.025, 6), unit: 'm' },
      limit: { value: 0.06, bound: 'atLeast' },
    });
  });

  it('follows the place by the millimetre, and passes at the limit', () => {
    expect(verdict(bent(RULE, at(-0.185)), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0.055, 6) },
      closeCall: {},
    });
    expect(verdict(bent(RULE, at(-0.18)), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.06, 6) },
      closeCall: {},
    });
  });

  it('turns red when the limit doubles and green when it halves', () => {
    expect(verdict(bent(RULE, { ...at(-0.14), 'parts.filter.services.bowl.clearM': 0.2 }), KEY).outcome).toBe('fail');
    expect(verdict(bent(RULE, { 'parts.filter.services.bowl.clearM': 0.025 }), KEY).outcome).toBe('pass');
  });

  it('names the thing in the way', () => {
    const battery = {
      name: 'Battery',
      kind: 'battery',
      shape: { type: 'box', sizeM: [0.3, 0.3, 0.1] },
      pose: { at: [0.6, 0.5, -0.35] },
    };
    const json = bent(RULE, { ...at(-0.1), 'fixtures.battery': battery });
    expect(verdict(json, KEY)).toMatchObject({
      outcome: 'fail',
      related: ['battery'],
      measured: { value: expect.closeTo(0.04, 6) },
    });
  });

  it('is enough with one of several alternatives', () => {
    const up = {
      task: 'bowlDrop',
      at: [0, 0, 0.16],
      direction: [0, 0, 1],
      acrossM: [0.135, 0.135],
      clearM: 0.3,
      either: 'cartridge',
    };
    const json = bent(RULE, { 'parts.filter.services.bowl.either': 'cartridge', 'parts.filter.services.up': up });
    expect(verdicts(json, RULE)).toMatchObject([
      { key: `${RULE}|filter|cartridge`, outcome: 'pass', limit: { value: 0.3 } },
    ]);
  });

  it('works through an opening that is lifted first', () => {
    const lid = {
      name: 'Board in the sole',
      compartment: 'locker',
      to: 'outside',
      at: [0.6, 0.5, -0.4],
      normal: [0, 0, -1],
      widthM: 0.3,
      heightM: 0.3,
    };
    expect(verdict(bent(RULE, { 'openings.lid': lid }), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('does not apply without a place, nor to a thing without tasks', () => {
    expect(verdicts(bent(RULE, { 'arrangements.plan.places': {} }), RULE)).toMatchObject([
      { outcome: 'notApplicable' },
    ]);
    expect(verdicts(bent(RULE, { 'parts.filter.services': {} }), RULE)).toEqual([]);
  });

  it('goes through a lid that is as large as the space itself, a rectangle by its corners (derived: bottom -375, lid at 510 - clear 900)', () => {
    const lid = {
      name: 'Lid',
      compartment: 'locker',
      at: [0.6, 0.5, 0.51],
      normal: [0, 0, 1],
      widthM: 0.2,
      heightM: 0.4,
    };
    const up = { task: 'lid', at: [0, 0, 0.16], direction: [0, 0, 1], acrossM: [0.4, 0.2], clearM: 0.9 };
    const json = { 'parts.filter.services.up': up, 'openings.lid': lid };
    expect(verdict(bent(RULE, json), `${RULE}|filter|up`).outcome).toBe('pass');
    const narrower = { ...json, 'openings.lid.widthM': 0.19 };
    expect(verdict(bent(RULE, narrower), `${RULE}|filter|up`)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0.555, 6) },
    });
  });
});
