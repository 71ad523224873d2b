import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** The boat: a toilet whose outlet leaves at y 300, z -100 mm, straight down to a seacock at z -345 mm. Judged at 20 degrees (derived). */
const RULE = 'flooding/siphon';
const KEY = `${RULE}|waste|seacock`;
const TURN = Math.PI / 9;
const heeled = (z: number, y: number) => z * Math.cos(TURN) - y * Math.sin(TURN);
const headAt = (z: number) => ({ 'fixtures.head.pose': { at: [0.9, 0.3, z + 0.15], grade: 'measured' } });

describe('siphons', () => {
  it('start where the crest is under water at the worst heel', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'tooLow',
      measured: { value: expect.closeTo(heeled(-0.1, 0.3), 6), unit: 'm' },
      limit: { value: 0.2, bound: 'atLeast' },
      data: { down: 'port', heelDeg: 20 },
    });
  });

  it('ask for 254 mm where that is the practice', () => {
    expect(verdict(bent(RULE, { practice: 'usVoluntary' }), KEY)).toMatchObject({ limit: { value: 0.254 } });
  });

  it('do not start at a basin that stays above the water: 300 tan 20 = 109.2 mm up', () => {
    const least = 0.3 * Math.tan(TURN);
    const basinAt = (z: number) => verdict(bent(RULE, { ...headAt(z), 'fixtures.head.kind': 'sink' }), KEY);
    expect(basinAt(least + 0.001)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.001 * Math.cos(TURN), 6) },
      limit: { value: 0 },
    });
    expect(basinAt(least - 0.001)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'basinUnder',
      measured: { value: expect.closeTo(-0.001 * Math.cos(TURN), 6) },
    });
  });

  it('ask for the whole height where a pump fills the hose: (200 + 300 sin 20) / cos 20 = 322 mm up', () => {
    const least = (0.2 + 0.3 * Math.sin(TURN)) / Math.cos(TURN);
    expect(verdict(bent(RULE, headAt(least + 0.001)), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 0.2 } });
    expect(verdict(bent(RULE, headAt(least - 0.001)), KEY)).toMatchObject({ outcome: 'fail', reason: 'tooLow' });
  });

  it('leave what carries drinking water to its check valves', () => {
    const json = bent(RULE, { 'lines.waste.medium': 'freshWater', 'fixtures.head.kind': 'waterTank' });
    expect(verdicts(json, RULE)).toEqual([]);
  });

  it('are advice behind a seacock that is normally shut', () => {
    expect(verdict(bent(RULE, { 'fixtures.seacock.valve.normally': 'shut' }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'tooLowWhileOpen',
    });
  });

  it('cannot be told without a run, and do not arise in lines that are open nowhere', () => {
    const blocked = bent(RULE, {
      'compartments.heads.outline': [
        [0, 0],
        [0.7, 0],
        [0.7, 1],
        [0, 1],
      ],
    });
    expect(verdict(blocked, KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noRun' });
    expect(verdicts(bent(RULE, { 'fixtures.head.kind': 'other' }), RULE)).toEqual([]);
    const said = bent(RULE, { 'fixtures.head.kind': 'other', 'fixtures.head.ports.out.openEnd': true });
    expect(verdict(said, KEY)).toMatchObject({ outcome: 'fail', reason: 'tooLow' });
  });

  it('do not arise where the line ends above the water', () => {
    const json = bent(RULE, { 'fixtures.seacock.pose': { at: [0.8, 0.3, 0.25] }, ...headAt(0.34) });
    expect(verdict(json, KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'aboveWater' });
  });
});
