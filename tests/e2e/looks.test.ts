import { readFileSync } from 'node:fs';
import type { BoardProbe } from '@renderer/board/probe';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inProject } from '../../electron/launch/project.mjs';
import { type BuiltPage, hasChromium, openBuiltPage } from '../support/chromium';
import { errorsOf, rest, startPage } from './planning';

declare global {
  interface Window {
    underberthBoard?: BoardProbe;
  }
}

const AXE = readFileSync(inProject('node_modules', 'axe-core', 'axe.min.js'), 'utf8');

interface Axe {
  run(options?: object): Promise<{
    violations: { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
  }>;
}

/** All rules of axe-core in light; in dark only what colours decide. */
async function violations(page: Page, onlyColours: boolean): Promise<readonly string[]> {
  return page.evaluate(async (colours) => {
    const { axe } = window as unknown as { axe: Axe };
    const found = await axe.run(colours ? { runOnly: ['color-contrast'] } : {});
    return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`);
  }, onlyColours);
}

/**
 * Words that are cut off without dots, and what sticks out of the window, at the size of text that is set. What is typed in a field
 * may be longer than it: it scrolls.
 */
const cutOff = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const found = [...document.querySelectorAll<HTMLElement>('.top-bar *, .side *, .title-block *, dialog *')].filter(
      (element) => {
        const { overflowX, textOverflow, display, visibility } = getComputedStyle(element);
        if (display === 'inline' || visibility === 'hidden' || element.closest('.spoken, svg, select, input'))
          return false;
        const isCut = overflowX === 'hidden' || overflowX === 'clip';
        return isCut && textOverflow !== 'ellipsis' && element.scrollWidth > element.clientWidth + 1;
      },
    );
    const words = found.map((element) => `${element.className}: ${(element.textContent ?? '').slice(0, 60)}`);
    if (document.documentElement.scrollWidth > window.innerWidth) words.push('the page is wider than the window');
    return words;
  });

const STAGES = ['1', '2', '3', '4', '5', '6'] as const;

/** What stands before the desk: its keys, or words for the command finder. */
const DIALOGS: readonly (readonly [name: string, open: (page: Page) => Promise<void>])[] = [
  ['all data', (page) => page.keyboard.press('d')],
  ['catalogue', (page) => page.keyboard.press('g')],
  ['keyboard map', (page) => page.keyboard.press('?')],
  ['steps', (page) => page.keyboard.press('h')],
  ['new from sample', (page) => give(page, 'New from sample')],
  ['data sheet', (page) => give(page, 'New part from its data sheet')],
  ['a whole set', (page) => give(page, 'Place a whole generic set')],
  ['earlier versions', (page) => give(page, 'Earlier versions')],
];

async function give(page: Page, words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

/** From whatever has the focus back to the drawing, where letters are commands. */
const toBoard = (page: Page): Promise<void> => page.evaluate(() => document.getElementById('board-list')?.focus());

describe.skipIf(!hasChromium())('every screen', () => {
  let built: BuiltPage;
  let page: Page;
  let errors: readonly string[];
  beforeAll(async () => {
    built = await openBuiltPage();
    page = await built.browser.newPage({ viewport: { width: 1280, height: 800 } });
    errors = errorsOf(page);
    await startPage(page, built.url);
    page.setDefaultTimeout(10_000);
    // A step to take back, for the list of steps.
    await page.evaluate(() => window.underberthBoard?.app().nudge('strainer', [0, 0.001, 0]));
    await rest(page);
    await page.evaluate(AXE);
  });
  afterAll(async () => {
    await built.close();
  });

  const everywhere = async (look: (name: string) => Promise<void>): Promise<void> => {
    for (const stage of STAGES) {
      await toBoard(page);
      await page.keyboard.press(stage);
      await look(`stage ${stage}`);
    }
    for (const [name, open] of DIALOGS) {
      await toBoard(page);
      await open(page);
      await page.locator('dialog').waitFor();
      await look(name);
      await page.keyboard.press('Escape');
      await page.locator('dialog').waitFor({ state: 'detached' });
    }
  };

  it.each(['light', 'dark'] as const)('is clean by axe-core in %s colours', async (theme) => {
    await page.evaluate((choice) => window.underberthBoard?.app().setTheme(choice), theme);
    const found: Record<string, readonly string[]> = {};
    await everywhere(async (name) => {
      const here = await violations(page, theme === 'dark');
      if (here.length > 0) found[name] = here;
    });
    expect(found).toEqual({});
  });

  it('is clean with the hints, an open finding, a picked part and an explained word', async () => {
    await page.evaluate(() => window.underberthBoard?.app().setTheme('light'));
    await toBoard(page);
    await give(page, 'Hints on or off');
    await page.locator('.hint-note').waitFor();
    expect(await page.locator('.hint-number').allTextContents()).toEqual(['1', '2', '3', '4', '5']);
    expect(await violations(page, false)).toEqual([]);
    await page.getByRole('button', { name: 'Put all away' }).click();
    await toBoard(page);
    await page.keyboard.press('5');
    await page.keyboard.press('n');
    await page.locator('.finding-body').waitFor();
    expect(await violations(page, false)).toEqual([]);
    await toBoard(page);
    await page.keyboard.press('3');
    await page.evaluate(() => {
      const app = window.underberthBoard?.app();
      const id = Object.keys(app?.boat?.parts ?? {}).find((part) => app?.boat?.parts[part]?.kind === 'pumpModule');
      if (id !== undefined) app?.select({ kind: 'thing', id });
    });
    const word = page.locator('.side').getByRole('button', { name: 'Pump module', exact: true });
    await word.click();
    await page.getByRole('tooltip').waitFor();
    expect(await page.getByRole('tooltip').textContent()).toContain('high-pressure pump');
    expect(await violations(page, false)).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.getByRole('tooltip').count()).toBe(0);
    // Esc closed the explanation alone: the part is still picked.
    expect(await word.count()).toBe(1);
  });

  it('is clean at the doors', async () => {
    for (const [door, heading] of [
      ['New in ten minutes', 'Ten minutes'],
      ['One locker', 'One locker'],
    ] as const) {
      await give(page, door);
      await page.getByRole('heading', { name: heading }).waitFor();
      expect(await violations(page, false)).toEqual([]);
      await page.keyboard.press('Escape');
    }
  });

  it('holds with text half as large again', async () => {
    await toBoard(page);
    await give(page, 'Larger text');
    await toBoard(page);
    await give(page, 'Larger text');
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('24px');
    const found: Record<string, readonly string[]> = {};
    await everywhere(async (name) => {
      const here = await cutOff(page);
      if (here.length > 0) found[name] = here;
    });
    expect(found).toEqual({});
    await rest(page);
    expect(errors).toEqual([]);
  });
});
