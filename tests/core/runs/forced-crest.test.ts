import type { Vec3 } from '@core/base/vec';
import { forcedCrest } from '@core/runs/forced-crest';
import { trappedCrest, unrolledProfile } from '@core/runs/profile';
import { routeLine } from '@core/runs/routing/route';
import type { Lead, RoutingLine } from '@core/runs/routing/types';
import { describe, expect, it } from 'vitest';
import { hall } from '../../outside/dubins-poses';
import { plainLead, plainLine } from '../../support/plain-hose';

const R = 0.1;
const HOSE = 0.01;
/** Straight before the first bend: the radius of the hose and 6 mm. */
const LEAD = 0.016;
const UP: Vec3 = [0, 0, 1];

const lead = (at: Vec3, direction: Vec3, more: Partial<Lead> = {}) => plainLead(at, direction, HOSE, more);
const suction = (from: Lead, to: Lead): RoutingLine =>
  plainLine(from, to, { radiusM: HOSE, bendRadiusM: R }, { suction: true });
const slanted = (deg: number): Vec3 => [Math.cos((deg * Math.PI) / 180), 0, Math.sin((deg * Math.PI) / 180)];

describe('the crest that ports force', () => {
  const intake = lead([0, 0, 0], [1, 0, 0]);

  it('is lead and radius above an inlet that faces straight up, half of each and less of the bend when it leans (derived)', () => {
    // F(1) = l + R; at 30 degrees F = l / 2 + R (1 - cos 30)
    expect(forcedCrest(suction(intake, lead([1, 0, 0.2], UP)), UP)).toEqual({
      trappedM: expect.closeTo(LEAD + R, 12),
      end: 'to',
    });
    expect(forcedCrest(suction(intake, lead([1, 0, 0.2], slanted(30))), UP)?.trappedM).toBeCloseTo(
      LEAD / 2 + R * (1 - Math.sqrt(3) / 2),
      12,
    );
  });

  it('is none from a port that is level or looks down, or that stands so low that the other end is above its crest', () => {
    expect(forcedCrest(suction(intake, lead([1, 0, 0.2], [1, 0, 0])), UP)).toBeNull();
    expect(forcedCrest(suction(intake, lead([1, 0, 0.2], [0, 0, -1])), UP)).toBeNull();
    expect(forcedCrest(suction(intake, lead([1, 0, -0.2], UP)), UP)).toBeNull();
  });

  it('counts what stands above the higher port alone', () => {
    const low = lead([1, 0, -0.05], UP);
    expect(forcedCrest(suction(intake, low), UP)).toEqual({ trappedM: expect.closeTo(LEAD + R - 0.05, 12), end: 'to' });
  });

  it('goes by the rigid end where that is longer, by the best turn of an elbow, and by the up of the heeled boat', () => {
    expect(forcedCrest(suction(intake, lead([1, 0, 0], UP, { rigidM: 0.08 })), UP)?.trappedM).toBeCloseTo(0.08 + R, 12);
    const elbow = lead([1, 0, 0], UP, { turns: [UP, [1, 0, 0]] });
    expect(forcedCrest(suction(intake, elbow), UP)).toBeNull();
    expect(forcedCrest(suction(intake, lead([1, 0, 0], UP)), [2, 0, 0])).toBeNull();
  });

  it('is never more than a run in free space traps, and such a run comes near it', () => {
    for (const [tilt, dropM] of [
      [90, 0],
      [70, 0.1],
      [45, 0],
      [20, 0.05],
    ] as const) {
      // Leaning towards the intake: the other way round the least crest asks for a detour that is not worth it.
      const [ahead, , rise] = slanted(tilt);
      const line = suction(lead([0, 0, -dropM], [1, 0, 0]), lead([1.2, 0.4, 0], [-ahead, 0, rise]));
      const run = routeLine(hall, line, 'deep');
      if (run.status !== 'routed') throw new Error(`expected a run at ${tilt}`);
      const trapped = trappedCrest(unrolledProfile(run.prims, { up: UP, levelM: 0 }))?.trappedM ?? 0;
      const forced = forcedCrest(line, UP)?.trappedM ?? 0;
      expect(forced).toBeGreaterThan(0);
      expect(trapped).toBeGreaterThanOrEqual(forced - 1e-6);
      expect(trapped).toBeLessThan(forced + 0.01);
    }
  });
});
