import { analyze } from '@core/analyze';
import { readBoat } from '@core/boat/read';
import type { Boat } from '@core/boat/schema/boat';
import { writeBoat } from '@core/boat/write';
import { deriveLayout } from '@core/shape/layout/derive';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { Acts } from './acts';
import { boatNow, errorsOf, expectAccessible, expectBoardCold, settle, startPage } from './planning';

/** Most acts that a newcomer may need from an empty boat to three own lockers with panels and openings. */
const MOST_ACTS = 120;

type Spot = readonly [number, number];

/** Where a point of the boat is on the page. */
const spot = async (
  page: Page,
  at: readonly [number, number, number],
  view: 'plan' | 'profile' | 'section',
): Promise<Spot> => {
  const found = await page.evaluate(([point, field]) => window.underberthBoard?.clientAt(point, field) ?? null, [
    at,
    view,
  ] as const);
  if (!found) throw new Error(`expected ${at.join(', ')} in ${view}`);
  return found;
};

const layoutOf = (boat: Boat) =>
  deriveLayout({ compartments: boat.compartments, panels: boat.panels, newHoles: {}, newHoleCostM: boat.newHoleCostM });

/** Three compartments, each with an opening, two panels with what may pass them; nothing overlaps, nothing is lost. */
function expectThreeLockers(boat: Boat): void {
  const ids = Object.keys(boat.compartments);
  expect(ids).toHaveLength(3);
  const layout = layoutOf(boat);
  expect(layout.overlaps).toEqual([]);
  expect(layout.orphans).toEqual([]);
  expect(Object.values(layout.panels)).toHaveLength(2);
  expect(
    Object.values(layout.panels)
      .map(({ rule }) => rule)
      .sort(),
  ).toEqual(['noDrill', 'open']);
  expect(new Set(Object.values(boat.openings).map(({ compartment }) => compartment))).toEqual(new Set(ids));
  // A cold check of the saved file reads it and judges it.
  const read = readBoat(writeBoat(boat));
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  expect(analyze(read.boat).findings.filter(({ outcome }) => outcome === 'fail')).toEqual([]);
}

let built: BuiltPage;

