import type { FormInput } from '@core/shape/form/dimensions';
import { hullOfForm } from '@core/shape/form/hull-of-form';
import { hullSurface } from '@core/shape/hull/surface';
import { describe, expect, test } from 'vitest';
import { ALL_FORMS, type DrawnDimensions } from '../../../support/forms';
import { judgeHulls, waterlineEnds } from './judge-hulls';

describe.each(ALL_FORMS)('%s: a few seeded hulls', (form) => judgeHulls(form, [101, 102, 103, 104, 105, 106]));

describe('what a form cannot be', () => {
  const usual: DrawnDimensions = { form: 'finKeel', lengthM: 11, beamM: 3.5, draughtM: 1.9, displacementKg: 6200 };

  test('a displacement beyond the form is refused with its value and with the range, which is true', () => {
    const refused = hullOfForm({ ...usual, displacementKg: 60_000 });
    expect(refused.ok).toBe(false);
    if (refused.ok) return;
    const [problem] = refused.problems;
    expect(problem?.path).toBe('displacementKg');
    expect(problem?.message).toContain('60000');
    const [least, most] = (problem?.limit.match(/\d+/g) ?? []).map(Number);
    expect(hullOfForm({ ...usual, displacementKg: (least ?? 0) + 10 }).ok).toBe(true);
    expect(hullOfForm({ ...usual, displacementKg: (most ?? 0) - 10 }).ok).toBe(true);
    expect(hullOfForm({ ...usual, displacementKg: (least ?? 0) - 10 }).ok).toBe(false);
    expect(hullOfForm({ ...usual, displacementKg: (most ?? 0) + 10 }).ok).toBe(false);
  });

  test.each([
    [{ lengthM: 2 }, 'lengthM'],
    [{ lengthM: Number.NaN }, 'lengthM'],
    [{ beamM: 9 }, 'beamM'],
    [{ draughtM: 0.1 }, 'draughtM'],
    [{ waterlineLengthM: 11.5 }, 'waterlineLengthM'],
    [{ midFreeboardM: 5 }, 'midFreeboardM'],
  ])('%j names %s', (change, path) => {
    const refused = hullOfForm({ ...usual, ...change });
    expect(refused.ok).toBe(false);
    expect(refused.ok ? [] : refused.problems.map((one) => one.path)).toContain(path);
  });

  // Derived: what follows from a number that is at fault cannot be judged, and what was never given cannot be at fault.
  test.each<[string, Partial<FormInput>, string, string]>([
    ['beam far too small', { beamM: 0.3 }, '0.3', 'it must be from 4.2 to 10.2 m'],
    ['beam missing', { beamM: undefined as unknown as number }, 'missing', 'it must be from 4.2 to 10.2 m'],
    ['beam not a number', { beamM: Number.NaN }, 'not a number', 'it must be from 4.2 to 10.2 m'],
    ['beam too small, its hulls given', { beamM: 2, hullBeamM: 1.6 }, '2', 'it must be from 4.2 to 10.2 m'],
  ])('a catamaran of 12 m, %s: only the beam is named, with its own range', (_, change, value, limit) => {
    const cat = { form: 'catamaran' as const, lengthM: 12, beamM: 6.8, draughtM: 1.2, displacementKg: 8000 };
    const refused = hullOfForm({ ...cat, ...change });
    expect(refused.ok ? [] : refused.problems.map((one) => [one.path, one.value, one.limit])).toEqual([
      ['beamM', value, limit],
    ]);
  });

  test.each(ALL_FORMS)('%s: whatever beam and freeboard is in range, only what was given is ever named', (form) => {
    const given = new Set(['lengthM', 'beamM', 'draughtM', 'displacementKg', 'midFreeboardM']);
    for (const lengthM of [5, 8, 14, 30])
      for (const beamM of form === 'catamaran' ? [0.35, 0.6, 0.85] : [0.17, 0.3, 0.55])
        for (const midFreeboardM of [0.3, 0.8, Math.min(4, 0.3 * lengthM)]) {
          const answer = hullOfForm({
            form,
            lengthM,
            beamM: Math.min(14, Math.max(1.5, beamM * lengthM)),
            draughtM: 0.12 * lengthM,
            displacementKg: 300,
            midFreeboardM,
          });
          const named = answer.ok ? [] : answer.problems.map(({ path }) => path);
          expect(named.filter((path) => !given.has(path))).toEqual([]);
        }
  });

  test('typed waterline and freeboards come out as typed', () => {
    const answer = hullOfForm({
      ...usual,
      waterlineLengthM: 9,
      bowFreeboardM: 1.5,
      midFreeboardM: 1,
      sternFreeboardM: 1.1,
    });
    if (!answer.ok) throw new Error('expected a hull');
    const surface = hullSurface(answer.hull);
    const [aft, forward] = waterlineEnds(surface, 11);
    expect(forward - aft).toBeCloseTo(9, 1);
    expect(surface.sheerAt(11)).toBeCloseTo(1.5, 2);
    expect(surface.sheerAt(0.42 * 11)).toBeCloseTo(1, 2);
    expect(surface.sheerAt(0)).toBeCloseTo(1.1, 2);
  });

  test('a catamaran is one hull off the centreline, there twice', () => {
    const answer = hullOfForm({
      form: 'catamaran',
      lengthM: 12,
      beamM: 6.8,
      draughtM: 1.2,
      displacementKg: 8200,
      hullBeamM: 1.9,
    });
    if (!answer.ok) throw new Error('expected a hull');
    // Derived: (6.8 - 1.9) / 2.
    expect(answer.hull.offsetM).toBeCloseTo(2.45, 6);
  });
});
