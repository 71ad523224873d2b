import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { type FirstBoatInput, type ShellInput, shellOf } from '@core/engine/first-boat/first-boat';
import { deriveLayout } from '@core/shape/layout/derive';
import { beforeAll, describe, expect, test } from 'vitest';
import { dice } from '../../../support/dice';
import { ALL_FORMS, drawnDimensions } from '../../../support/forms';
import { ALL_ABOARD, judgeBoat, made } from './judge-first-boat';

/** A whole boat is seconds of work: few are made here, what the shell alone tells is asked of the shell. The deep tests make 200. */
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

function boatOf(input: FirstBoatInput): Boat {
  const first = made(input);
  if (!first.ok) throw new Error(first.problems.map(({ message }) => message).join('; '));
  return first.boat;
}

function interiorOf(input: ShellInput) {
  const shell = shellOf(input);
  if (!shell.ok) throw new Error(shell.problems.map(({ message }) => message).join('; '));
  return shell.interior;
}

const layoutOf = ({ compartments }: Pick<Boat, 'compartments'>, panels: Boat['panels'] = {}) =>
  deriveLayout({ compartments, panels, newHoles: {}, newHoleCostM: 0.3 });

let usualBoat: Boat;
beforeAll(() => {
  usualBoat = boatOf(usual);
});

function expectWholeSet(boat: Boat): void {
  const lines = Object.keys(boat.lines).length;
  expect(lines).toBeGreaterThanOrEqual(17);
  expect(lines).toBeLessThanOrEqual(20);
  expect(Object.keys(boat.arrangements.first?.places ?? {}).sort()).toEqual(Object.keys(boat.parts).sort());
}

test.each(ALL_FORMS)('%s: a seeded interior is divided without overlap', (form) => {
  const throws = dice(4711 + form.length);
  const layout = layoutOf(interiorOf({ ...drawnDimensions(form, throws), lockers: [] }));
  expect(layout.cells.length).toBeGreaterThan(10);
  expect(layout.overlaps).toEqual([]);
});

test.each([
  ['longKeel', 30],
  ['catamaran', 100],
] as const)(
  '%s with a set of %i L/h: readable, no danger, most lines routed, every part placed, 17 to 20 lines',
  (form, setSize) => {
    const throws = dice(4711 + form.length);
    const boat = boatOf({ ...drawnDimensions(form, throws), setSize, lockers: [], fixtures: ALL_ABOARD });
    expect(judgeBoat(boat).remarks).toEqual([]);
    expectWholeSet(boat);
  },
);

describe('a first boat', () => {
  test('is the same every time and survives its file', () => {
    expect(boatOf(usual)).toEqual(usualBoat);
    const read = readBoat(writeBoat(usualBoat));
    expect(read.ok && read.boat).toMatchObject(usualBoat);
    expect(read.ok && read.notes).toEqual([]);
  });

  test('has no danger, most of its lines are routed, and every part has a place', () => {
    expect(judgeBoat(usualBoat).remarks).toEqual([]);
    expectWholeSet(usualBoat);
  });

  test('is guessed throughout: hull, compartments, openings, things', () => {
    const boat = usualBoat;
    expect(boat.hull?.grade).toBe('guessed');
    expect(boat.weights?.displacementKg).toBe(6200);
    for (const records of [boat.compartments, boat.openings, boat.fixtures, boat.parts])
      for (const [id, one] of Object.entries(records)) expect([id, one.grade]).toEqual([id, 'guessed']);
  });

  test('has every panel record bound and every way in at the wall of its compartment', () => {
    const boat = usualBoat;
    expect(layoutOf(boat, boat.panels).orphans).toEqual([]);
    for (const opening of Object.values(boat.openings)) {
      expect(Object.keys(boat.compartments)).toContain(opening.compartment);
      if (opening.to !== 'outside') expect(Object.keys(boat.compartments)).toContain(opening.to);
    }
  });

  test('a sole typed lower shifts sole, seats and the boards over the bilge by as much', () => {
    const at = (soleZ: number) => interiorOf({ ...usual, soleZ });
    const [high, low] = [at(-0.4), at(-0.45)];
    // Derived: the bilge ends 20 mm under the sole.
    expect(high.compartments['mid-bilge']?.rangeM[1]).toBeCloseTo(-0.42, 6);
    expect(low.compartments['mid-bilge']?.rangeM[1]).toBeCloseTo(-0.47, 6);
    expect(high.standingPlaces['saloon-sole']?.at[2]).toBeCloseTo(-0.4, 6);
  });

  test('a sole that the hull cannot have is refused with the range', () => {
    const refused = shellOf({ ...usual, soleZ: -1.5 });
    expect(refused.ok ? [] : refused.problems.map(({ path }) => path)).toEqual(['soleZ']);
    expect(refused.ok ? '' : refused.problems[0]?.limit).toMatch(/from 0\.\d+ m below to 0\.\d+ m above the water/);
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
});

describe('measured lockers', () => {
  const locker = { compartment: 'settee-stbd-aft', name: 'Tool locker', lengthM: 0.9, widthM: 0.7, heightM: 0.4 };

  test('stand in the place of the guessed one, as long, wide and high as taped, and do not overlap their neighbours', () => {
    const interior = interiorOf({ ...usual, lockers: [{ ...locker, fromBulkheadM: 1.2 }] });
    const measured = interior.compartments['settee-stbd-aft'];
    const xs = measured?.outline.map(([x]) => x) ?? [];
    const ys = measured?.outline.map(([, y]) => y) ?? [];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(0.9, 6);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(0.7, 6);
    expect((measured?.rangeM[1] ?? 0) - (measured?.rangeM[0] ?? 0)).toBeCloseTo(0.4, 6);
    expect([measured?.grade, measured?.name]).toEqual(['taped', 'Tool locker']);
    // Aft of the main bulkhead by what was read.
    expect(interior.mainBulkheadM - Math.max(...xs)).toBeCloseTo(1.2, 6);
    expect(layoutOf(interior).overlaps).toEqual([]);
    expect(interior.openings['settee-stbd-aft-lid']?.grade).toBe('taped');
  });

  test('one that is longer than the guess cuts its neighbour back', () => {
    const before = interiorOf(usual).compartments['settee-stbd-fwd'];
    const interior = interiorOf({ ...usual, lockers: [{ ...locker, lengthM: 1.5 }] });
    const after = interior.compartments['settee-stbd-fwd'];
    const start = (one: typeof before): number => Math.min(...(one?.outline.map(([x]) => x) ?? []));
    expect(start(after)).toBeGreaterThan(start(before) + 0.3);
    expect(layoutOf(interior).overlaps).toEqual([]);
    expect(interior.compartments['settee-stbd-aft']).toMatchObject({ grade: 'taped', name: 'Tool locker' });
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
