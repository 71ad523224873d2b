import { describe, expect, it } from 'vitest';
import { reportOf, routeAll, worldOf } from '../core/runs/routing/boat-views';
import { scene } from '../support/scenes';
import { swept } from './sweeps';

/**
 * Derived: two solids that keep clear of each other share no space. The library is manifold-3d; hoses are drawn 0.5 mm thinner than
 * they are, as 24-gons in their circles, and solids come straight from the boat file.
 */
describe('hoses of a seeded scene as solids of another library', () => {
  const world = worldOf(scene(2, { planted: false }).boat);
  const some = routeAll({ ...world, lines: world.lines.slice(0, 9) }, 'fast');
  const { runs, pressed } = swept(world.boat, reportOf(some), 8);

  it('share no space with things, panels, undrawn space, hull and one another', () => {
    expect(runs).toHaveLength(8);
    expect(runs.flatMap(({ shared }) => shared).length).toBeGreaterThan(5 * runs.length);
    for (const { what, shared } of runs) expect([what, ...shared.filter(({ m3 }) => m3 > 1e-9)]).toEqual([what]);
  });

  it('do so as soon as they are moved 5 mm into a wall, or out of the hull', () => {
    expect(pressed).toHaveLength(8);
    expect(pressed.filter(({ m3 }) => !(m3 > 1e-8))).toEqual([]);
    expect(runs.filter(({ overboardM3 }) => !(overboardM3 > 1e-6))).toEqual([]);
  });
});
