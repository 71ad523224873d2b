import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/**
 * The boat: a filter whose bowl spills 1.2 litres at z 40 mm, in a locker that no pump empties. Where a spill may end, and 100 mm aside of
 * electrics, are common practice without a source; litres and distances are read off the drawn boat.
 */
const RULE = 'flooding/bowl-spill';
const KEY = `${RULE}|filter|bowl`;
const BATTERY = (x: number, electric: unknown = { dripProof: 'open' }) => ({
  'fixtures.radio': {
    name: 'Receiver',
    kind: 'other',
    shape: { type: 'box', sizeM: [0.2, 0.2, 0.1] },
    pose: { at: [x, 0.5, -0.4], grade: 'measured' },
    electric,
  },
});
const TRAY = (catchesL?: number) => ({
  'fixtures.tray': {
    name: 'Tray',
    kind: 'other',
    shape: { type: 'box', sizeM: [0.3, 0.3, 0.05] },
    pose: { at: [0.5, 0.5, -0.3] },
    ...(catchesL === undefined ? {} : { catchesL }),
  },
});
const PUMPED = { 'compartments.locker.bilgePumped': true };

describe('spills of bowls', () => {
  it('stay where no pump empties the locker: 1.2 litres', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'stays',
      measured: { value: 1.2, unit: 'L' },
      limit: { value: 0, bound: 'atMost' },
    });
  });

  it('pass where it is pumped, or a bilge pump stands in it', () => {
    expect(verdict(bent(RULE, PUMPED), KEY)).toMatchObject({ outcome: 'pass', measured: { value: 0, unit: 'L' } });
    const pump = {
      name: 'Bilge pump',
      kind: 'bilgePump',
      shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
      pose: { at: [1.5, 0.5, -0.4] },
    };
    expect(verdict(bent(RULE, { 'fixtures.bilge': pump }), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('are not asked about in a boat of which no bilge is drawn, but for electrics under them', () => {
    const silent = { 'compartments.locker.bilgePumped': undefined };
    expect(verdict(bent(RULE, silent), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noBilgeDrawn' });
    expect(verdict(bent(RULE, { ...silent, ...BATTERY(0.5) }), KEY)).toMatchObject({ reason: 'onElectrics' });
  });

  it('run on by limber holes, and over an edge that a puddle of 1.2 litres on 2 m2 gets over', () => {
    const bilge = {
      name: 'Bilge',
      view: 'plan',
      outline: [
        [0, 0],
        [2, 0],
        [2, 1],
        [0, 1],
      ],
      rangeM: [-0.8, -0.51],
      bilgePumped: true,
    };
    const limber = { between: ['locker', 'bilge'], at: [1, 0.5, -0.5], diameterM: 0.02 };
    const hole = (z: number) => ({
      'compartments.side': {
        name: 'Side',
        view: 'plan',
        outline: [
          [2.01, 0],
          [3, 0],
          [3, 1],
          [2.01, 1],
        ],
        rangeM: [-0.5, 0.5],
        bilgePumped: true,
      },
      'panels.end': {
        between: ['locker', 'side'],
        near: [2.005, 0.5, 0],
        holes: { low: { at: [2.005, 0.5, z], diameterM: 0.04 } },
      },
    });
    expect(verdict(bent(RULE, { 'compartments.bilge': bilge }), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'stays',
    });
    expect(verdict(bent(RULE, { 'compartments.bilge': bilge, 'flooding.limberHoles': { limber } }), KEY)).toMatchObject(
      { outcome: 'pass', data: { pumped: 'bilge' } },
    );
    expect(verdict(bent(RULE, hole(-0.48)), KEY)).toMatchObject({ outcome: 'pass', data: { pumped: 'side' } });
    expect(verdict(bent(RULE, hole(-0.4)), KEY)).toMatchObject({ outcome: 'fail', reason: 'stays' });
  });

  it('are caught by a tray as far as it holds them: 1.2 litres at the limit', () => {
    expect(verdict(bent(RULE, TRAY(1.2)), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: 1.2 },
      limit: { value: 1.2 },
    });
    expect(verdict(bent(RULE, TRAY(1.1)), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'trayTooSmall',
    });
    expect(verdict(bent(RULE, TRAY()), KEY)).toMatchObject({ outcome: 'fail', reason: 'stays' });
  });

  it('on open electrics are a danger, beside them a fault, from 100 mm on nothing', () => {
    expect(verdict(bent(RULE, { ...PUMPED, ...BATTERY(0.5) }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'onElectrics',
      measured: { value: 0, unit: 'm' },
      limit: { value: 0.1 },
    });
    expect(verdict(bent(RULE, { ...PUMPED, ...BATTERY(0.68) }), KEY)).toMatchObject({
      severity: 'fault',
      reason: 'besideElectrics',
      measured: { value: expect.closeTo(0.08, 6) },
    });
    expect(verdict(bent(RULE, { ...PUMPED, ...BATTERY(0.7) }), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('cannot be told above electrics of which nobody says how they stand water', () => {
    expect(verdict(bent(RULE, { ...PUMPED, ...BATTERY(0.5, { drawA: 2 }) }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'drips',
    });
  });

  it('on a berth are a fault, pumped or not', () => {
    expect(verdict(bent(RULE, { ...PUMPED, 'compartments.locker.berth': true }), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'onBerth',
    });
  });

  it('are as much as a filter holds where the task says nothing, and are not asked about where nobody says', () => {
    expect(
      verdict(bent(RULE, { 'fixtures.filter.services.bowl.spillL': undefined, 'fixtures.filter.liquidL': 1.4 }), KEY),
    ).toMatchObject({ measured: { value: 1.4 } });
    expect(verdict(bent(RULE, { 'fixtures.filter.services.bowl.spillL': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'noAmount',
    });
    expect(verdicts(bent(RULE, { 'fixtures.filter.services': {} }), RULE)).toEqual([]);
  });
});
