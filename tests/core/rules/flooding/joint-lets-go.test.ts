import { describe, expect, it } from 'vitest';
import { bent, put, verdict, verdicts } from '../judged';

/**
 * The boat: a well (x 0 to 1 m) with the through-hull, and a locker (x 1.01 to 2 m) with a receiver whose underside is at z = -300 mm. The
 * bulkhead between has a hole of 30 mm at z = -200 mm. No hull; the water is z = 0. Measures are derived from that.
 */
const RULE = 'flooding/joint-lets-go';
const KEY = `${RULE}|seacock|`;
const MARK = { at: [0.5, 0, 0], grade: 'measured' };

describe('joints that let go', () => {
  it('fill the well to the level of the sea, and through the hole the locker: the receiver is 300 mm under', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'drowns',
      cause: 'existing',
      measured: { value: expect.closeTo(-0.3, 6), unit: 'm' },
      limit: { value: 0, bound: 'atLeast' },
      related: expect.arrayContaining(['receiver', 'hose', 'seacock', 'wash', 'well']),
      data: {
        electrics: 'receiver',
        stops: 'seacock',
        stopsIn: 'well',
        floods: 'well locker',
        sinkageM: null,
        cd: 0.8,
      },
    });
  });

  it('leave electrics dry that stand at the level itself, a close call, and fail a millimetre below', () => {
    const at = (z: number) =>
      verdict(bent(RULE, { 'fixtures.receiver.pose': { at: [1.5, 0.5, z], grade: 'measured' } }), KEY);
    expect(at(0.05)).toMatchObject({ outcome: 'pass', measured: { value: expect.closeTo(0, 9) }, closeCall: {} });
    expect(at(0.049)).toMatchObject({ outcome: 'fail', measured: { value: expect.closeTo(-0.001, 6) } });
  });

  it('count from the terminals where the boat file says how high they are', () => {
    const json = bent(RULE, { 'fixtures.receiver.electric': { dripProof: 'open', wetM: 0.08 } });
    expect(verdict(json, KEY)).toMatchObject({ measured: { value: expect.closeTo(-0.22, 6) } });
  });

  it('harm what is open or drip-proof, and neither what is sealed nor a motor of which nobody says', () => {
    const of = (electric: unknown) => verdict(bent(RULE, { 'fixtures.receiver.electric': electric }), KEY);
    expect(of({ dripProof: 'dripProof' })).toMatchObject({ outcome: 'fail' });
    expect(of({ brushed: true })).toMatchObject({ outcome: 'fail' });
    expect(of({ drawA: 2 })).toMatchObject({ outcome: 'notApplicable', reason: 'noElectricsThere' });
    expect(of({ dripProof: 'sealed' })).toMatchObject({ outcome: 'notApplicable', reason: 'noElectricsThere' });
  });

  it('flood no further than the lower edges below the level: a hole sealed, or 15 mm of radius above the water', () => {
    const dry = { outcome: 'notApplicable', reason: 'noElectricsThere', data: { floods: 'well' } };
    expect(verdict(bent(RULE, { 'panels.bulkhead.holes.loom.sealed': true }), KEY)).toMatchObject(dry);
    expect(verdict(bent(RULE, { 'panels.bulkhead.holes.loom.at': [1.005, 0.2, 0.016] }), KEY)).toMatchObject(dry);
    expect(verdict(bent(RULE, { 'panels.bulkhead.holes.loom.at': [1.005, 0.2, 0.014] }), KEY)).toMatchObject({
      outcome: 'fail',
    });
  });

  it('pass open panels, openings that are not tight, limber holes and holes that are planned', () => {
    const shut = { 'panels.bulkhead.holes': {} };
    const door = {
      name: 'Door',
      compartment: 'well',
      to: 'locker',
      at: [1.005, 0.5, 0],
      normal: [1, 0, 0],
      widthM: 0.4,
      heightM: 0.3,
    };
    const limber = { between: ['well', 'locker'], at: [1.005, 0.5, -0.45], diameterM: 0.025 };
    const hole = { between: ['well', 'locker'], at: [1.005, 0.5, -0.1], diameterM: 0.03 };
    const floods = (changes: Record<string, unknown>) => verdict(bent(RULE, { ...shut, ...changes }), KEY).outcome;
    expect(floods({})).toBe('notApplicable');
    expect(floods({ 'panels.bulkhead.rule': 'open' })).toBe('fail');
    expect(floods({ 'openings.between': door })).toBe('fail');
    expect(floods({ 'openings.between': { ...door, watertight: true } })).toBe('notApplicable');
    expect(floods({ 'openings.between': { ...door, at: [1.005, 0.5, 0.2] } })).toBe('notApplicable');
    expect(floods({ 'flooding.limberHoles': { limber } })).toBe('fail');
    const plan = (newHoles: unknown) => ({
      arrangements: { plan: { name: 'Plan', newHoles } },
      currentArrangement: 'plan',
    });
    expect(floods(plan({ hole }))).toBe('fail');
    expect(floods(plan({ hole: { ...hole, sealed: true } }))).toBe('notApplicable');
  });

  it('say what nothing stops: the deepest joint is the tail, 400 - 75 = 325 mm under', () => {
    const json = bent(RULE, {
      'fixtures.seacock.valve': undefined,
      'fixtures.seacock.kind': 'skinFitting',
      'fixtures.receiver': undefined,
    });
    expect(verdict(json, KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'cannotBeShut',
      measured: { value: expect.closeTo(0.325, 6) },
      limit: { value: 0, bound: 'atMost' },
      data: { unstopped: 2, stops: '' },
    });
  });

  it('are another risk behind a seacock that is normally shut: none is open to the sea, and the flood is told all the same', () => {
    expect(verdict(bent(RULE, { 'fixtures.seacock.valve.normally': 'shut' }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: 0, unit: 'count' },
      data: { isOpen: false, electrics: 'receiver', stops: 'seacock' },
    });
  });

  it('under water only when she heels: the joints at z 20 mm, y 400 mm lie 400 sin 20 - 20 cos 20 under to port', () => {
    const json = bent(RULE, {
      greatestHeelDeg: 20,
      'fixtures.seacock.ports.tail.at': [0, 0, 0.42],
      'fixtures.wash.pose': { at: [0.7, 0.4, 0.02], grade: 'measured' },
      'fixtures.seacock.valve': undefined,
      'fixtures.seacock.kind': 'skinFitting',
      'fixtures.receiver': undefined,
    });
    const turn = Math.PI / 9;
    expect(verdict(json, KEY)).toMatchObject({
      reason: 'cannotBeShut',
      measured: { value: expect.closeTo(0.4 * Math.sin(turn) - 0.02 * Math.cos(turn), 6) },
      data: { down: 'port', heelDeg: 20 },
    });
  });

  it('upright count before those at heel: the receiver stays 300 mm under however far the hose leans over', () => {
    const locker = {
      greatestHeelDeg: 20,
      'fixtures.wash.pose': { at: [1.3, 0.9, 0.1], grade: 'measured' },
      'panels.bulkhead.holes.loom.diameterM': 0.1,
    };
    expect(verdict(bent(RULE, locker), KEY)).toMatchObject({
      measured: { value: expect.closeTo(-0.3, 6) },
      data: { down: 'upright', jointsIn: 'locker well' },
    });
  });

  it('let none in above the water', () => {
    const dry = { 'fixtures.seacock.pose': { at: [0.3, 0.4, 0.2] }, 'fixtures.wash.pose': { at: [0.7, 0.4, 0.3] } };
    expect(verdict(bent(RULE, dry), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noJointUnderWater' });
  });

  it('let none in past a vented loop above the water: of two hoses only the end at the seacock counts', () => {
    const loopAt = (z: number) => ({
      'fixtures.loop': {
        name: 'Vented loop',
        kind: 'ventedLoop',
        shape: { type: 'box', sizeM: [0.12, 0.05, 0.14] },
        pose: { at: [0.5, 0.7, z], grade: 'measured' },
        ports: {
          a: { at: [-0.04, 0, -0.07], direction: [0, 0, -1], medium: 'seaWater' },
          b: { at: [0.04, 0, -0.07], direction: [0, 0, -1], medium: 'seaWater' },
        },
      },
      'lines.hose.to': { thing: 'loop', port: 'a' },
      'lines.on': {
        name: 'On to the pump',
        kind: 'hose-suction-19',
        medium: 'seaWater',
        from: { thing: 'loop', port: 'b' },
        to: { thing: 'wash', port: 'in' },
        existing: true,
      },
    });
    expect(verdict(bent(RULE, loopAt(0.3)), KEY)).toMatchObject({ data: { joints: 1, lines: 'hose' } });
    expect(verdict(bent(RULE, loopAt(-0.2)), KEY)).toMatchObject({ data: { joints: 4, lines: 'hose on' } });
  });

  it('cannot tell what floods from a joint that lies in no compartment', () => {
    const json = bent(RULE, {
      'compartments.well.outline': [
        [0, 0.6],
        [1, 0.6],
        [1, 1],
        [0, 1],
      ],
      'panels.bulkhead': undefined,
    });
    expect(verdict(json, KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'nowhere' });
  });

  it('with limber holes clogged stay where they are: a case of the boat file is judged beside the usual one', () => {
    const json = bent(RULE, {
      'panels.bulkhead.holes': {},
      'flooding.limberHoles': { limber: { between: ['well', 'locker'], at: [1.005, 0.5, -0.45], diameterM: 0.025 } },
      'flooding.cases': { clogged: { kind: 'joint', limbersBlocked: true } },
    });
    expect(verdicts(json, RULE).map(({ key, outcome }) => [key, outcome])).toEqual([
      [`${RULE}|seacock|`, 'fail'],
      [`${RULE}|seacock|clogged`, 'notApplicable'],
    ]);
    put(json, 'flooding.cases.clogged.subject', 'another');
    expect(verdicts(json, RULE)).toHaveLength(1);
  });

  it('are as sure as the water and the place of the electrics', () => {
    const guessed = verdict(
      bent(RULE, {
        'fixtures.receiver.pose': { at: [1.5, 0.5, 0.02], grade: 'guessed' },
        'reference.levelMarks.mark': MARK,
      }),
      KEY,
    );
    expect(guessed).toMatchObject({ outcome: 'fail', closeCall: { gradeM: expect.any(Number) } });
  });
});
