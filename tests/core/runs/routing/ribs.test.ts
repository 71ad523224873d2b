import type { Vec3 } from '@core/base/vec';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, it } from 'vitest';
import { checkRuns } from '../../../support/check-run';
import { hullDraft } from '../../../support/scene-interior';
import { reportOf, routeAll, worldOf } from './boat-views';
import { block, boatOf, locker, type Setting, thing } from './small-boats';

const SHELL_M = 0.014;
const TOP: Vec3 = [5, 0, 0.55];

/** A locker along the port side with a tank across it that leaves a gap of so much to the lining, or to the shell, at its top. */
function beside(gapM: number, hull: { liningM: number; ribs?: { spacingM: number; depthM: number } }) {
  const draft = { ...hullDraft(), shellM: SHELL_M, ...hull };
  const half = hullSurface({ ...hullDraft(), shellM: SHELL_M, liningM: hull.liningM, gradeM: 0 } as never);
  const inside = half.halfBreadthAt(TOP[0], TOP[2]) - half.insetM;
  const edge = inside - gapM;
  const setting: Setting = {
    compartments: { room: locker([4, 0.5, 0.5], [6, 2.2, 0.6]) },
    fixtures: {
      a: thing([4.3, 1, 0.55], [0.1, 0.05, 0.05], [1, 0, 0]),
      b: thing([5.7, 1, 0.55], [0.1, 0.05, 0.05], [-1, 0, 0]),
      tank: block([5, (0.5 + edge) / 2, 0.55], [0.1, edge - 0.5, 0.1]),
    },
  };
  const world = worldOf({ ...boatOf(setting), hull: draft });
  const outcomes = routeAll(world, 'fast');
  expect(checkRuns(world.boat, reportOf(outcomes), world.hull ? { hull: world.hull } : {})).toEqual([]);
  return outcomes.get('l')?.status;
}

describe('a run along the skin', () => {
  // Derived: a hose of 20 mm; ribs stand 25 mm off the shell, 15 mm beyond a lining of 10 mm. The side leans outward: at the top of the locker there are up to 9 mm more.
  it('keeps off the ribs, wherever they stand', () => {
    const ribs = { spacingM: 0.4, depthM: 0.025 };
    expect(beside(0.03, { liningM: 0 })).toBe('routed');
    expect(beside(0.03, { liningM: 0, ribs })).toBe('blocked');
    expect(beside(0.055, { liningM: 0, ribs })).toBe('routed');
  });

  it('has them no more where a lining covers them', () => {
    expect(beside(0.03, { liningM: 0.03, ribs: { spacingM: 0.4, depthM: 0.025 } })).toBe('routed');
    expect(beside(0.022, { liningM: 0.01, ribs: { spacingM: 0.4, depthM: 0.025 } })).toBe('blocked');
    expect(beside(0.04, { liningM: 0.01, ribs: { spacingM: 0.4, depthM: 0.025 } })).toBe('routed');
  });
});
