import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** The boat: joints of a filter 500 mm above the top of a receiver that begins 90 mm aside. */
const RULE = 'flooding/drip-on-electrics';
const KEY = `${RULE}|filter|`;
const degrees = (aside: number, drop: number) => (Math.atan2(aside, drop) * 180) / Math.PI;
const at = (x: number) => ({ 'fixtures.receiver.pose': { at: [x, 0.5, -0.15], grade: 'measured' } });

describe('drips on electrics', () => {
  it('arc tan (90 / 500) = 10.2 degrees off the plumb line is within the cone (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'below',
      measured: { value: expect.closeTo(degrees(0.09, 0.5), 6), unit: 'deg' },
      limit: { value: 15, bound: 'atLeast' },
      related: ['receiver'],
    });
  });

  it('is 0 straight below', () => {
    expect(verdict(bent(RULE, at(0.5)), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0, 9) },
    });
  });

  it('stands on the edge of the cone at 500 tan 15 = 134 mm', () => {
    expect(verdict(bent(RULE, at(0.734)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, at(0.733)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('does not harm what is drip-proof, and cannot be told where nobody says', () => {
    const of = (electric: unknown) => verdicts(bent(RULE, { 'fixtures.receiver.electric': electric }), RULE);
    expect(of({ dripProof: 'dripProof' })).toMatchObject([{ outcome: 'notApplicable', reason: 'nothingBelow' }]);
    expect(of({ drawA: 3 })).toMatchObject([{ key: `${KEY}receiver`, outcome: 'cannotTell', reason: 'drips' }]);
  });

  it('is turned aside by a step, a thing or a board in between, and not by an open panel', () => {
    const board = {
      name: 'Step',
      kind: 'joinery',
      shape: { type: 'box', sizeM: [0.4, 0.6, 0.02] },
      pose: { at: [0.6, 0.5, 0] },
    };
    expect(verdict(bent(RULE, { 'fixtures.step': board }), KEY)).toMatchObject({ outcome: 'notApplicable' });
    const halves = (rule: string) => ({
      'compartments.locker.rangeM': [0, 0.5],
      'compartments.below': {
        name: 'Below',
        view: 'plan',
        outline: [
          [0, 0],
          [2, 0],
          [2, 1],
          [0, 1],
        ],
        rangeM: [-0.5, 0],
      },
      'panels.sole': { between: ['locker', 'below'], near: [0.5, 0.5, 0], rule },
    });
    expect(verdict(bent(RULE, halves('drill')), KEY)).toMatchObject({ outcome: 'notApplicable' });
    expect(verdict(bent(RULE, halves('open')), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('comes from the joints of lines at anything, and from the caps of a membrane', () => {
    const tank = {
      'fixtures.filter': {
        name: 'Tank',
        kind: 'waterTank',
        shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
        pose: { at: [0.69, 0.3, 0.3], grade: 'measured' },
        ports: { out: { at: [0, 0.05, 0], direction: [0, 1, 0], medium: 'freshWater' } },
      },
      'fixtures.tap': {
        name: 'Tap',
        kind: 'tap',
        shape: { type: 'box', sizeM: [0.1, 0.1, 0.1] },
        pose: { at: [0.69, 0.75, 0.3] },
        ports: { in: { at: [0, -0.05, 0], direction: [0, -1, 0], medium: 'freshWater' } },
      },
    };
    const hose = {
      name: 'Hose',
      kind: 'hose-fresh-13',
      medium: 'freshWater',
      from: { thing: 'filter', port: 'out' },
      to: { thing: 'tap', port: 'in' },
    };
    expect(verdicts(bent(RULE, tank), RULE)).toEqual([]);
    // the port is at y 350 mm, the receiver begins at y 400, its top 400 mm lower
    expect(verdict(bent(RULE, { ...tank, 'lines.hose': hose }), KEY)).toMatchObject({
      measured: { value: expect.closeTo(degrees(0.05, 0.4), 6) },
    });
    const membrane = {
      'fixtures.filter': {
        name: 'Membrane',
        kind: 'membrane',
        shape: { type: 'cylinder', diameterM: 0.08, lengthM: 0.8, axis: 'x' },
        pose: { at: [1.09, 0.5, 0.3], grade: 'measured' },
      },
    };
    expect(verdict(bent(RULE, membrane), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0, 9) },
    });
  });

  it('is not asked of what stands higher than the joint', () => {
    expect(
      verdict(bent(RULE, { 'fixtures.receiver.pose': { at: [0.69, 0.5, 0.44], grade: 'measured' } }), KEY),
    ).toMatchObject({ outcome: 'notApplicable', reason: 'nothingBelow' });
  });
});
