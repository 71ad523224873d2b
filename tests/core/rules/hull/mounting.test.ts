import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'hull/mounting';
const KEY = `${RULE}|vessel`;
const PLY = { 'mountingSurfaces.side.material': 'ply', 'mountingSurfaces.side.thicknessM': 0.018 };
const PUMP = { ...PLY, 'parts.vessel.kind': 'pumpModule', 'parts.vessel.massKg': 25 };
const place = (at: readonly number[]) => ({ 'arrangements.plan.places.vessel': { at, mountedOn: 'side' } });

describe('what a part is screwed to', () => {
  it('must hold: lining, tank and bare skin do not hold what weighs 10 kg or more (from memory)', () => {
    expect(verdict(bent(RULE, {}), `${KEY}|hold`)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      cause: 'arrangement',
      reason: 'holdsNothing',
      measured: { value: 11, unit: 'kg' },
      limit: { value: 10, bound: 'atMost' },
      related: ['side'],
      data: { part: 'lining' },
      hazards: ['lifting'],
    });
    const skin = { 'mountingSurfaces.side.material': 'grpSolid', 'mountingSurfaces.side.behind': 'hull' };
    expect(verdict(bent(RULE, skin), `${KEY}|hold`)).toMatchObject({ reason: 'holdsNothing', data: { part: 'skin' } });
    const tank = { ...PLY, 'mountingSurfaces.side.partOf': 'tank' };
    expect(verdict(bent(RULE, tank), `${KEY}|hold`)).toMatchObject({ reason: 'holdsNothing', data: { part: 'tank' } });
    const pad = { ...skin, 'mountingSurfaces.side.partOf': 'pad' };
    expect(verdict(bent(RULE, pad), `${KEY}|`)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { 'parts.vessel.massKg': 9.9 }), `${KEY}|`)).toMatchObject({ outcome: 'pass' });
  });

  it('must be thick and held itself where 25 kg shake: 18 mm, tabbed or bolted (from memory)', () => {
    const on = (thicknessM: number, fixing?: string) =>
      bent(RULE, {
        ...PUMP,
        'mountingSurfaces.side.thicknessM': thicknessM,
        ...(fixing ? { 'mountingSurfaces.side.fixing': fixing } : {}),
      });
    expect(verdict(on(0.018), `${KEY}|`)).toMatchObject({ outcome: 'pass' });
    expect(verdict(on(0.018, 'tabbed'), `${KEY}|`)).toMatchObject({ outcome: 'pass' });
    expect(verdict(on(0.0179), `${KEY}|hold`)).toMatchObject({
      outcome: 'fail',
      reason: 'tooThin',
      measured: { value: 0.0179, unit: 'm' },
      limit: { value: 0.018, bound: 'atLeast' },
    });
    expect(verdict(on(0.025, 'glued'), `${KEY}|hold`)).toMatchObject({ outcome: 'fail', reason: 'looseBoard' });
  });

  it('must lie under its mounting face: 1000 - 40 - y off it (derived)', () => {
    expect(verdict(bent(RULE, { ...PLY, ...place([0.8, 0.94, 0]) }), `${KEY}|`)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.02, 9) },
      limit: { value: 0.02, bound: 'atMost' },
    });
    expect(verdict(bent(RULE, { ...PLY, ...place([0.8, 0.9, 0]) }), `${KEY}|`)).toMatchObject({
      outcome: 'fail',
      reason: 'offSurface',
      measured: { value: expect.closeTo(0.06, 9) },
    });
  });

  it('must reach under all of it: middle 250 mm forward, 350 to its end, 500 to the edge (derived)', () => {
    expect(verdict(bent(RULE, { ...PLY, ...place([1.05, 0.96, 0]) }), `${KEY}|edge`)).toMatchObject({
      outcome: 'fail',
      reason: 'overhangs',
      measured: { value: expect.closeTo(0.1, 9) },
    });
  });

  it('must look at the part', () => {
    const turned = { ...PLY, 'arrangements.plan.places.vessel.yawDeg': 90 };
    expect(verdict(bent(RULE, turned), `${KEY}|`)).toMatchObject({
      outcome: 'fail',
      reason: 'facesAway',
      measured: { value: expect.closeTo(90, 6), unit: 'deg' },
    });
  });

  it('is found where it is not named, and missed where none lies there', () => {
    const unnamed = (y: number) => bent(RULE, { ...PLY, 'arrangements.plan.places.vessel': { at: [0.8, y, 0] } });
    expect(verdict(unnamed(0.96), `${KEY}|`)).toMatchObject({ outcome: 'pass', related: ['side'] });
    expect(verdict(unnamed(0.5), `${KEY}|`)).toMatchObject({
      outcome: 'fail',
      reason: 'nothingUnder',
      measured: { value: expect.closeTo(0.46, 9) },
    });
  });

  it('cannot be told where no face is drawn that it could be', () => {
    const none = { mountingSurfaces: {}, 'arrangements.plan.places.vessel': { at: [0.8, 0.96, 0] } };
    expect(verdict(bent(RULE, none), `${KEY}|`)).toMatchObject({ outcome: 'cannotTell', reason: 'noSurface' });
  });

  it('is not asked of what is light, nor where nobody has drawn what things are screwed to', () => {
    const silent = {
      mountingSurfaces: {},
      'arrangements.plan.places.vessel': { at: [0.8, 0.96, 0] },
      'parts.vessel.mounting': {},
    };
    expect(verdict(bent(RULE, silent), `${KEY}|`)).toMatchObject({ outcome: 'notApplicable', reason: 'noneDrawn' });
    expect(verdict(bent(RULE, { ...silent, 'parts.vessel.massKg': 2 }), `${KEY}|`)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'light',
    });
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), `${KEY}|`)).toMatchObject({
      outcome: 'notApplicable',
    });
    expect(verdicts(bent(RULE, { 'parts.vessel.kind': 'sparesBox' }), RULE)).toEqual([]);
  });
});
