/**
 * `npm run smoke:electron`: opens the real desktop window, for people who have the Electron binary.
 * Without it this says so and counts as not run, never as passed.
 */
import assert from 'node:assert/strict';
import { electronBinary } from '../electron/launch/binary.mjs';
import { ensureDependencies } from '../electron/launch/dependencies.mjs';
import { inProject } from '../electron/launch/project.mjs';

const NOT_RUN = 3;
ensureDependencies();
const binary = await electronBinary();
if (!binary) {
  process.stderr.write('NOT RUN: there is no Electron binary here and none can be fetched\n');
  process.exit(NOT_RUN);
}
const { ensureBuilt } = await import('../electron/launch/build.mjs');
ensureBuilt(['renderer', 'desktop']);
const { _electron } = await import('playwright-core');
const app = await _electron.launch({ executablePath: binary, args: [inProject()] });
try {
  const page = await app.firstWindow();
  await page.waitForLoadState('domcontentloaded');
  assert.equal(page.url(), 'app://underberth/index.html');
  assert.equal(await page.evaluate(() => typeof window.underberthDesktop?.openBoat), 'function');
  assert.equal(await page.evaluate(() => typeof globalThis.require), 'undefined');
  process.stdout.write('the desktop window opens, isolated, with its bridge\n');
} finally {
  await app.close();
}
