import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'access/way-out';
const KEY = `${RULE}|spares|`;

/*
 * All checks derived from the drawing of the boat: a locker of 500 x 1000 x 450 behind a door of 460 x 420; a control station of
 * 440 x 300 x 380 stands before a box of spares of 250 x 200 x 200, and leaves 60 mm beside it and 70 mm of height.
 */
describe('way out of a part', () => {
  it('names the part that must come off first', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'behind',
      related: ['station'],
      measured: { value: 1, unit: 'count' },
      data: { behind: 'Control station', isProved: true, hoses: '' },
    });
  });

  it('passes for what stands in front', () => {
    expect(verdict(bent(RULE, {}), `${RULE}|station|`)).toMatchObject({ outcome: 'pass', related: [] });
  });

  it('passes past a part that leaves room: 250 mm beside a station of 240', () => {
    const narrow = {
      'parts.station.shape.sizeM': [0.24, 0.3, 0.38],
      'arrangements.plan.places.station.at': [0.72, 0.4, 0.02],
      'parts.spares.shape.sizeM': [0.2, 0.2, 0.2],
    };
    expect(verdict(bent(RULE, narrow), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('does not count what is not placed, nor say again that there is no way in', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.station': undefined }), KEY)).toMatchObject({
      outcome: 'pass',
    });
    expect(verdict(bent(RULE, { openings: {} }), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noWayIn' });
    expect(verdict(bent(RULE, { 'parts.spares.shape.sizeM': [0.48, 0.45, 0.43] }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'noWayIn',
    });
  });

  it('does not apply where people stand beside it', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.spares.at': [0.6, -0.5, 0] }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'standsThere',
    });
  });

  it('names the lines that lie in the way, but not its own', () => {
    // A hose of 50 mm across the locker at y = 0.4, between two things of 60 mm at its sides.
    const end = (x: number, direction: number) => ({
      name: 'End',
      kind: 'other',
      massKg: 1,
      shape: { type: 'box', sizeM: [0.06, 0.06, 0.06] },
      pose: { at: [x, 0.4, 0], grade: 'measured' },
      ports: { p: { at: [0.03 * direction, 0, 0], direction: [direction, 0, 0] } },
    });
    const across = {
      'arrangements.plan.places.station': undefined,
      'lineKinds.thick': { name: 'Thick hose', what: 'hose', outsideM: 0.05, boreM: 0.04, bendRadiusM: 0.15 },
      'fixtures.left': end(0.38, 1),
      'fixtures.right': end(0.82, -1),
      'lines.hose': {
        name: 'Cross hose',
        kind: 'thick',
        medium: 'freshWater',
        from: { thing: 'left', port: 'p' },
        to: { thing: 'right', port: 'p' },
      },
    };
    expect(verdict(bent(RULE, across), KEY).data).toMatchObject({ hoses: 'Cross hose' });
    const own = {
      ...across,
      'parts.spares.ports': { p: { at: [0, -0.1, 0], direction: [0, -1, 0] } },
      'lines.hose.to': { thing: 'spares', port: 'p' },
    };
    expect(verdict(bent(RULE, own), KEY).data).toMatchObject({ hoses: '' });
  });
});
