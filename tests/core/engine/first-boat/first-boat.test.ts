import { readBoat } from '@core/boat/read';
import { writeBoat } from '@core/boat/write';
import { type FirstBoatInput, firstBoat, shellOf } from '@core/engine/first-boat/first-boat';
import { deriveLayout } from '@core/shape/layout/derive';
import { describe, expect, test } from 'vitest';
import { dice } from '../../../support/dice';
import { ALL_FORMS, drawnDimensions } from '../../../support/forms';
import { ALL_ABOARD, judgeFirstBoat } from './judge-first-boat';

const usual: FirstBoatInput = {
  form: 'finKeel',
  lengthM: 11,
  beamM: 3.5,
  draughtM: 1.9,
  displacementKg: 6200,
  setSize: 60,
  lockers: [],
  fixtures: ALL_ABOARD,
};

function boatOf(input: FirstBoatInput) {
  const made = firstBoat(input);
  if (!made.ok) throw new Error(made.problems.map(({ message }) => message).join('; '));
  return made.boat;
}

const layoutOf = (boat: ReturnType<typeof boatOf>) =>
  deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: boat.newHoleCostM });

describe.each(ALL_FORMS)('%s', (form) => {
  test('a seeded boat is readable, divided without overlap, has no danger, and most of its lines are routed', () => {
    const throws = dice(4711 + form.length);
    const judged = judgeFirstBoat({ ...drawnDimensions(form, throws), setSize: 60, lockers: [], fixtures: ALL_ABOARD });
    expect(judged.remarks).toEqual([]);
  });
});

describe('a first boat', () => {
  test('is the same every time and survives its file', () => {
    const boat = boatOf(usual);
    expect(boatOf(usual)).toEqual(boat);
    const read = readBoat(writeBoat(boat));
    expect(read.ok && read.boat).toMatchObject(boat);
    expect(read.ok && read.notes).toEqual([]);
  });

  test('is guessed throughout: hull, compartments, openings, things', () => {
    const boat = boatOf(usual);
    expect(boat.hull?.grade).toBe('guessed');
    expect(boat.weights?.displacementKg).toBe(6200);
    for (const records of [boat.compartments, boat.openings, boat.fixtures, boat.parts])
      for (const [id, one] of Object.entries(records)) expect([id, one.grade]).toEqual([id, 'guessed']);
  });

  test('has every panel record bound and every way in at the wall of its compartment', () => {
    const boat = boatOf(usual);
    expect(layoutOf(boat).orphans).toEqual([]);
    for (const opening of Object.values(boat.openings)) {
      expect(Object.keys(boat.compartments)).toContain(opening.compartment);
      if (opening.to !== 'outside') expect(Object.keys(boat.compartments)).toContain(opening.to);
    }
  });

  test('a sole typed lower shifts sole, seats and the boards over the bilge by as much', () => {
    const at = (soleZ: number) => boatOf({ ...usual, soleZ });
    const [high, low] = [at(-0.4), at(-0.45)];
    // Derived: the bilge ends 20 mm under the sole.
    expect(high.compartments['mid-bilge']?.rangeM[1]).toBeCloseTo(-0.42, 6);
    expect(low.compartments['mid-bilge']?.rangeM[1]).toBeCloseTo(-0.47, 6);
    expect(high.standingPlaces['saloon-sole']?.at[2]).toBeCloseTo(-0.4, 6);
  });

  test('a sole that the hull cannot have is refused with the range', () => {
    const refused = shellOf({ ...usual, soleZ: -1.5 });
    expect(refused.ok ? [] : refused.problems.map(({ path }) => path)).toEqual(['soleZ']);
    expect(refused.ok ? '' : refused.problems[0]?.limit).toMatch(/from -0\.\d+ to 0\.\d+ m/);
  });

  test('fixtures that are not aboard are left out with the lines that would hang on them', () => {
    const boat = boatOf({ ...usual, fixtures: { ...ALL_ABOARD, freshPump: false, intake: false } });
    expect(Object.keys(boat.fixtures)).not.toContain('fresh-pump');
    expect(Object.keys(boat.fixtures)).not.toContain('intake');
    expect(Object.keys(boat.parts)).not.toContain('flush-valve');
    for (const line of Object.values(boat.lines))
      for (const { thing } of [line.from, line.to])
        expect(Object.hasOwn(boat.fixtures, thing) || Object.hasOwn(boat.parts, thing)).toBe(true);
  });

  test.each([30, 60, 100] as const)('a set of %i L/h has 17 to 20 lines and a place for every part', (setSize) => {
    const boat = boatOf({ ...usual, setSize });
    const lines = Object.keys(boat.lines).length;
    expect(lines).toBeGreaterThanOrEqual(17);
    expect(lines).toBeLessThanOrEqual(20);
    expect(Object.keys(boat.arrangements.first?.places ?? {}).sort()).toEqual(Object.keys(boat.parts).sort());
  });
});

describe('measured lockers', () => {
  const locker = { compartment: 'settee-stbd-aft', name: 'Tool locker', lengthM: 0.9, widthM: 0.7, heightM: 0.4 };

  test('stand in the place of the guessed one, as long, wide and high as taped, and do not overlap their neighbours', () => {
    const boat = boatOf({ ...usual, lockers: [{ ...locker, fromBulkheadM: 1.2 }] });
    const measured = boat.compartments['settee-stbd-aft'];
    const xs = measured?.outline.map(([x]) => x) ?? [];
    const ys = measured?.outline.map(([, y]) => y) ?? [];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(0.9, 6);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(0.7, 6);
    expect((measured?.rangeM[1] ?? 0) - (measured?.rangeM[0] ?? 0)).toBeCloseTo(0.4, 6);
    expect([measured?.grade, measured?.name]).toEqual(['taped', 'Tool locker']);
    const shell = shellOf(usual);
    if (!shell.ok) throw new Error('expected a shell');
    // Aft of the main bulkhead by what was read.
    expect(shell.interior.mainBulkheadM - Math.max(...xs)).toBeCloseTo(1.2, 6);
    expect(layoutOf(boat).overlaps).toEqual([]);
    expect(boat.openings['settee-stbd-aft-lid']?.grade).toBe('taped');
  });

  test('one that is longer than the guess cuts its neighbour back', () => {
    const before = boatOf(usual).compartments['settee-stbd-fwd'];
    const boat = boatOf({ ...usual, lockers: [{ ...locker, lengthM: 1.5 }] });
    const after = boat.compartments['settee-stbd-fwd'];
    const start = (one: typeof before): number => Math.min(...(one?.outline.map(([x]) => x) ?? []));
    expect(start(after)).toBeGreaterThan(start(before) + 0.3);
    expect(layoutOf(boat).overlaps).toEqual([]);
  });

  test('one that does not exist, is too small, or is named twice is refused by its number and field', () => {
    const paths = (lockers: FirstBoatInput['lockers']): readonly string[] => {
      const refused = shellOf({ ...usual, lockers });
      return refused.ok ? [] : refused.problems.map(({ path }) => path);
    };
    expect(paths([{ ...locker, compartment: 'attic' }])).toEqual(['lockers[0].compartment']);
    expect(paths([locker, { ...locker, compartment: 'nav-locker', heightM: 0.01 }])).toEqual(['lockers[1].heightM']);
    expect(paths([locker, locker])).toEqual(['lockers[1].compartment']);
  });
});
