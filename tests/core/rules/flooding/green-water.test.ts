import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

/** The boat: a hatch that ends at x 750 mm, z 500 mm, and a receiver that begins at x 1150 and goes down to z -300 mm. */
const RULE = 'flooding/green-water';
const KEY = `${RULE}|hatch|`;
const at = (x: number) => ({ 'fixtures.receiver.pose': { at: [x, 0.5, -0.25], grade: 'measured' } });

describe('green water', () => {
  it('arc tan (400 / 800) = 26.6 degrees off the plumb line under the edge (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'inTheCone',
      measured: { value: expect.closeTo((Math.atan(0.5) * 180) / Math.PI, 6), unit: 'deg' },
      limit: { value: 45, bound: 'atLeast' },
    });
  });

  it('is 0 under the hatch itself, and ends where it stands as far aside as below', () => {
    expect(verdict(bent(RULE, at(0.5)), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0, 9) },
    });
    expect(verdict(bent(RULE, at(1.651)), KEY)).toMatchObject({ outcome: 'pass', closeCall: {} });
    expect(verdict(bent(RULE, at(1.649)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  it('counts from the rim of a round hatch: 177 mm of its corner are not there', () => {
    const corner = { 'fixtures.receiver.pose': { at: [0.95, 0.95, -0.25], grade: 'measured' } };
    const square = verdict(bent(RULE, corner), KEY);
    const round = verdict(bent(RULE, { ...corner, 'openings.hatch.shape': 'round' }), KEY);
    const gap = (of: typeof square) => (of.outcome === 'fail' ? Number(of.data.asideM) : Number.NaN);
    // nearest corner of the receiver (850, 850): to the square's corner (750, 750) 141.4 mm, to the circle of 250 mm 495 - 250 = 245.0 mm
    expect(gap(square)).toBeCloseTo(Math.hypot(0.1, 0.1), 6);
    expect(gap(round)).toBeCloseTo(Math.hypot(0.35, 0.35) - 0.25, 2);
  });

  it('does not come down where a board or a shut panel stands between, or no weather is', () => {
    const board = {
      name: 'Shelf',
      kind: 'joinery',
      shape: { type: 'box', sizeM: [0.9, 1, 0.02] },
      pose: { at: [1.25, 0.5, 0.1] },
    };
    expect(verdict(bent(RULE, { 'fixtures.shelf': board }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'nothingBelow',
    });
    // a panel of 20 mm, and the receiver stands right against its far side
    const room = (from: number, to: number) => [
      [from, 0],
      [to, 0],
      [to, 1],
      [from, 1],
    ];
    const parted = {
      'compartments.cabin.outline': room(0, 1.13),
      'compartments.locker': { name: 'Locker', view: 'plan', outline: room(1.15, 2), rangeM: [-0.5, 0.5] },
    };
    expect(verdict(bent(RULE, parted), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'nothingBelow' });
    const open = { 'panels.p': { between: ['cabin', 'locker'], near: [1.14, 0.5, 0], rule: 'open' } };
    expect(verdict(bent(RULE, { ...parted, ...open }), KEY)).toMatchObject({ outcome: 'fail' });
    expect(verdicts(bent(RULE, { 'openings.hatch.weatherDeck': false }), RULE)).toEqual([]);
  });

  it('cannot be told where nobody says how well a thing stands water', () => {
    const json = bent(RULE, { 'fixtures.receiver.electric': { drawA: 2 } });
    expect(verdicts(json, RULE)).toMatchObject([
      { outcome: 'cannotTell', reason: 'drips', enterNext: expect.stringContaining('Receiver') },
    ]);
  });
});
