import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'access/seacock-handle';
const KEY = `${RULE}|cock|`;
const LEVER = { at: [0, 0, 0.05], leverM: 0.11, direction: [1, 0, 0] };
const at = (y: number) => ({ 'fixtures.cock.pose.at': [0.6, y, -0.25] });
const door = (widthM: number, heightM: number) => ({
  'openings.door.widthM': widthM,
  'openings.door.heightM': heightM,
  'openings.door.at': [0.6, -0.01, -0.2],
});
const box = (x: number) => ({
  'fixtures.box': {
    name: 'Box',
    kind: 'other',
    shape: { type: 'box', sizeM: [0.1, 0.3, 0.1] },
    pose: { at: [x + 0.05, 0.3, -0.2] },
    grade: 'measured',
  },
});

describe('the handle of a seacock', () => {
  it('must be in reach: 660 mm from the door, and an arm reaches 560 (derived from NUREG-0700, Table 11.4)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      cause: 'existing',
      reason: 'outOfReach',
      measured: { value: expect.closeTo(0.66, 9), unit: 'm' },
      limit: { value: 0.56, bound: 'atMost' },
      related: ['door'],
      hazards: ['hullHole'],
    });
    expect(verdict(bent(RULE, at(0.55)), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.56, 9) },
    });
    expect(verdict(bent(RULE, at(0.551)), KEY)).toMatchObject({ outcome: 'fail' });
  });

  // Upper arm 330 and elbow to grip 370 mm: 700 from the shoulder; openings of 350 x 450 and 450 x 550 mm: common practice, no source.
  it('may be reached with the head and one shoulder in: 700 mm from an opening of 350 x 450', () => {
    const through = (y: number, widthM: number, heightM: number) =>
      verdict(bent(RULE, { ...at(y), ...door(widthM, heightM) }), KEY);
    expect(through(0.69, 0.35, 0.45)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.7, 9) },
      limit: { value: 0.7 },
      data: { posture: 'shoulder' },
    });
    expect(through(0.69, 0.45, 0.35)).toMatchObject({ outcome: 'pass' });
    expect(through(0.691, 0.35, 0.45)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'outOfReach',
      limit: { value: 0.7 },
      data: { posture: 'shoulder' },
    });
    expect(through(0.69, 0.34, 0.45)).toMatchObject({ outcome: 'fail', limit: { value: 0.56 } });
    expect(through(0.5, 0.35, 0.45)).toMatchObject({ outcome: 'pass', data: { posture: 'arm' } });
  });

  it('may be reached by climbing in, where there is room to kneel', () => {
    const deep = { ...at(0.95), ...door(0.45, 0.55) };
    expect(verdict(bent(RULE, deep), KEY)).toMatchObject({
      outcome: 'pass',
      limit: { value: 0.7 },
      data: { posture: 'climb' },
    });
    const full = {
      'fixtures.box': {
        name: 'Sails',
        kind: 'other',
        shape: { type: 'box', sizeM: [1.5, 0.6, 0.7] },
        pose: { at: [0.8, 0.5, 0] },
      },
    };
    expect(verdict(bent(RULE, { ...deep, ...full }), KEY)).toMatchObject({ outcome: 'fail', reason: 'outOfReach' });
    const low = { 'compartments.locker.rangeM': [-0.4, 0.39] };
    expect(verdict(bent(RULE, { ...deep, ...low }), KEY)).toMatchObject({
      outcome: 'fail',
      measured: { value: expect.closeTo(0.96, 9) },
      data: { posture: 'shoulder' },
    });
  });

  it('must let hand, forearm and arm through (MIL-STD-1472, from memory: 95, 100 and 125 mm)', () => {
    const through = (y: number, widthM: number) => verdict(bent(RULE, { ...at(y), ...door(widthM, 0.3) }), KEY);
    expect(through(0.15, 0.095)).toMatchObject({ outcome: 'pass' });
    expect(through(0.15, 0.094)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'tooNarrow',
      measured: { value: 0.094 },
      limit: { value: 0.095, bound: 'atLeast' },
    });
    expect(through(0.24, 0.099)).toMatchObject({ reason: 'tooNarrow', limit: { value: 0.1 } });
    expect(through(0.4, 0.124)).toMatchObject({ reason: 'tooNarrow', limit: { value: 0.125 } });
    expect(through(0.4, 0.125)).toMatchObject({ outcome: 'pass' });
  });

  it('must need no tool, and nothing to be moved first', () => {
    expect(verdict(bent(RULE, { ...at(0.4), 'openings.door.how': 'screwed' }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'needsTool',
      related: ['door'],
    });
    expect(verdict(bent(RULE, { ...at(0.4), 'openings.door.moveFirst': ['Cushion'] }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'moveFirst',
      data: { first: 'Cushion' },
    });
  });

  it('is reached through the opening that serves best', () => {
    const second = {
      ...at(0.4),
      'openings.door.how': 'screwed',
      'openings.lid': {
        name: 'Lid',
        compartment: 'locker',
        at: [0.6, 0.4, 0.3],
        normal: [0, 0, 1],
        widthM: 0.4,
        heightM: 0.4,
        how: 'liftOut',
      },
    };
    expect(verdict(bent(RULE, second), KEY)).toMatchObject({ outcome: 'pass', related: ['lid'] });
  });

  it('is within a lean of where one stands, where that is drawn', () => {
    const stands = (y: number) => ({
      ...at(0.4),
      'openings.door.standing': 'sole',
      'standingPlaces.sole': { name: 'Sole', at: [0.6, y, -0.4] },
    });
    expect(verdict(bent(RULE, stands(-1.21)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, stands(-1.31)), KEY)).toMatchObject({
      outcome: 'fail',
      reason: 'standsFar',
      measured: { value: expect.closeTo(1.3, 9) },
    });
  });

  it('swings clear: the box begins 80 mm ahead of the hub, the lever is 110 long (derived)', () => {
    const lever = { ...at(0.3), 'fixtures.cock.valve.handle': LEVER };
    expect(verdict(bent(RULE, { ...lever, ...box(0.68) }), `${KEY}swing`)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'leverMeets',
      measured: { value: expect.closeTo(0.08, 3) },
      limit: { value: 0.11, bound: 'atLeast' },
      related: ['box'],
    });
    expect(verdict(bent(RULE, { ...lever, ...box(0.72) }), KEY)).toMatchObject({ outcome: 'pass' });
    const unknown = { ...lever, 'fixtures.cock.valve.handle.direction': undefined, ...box(0.68) };
    expect(verdict(bent(RULE, unknown), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('is at hand in the cabin', () => {
    expect(verdict(bent(RULE, { 'fixtures.cock.pose.at': [0.6, -0.5, -0.25] }), KEY)).toMatchObject({
      outcome: 'pass',
    });
  });

  it('cannot be told about without an opening, or in undrawn space', () => {
    expect(verdict(bent(RULE, { openings: {} }), KEY)).toMatchObject({ outcome: 'cannotTell', reason: 'noOpening' });
    expect(verdict(bent(RULE, { 'fixtures.cock.pose.at': [3, 0.5, -0.25] }), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'valveNowhere',
    });
  });

  it('does not apply above the water, nor to a hole that nothing shuts', () => {
    expect(verdict(bent(RULE, { 'fixtures.cock.pose.at': [0.6, 0.5, 0.6] }), KEY)).toMatchObject({
      reason: 'aboveWater',
    });
    const bare = { 'fixtures.cock.kind': 'skinFitting', 'fixtures.cock.valve': undefined };
    expect(verdict(bent(RULE, bare), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noValve' });
    expect(verdicts(bent(RULE, { 'fixtures.cock.opensToSea': undefined }), RULE)).toEqual([]);
  });
});
