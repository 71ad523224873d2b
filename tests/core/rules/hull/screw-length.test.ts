import { describe, expect, it } from 'vitest';
import { bent, verdict, verdicts } from '../judged';

const RULE = 'hull/screw-length';
const KEY = `${RULE}|vessel|`;
const behind = (what: string, depthM?: number) => ({
  'mountingSurfaces.side.behind': what,
  'mountingSurfaces.side.behindM': depthM,
});
const tank = (y: number, kind = 'waterTank') => ({
  'compartments.outer': {
    name: 'Behind',
    view: 'plan',
    outline: [
      [0, 1.02],
      [1.6, 1.02],
      [1.6, 1.6],
      [0, 1.6],
    ],
    rangeM: [-0.4, 0.5],
  },
  'fixtures.tank': {
    name: 'Tank',
    kind,
    shape: { type: 'box', sizeM: [0.4, 0.3, 0.4] },
    pose: { at: [0.8, y + 0.15, 0] },
    grade: 'measured',
  },
});

describe('screws', () => {
  it('that reach a tank are a danger: 35 - 3 - 12 = 20 mm come out and 10 are free (derived)', () => {
    expect(verdict(bent(RULE, {}), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'reachesTank',
      measured: { value: expect.closeTo(0.02, 9), unit: 'm' },
      limit: { value: 0.01, bound: 'atMost' },
    });
  });

  it('may come as far as there is room', () => {
    expect(verdict(bent(RULE, behind('tank', 0.02)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, behind('tank', 0.0199)), KEY)).toMatchObject({ outcome: 'fail' });
    expect(verdict(bent(RULE, { 'parts.vessel.mounting.screwM': 0.014 }), KEY)).toMatchObject({
      outcome: 'pass',
      measured: { value: expect.closeTo(-0.001, 9) },
    });
  });

  it('are a danger to the boat and to wires, each with its caution', () => {
    expect(verdict(bent(RULE, behind('hull')), KEY)).toMatchObject({
      reason: 'reachesHull',
      severity: 'danger',
      limit: { value: 0 },
      hazards: ['hullHole'],
    });
    expect(verdict(bent(RULE, behind('loom', 0.005)), KEY)).toMatchObject({
      reason: 'reachesLoom',
      severity: 'danger',
      hazards: ['dcFault'],
    });
    expect(verdict(bent(RULE, behind('air', 0.015)), KEY)).toMatchObject({
      reason: 'reachesBeyond',
      severity: 'fault',
    });
    expect(verdict(bent(RULE, behind('air')), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, behind('compartment')), KEY)).toMatchObject({ outcome: 'pass' });
  });

  it('are measured against what is drawn behind, where that is nearer: the tank begins at y 1022, the board ends at 1012 (derived)', () => {
    expect(verdict(bent(RULE, { ...behind('compartment'), ...tank(1.022) }), KEY)).toMatchObject({
      outcome: 'fail',
      severity: 'danger',
      reason: 'reachesTank',
      limit: { value: expect.closeTo(0.01, 4) },
      related: ['side', 'tank'],
    });
    expect(verdict(bent(RULE, { ...behind('compartment'), ...tank(1.022, 'fuelTank') }), KEY)).toMatchObject({
      hazards: ['ignition'],
    });
    expect(verdict(bent(RULE, { ...behind('compartment'), ...tank(1.04) }), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, { ...behind('compartment'), ...tank(1.022, 'other') }), KEY)).toMatchObject({
      reason: 'reachesThing',
      severity: 'fault',
    });
  });

  it('go by what is said where somebody has looked, but for what the plan puts there', () => {
    const looked = { ...behind('air', 0.05), ...tank(1.022) };
    expect(verdict(bent(RULE, looked), KEY)).toMatchObject({ outcome: 'pass', limit: { value: 0.05 } });
    const planned = {
      ...behind('air', 0.05),
      'parts.box': { name: 'Box', kind: 'other', shape: { type: 'box', sizeM: [0.4, 0.3, 0.4] } },
      'arrangements.plan.places.box': { at: [0.8, 1.172, 0] },
    };
    expect(verdict(bent(RULE, planned), KEY)).toMatchObject({ outcome: 'fail', reason: 'reachesThing' });
  });

  it('cannot be told where nobody knows what is behind', () => {
    expect(verdict(bent(RULE, behind('unknown')), KEY)).toMatchObject({
      outcome: 'cannotTell',
      reason: 'behindUnknown',
    });
  });

  it('are not asked about where there is no surface, no place, no screw', () => {
    expect(verdict(bent(RULE, { 'arrangements.plan.places.vessel': { at: [0.8, 0.5, 0] } }), KEY)).toMatchObject({
      outcome: 'notApplicable',
      reason: 'noSurface',
    });
    expect(verdict(bent(RULE, { 'arrangements.plan.places': {} }), KEY)).toMatchObject({ reason: 'notPlaced' });
    expect(verdicts(bent(RULE, { 'parts.vessel.mounting.screwM': undefined }), RULE)).toEqual([]);
  });
});
