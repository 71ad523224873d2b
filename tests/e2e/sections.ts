import type { Boat } from '@core/boat/schema/boat';
import type { SectionsProbe } from '@renderer/sections/probe';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { boatNow, drag } from './planning';

declare global {
  interface Window {
    underberthSections?: SectionsProbe;
  }
}

/** A station with enough points on either side of the one that is moved; its number is 6. */
const STATION = 's06';
const POINT = 6;

const stationNow = async (page: Page, id = STATION): Promise<NonNullable<Boat['hull']>['stations'][string]> => {
  const station = (await boatNow(page)).hull?.stations[id];
  if (!station) throw new Error(`expected station ${id}`);
  return station;
};

/** Where a point of the active station is on the page. */
export const pointAt = async (page: Page, index: number): Promise<readonly [number, number]> => {
  const at = await page.evaluate((point) => window.underberthSections?.pointAt(point) ?? null, index);
  if (!at) throw new Error(`expected point ${index} on the section board`);
  return at;
};

export const openSections = async (page: Page): Promise<void> => {
  await page.getByRole('button', { name: /Hull$/ }).first().click();
  await page.getByTestId('section-board').waitFor();
  await page.waitForFunction(() => window.underberthSections?.scene() != null);
};

const row = (page: Page, index: number) => page.getByRole('button', { name: `Point ${index + 1}`, exact: true });

/** A point is dragged, follows while held, is one edit at release, and one undo. */
export async function dragsAPoint(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^6$/ }).first().click();
  const before = await boatNow(page);
  const [x, y] = await pointAt(page, POINT);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 12, y, { steps: 4 });
  await page.waitForFunction(() => window.underberthSections?.scene()?.isHeld === true);
  // Nothing is an edit while the hand holds.
  expect((await boatNow(page)).hull).toEqual(before.hull);
  const shown = await page.getByRole('textbox', { name: `Half-breadth of point ${POINT + 1}` }).inputValue();
  expect(Number(shown.replace('\u2009', ''))).toBeGreaterThan(
    1000 * (before.hull?.stations[STATION]?.points[POINT]?.[0] ?? 0),
  );
  await page.mouse.up();
  const after = await stationNow(page);
  const scale = await page.evaluate(() => window.underberthSections?.scene()?.camera.scale ?? 1);
  // derived: 12 pixels at so many pixels a metre, to the millimetre; in the forward half right is outwards
  expect((after.points[POINT]?.[0] ?? 0) - (before.hull?.stations[STATION]?.points[POINT]?.[0] ?? 0)).toBeCloseTo(
    12 / scale,
    2,
  );
  expect(after.points[POINT]?.[1]).toBe(before.hull?.stations[STATION]?.points[POINT]?.[1]);
  await page.keyboard.press('Control+z');
  expect((await boatNow(page)).hull).toEqual(before.hull);
}

/** Escape while the hand holds leaves the boat as it was, and the release after it does nothing. */
export async function givesUpADrag(page: Page): Promise<void> {
  const before = (await boatNow(page)).hull;
  const [x, y] = await pointAt(page, POINT);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 15, y + 6, { steps: 4 });
  await page.waitForFunction(() => window.underberthSections?.scene()?.isHeld === true);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  expect((await boatNow(page)).hull).toEqual(before);
  expect(await page.evaluate(() => window.underberthSections?.scene()?.isHeld)).toBe(false);
}

/** Pushed past its neighbour a point stops there, says why, and the boat stays one that can be drawn. */
export async function stopsAtItsNeighbour(page: Page): Promise<void> {
  const before = await stationNow(page);
  await drag(page, await pointAt(page, POINT), [0, -160]);
  const after = await stationNow(page);
  expect(after.points[POINT]?.[1]).toBe(before.points[POINT + 1]?.[1]);
  await page.keyboard.press('Control+z');
  const field = page.getByRole('textbox', { name: `Height of point ${POINT + 1}` });
  await field.fill('900');
  await field.press('Enter');
  expect(await page.locator('.points-table [role="alert"]').textContent()).toMatch(
    new RegExp(`^Point ${POINT + 1} cannot go above point ${POINT + 2}, at .* mm: the section would cross itself\\.$`),
  );
  expect(await stationNow(page)).toEqual(before);
}

