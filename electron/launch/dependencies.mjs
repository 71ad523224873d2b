/** Installs what package-lock.json pins, unless it is there already. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { inProject } from './project.mjs';

const LOCK = inProject('package-lock.json');
const STAMP = inProject('node_modules', '.lock-stamp');
const RECORD = inProject('node_modules', '.package-lock.json');

const lockDigest = () => createHash('sha256').update(readFileSync(LOCK)).digest('hex');

function installed() {
  if (existsSync(STAMP) && readFileSync(STAMP, 'utf8') === lockDigest()) return true;
  // Installed by hand: npm's own record says what stands there. Optional packages may be for other platforms.
  if (!existsSync(RECORD)) return false;
  const { packages: there } = JSON.parse(readFileSync(RECORD, 'utf8'));
  const { packages: wanted } = JSON.parse(readFileSync(LOCK, 'utf8'));
  return Object.entries(wanted).every(
    ([place, { version, optional }]) => place === '' || optional || there[place]?.version === version,
  );
}

/** npm's words go to standard error, so that a command's own output stays clean. */
function npm(...words) {
  const own = process.env.npm_execpath;
  const stdio = ['ignore', 2, 2];
  const run = own
    ? spawnSync(process.execPath, [own, ...words], { cwd: inProject(), stdio })
    : spawnSync('npm', words, { cwd: inProject(), stdio, shell: process.platform === 'win32' });
  return run.status === 0;
}

export function ensureDependencies() {
  if (!existsSync(LOCK)) throw new Error('package-lock.json is missing: this is not a whole copy of Underberth');
  if (!installed()) {
    process.stderr.write('Installing packages ...\n');
    const quiet = ['--include=dev', '--no-audit', '--no-fund', '--loglevel=error'];
    if (!npm('ci', ...quiet) && !npm('install', ...quiet)) throw new Error('npm could not install the packages');
  }
  writeFileSync(STAMP, lockDigest());
}
