import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { analyze } from '@core/analyze';
import { run } from '@core/engine/final-run';
import { layout } from '@core/engine/shape-stages';
import { sourceOf } from '@core/engine/source';
import { Store } from '@core/engine/store';
import type { Routed } from '@core/runs/routing/types';
import { COST_FIELDS, costOf } from '@core/runs/routing/wishes/wishes';
import { describe, expect, it } from 'vitest';
import { boatOf } from '../boat/boat-of';

const sampleBoat = (folder: string, bend: (json: Record<string, never>) => void = () => {}) => {
  const text = readFileSync(
    fileURLToPath(new URL(`../../../sample-boats/${folder}/boat.json`, import.meta.url)),
    'utf8',
  );
  const json = JSON.parse(text) as Record<string, never>;
  bend(json);
  return boatOf(json);
};

function runsOf(boat: ReturnType<typeof sampleBoat>, wishes: 'all' | 'none'): ReadonlyMap<string, Routed> {
  const store = new Store(sourceOf(boat, undefined, 'fast', false, wishes));
  store.read(layout);
  return new Map(
    Object.keys(boat.lines).flatMap((id) => {
      const found = store.read(run, id);
      return found.status === 'routed' ? [[id, found] as const] : [];
    }),
  );
}

const PLAIN = ['lengthM', 'holesM'];

describe('a whole boat with its wishes and without', () => {
  const boat = sampleBoat('complete/sandwort');
  const all = runsOf(boat, 'all');
  const none = runsOf(boat, 'none');

  it('finds a run for the same lines', () => {
    expect([...all.keys()]).toEqual([...none.keys()]);
    expect(all.size).toBeGreaterThan(20);
  });

  it('says what every run costs: no field below nothing, their sum the cost, the bound never above', () => {
    for (const found of [...all.values(), ...none.values()]) {
      expect(costOf(found.costs)).toBeCloseTo(found.costM, 12);
      for (const field of COST_FIELDS) expect(found.costs[field]).toBeGreaterThanOrEqual(0);
      expect(found.costs.lengthM).toBe(found.lengthM);
      expect(found.costBoundM).toBeLessThanOrEqual(found.costM + 1e-9);
      expect(found.lowerBoundM).toBeLessThanOrEqual(found.lengthM + 1e-9);
    }
  });

  it('pays for nothing but length and holes without wishes', () => {
    for (const { costs } of none.values())
      for (const field of COST_FIELDS) if (!PLAIN.includes(field)) expect(costs[field]).toBe(0);
  });

  it('loses nothing of the certified bound by its wishes', () => {
    for (const [id, found] of all)
      expect(found.costBoundM).toBeGreaterThanOrEqual((none.get(id) as Routed).costBoundM - 1e-9);
  });
});

describe('a wish', () => {
  const clear = (json: Record<string, never>): void => {
    (json as unknown as { arrangements: { plan: { clipPoints: object } } }).arrangements.plan.clipPoints = {};
  };
  const away = (folder: string, line: string, bend: (json: Record<string, never>) => void = clear) => {
    const boat = sampleBoat(`faulty/${folder}`, bend);
    const findings = (wishes: 'all' | 'none') =>
      analyze(boat, { wishes }).findings.find((one) => one.rule.replace('/', '-') === folder && one.subject === line);
    return { all: findings('all'), none: findings('none') };
  };

  it('leads water aside of a battery that stands in its straight way, with room beside', () => {
    const { all, none } = away('water-over-electrics', 'hose', (json) => {
      clear(json);
      const { fixtures } = json as unknown as { fixtures: Record<string, { pose: { at: number[] } }> };
      for (const id of ['tee', 'tap']) (fixtures[id] as { pose: { at: number[] } }).pose.at[1] = 0.5;
      (fixtures.bank as { pose: { at: number[] } }).pose.at[1] = 0.5;
    });
    expect(none).toMatchObject({ outcome: 'fail', reason: 'above' });
    expect(all?.outcome === 'fail' || all?.outcome === 'pass' ? all.measured.value : 0).toBeGreaterThan(0.05);
  });

  it('keeps off a hot engine', () => {
    const { all, none } = away('runs-near-heat', 'hose', (json) => {
      clear(json);
      const { fixtures } = json as unknown as { fixtures: Record<string, { pose: { at: number[] } }> };
      for (const id of ['tee', 'tap']) (fixtures[id] as { pose: { at: number[] } }).pose.at[2] = 0.06;
    });
    const value = (found: typeof all): number => (found && 'measured' in found ? found.measured.value : 0.15);
    expect(none).toMatchObject({ outcome: 'fail' });
    expect(value(all)).toBeGreaterThan(value(none) + 0.03);
  });

  it('leads a loop up, which nothing else does', () => {
    const rise = (json: Record<string, never>): void => {
      clear(json);
      (json as unknown as { lines: { loop: { riseToM: number } } }).lines.loop.riseToM = 0.4;
    };
    const { all, none } = away('water-loop-rise', 'loop', rise);
    expect(all).toMatchObject({ outcome: 'pass' });
    expect(none).toMatchObject({ outcome: 'fail' });
  });
});
