import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'runs/twist';
const KEY = `${RULE}|hose|`;

/**
 * Derived: forward, to port, then on at an angle to the first plane, which is that of the deck: the second bend lies in the plane turned by
 * that angle about the middle leg.
 */
const pinnedAt = (angleDeg: number) => {
  const angle = (angleDeg * Math.PI) / 180;
  return {
    'arrangements.plan.pins': {
      hose: {
        points: [
          [1.05, 0.2, -0.2],
          [1.35, 0.2, -0.2],
          [1.35, 0.6, -0.2],
          [1.35 + 0.3 * Math.cos(angle), 0.6, -0.2 + 0.3 * Math.sin(angle)],
        ],
        radiiM: [0.12, 0.12],
      },
    },
  };
};

describe('a made-up hose with two fixed ends', () => {
  it('is wrung where it bends in two planes (common practice, no source)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({ outcome: 'fail', severity: 'advice', reason: 'twoPlanes' });
    expect(verdict(bent(RULE, pinnedAt(30)), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(30, 3), unit: 'deg' },
      limit: { value: 10, bound: 'atMost' },
    });
  });

  it('may lie out of one plane by as much as the limit, and no more', () => {
    expect(verdict(bent(RULE, pinnedAt(9.999)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, pinnedAt(10.001)), KEY)).toMatchObject({ outcome: 'fail' });
    // Derived: an S lies in one plane.
    expect(verdict(bent(RULE, pinnedAt(180)), KEY)).toMatchObject({ measured: { value: expect.closeTo(0, 3) } });
  });

  it('is held by a clip between the two bends', () => {
    const clip = { 'arrangements.plan.clipPoints': { hose: { middle: { at: [1.35, 0.4, -0.2], order: 1 } } } };
    expect(verdict(bent(RULE, { ...pinnedAt(30), ...clip }), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('is laid in one plane where both ports face along it, even where no clip holds it there', () => {
    // Derived: ports at one height that face along the deck; the floor, where a clip would hold, lies 100 mm below them.
    const level = {
      'parts.tap.ports.out': { at: [0, -0.05, 0], direction: [0, -1, 0], medium: 'product', role: 'both' },
      'arrangements.plan.places': { tee: { at: [1, 0.2, -0.3] }, tap: { at: [1.6, 0.8, -0.3] } },
    };
    expect(verdict(bent(RULE, level), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0, 3) },
    });
  });

  it('does not apply where an end turns, goes on last, or is not placed', () => {
    const swivel = { 'lineKinds.made-up.end': { diameterM: 0.024, rigidM: 0.05, crimped: true, swivel: true } };
    const loose = {
      'lineKinds.made-up.crimpedEnds': false,
      'lineKinds.made-up.end': { diameterM: 0.024, rigidM: 0.05 },
    };
    const one = { 'lines.hose.ends': { to: { crimped: true, swivel: true, diameterM: 0.024, rigidM: 0.05 } } };
    for (const changes of [swivel, loose, one])
      expect(verdict(bent(RULE, changes), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'endTurns' });
    expect(verdict(bent(RULE, { 'arrangements.plan.places.tap': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
    expect(verdicts(bent(RULE, { 'lineKinds.made-up.what': 'cable' }), RULE)).toEqual([]);
  });

  it('cannot tell while there is no run', () => {
    const wall = {
      name: 'Tank',
      kind: 'waterTank',
      shape: { type: 'box', sizeM: [0.04, 0.999, 0.899] },
      pose: { at: [1.2, 0.5, 0.05] },
    };
    expect(
      verdict(bent(RULE, { 'fixtures.wall': wall, 'compartments.cabin': undefined, openings: {} }), KEY),
    ).toMatchObject({ outcome: 'cannotTell', reason: 'noRun' });
  });
});
