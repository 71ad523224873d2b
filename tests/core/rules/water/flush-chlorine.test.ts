import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

/** Carbon before the membrane, or water that never holds chlorine: common practice, no source. */
const RULE = 'water/flush-chlorine';
const KEY = `${RULE}|membrane|tank`;
const told = (changes: Readonly<Record<string, unknown>>, key = KEY) => verdict(bent(RULE, changes), key);
const carbon = part('carbonFilter', { in: port('freshWater', 'in', -1), out: port('freshWater', 'out') });
const withCarbon = {
  'parts.carbon': carbon,
  'lines.f4': line('check.out', 'carbon.in', 'freshWater'),
  'lines.f5': line('carbon.out', 'service.fresh', 'freshWater'),
};

describe('fresh water on its way to the membrane', () => {
  it('without carbon is a fault, and a danger where the tank is said to hold chlorine or it comes from the shore', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'noCarbon',
      hazards: ['highPressure', 'drinkingWater'],
    });
    expect(told({ 'parts.tank.chlorineFree': false })).toMatchObject({ severity: 'danger' });
    const shore = { 'parts.tank': undefined, 'lines.w2': undefined, 'lines.f1': undefined };
    expect(told(shore, `${RULE}|membrane|fresh-pump`)).toMatchObject({ severity: 'danger', reason: 'noCarbon' });
  });

  it('passes through carbon, before or behind the flush valve, or where its source never holds chlorine', () => {
    expect(told(withCarbon)).toMatchObject({ outcome: 'pass' });
    expect(told({ ...withCarbon, 'parts.carbon.kind': 'filter', 'parts.carbon.name': 'Carbon block' })).toMatchObject({
      outcome: 'pass',
    });
    expect(told({ 'parts.tank.chlorineFree': true })).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.fresh-pump.chlorineFree': true })).toMatchObject({ outcome: 'pass' });
    const before = {
      'parts.carbon': carbon,
      'lines.f2': line('fresh-pump.out', 'carbon.in', 'freshWater'),
      'lines.f9': line('carbon.out', 'flush-valve.in', 'freshWater'),
    };
    expect(told(before)).toMatchObject({ outcome: 'pass' });
  });

  it('must not be able to pass the carbon by, not even through a valve that is usually shut', () => {
    const tee = part('tee', {
      a: port('freshWater', 'in', -1),
      b: port('freshWater', 'out'),
      c: port('freshWater', 'both'),
    });
    const stop = part(
      'other',
      { in: port('freshWater', 'in', -1), out: port('freshWater', 'out') },
      { valve: { states: ['shut', 'open'], normally: 'shut' } },
    );
    const bypass = {
      ...withCarbon,
      'parts.before': tee,
      'parts.behind': tee,
      'parts.stop': stop,
      'lines.f4': line('check.out', 'before.a', 'freshWater'),
      'lines.f5': line('before.b', 'carbon.in', 'freshWater'),
      'lines.f6': line('carbon.out', 'behind.a', 'freshWater'),
      'lines.f7': line('behind.b', 'service.fresh', 'freshWater'),
      'lines.f8': line('before.c', 'stop.in', 'freshWater'),
      'lines.f9': line('stop.out', 'behind.c', 'freshWater'),
    };
    expect(told(bypass)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'pastCarbon',
      related: expect.arrayContaining(['stop', 'tank']),
    });
    // As grave as no carbon at all: of a tank that nobody declares a fault, of one with chlorine a danger.
    expect(told({ ...bypass, 'parts.tank.chlorineFree': false })).toMatchObject({ severity: 'danger' });
  });

  it('is judged of each source: a shore hose at the service valve beside the tank', () => {
    const shore = part('other', { out: port('freshWater', 'out') }, { name: 'Shore connection' });
    const tee = part('tee', {
      a: port('freshWater', 'in', -1),
      b: port('freshWater', 'out'),
      c: port('freshWater', 'in'),
    });
    const joined = {
      ...withCarbon,
      'parts.shore': shore,
      'parts.tee': tee,
      'lines.f5': line('carbon.out', 'tee.a', 'freshWater'),
      'lines.f6': line('tee.b', 'service.fresh', 'freshWater'),
      'lines.f7': line('shore.out', 'tee.c', 'freshWater'),
    };
    expect(told(joined)).toMatchObject({ outcome: 'pass' });
    expect(told(joined, `${RULE}|membrane|shore`)).toMatchObject({ outcome: 'fail', severity: 'danger' });
    expect(told({ ...joined, 'parts.shore.chlorineFree': true }, `${RULE}|membrane|shore`)).toMatchObject({
      outcome: 'pass',
    });
  });

  it('is found where the flush joins a sea-water tee instead of a three-way valve', () => {
    const tee = part('tee', {
      sea: port('seaWater', 'in', -1),
      out: port('seaWater', 'out'),
      fresh: { ...port('seaWater', 'both'), medium: undefined },
    });
    const states = { operatingStates: {} };
    expect(told({ 'parts.service': tee, ...states })).toMatchObject({ outcome: 'fail', reason: 'noCarbon' });
    expect(told({ 'parts.service': tee, ...states, ...withCarbon })).toMatchObject({ outcome: 'pass' });
  });

  it('is not asked where nothing fresh is joined: a set that is flushed from a bucket', () => {
    expect(verdicts(bent(RULE, { 'lines.f4': undefined }), RULE)).toEqual([]);
  });

  it('speaks of the pressure pump where no membrane is drawn', () => {
    const none = { 'parts.membrane': undefined, 'lines.h1': undefined, 'lines.h2': undefined, 'lines.w1': undefined };
    expect(told(none, `${RULE}|pump|tank`)).toMatchObject({ outcome: 'fail' });
  });
});
