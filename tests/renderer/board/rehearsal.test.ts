import { bodyOf } from '@core/base/formulas/body-sizes';
import type { Vec3 } from '@core/base/vec';
import { readBoat } from '@core/boat/read';
import { FRAMES, project, type ViewName } from '@core/output/views/drawing';
import { asTheEyeSees } from '@renderer/board/rehearsal/paint-eye';
import { extentOfRehearsal, stanceOf } from '@renderer/board/rehearsal/scene';
import { boxIn, rehearsalSheet, transformIn } from '@renderer/board/rehearsal/sheet';
import { type Extent, type Rect, toScreen, within } from '@renderer/board/sheet';
import { describe, expect, it } from 'vitest';
import { rehearsalStep, taskReport } from '../../core/output/service-told';
import { threeLockers } from '../../support/boats';

const VIEWS: readonly ViewName[] = ['profile', 'section', 'plan'];
/** Somebody who kneels before a locker; somebody along a berth. */
const UPRIGHT: Extent = { low: [3.5, -1, -0.5], high: [4.5, 0.2, 1.2] };
const ALONG: Extent = { low: [2, -0.9, 0], high: [5, 0.1, 0.6] };

const corners = ({ low, high }: Extent): readonly Vec3[] =>
  [low[0], high[0]].flatMap((x) => [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z): Vec3 => [x, y, z])));
const overlap = (a: Rect, b: Rect): boolean =>
  a.x + 1e-6 < b.x + b.w && b.x + 1e-6 < a.x + a.w && a.y + 1e-6 < b.y + b.h && b.y + 1e-6 < a.y + a.h;

describe('the sheet of a rehearsal', () => {
  it.each([
    [UPRIGHT, 900, 440],
    [UPRIGHT, 1480, 690],
    [ALONG, 900, 440],
    [ALONG, 1480, 690],
    [UPRIGHT, 500, 900],
  ])('shows the whole scene in every view, to one scale, in fields apart (%j, %d x %d)', (extent, width, height) => {
    const sheet = rehearsalSheet(width, height, extent);
    const fields = Object.values(sheet.fields);
    for (const [i, one] of fields.entries()) {
      expect(one.x).toBeGreaterThan(sheet.inner.x);
      expect(one.x + one.w).toBeLessThan(sheet.inner.x + sheet.inner.w);
      expect(one.y + one.h).toBeLessThan(sheet.inner.y + sheet.inner.h);
      for (const other of fields.slice(i + 1)) expect(overlap(one, other)).toBe(false);
    }
    for (const name of VIEWS)
      for (const corner of corners(extent)) {
        const t = transformIn(sheet, sheet.fit, name);
        expect(t.scale).toBe(sheet.fit.scale);
        expect(within(boxIn(sheet.fields[name]), toScreen(t, project(FRAMES[name], corner)))).toBe(true);
      }
  });

  it('puts the plan beside the section for somebody upright on a wide sheet, below the profile on a tall one', () => {
    const wide = rehearsalSheet(1480, 690, UPRIGHT).fields;
    expect(wide.plan.y).toBe(wide.profile.y);
    const tall = rehearsalSheet(500, 900, UPRIGHT).fields;
    expect(tall.plan.y).toBeGreaterThan(tall.profile.y);
    // Then profile and plan are aligned, as on the board.
    expect(tall.plan.x).toBe(tall.profile.x);
    // Heights are aligned in either.
    expect([wide.section.y, tall.section.y]).toEqual([wide.profile.y, tall.profile.y]);
  });
});

describe('what the eye sees', () => {
  it('has what lies to the right on the right, what lies above above, and knows what is stopped', () => {
    // derived: looking forward from the origin, starboard (-y) is right; the tangents are taken about the mean way
    const seen = asTheEyeSees([
      { from: [0, 0, 0], to: [1, -0.1, 0], isFree: true },
      { from: [0, 0, 0], to: [1, 0.1, 0], isFree: false },
      { from: [0, 0, 0], to: [1, 0, 0.1], isFree: true },
      { from: [0, 0, 0], to: [1, 0, -0.1], isFree: true },
    ]);
    expect(seen.map(({ isFree }) => isFree)).toEqual([true, false, true, true]);
    expect(seen[0]?.at[0]).toBeCloseTo(0.1, 9);
    expect(seen[1]?.at[0]).toBeCloseTo(-0.1, 9);
    expect(seen[2]?.at[1]).toBeCloseTo(0.1, 9);
    expect(seen[3]?.at[1]).toBeCloseTo(-0.1, 9);
  });

  it('works straight down too, and of no rays makes nothing', () => {
    const down = asTheEyeSees([
      { from: [0, 0, 1], to: [0.1, 0, 0], isFree: true },
      { from: [0, 0, 1], to: [-0.1, 0, 0], isFree: true },
    ]);
    expect(down.every(({ at }) => at.every(Number.isFinite))).toBe(true);
    expect(Math.abs((down[0]?.at[0] ?? 0) - (down[1]?.at[0] ?? 0))).toBeCloseTo(0.2, 9);
    expect(asTheEyeSees([])).toEqual([]);
  });
});

describe('the person of a rehearsal', () => {
  const body = bodyOf(null).sizes;
  const read = readBoat(
    JSON.stringify({
      ...threeLockers(),
      standingPlaces: {
        sole: { name: 'Sole', at: [1.5, 1, -0.4] },
        berth: { name: 'Berth', at: [1.5, 1, 0], posture: 'lie' },
      },
    }),
  );
  if (!read.ok) throw new Error(read.problems[0]?.message);
  const { boat } = read;
  const at = (shoulderM: number) => [
    rehearsalStep({
      kind: 'go',
      person: {
        at: [1.5, 1, -0.4],
        posture: 'lean',
        eye: [1.5, 0.9, shoulderM],
        shoulder: [1.5, 0.9, shoulderM - 0.4],
      },
    }),
  ];
  const stance = (part: Parameters<typeof taskReport>[0], shoulderM = 1.4) =>
    stanceOf(boat, taskReport(part), at(shoulderM), body);
  const task = { thing: 'strainer', service: 'lid' };

  it('stands, kneels where the shoulder is low, lies on a berth, crouches inside', () => {
    expect(stance({ ...task, standing: 'sole' })).toBe('stand');
    expect(stance({ ...task, standing: 'sole' }, 0.6)).toBe('kneel');
    expect(stance({ ...task, standing: 'berth' })).toBe('lie');
    expect(stance({ ...task, standing: 'sole', posture: 'climbIn' })).toBe('crouch');
    expect(stance({ ...task, standing: null })).toBe('crouch');
  });

  it('is in sight with the thing and the openings', () => {
    const { low, high } = extentOfRehearsal(boat, 'first', taskReport({ ...task, openings: ['lid'] }), at(1.4), body);
    // derived: the lid of the fore locker reaches from 2.13 to 2.93 m, and stands at z 0.4
    expect(high[0]).toBeGreaterThan(2.93 - 1e-9);
    expect(low[2]).toBeLessThan(-0.4);
    expect(high[2]).toBeGreaterThan(1.4);
  });
});
