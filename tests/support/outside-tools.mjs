/** Programs from outside npm that some tests need, and what goes unproved without them. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const CHROMIUM_PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** Path of Chromium, or null. The variable CHROMIUM goes first. */
export function chromiumPath() {
  const places = process.env.CHROMIUM ? [process.env.CHROMIUM] : CHROMIUM_PLACES;
  return places.find((place) => existsSync(place)) ?? null;
}

const runs = (command, ...words) => spawnSync(command, words, { stdio: 'ignore' }).status === 0;

/** A Python that has openpyxl, or null. Debian's package serves Debian's own Python, which need not be the first in the path. */
export function pythonWithOpenpyxl() {
  return ['/usr/bin/python3', 'python3'].find((python) => runs(python, '-c', 'import openpyxl')) ?? null;
}

const TOOLS = [
  {
    tool: 'Chromium',
    debian: 'chromium',
    unrun: 'the app in a real browser, by itself and through the desktop preload',
    present: () => chromiumPath() !== null,
  },
  {
    tool: 'pdftoppm',
    debian: 'poppler-utils',
    unrun: 'sheets read back as pictures',
    present: () => runs('pdftoppm', '-v'),
  },
  {
    tool: 'openpyxl',
    debian: 'python3-openpyxl',
    unrun: 'workbooks read back by another program',
    present: () => pythonWithOpenpyxl() !== null,
  },
];

export const missingTools = () => TOOLS.filter((tool) => !tool.present());