describe.skipIf(!hasChromium())('the interior, from an empty boat to three lockers', () => {
  beforeAll(async () => {
    built = await openBuiltPage();
  });
  afterAll(async () => {
    await built?.close();
  });

  const fresh = async (): Promise<{ page: Page; errors: readonly string[] }> => {
    const page = await (await built.browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    const errors = errorsOf(page);
    await startPage(page, built.url);
    return { page, errors };
  };

  it('by mouse alone', async () => {
    const { page, errors } = await fresh();
    const hand = new Acts(page);
    const at = (x: number, y: number, z: number, view: 'plan' | 'profile' | 'section' = 'plan') =>
      spot(page, [x, y, z], view);
    await hand.click('Boat file');
    await hand.click(/^New empty boat/, 'menuitem');
    await settle(page);

    for (const [from, to] of [
      [
        [3, 0.02],
        [4, 0.6],
      ],
      [
        [4.02, 0.01],
        [5.2, 0.6],
      ],
      [
        [5.21, 0.01],
        [6, 0.61],
      ],
    ] as const) {
      await hand.click('Draw a rectangular compartment');
      await hand.drag(await at(from[0], from[1], 0), await at(to[0], to[1], 0));
    }
    let boat = await boatNow(page);
    // What was drawn a hair beside the neighbour lies on it: faces pull.
    expect(Object.values(layoutOf(boat).panels)).toHaveLength(2);
    // Nobody has measured what the pointer drew.
    expect(Object.values(boat.compartments).map(({ grade }) => grade)).toEqual(['guessed', 'guessed', 'guessed']);

    // The top of the first goes up, in profile: its own range is dragged there.
    await hand.clickAt(await at(3.5, 0.3, 0));
    const before = Object.values(boat.compartments)[0]?.rangeM ?? [0, 0];
    await hand.drag(await at(3.3, 0, before[1], 'profile'), await at(3.3, 0, before[1] + 0.2, 'profile'));
    boat = await boatNow(page);
    expect(Object.values(boat.compartments)[0]?.rangeM[1]).toBeCloseTo(before[1] + 0.2, 1);
    expect(Object.values(boat.compartments)[0]?.rangeM[0]).toBe(before[0]);
    // The bulkhead between the second and the third moves as one.
    await hand.clickAt(await at(4.6, 0.3, 0));
    const bulkhead = Object.values(boat.compartments)[1]?.outline.map((p) => p[0]) ?? [];
    const x = Math.max(...bulkhead);
    await hand.drag(await at(x, 0.3, 0), await at(x + 0.2, 0.3, 0));
    boat = await boatNow(page);
    expect(Math.max(...(Object.values(boat.compartments)[1]?.outline ?? []).map((p) => p[0]))).toBeCloseTo(x + 0.2, 1);
    expect(Object.values(layoutOf(boat).panels)).toHaveLength(2);

    // Panels are picked on the drawing, one after the other.
    await hand.clickAt(await at(9, 1.5, 0));
    const panels = Object.values(layoutOf(boat).panels);
    for (const [index, words] of (['Open', 'No drilling'] as const).entries()) {
      const edge = panels[index]?.edges[0]?.[0] ?? [0, 0, 0];
      await hand.clickAt(await at(edge[0], 0.3, 0));
      await hand.click(words);
    }
    await hand.choose('Material of the panel', 'ply');
    await hand.click('Add a hole');

    // A lid each, drawn on the top from above; the first one hinged.
    for (const middle of [3.5, 4.6, 5.8]) {
      await hand.click('Draw an opening on a face');
      await hand.drag(await at(middle - 0.2, 0.15, 0), await at(middle + 0.15, 0.45, 0));
      if (middle === 3.5) await hand.choose('How it opens', 'hinged');
    }
    await settle(page);
    boat = await boatNow(page);
    expectThreeLockers(boat);
    expect(Object.values(boat.openings)[0]).toMatchObject({ how: 'hinged', normal: [0, 0, 1], to: 'outside' });
    expect(Object.values(boat.panels).flatMap(({ holes }) => Object.keys(holes))).toHaveLength(1);
    await expectBoardCold(page);
    await expectAccessible(page);
    expect(hand.count).toBeLessThanOrEqual(MOST_ACTS);

    // All of it is taken back and done again.
    const undo = page.getByRole('button', { name: /^Undo/ });
    while (await undo.isEnabled()) await undo.click();
    expect((await boatNow(page)).compartments).toEqual({});
    const redo = page.getByRole('button', { name: /^Redo/ });
    while (await redo.isEnabled()) await redo.click();
    expect(await boatNow(page)).toEqual(boat);
    await settle(page);
    expect(errors).toEqual([]);
    await page.context().close();
  }, 120_000);

  it('by keyboard alone', async () => {
    const { page, errors } = await fresh();
    const hand = new Acts(page);
    await hand.command('New empty boat');
    await settle(page);

    // The first by its numbers, the others beside it.
    await hand.command('New compartment by numbers');
    await hand.type('Port locker');
    await hand.tabTo('x from');
    await hand.type('3 m');
    await hand.tabTo('Length along x');
    await hand.type('900');
    await hand.tabTo('Make the compartment');
    await hand.press('Enter');
    for (const name of ['Middle locker', 'Fore locker']) {
      await hand.command('New compartment by numbers');
      await hand.type(name);
      await hand.tabTo('Make the compartment');
      await hand.press('Enter');
    }
    expect(Object.values(layoutOf(await boatNow(page)).panels)).toHaveLength(2);

    for (const [name, rule] of [
      ['Port locker', 'Panel: open'],
      ['Fore locker', 'Panel: no drilling'],
    ] as const) {
      await hand.command(name);
      await hand.command('Next panel of the compartment');
      await hand.command(rule);
    }
    for (const name of ['Port locker', 'Middle locker', 'Fore locker']) {
      await hand.command(name);
      await hand.command('Opening in the top');
      await hand.tabTo('Clear width');
      await hand.type('420');
    }
    // The forward end of the last is taken in hand and moved by arrow keys: 10 mm, with shift 1 mm.
    await hand.command('Fore locker');
    await hand.tabTo('forward end');
    await hand.press('Enter', 'ArrowRight', 'ArrowRight', 'Shift+ArrowRight');

    await settle(page);
    const boat = await boatNow(page);
    expectThreeLockers(boat);
    expect(Object.values(boat.compartments).map(({ name }) => name)).toEqual([
      'Port locker',
      'Middle locker',
      'Fore locker',
    ]);
    expect(Object.values(boat.openings).map(({ widthM }) => widthM)).toEqual([0.42, 0.42, 0.42]);
    // derived: 3 + 0.9 + 0.6 + 0.6 m as proposed beside one another, and 21 mm by the arrows
    expect(Math.max(...(boat.compartments['fore-locker']?.outline ?? []).map((p) => p[0]))).toBeCloseTo(5.121, 9);
    await expectBoardCold(page);
    expect(hand.count).toBeLessThanOrEqual(MOST_ACTS);
    expect(errors).toEqual([]);
    await page.context().close();
  }, 120_000);

  it('draws surfaces, holes and standing places, slides them, splits, merges, mirrors and measures', async () => {
    const { page, errors } = await fresh();
    const hand = new Acts(page);
    const at = (x: number, y: number, z: number, view: 'plan' | 'profile' | 'section' = 'plan') =>
      spot(page, [x, y, z], view);
    await hand.command('New empty boat');
    await settle(page);
    await page.keyboard.press('b');
    await hand.drag(await at(3, 0.2, 0), await at(5, 1, 0));
    const [own] = Object.keys((await boatNow(page)).compartments);

    // A side of it, seen edge on in plan, takes a surface as long as the drag.
    await hand.click('Draw a mounting surface on a face');
    await hand.drag(await at(3.4, 1, 0), await at(4.4, 1, 0));
    const surface = Object.values((await boatNow(page)).mountingSurfaces)[0];
    expect(surface).toMatchObject({ compartment: own, normal: [0, -1, 0], material: 'ply' });
    expect(surface?.widthM).toBeCloseTo(1, 1);
    // It is picked now, and slides along its side but not off it.
    await hand.drag(await at(4.4, 1, 0), await at(5.4, 0.4, 0));
    const slid = Object.values((await boatNow(page)).mountingSurfaces)[0];
    expect(slid?.at[1]).toBeCloseTo(1, 6);
    expect((slid?.at[0] ?? 0) + (slid?.widthM ?? 0) / 2).toBeCloseTo(5, 6);

    await hand.click('Set a standing place');
    await hand.clickAt(await at(3.5, 0.5, 0));
    expect(Object.values((await boatNow(page)).standingPlaces)[0]).toMatchObject({
      compartment: own,
      posture: 'kneel',
    });

    // A stroke across parts it, where the stroke is.
    await hand.clickAt(await at(4.2, 0.4, 0));
    await page.keyboard.press('x');
    await hand.drag(await at(4, 1.2, 0), await at(4, 0, 0));
    let boat = await boatNow(page);
    expect(Object.keys(boat.compartments)).toHaveLength(2);
    const ends = Object.values(boat.compartments).map(({ outline }) => Math.max(...outline.map((p) => p[0])));
    expect(Math.min(...ends)).toBeCloseTo(4, 1);
    // A hole where the board between them is clicked, at 30 mm, and the panel is picked.
    const x = Math.min(...ends);
    await hand.click('Add a hole to a panel');
    await hand.clickAt(await at(x, 0.5, 0));
    boat = await boatNow(page);
    const hole = Object.values(boat.panels).flatMap(({ holes }) => Object.values(holes))[0];
    expect(hole?.diameterM).toBe(0.03);
    expect(hole?.at[1]).toBeCloseTo(0.5, 1);
    await page.keyboard.press('Escape');
    await hand.drag(await at(x, hole?.at[1] ?? 0, 0), await at(x, 0.8, 0));
    expect(Object.values((await boatNow(page)).panels)[0]?.holes.hole?.at[1]).toBeCloseTo(0.8, 1);

    await page.keyboard.press('Escape');
    await hand.clickAt(await at(3.5, 0.4, 0));
    await hand.click('Merge in');
    boat = await boatNow(page);
    expect(Object.keys(boat.compartments)).toHaveLength(1);
    // The board is gone, its data is not.
    expect(Object.values(boat.panels)).toMatchObject([{ setAside: true, holes: { hole: { diameterM: 0.03 } } }]);
    await hand.click('Mirror to the other side');
    expect(
      Math.max(...(Object.values((await boatNow(page)).compartments)[0]?.outline ?? []).map((p) => p[1])),
    ).toBeCloseTo(-0.2, 6);

    await page.keyboard.press('m');
    await hand.drag(await at(3, -0.2, 0), await at(5, -1, 0));
    // derived: the root of 2 squared and 0.8 squared; corners pull
    await page.getByTestId('drawing-bar').getByText('2154 mm').waitFor();
    await page.keyboard.press('Escape');
    await settle(page);
    await expectBoardCold(page);
    expect(errors).toEqual([]);
    await page.context().close();
  }, 120_000);

  it('draws corner by corner with typed sides, and by numbers in the strip alone', async () => {
    const { page, errors } = await fresh();
    const hand = new Acts(page);
    await hand.command('New empty boat');
    await hand.command('Tool: draw a compartment corner');
    await page.mouse.click(...(await spot(page, [3, 0, 0], 'plan')));
    await page.mouse.move(...(await spot(page, [4, 0, 0], 'plan')));
    // Digits typed on the drawing go to the size.
    await page.keyboard.type('450');
    await page.keyboard.press('Enter');
    await page.mouse.move(...(await spot(page, [3.45, 1, 0], 'plan')));
    await page.keyboard.type('300');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    const [corners] = Object.values((await boatNow(page)).compartments);
    expect(corners?.outline).toHaveLength(3);
    // derived: 450 mm forward, then 300 mm to port
    expect(corners?.outline[1]?.[0]).toBeCloseTo((corners?.outline[0]?.[0] ?? 0) + 0.45, 3);
    expect(corners?.outline[2]?.[1]).toBeCloseTo((corners?.outline[0]?.[1] ?? 0) + 0.3, 3);

    await hand.command('Tool: draw a rectangular');
    const field = (name: string) => page.getByRole('textbox', { name });
    for (const [u, v] of [
      ['5 m', '0'],
      ['5.6 m', '0.4 m'],
    ] as const) {
      await field('x of the next point').fill(u);
      await field('y of the next point').fill(v);
      await field('y of the next point').press('Enter');
      await page.getByRole('button', { name: 'Set the point' }).click();
    }
    const made = Object.values((await boatNow(page)).compartments)[1];
    expect(made?.outline).toEqual([
      [5, 0],
      [5.6, 0],
      [5.6, 0.4],
      [5, 0.4],
    ]);
    await settle(page);
    expect(errors).toEqual([]);
    await page.context().close();
  }, 120_000);
});
