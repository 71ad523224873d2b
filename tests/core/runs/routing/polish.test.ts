import { polished } from '@core/runs/routing/polish';
import { prepare, routeLine } from '@core/runs/routing/route';
import type { Routed, RoutingLine, RoutingView } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';
import type { BoatDraft } from '../../../support/boats';
import { worldOf } from './boat-views';

type Draft<K extends keyof BoatDraft> = NonNullable<BoatDraft[K]>;

const locker = (from: number, to: number): Draft<'compartments'>[string] => ({
  name: 'locker',
  view: 'section',
  outline: [
    [-0.6, 0],
    [0.6, 0],
    [0.6, 1],
    [-0.6, 1],
  ],
  rangeM: [from, to],
});
type Triple = [number, number, number];

const box = (at: Triple, sizeM: Triple, facing: number): Draft<'fixtures'>[string] => ({
  name: 'box',
  kind: 'other',
  shape: { type: 'box', sizeM },
  pose: { at },
  ports: facing === 0 ? {} : { p: { at: [(facing * sizeM[0]) / 2, 0, 0], direction: [facing, 0, 0] } },
});

/** Two lockers with a bulkhead that may be drilled; the ports face each other through it, 1.6 m apart. */
const world = (blocked: boolean) =>
  worldOf({
    format: 'underberth-boat',
    schemaVersion: 1,
    name: 'Two lockers',
    compartments: { aft: locker(0, 1), fore: locker(1.02, 2.02) },
    panels: { between: { between: ['aft', 'fore'], near: [1.01, 0, 0.5], rule: 'drill', thicknessM: 0.02 } },
    fixtures: {
      a: box([0.11, 0, 0.5], [0.2, 0.1, 0.1], 1),
      b: box([1.91, 0, 0.5], [0.2, 0.1, 0.1], -1),
      ...(blocked ? { c: box([0.9, 0, 0.5], [0.1, 0.3, 0.9], 0) } : {}),
    },
    lineKinds: {
      hose: { name: 'hose', what: 'hose', outsideM: 0.02, bendRadiusM: 0.08, radiusTo: 'centreline' },
    },
    lines: {
      l: {
        name: 'l',
        kind: 'hose',
        medium: 'product',
        from: { thing: 'a', port: 'p' },
        to: { thing: 'b', port: 'p' },
      },
    },
  });

function routed(view: RoutingView, line: RoutingLine, effort: 'fast' | 'deep' = 'fast'): Routed {
  const outcome = routeLine(view, line, effort);
  if (outcome.status !== 'routed') throw new Error(`expected a run, got ${outcome.reason.kind}`);
  return outcome;
}
const costM = (run: Routed): number => run.costM;

describe('polish', () => {
  const line = world(false).lines[0] as RoutingLine;
  const bare = world(false).viewOf(new Map());
  const around = routed(world(true).viewOf(new Map()), line);

  function polish(run: Routed, share: number) {
    const task = prepare(bare, line);
    if ('status' in task) throw new Error(`expected a task, got ${task.reason.kind}`);
    const work = polished(task, run, 30, share, costM);
    for (;;) {
      const next = work.next();
      if (next.done) return next.value;
    }
  }

  it('moves a hole and all corners at once: round a box that is gone, straight through in the end (derived: 1.6 m)', () => {
    expect(around.lengthM).toBeGreaterThan(1.62);
    const next = polish(around, 0.003);
    expect(next && 'status' in next ? next.lengthM : null).toBeCloseTo(1.6, 5);
  });

  it('leaves alone what could not gain its share', () => {
    expect(polish(routed(bare, line), 0.003)).toBeNull();
  });
});

describe('a deep search', () => {
  const line = world(true).lines[0] as RoutingLine;
  const view = world(true).viewOf(new Map());
  const deep = routed(view, line, 'deep');

  it('answers the same each time, and never dearer than a fast one', () => {
    expect(routed(view, line, 'deep')).toEqual(deep);
    expect(deep.costM).toBeLessThanOrEqual(routed(view, line).costM + 1e-9);
  });

  it('costs the same whichever end is called the start', () => {
    const turned = { ...line, from: line.to, to: line.from };
    expect(Math.abs(routed(view, turned, 'deep').costM / deep.costM - 1)).toBeLessThan(0.001);
  });

  it('is not lengthened by taking a thing away, nor shortened by a stiffer hose', () => {
    expect(routed(bareView(), line, 'deep').costM).toBeLessThanOrEqual(deep.costM * 1.005);
    expect(routed(view, { ...line, bendRadiusM: 0.1 }, 'deep').costM).toBeGreaterThanOrEqual(deep.costM * 0.995);
  });
});
const bareView = (): RoutingView => world(false).viewOf(new Map());
