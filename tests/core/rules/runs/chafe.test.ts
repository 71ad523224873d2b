import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'runs/chafe';
const KEY = `${RULE}|hose|`;
const MOVING = `${KEY}moving quadrant`;
const radius = (metres: number) => ({ 'fixtures.quadrant.sweeps.turn.radiusM': metres });
const engine = (y: number) => ({
  'fixtures.quadrant.sweeps': {},
  'fixtures.quadrant.kind': 'engine',
  'fixtures.quadrant.pose.at.1': y,
});

describe('a hose beside what moves', () => {
  it('keeps 40 mm from a quadrant: its side at y 109.5, the sweep at 500 - 360 = 140 (derived)', () => {
    expect(verdict(bent(RULE, {}), MOVING)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      reason: 'nearMoving',
      measured: { value: expect.closeTo(0.0305, 4), unit: 'm' },
      limit: { value: 0.04, bound: 'atLeast' },
      related: ['quadrant'],
    });
    expect(verdict(bent(RULE, radius(0.3505)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, radius(0.3515)), MOVING)).toMatchObject({ outcome: 'fail' });
  });

  it('keeps 25 mm from an engine on its feet (from memory)', () => {
    // Derived: its side lies 60 mm before its middle.
    expect(verdict(bent(RULE, engine(0.1946)), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(0.0251, 5) },
    });
    expect(verdict(bent(RULE, engine(0.1935)), `${KEY}engine quadrant`)).toMatchObject({
      outcome: 'fail',
      reason: 'nearEngine',
      limit: { value: 0.025 },
    });
  });

  it('carries the caution of what it leads', () => {
    expect(verdict(bent(RULE, {}), MOVING).hazards).toEqual(['drinkingWater']);
    const cable = { 'lines.hose.kind': 'cable-pair-16', 'lines.hose.medium': 'dcPower' };
    expect(verdict(bent(RULE, cable), MOVING).hazards).toEqual(['dcFault']);
    const pressure = { 'lines.hose.kind': 'hose-pressure-10', 'lines.hose.medium': 'brine' };
    expect(verdict(bent(RULE, pressure), MOVING).hazards).toEqual(['highPressure']);
  });

  it('passes no raw edge', () => {
    const parted = {
      'fixtures.quadrant': undefined,
      'compartments.space.outline': square(0, 1),
      'compartments.fore': { name: 'Fore', view: 'plan', outline: square(1.02, 2.4), rangeM: [-0.5, 0.5] },
      'panels.between': {
        between: ['space', 'fore'],
        near: [1.01, 0.1, 0.2],
        rule: 'drill',
        holes: { old: { at: [1.01, 0.1, 0.2], diameterM: 0.025 } },
      },
    };
    expect(verdict(bent(RULE, parted), KEY)).toMatchObject({ outcome: 'notApplicable' });
    const raw = { ...parted, 'panels.between.holes.old.bushed': false };
    expect(verdict(bent(RULE, raw), `${KEY}edge fore|space old`)).toMatchObject({ outcome: 'fail', reason: 'rawEdge' });
    expect(verdict(bent(RULE, { ...parted, 'panels.between.holes.old.bushed': true }), KEY)).toMatchObject({
      outcome: 'notApplicable',
    });
  });

  it('does not apply far from all that, nor to what hangs on the moving thing itself', () => {
    expect(verdict(bent(RULE, radius(0.2)), KEY)).toMatchObject({ outcome: 'notApplicable', reason: 'noneNear' });
    const own = {
      'parts.tap': undefined,
      'arrangements.plan.places.tap': undefined,
      'fixtures.quadrant.ports': { out: { at: [-0.06, 0, 0], direction: [-1, 0, 0], medium: 'freshWater' } },
      'lines.hose.to': { thing: 'quadrant', port: 'out' },
      'arrangements.plan.pins': {},
    };
    expect(verdict(bent(RULE, own), KEY)).toMatchObject({ outcome: 'notApplicable' });
  });
});

function square(from: number, to: number): readonly (readonly [number, number])[] {
  return [
    [from, 0],
    [to, 0],
    [to, 1],
    [from, 1],
  ];
}
