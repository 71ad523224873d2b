import { mends } from '@core/engine/remedies/mending';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../../../oracle/judged';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'power/ignition';
const KEY = `${RULE}|motor|`;
const CLEAR = { 'compartments.locker.openToGas': undefined };
const box = (sizeM: readonly number[], at: readonly number[], more: object) => ({
  name: 'Box',
  kind: 'other',
  shape: { type: 'box', sizeM },
  pose: { at },
  ...more,
});
const fore = (more: object) => ({
  'compartments.fore': {
    name: 'Fore locker',
    view: 'plan',
    outline: [
      [4, 0],
      [6, 0],
      [6, 1],
      [4, 1],
    ],
    rangeM: [-0.4, 0.5],
    ...more,
  },
});
const joint = () => ({
  'fixtures.lamp': box([0.1, 0.1, 0.1], [3, 0.5, -0.3], {
    name: 'Lamp',
    ports: { in: { at: [-0.05, 0, 0], direction: [-1, 0, 0], medium: 'dcPower' } },
    electric: { drawA: 1, brushed: false },
  }),
  'fixtures.motor.ports.out': { at: [0.1, 0, 0], direction: [1, 0, 0], medium: 'dcPower' },
  'lines.wire': {
    name: 'Wire',
    kind: 'cable-pair-2.5',
    medium: 'dcPower',
    from: { thing: 'motor', port: 'out' },
    to: { thing: 'lamp', port: 'in' },
  },
});

