import type { Vec3 } from '@core/base/vec';
import type { Routed, RunOutcome } from '@core/runs/routing/types';
import { expect } from 'vitest';
import type { BoatDraft } from '../../../support/boats';
import { checkRuns } from '../../../support/check-run';
import { reportOf, routeAll, worldOf } from './boat-views';

/** Boats of a few boxes, to be drawn with a ruler. */
export type Draft<K extends keyof BoatDraft> = NonNullable<BoatDraft[K]>;
export type Compartment = Draft<'compartments'>[string];
export type Fixture = Draft<'fixtures'>[string];

/** A box locker from one corner to the other. */
export const locker = (low: Vec3, high: Vec3): Compartment => ({
  name: 'locker',
  view: 'section',
  outline: [
    [low[1], low[2]],
    [high[1], low[2]],
    [high[1], high[2]],
    [low[1], high[2]],
  ],
  rangeM: [low[0], high[0]],
});

/** A thing with one port in the middle of the side that `out` points to. */
export const thing = (at: Vec3, size: Vec3, out: Vec3): Fixture => ({
  name: 'thing',
  kind: 'other',
  shape: { type: 'box', sizeM: [...size] },
  pose: { at: [...at] },
  ports: {
    p: { at: [(out[0] * size[0]) / 2, (out[1] * size[1]) / 2, (out[2] * size[2]) / 2], direction: [...out] },
  },
});
export const block = (at: Vec3, size: Vec3): Fixture => ({ ...thing(at, size, [1, 0, 0]), ports: {} });

export interface Setting {
  readonly compartments: Draft<'compartments'>;
  readonly panels?: Draft<'panels'>;
  readonly fixtures: Draft<'fixtures'>;
  readonly kind?: Partial<Draft<'lineKinds'>[string]>;
  readonly lines?: Draft<'lines'>;
  readonly arrangement?: Draft<'arrangements'>[string];
}

export const boatOf = (setting: Setting): BoatDraft => ({
  format: 'underberth-boat',
  schemaVersion: 1,
  name: 'Setting',
  compartments: setting.compartments,
  panels: setting.panels ?? {},
  fixtures: setting.fixtures,
  lineKinds: {
    hose: { name: 'hose', what: 'hose', outsideM: 0.02, bendRadiusM: 0.06, radiusTo: 'centreline', ...setting.kind },
  },
  lines: setting.lines ?? {
    l: { name: 'l', kind: 'hose', medium: 'seaWater', from: { thing: 'a', port: 'p' }, to: { thing: 'b', port: 'p' } },
  },
  ...(setting.arrangement ? { arrangements: { one: setting.arrangement }, currentArrangement: 'one' } : {}),
});

/** Routes all lines and has the independent judge look at every run. */
export function routed(setting: Setting): Map<string, RunOutcome> {
  const world = worldOf(boatOf(setting));
  const outcomes = routeAll(world, 'fast');
  expect(checkRuns(world.boat, reportOf(outcomes))).toEqual([]);
  return outcomes;
}
export function theRun(setting: Setting): Routed {
  const outcome = routed(setting).get('l');
  expect(outcome?.status).toBe('routed');
  return outcome as Routed;
}
export function theBlock(setting: Setting): Extract<RunOutcome, { status: 'blocked' }> {
  const outcome = routed(setting).get('l');
  expect(outcome?.status).toBe('blocked');
  return outcome as Extract<RunOutcome, { status: 'blocked' }>;
}
