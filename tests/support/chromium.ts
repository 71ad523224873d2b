import { type Browser, chromium } from 'playwright-core';
import { ensureBuilt } from '../../electron/launch/build.mjs';
import { inProject } from '../../electron/launch/project.mjs';
import { type BrowserMode, serve } from '../../electron/serve/server';
import { chromiumPath } from './outside-tools.mjs';

const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** For describe.skipIf: without Chromium `npm test` says loudly what did not run, and in CI fails. */
export const hasChromium = (): boolean => chromiumPath() !== null;

/** Headless Chromium of this machine, as of somebody who has put the hints of the sample away: they stand on the drawing. */
export async function openChromium(): Promise<Browser> {
  const executablePath = chromiumPath();
  if (!executablePath) throw new Error('openChromium: no Chromium here; guard the test with hasChromium()');
  const browser = await chromium.launch({ executablePath, args: ARGUMENTS });
  const open = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await open(options);
    await context.addInitScript(putHintsAway);
    return context;
  };
  return browser;
}

function putHintsAway(): void {
  const key = 'underberth.preferences';
  // A page without an address has no storage.
  if (location.protocol === 'about:' || localStorage.getItem(key) !== null) return;
  localStorage.setItem(key, JSON.stringify({ hintsAway: ['pump', 'finding', 'run', 'list', 'own'] }));
}

/** The built page behind the server of browser mode, on a free port. */
export const servePage = (): Promise<BrowserMode> =>
  serve({ page: inProject('dist', 'renderer'), sampleBoats: inProject('sample-boats') }, 0);

export interface BuiltPage {
  readonly browser: Browser;
  readonly url: string;
  close(): Promise<void>;
}

/** A browser and the built page behind its server, built afresh where a source is newer. */
export async function openBuiltPage(): Promise<BuiltPage> {
  ensureBuilt(['renderer']);
  const mode = await servePage();
  const browser = await openChromium();
  return {
    browser,
    url: mode.url,
    async close() {
      await browser.close();
      await mode.close();
    },
  };
}