describe('what may spark where gas or petrol vapour can be', () => {
  it('is a danger in a space that is open to gas (common practice)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'sparks',
      measured: { value: 1, unit: 'count' },
      related: ['locker'],
      data: { why: 'said', from: 'locker' },
      hazards: ['ignition'],
    });
  });

  it.each(['battery', 'breaker', 'fuse', 'busbar', 'dcPanel', 'inverterCharger'])('counts a %s', (kind) => {
    expect(verdict(bent(RULE, { 'fixtures.motor.kind': kind, 'fixtures.motor.electric': {} }), KEY)).toMatchObject({
      outcome: 'fail',
    });
  });

  it('counts a cable joint, but not of what is protected', () => {
    const found = verdicts(bent(RULE, joint()), RULE).filter(({ outcome }) => outcome === 'fail');
    expect(found.map(({ key }) => key)).toEqual([`${RULE}|lamp|`, KEY]);
    expect(found[0]).toMatchObject({ reason: 'joint' });
    const safe = {
      ...joint(),
      'fixtures.motor.electric.ignitionProtected': true,
      'fixtures.lamp.electric.ignitionProtected': true,
    };
    expect(verdicts(bent(RULE, safe), RULE).filter(({ outcome }) => outcome === 'fail')).toEqual([]);
  });

  it('cannot tell of a motor that says nothing of brushes', () => {
    const pump = { 'fixtures.motor.kind': 'freshPump', 'fixtures.motor.electric.brushed': undefined };
    expect(verdict(bent(RULE, pump), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'brushesUnknown' });
    expect(verdict(bent(RULE, { ...pump, 'fixtures.motor.electric.brushed': false }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'noSpark',
    });
  });

  it('is open to gas through an open panel, an opening that never shuts, a limber hole, and through nothing else', () => {
    const beyond = { ...CLEAR, ...fore({ openToGas: true }) };
    const through = (more: object) => verdict(bent(RULE, { ...beyond, ...more }), KEY);
    const reached = { outcome: 'fail', related: ['locker', 'fore'], data: { from: 'fore' } };
    expect(through({})).toMatchObject({ outcome: 'notApplicable', reason: 'noGasNear' });
    expect(through({ 'panels.open': { between: ['locker', 'fore'], near: [4, 0.5, 0], rule: 'open' } })).toMatchObject(
      reached,
    );
    expect(
      through({ 'flooding.limberHoles.hole': { between: ['locker', 'fore'], at: [4, 0.5, -0.39], diameterM: 0.02 } }),
    ).toMatchObject(reached);
    const way = (how: string) => ({
      'openings.way': {
        name: 'Way',
        compartment: 'locker',
        to: 'fore',
        at: [4, 0.5, 0],
        normal: [1, 0, 0],
        widthM: 0.5,
        heightM: 0.5,
        how,
      },
    });
    expect(through(way('curtain'))).toMatchObject(reached);
    expect(through(way('hinged'))).toMatchObject({ outcome: 'notApplicable' });
  });

  it('is open to vapour where a petrol engine or tank stands, and the law binds (33 CFR 183.410, published)', () => {
    const tank = {
      ...CLEAR,
      'fixtures.tank': box([0.3, 0.3, 0.3], [3.5, 0.5, 0], { kind: 'fuelTank', fuel: 'petrol' }),
    };
    expect(verdict(bent(RULE, tank), KEY)).toMatchObject({
      outcome: 'fail',
      data: { why: 'petrol' },
      sources: [{ key: 'cfr-33-183' }, { key: 'practice' }],
    });
    expect(verdicts(bent(RULE, { ...tank, 'fixtures.tank.fuel': 'diesel' }), RULE)).toEqual([]);
  });

  it('keeps the radius of a zone of gas, from side to side: 400 mm of 500', () => {
    const locker = (kind: string, x: number) => ({
      ...CLEAR,
      'fixtures.gas': box([0.4, 0.4, 0.4], [x, 0.5, 0], {
        kind: 'gasLocker',
        zones: { about: { kind, radiusM: 0.5 } },
      }),
    });
    // the motor ends at 2.1 m, the locker begins 0.2 m before its middle; both reach over z from -0.2 to -0.25: 50 mm apart in height
    for (const kind of ['gas', 'ignition']) {
      expect(verdict(bent(RULE, locker(kind, 2.7)), KEY)).toMatchObject({
        outcome: 'fail',
        reason: 'inZone',
        measured: { value: expect.closeTo(Math.hypot(0.4, 0.05), 6), unit: 'm' },
        limit: { value: 0.5, bound: 'atLeast' },
        related: ['gas'],
      });
      expect(verdict(bent(RULE, locker(kind, 2.8)), KEY)).toMatchObject({ outcome: 'pass' });
    }
    // the zone of the motor itself counts as well
    const own = {
      ...CLEAR,
      'fixtures.gas': box([0.4, 0.4, 0.4], [2.7, 0.5, 0], { kind: 'gasLocker' }),
      'fixtures.motor.zones': { about: { kind: 'ignition', radiusM: 0.6 } },
    };
    expect(verdict(bent(RULE, own), KEY)).toMatchObject({ outcome: 'fail', limit: { value: 0.6 } });
  });

  it('lets no line through where bottles stand but those of the gas', () => {
    const wire = { ...CLEAR, ...joint(), 'compartments.locker.gasBottles': true };
    expect(verdict(bent(RULE, wire), `${RULE}|wire|`)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'throughBottles',
      // from 2.1 m to 2.95 m
      measured: { value: expect.closeTo(0.86, 1), unit: 'm' },
      related: ['locker'],
    });
    const drain = {
      ...wire,
      'lines.wire.medium': 'waste',
      'lines.wire.kind': 'hose-drain-25',
      'fixtures.lamp.kind': 'gasLocker',
      'fixtures.lamp.ports.in.medium': 'waste',
      'fixtures.motor.ports.out.medium': 'waste',
    };
    expect(verdict(bent(RULE, drain), `${RULE}|wire|`)).toMatchObject({ outcome: 'notApplicable', reason: 'ownLine' });
    const beside = {
      ...CLEAR,
      ...joint(),
      'fixtures.gas': box([0.3, 0.9, 0.8], [2.5, 0.5, 0], { kind: 'gasLocker', soft: true }),
    };
    expect(verdict(bent(RULE, beside), `${RULE}|wire|`)).toMatchObject({
      reason: 'throughBottles',
      measured: { value: expect.closeTo(0.3, 1) },
      related: ['gas'],
    });
  });

  it('says nothing without gas or petrol aboard', () => {
    expect(verdicts(bent(RULE, CLEAR), RULE)).toEqual([]);
  });

  it('is mended by what is built not to ignite vapour, never by saying that there is no gas', () => {
    const offers = mends(boatOf(bent(RULE, {})), KEY);
    expect(offers).toContainEqual(
      expect.objectContaining({
        what: expect.objectContaining({ id: 'motor', field: 'electric.ignitionProtected' }),
        hazards: ['ignition'],
      }),
    );
    for (const { patches } of offers) expect(JSON.stringify(patches)).not.toContain('openToGas');
  });
});
