import { describe, expect, it } from 'vitest';
import { bent, verdict } from '../judged';

const RULE = 'runs/hole-crowded';
const KEY = `${RULE}|aft|fore|`;
const FULL = `${KEY}full loom`;
const holes = (...all: readonly (readonly [y: number, z: number, diameterM: number])[]) => ({
  'panels.between.holes': {},
  'arrangements.plan.newHoles': Object.fromEntries(
    all.map(([y, z, diameterM], k) => [`h${k}`, { between: ['aft', 'fore'], at: [1.01, y, z], diameterM }]),
  ),
});
const carries = (...mm: readonly number[]) => ({
  'panels.between.holes.loom.carries': Object.fromEntries(
    mm.map((d, k) => [`c${k}`, { name: 'Hose', diameterM: d / 1000 }]),
  ),
});

describe('holes in a panel', () => {
  it('hold what passes them: 25 and 18 mm side by side need 43 (derived), of the boat as bought', () => {
    expect(verdict(bent(RULE, {}), FULL)).toMatchObject({
      outcome: 'fail',
      severity: 'fault',
      cause: 'existing',
      reason: 'overfull',
      measured: { value: expect.closeTo(0.043, 9), unit: 'm' },
      limit: { value: 0.038, bound: 'atMost' },
    });
    expect(verdict(bent(RULE, carries(20, 18)), KEY)).toMatchObject({ outcome: 'pass' });
    // Published (Descartes): three of 17 need 17 x 2.1547 = 36.6, three of 18 need 38.8.
    expect(verdict(bent(RULE, carries(17, 17, 17)), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, carries(18, 18, 18)), FULL)).toMatchObject({ outcome: 'fail' });
  });

  it('that are planned keep 15 mm from the edge, or what the panel asks (derived: y - 15)', () => {
    expect(verdict(bent(RULE, holes([0.03, 0, 0.03])), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, holes([0.028, 0, 0.03])), `${KEY}edge h0`)).toMatchObject({
      outcome: 'fail',
      cause: 'arrangement',
      reason: 'nearEdge',
      measured: { value: expect.closeTo(0.013, 6) },
      limit: { value: 0.015, bound: 'atLeast' },
    });
    expect(
      verdict(bent(RULE, { ...holes([0.03, 0, 0.03]), 'panels.between.edgeM': 0.02 }), `${KEY}edge h0`),
    ).toMatchObject({
      outcome: 'fail',
    });
  });

  it('keep 5 mm of wood between them (from memory)', () => {
    expect(verdict(bent(RULE, holes([0.4, 0, 0.03], [0.435, 0, 0.03])), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, holes([0.4, 0, 0.03], [0.4335, 0, 0.03])), `${KEY}web h0 h1`)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'nearHole',
      measured: { value: expect.closeTo(0.0035, 6) },
    });
  });

  it('leave nine tenths of the panel (from memory): a hole of 339 mm in 0.9 square metres', () => {
    expect(verdict(bent(RULE, holes([0.5, 0.05, 0.338])), KEY)).toMatchObject({ outcome: 'pass' });
    expect(verdict(bent(RULE, holes([0.5, 0.05, 0.339])), `${KEY}share`)).toMatchObject({
      outcome: 'fail',
      severity: 'advice',
      reason: 'drilledAway',
    });
  });

  it('does not apply to a panel without one, nor to an open one', () => {
    expect(verdict(bent(RULE, { 'panels.between.holes': {} }), KEY)).toMatchObject({ reason: 'noHole' });
    expect(verdict(bent(RULE, { 'panels.between.rule': 'open' }), KEY)).toMatchObject({ reason: 'openPanel' });
  });
});
