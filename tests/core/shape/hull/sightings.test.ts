import type { Vec3 } from '@core/base/vec';
import type { Boat } from '@core/boat/schema/boat';
import { boatSchema } from '@core/boat/schema/boat';
import { sightingResiduals } from '@core/shape/hull/sightings';
import { describe, expect, it } from 'vitest';
import { emptyBoat } from '../../../support/boats';

/** Points of a deck edge at z = 1.2 to 0.9 m over water that lies 80 mm up, half a degree bow down and one to starboard. */
const EDGE: Readonly<Record<string, Vec3>> = {
  stem: [10.8, 0, 1.2],
  'port bow': [8, 1.3, 1.1],
  'starboard bow': [8, -1.3, 1.1],
  'port side': [5, 1.7, 0.95],
  'starboard side': [5, -1.7, 0.95],
  'port quarter': [1, 1.1, 0.9],
};
const FORWARD = Math.tan((0.5 * Math.PI) / 180);
const PORT = -Math.tan(Math.PI / 180);
const trueFreeboard = ([x, y, z]: Vec3): number => {
  const steep = Math.hypot(1, FORWARD, PORT);
  return (z - (0.08 + FORWARD * (x - 5) + PORT * y)) / steep;
};

function afloat(planted: Readonly<Record<string, number>>, names: readonly string[] = Object.keys(EDGE)): Boat {
  const freeboards = Object.fromEntries(
    names.map((name) => [
      name.replace(' ', '-'),
      {
        at: [...(EDGE[name] as Vec3)] as [number, number, number],
        freeboardM: trueFreeboard(EDGE[name] as Vec3) + (planted[name] ?? 0),
      },
    ]),
  );
  return boatSchema.parse({ ...emptyBoat(), reference: { freeboards } });
}

describe('measured freeboards against their plane', () => {
  it('leave no residual where they were read without error (derived: the plane itself)', () => {
    const { points, suspect, isUndecided } = sightingResiduals(afloat({}));
    expect(points).toHaveLength(6);
    for (const { residualM } of points) expect(Math.abs(residualM)).toBeLessThan(1e-6);
    expect(suspect).toBeNull();
    expect(isUndecided).toBe(false);
  });

  it('name the one that was misread, and by how much, whichever it is (derived: 60 mm planted)', () => {
    for (const name of Object.keys(EDGE))
      for (const slip of [0.06, -0.06]) {
        const { points, suspect } = sightingResiduals(afloat({ [name]: slip }));
        expect(suspect).toBe(name.replace(' ', '-'));
        // What the others say is lower by what was read too much.
        expect(points.find(({ id }) => id === suspect)?.offM).toBeCloseTo(-slip, 3);
      }
  });

  it('keep quiet about what a tape does: 10 mm at one of them', () => {
    expect(sightingResiduals(afloat({ 'port side': 0.01 })).suspect).toBeNull();
  });

  it('of four points tell that one is off and not which: their residuals are alike in the ratio of their redundancies', () => {
    const { suspect, isUndecided, points } = sightingResiduals(
      afloat({ 'port bow': 0.2 }, ['port bow', 'starboard bow', 'port side', 'starboard side']),
    );
    expect(points.every(({ offM }) => offM !== null)).toBe(true);
    expect(suspect).toBeNull();
    expect(isUndecided).toBe(true);
  });

  it('of three say nothing: they fit any plane', () => {
    const { points, suspect, isUndecided } = sightingResiduals(
      afloat({ stem: 0.2 }, ['stem', 'port side', 'starboard side']),
    );
    expect(points.map(({ offM }) => offM)).toEqual([null, null, null]);
    expect(points.every(({ residualM }) => Math.abs(residualM) < 1e-6)).toBe(true);
    expect(suspect ?? isUndecided).toBe(false);
  });

  it('take level marks where there are no freeboards', () => {
    const levelMarks = { bow: { at: [10, 0, 0.05] }, port: { at: [4, 1.5, 0.02] }, starboard: { at: [4, -1.5, 0.02] } };
    const boat = boatSchema.parse({ ...emptyBoat(), reference: { levelMarks } });
    expect(sightingResiduals(boat).points.map(({ kind }) => kind)).toEqual(['levelMarks', 'levelMarks', 'levelMarks']);
    expect(sightingResiduals(boatSchema.parse(emptyBoat())).points).toEqual([]);
  });
});
