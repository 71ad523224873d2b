import { LINE_KINDS } from '@core/boat/catalogue/line-kinds';
import { readBoat } from '@core/boat/read';
import type { LineKind } from '@core/boat/schema/boat';
import { findingText } from '@core/output/text/finding-text';
import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'water/suction-crest';
const KEY = `${RULE}|rise|`;

describe('a crest on suction', () => {
  it('traps what it stands above the higher of its lowest points: hole at +250, its hose 11 mm lower on the rim, strainer inlet at -100 (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'trapsAir',
      measured: { value: expect.closeTo(0.339, 2), unit: 'm' },
      limit: { bound: 'atMost' },
    });
  });

  it('says what of it no run can avoid, and which port to turn: lead and radius over an inlet that faces up (derived)', () => {
    const kind = LINE_KINDS['hose-suction-19'] as LineKind;
    const bendM = kind.bendRadiusM + (kind.radiusTo === 'inside' ? kind.outsideM / 2 : 0);
    const leadM = Math.max(kind.end?.rigidM ?? 0, kind.outsideM / 2 + 0.006);
    const finding = verdict(bent(RULE, {}), KEY);
    expect(finding).toMatchObject({
      data: { forcedM: expect.closeTo(leadM + bendM, 6), forcedBy: 'Strainer', forcedRole: 'in' },
    });
    const boat = readBoat(JSON.stringify(bent(RULE, {})));
    if (!boat.ok) throw new Error('not a boat');
    expect(findingText(finding, boat.boat).why).toMatch(
      /The inlet of Strainer faces up: \d+ mm cannot be avoided by any run\. Turn that port\./,
    );
  });

  const waterAt = (z: number) => ({ 'reference.levelMarks': { mark: { at: [1, 0.5, z] } } });

  it('is advice, to bleed it, where it stays below the running waterline', () => {
    expect(verdict(bent(RULE, waterAt(0.4)), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'bleedHere',
      data: { heightM: expect.closeTo(-0.161, 2) },
    });
  });

  // The tail of a seacock faces up on every boat: its rise alone, under water, is nothing that can be mended.
  it('passes under water where the hose falls from the tail of the seacock to a port that looks sideways', () => {
    const falls = {
      ...waterAt(0.4),
      'parts.strainer.ports.inlet': { at: [-0.06, 0, 0], direction: [-1, 0, 0], medium: 'seaWater', role: 'in' },
      'arrangements.plan.places.strainer.at': [1, 0.5, -0.28],
    };
    expect(verdict(bent(RULE, falls), KEY)).toMatchObject({ outcome: 'pass' });
    // Over the water the same rise traps air.
    const dry = verdict(bent(RULE, { ...falls, ...waterAt(-0.38) }), KEY);
    expect(dry).toMatchObject({ outcome: 'fail', severity: 'fault', reason: 'trapsAir' });
    expect(dry.data.forcedBy).toBeUndefined();
  });

  it('is judged in the states in which the set runs: wet upright, dry at 20 degrees with its side up', () => {
    // about the centreline at the water: (0.239 - 0.3) cos 20 + 0.5 sin 20 = 114 mm over it
    const heeled = { runStates: { sail: { name: 'Sailing', use: 'sailing', heelDeg: 20, sideDown: 'starboard' } } };
    expect(verdict(bent(RULE, waterAt(0.3)), KEY)).toMatchObject({ severity: 'advice' });
    expect(verdict(bent(RULE, { ...waterAt(0.3), ...heeled }), KEY)).toMatchObject({
      severity: 'fault',
      reason: 'trapsAir',
      data: { heightM: expect.closeTo(0.114, 2), heelDeg: 20, down: 'starboard' },
    });
  });

  it('passes where the hose falls or rises steadily', () => {
    expect(verdict(bent(RULE, {}), `${RULE}|feed|`)).toMatchObject({ outcome: 'pass', measured: { value: 0 } });
  });

  it('cannot tell while the run is blocked', () => {
    expect(verdict(bent(RULE, { 'panels.between.holes.high.diameterM': 0.01 }), KEY)).toMatchObject({
      outcome: 'cannotTell',
    });
  });

  it('does not apply while an end has no place', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.strainer': undefined }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
  });

  describe('at a thing between two lines: strainer 300 mm over seacock and pump (derived)', () => {
    // seacock tail at -225, strainer ports at +200 and +100, pump at -200
    const high = (bleeds: boolean | undefined) =>
      verdict(
        bent(RULE, {
          'panels.between.rule': 'drill',
          'arrangements.plan.places.strainer.at': [1.7, 0.5, 0.1],
          'parts.strainer.bleeds': bleeds,
        }),
        `${RULE}|strainer|`,
      );

    it('fails when it cannot be bled: 200 - max(-225, -200)', () => {
      expect(high(false)).toMatchObject({
        outcome: 'fail',
        severity: 'fault',
        reason: 'thingTrapsAir',
        measured: { value: expect.closeTo(0.4, 6) },
        data: { heightM: expect.closeTo(0.2, 6) },
      });
    });

    it('passes when it bleeds, and cannot tell when nobody says', () => {
      expect(high(true)).toMatchObject({ outcome: 'pass' });
      expect(high(undefined)).toMatchObject({ outcome: 'cannotTell', reason: 'bleedsUnknown' });
    });
  });
});
