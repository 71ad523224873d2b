import { readBoat } from '@core/boat/read';
import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { bent, faultyBoat, verdict, verdicts } from '../judged';
import { line, part, port } from './pieces';

/** A check valve so that sea water can't reach the tank in flush: common practice; backflow protection: VSP 2018, 5.7.1.1.2, quoted. */
const RULE = 'water/backflow';
const KEY = `${RULE}|tank|`;
const told = (changes: Readonly<Record<string, unknown>>) => verdict(bent(RULE, changes), KEY);
const check = (more: object = {}) =>
  part(
    'other',
    { in: port('freshWater', 'in', -1), out: port('freshWater', 'out') },
    { valve: { states: ['held'], kind: 'check' }, ...more },
  );
const checked = (one: unknown) => ({
  'parts.check': one,
  'lines.f3': line('flush-valve.out', 'check.in', 'freshWater'),
  'lines.f4': line('check.out', 'carbon.in', 'freshWater'),
});

describe('sea water on its way to the tank', () => {
  it('that only the state of a valve holds back is a fault', () => {
    expect(told({})).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'valveOnly',
      hazards: ['hullHole', 'drinkingWater'],
      related: ['cock', 'strainer', 'service', 'carbon', 'flush-valve', 'fresh-pump'],
    });
  });

  it('that comes through in some setting of the valves is a danger', () => {
    const tee = part('tee', {
      sea: port('seaWater', 'in', -1),
      out: port('seaWater', 'out'),
      fresh: port('freshWater', 'in'),
    });
    expect(told({ 'parts.service': tee, operatingStates: {} })).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'reaches',
    });
    const passages = {
      all: { ports: ['sea', 'fresh'], when: ['fresh'] },
      feed: { ports: ['sea', 'out'], when: ['sea'] },
      f: { ports: ['fresh', 'out'], when: ['fresh'] },
    };
    expect(told({ 'parts.service.passages': passages })).toMatchObject({ severity: 'danger' });
  });

  it('is kept out by a check valve: as a valve of that kind, as a one-way passage, built into another part', () => {
    expect(told(checked(check()))).toMatchObject({ outcome: 'pass' });
    const oneWay = { through: { ports: ['in', 'out'], oneWay: true } };
    expect(
      told(
        checked(
          part('tee', { in: port('freshWater', 'both', -1), out: port('freshWater', 'both') }, { passages: oneWay }),
        ),
      ),
    ).toMatchObject({ outcome: 'pass' });
    expect(told({ 'parts.carbon.passages': oneWay })).toMatchObject({ outcome: 'pass' });
    for (const kind of ['tee', 'serviceValve', 'bulkheadUnion', 'flushValve'])
      expect(told(checked(check({ kind })))).toMatchObject({ outcome: 'pass' });
  });

  it('tells the way of a check valve without roles by the lines on it', () => {
    const bare = (medium?: string) => ({
      in: { ...port('freshWater', 'both', -1), medium },
      out: { ...port('freshWater', 'both'), medium },
    });
    expect(told(checked(check({ ports: bare() })))).toMatchObject({ outcome: 'pass' });
    expect(told(checked(check({ ports: bare('freshWater') })))).toMatchObject({ outcome: 'pass' });
  });

  it('is asked about, not told, where only lines drawn backwards let it through a check valve', () => {
    const bare = { in: port('freshWater', 'both', -1), out: port('freshWater', 'both') };
    const backwards = {
      ...checked(check({ ports: bare })),
      'lines.f3': line('check.in', 'flush-valve.out', 'freshWater'),
      'lines.f4': line('carbon.in', 'check.out', 'freshWater'),
    };
    expect(told(backwards)).toMatchObject({ outcome: 'cannotTell', reason: 'wayGuessed', related: ['check'] });
    const flush = verdict(bent(RULE, backwards), 'water/backflow|tank|');
    expect(flush.outcome === 'cannotTell' && flush.enterNext).toContain('which port');
    expect(verdicts(bent(RULE, backwards), 'water/flush-reaches')).toMatchObject([
      { outcome: 'cannotTell', reason: 'wayGuessed', related: ['check'] },
    ]);
    // Roles make it sure.
    const roles = { in: port('freshWater', 'out', -1), out: port('freshWater', 'in') };
    expect(told({ ...backwards, 'parts.check.ports': roles })).toMatchObject({ outcome: 'fail' });
  });

  it('is let through by one that looks the wrong way', () => {
    const back = { in: port('freshWater', 'out', -1), out: port('freshWater', 'in') };
    expect(told(checked(check({ ports: back })))).toMatchObject({ outcome: 'fail' });
  });

  it('is not held by a pump that stands', () => {
    expect(told({ 'parts.fresh-pump.passages': { p: { ports: ['in', 'out'], oneWay: true } } })).toMatchObject({
      outcome: 'fail',
    });
  });

  it('is found at the pump where no tank is drawn, and is not asked where the flush joins nothing', () => {
    const none = { 'parts.tank': undefined, 'lines.w2': undefined, 'lines.f1': undefined };
    expect(verdict(bent(RULE, none), `${RULE}|fresh-pump|`)).toMatchObject({ outcome: 'fail' });
    expect(verdicts(bent(RULE, { 'lines.f5': undefined }), RULE)).toEqual([]);
  });

  it('is mended by a check valve on the flush', () => {
    const read = readBoat(JSON.stringify(faultyBoat(RULE)));
    if (!read.ok) throw new Error('not a boat');
    const offered = mends(read.boat, KEY).filter(({ change }) => change === 'add');
    expect(offered.map(({ what }) => what)).toEqual([
      { item: 'checkValve', to: 'carbon' },
      { item: 'checkValve', to: 'flush-valve' },
    ]);
  });
});