/** Keys alone: pick, nudge, knuckle, add, remove, another station. */
export async function editsByKeyboard(page: Page): Promise<void> {
  const before = await stationNow(page);
  await row(page, POINT).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowDown');
  const moved = (await stationNow(page)).points[POINT];
  // derived: two steps of 10 mm outwards and one of 1 mm down
  expect((moved?.[0] ?? 0) - (before.points[POINT]?.[0] ?? 0)).toBeCloseTo(0.02, 9);
  expect((moved?.[1] ?? 0) - (before.points[POINT]?.[1] ?? 0)).toBeCloseTo(-0.001, 9);
  // Steps of the keys in a row are one undo.
  await page.keyboard.press('Control+z');
  expect(await stationNow(page)).toEqual(before);

  await page.keyboard.press('k');
  expect((await stationNow(page)).knuckles).toEqual([POINT]);
  await page.keyboard.press('a');
  const more = await stationNow(page);
  expect(more.points).toHaveLength(before.points.length + 1);
  expect(more.knuckles).toEqual([POINT]);
  // The new point has the focus: it goes as it came.
  await page.waitForFunction(
    (name) => document.activeElement?.getAttribute('aria-label') === name,
    `Point ${POINT + 2}`,
  );
  await page.keyboard.press('Delete');
  expect((await stationNow(page)).points).toEqual(before.points);
  for (let step = 0; step < 3; step++) await page.keyboard.press('Control+z');
  expect(await stationNow(page)).toEqual(before);

  await row(page, POINT).focus();
  await page.keyboard.press('PageUp');
  await page.waitForFunction(
    (name) => document.activeElement?.getAttribute('aria-label') === name,
    `Point ${POINT + 2}`,
  );
  await page.keyboard.press(']');
  await page.getByRole('heading', { name: /^Station 7 at/ }).waitFor();
  await page.waitForFunction(() => document.activeElement?.classList.contains('row-name'));
  await page.keyboard.press('[');
  await page.getByRole('heading', { name: /^Station 6 at/ }).waitFor();
}

/** A double click on the curve puts a point there; the box beside it makes it a knuckle. */
export async function addsAPointByMouse(page: Page): Promise<void> {
  const before = await stationNow(page);
  const [a, b] = [before.points[POINT], before.points[POINT + 1]];
  if (!a || !b) throw new Error('expected two points');
  const middle: [number, number] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const at = await page.evaluate((place) => window.underberthSections?.clientAt(place) ?? null, middle);
  if (!at) throw new Error('expected the section board');
  await page.mouse.dblclick(at[0], at[1]);
  const after = await stationNow(page);
  expect(after.points).toHaveLength(before.points.length + 1);
  expect(Math.abs((after.points[POINT + 1]?.[1] ?? 0) - middle[1])).toBeLessThan(0.03);
  await page.getByRole('checkbox', { name: `Knuckle at point ${POINT + 2}` }).click();
  expect((await stationNow(page)).knuckles).toEqual([POINT + 1]);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  expect(await stationNow(page)).toEqual(before);
}

/** A station is put into the widest gap beside the active one, and goes with one undo. */
export async function addsAStation(page: Page): Promise<void> {
  const before = (await boatNow(page)).hull;
  await page.getByRole('button', { name: 'Add a station' }).click();
  const after = (await boatNow(page)).hull;
  const fresh = Object.keys(after?.stations ?? {}).filter((id) => !Object.hasOwn(before?.stations ?? {}, id));
  expect(fresh).toHaveLength(1);
  expect(after?.stations[fresh[0] ?? '']).toMatchObject({ taken: 'interpolated' });
  await page.keyboard.press('Control+z');
  expect((await boatNow(page)).hull).toEqual(before);
}

/** A table with a fault takes nothing; put right, it is the hull; one undo brings the old one back. */
export async function takesATable(page: Page): Promise<void> {
  const before = (await boatNow(page)).hull;
  await page.getByRole('button', { name: 'Offsets' }).click();
  const table = page.getByRole('textbox', { name: 'Table of offsets' });
  const rows = (slip: string): string =>
    [
      'Station\t0\t1\t2',
      'x\t0-0-0\t6-6-0\t13-0-0',
      'Keel height\t-0-3-0\t-1-6-0\t-0-6-0',
      `WL 0\t1-6-0\t${slip}\t0-6-0`,
      'WL 2-0-0\t2-0-0\t3-2-0\t1-3-4',
    ].join('\n');
  await table.fill(rows('2-13-0'));
  await page.getByText("row 4, column 3: '2-13-0' has 13 inches, at most 11").waitFor();
  expect(await page.getByRole('button', { name: 'Take the stations' }).isDisabled()).toBe(true);
  await table.fill(rows('2-11-0'));
  await page.getByRole('button', { name: 'Take 3 stations' }).click();
  const { hull } = await boatNow(page);
  expect(Object.keys(hull?.stations ?? {})).toEqual(['s0', 's1', 's2']);
  // derived: 2 ft 11 in = 0.889 m
  expect(hull?.stations.s1?.points).toContainEqual([0.889, 0]);
  await page.keyboard.press('Control+z');
  expect((await boatNow(page)).hull).toEqual(before);
}
