/**
 * Finds the Electron binary, or fetches it when its release host answers within a few seconds.
 * Never `require('electron')` for this: that downloads at once and without a time limit.
 */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { inProject } from './project.mjs';

const ANSWER_MS = 4000;
const FETCH_MS = 10 * 60 * 1000;
const RELEASES = 'https://github.com/electron/electron/releases/download/';
const NAMES = { win32: 'electron.exe', darwin: 'Electron.app/Contents/MacOS/Electron' };

function present() {
  const folder = process.env.ELECTRON_OVERRIDE_DIST_PATH || inProject('node_modules', 'electron', 'dist');
  const binary = path.join(folder, NAMES[process.platform] ?? 'electron');
  return existsSync(binary) ? binary : null;
}

async function hostAnswers(version) {
  // The built-in fetch does not know proxies; the installer does, so let it try.
  if (process.env.HTTPS_PROXY || process.env.https_proxy || process.env.ALL_PROXY) return true;
  const base = process.env.ELECTRON_MIRROR || process.env.npm_config_electron_mirror || RELEASES;
  try {
    const sums = new URL(`v${version}/SHASUMS256.txt`, base.endsWith('/') ? base : `${base}/`);
    return (await fetch(sums, { method: 'HEAD', signal: AbortSignal.timeout(ANSWER_MS) })).ok;
  } catch {
    return false;
  }
}

/** Path of the binary, or null when there is none and none can be fetched. */
export async function electronBinary() {
  const already = present();
  if (already) return already;
  const folder = inProject('node_modules', 'electron');
  const { version } = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
  if (!(await hostAnswers(version))) return null;
  process.stderr.write(`Fetching Electron ${version} ...\n`);
  await new Promise((resolve) => {
    const installer = spawn(process.execPath, [path.join(folder, 'install.js')], { stdio: ['ignore', 2, 2] });
    const timer = setTimeout(() => installer.kill('SIGKILL'), FETCH_MS);
    const done = () => {
      clearTimeout(timer);
      resolve();
    };
    installer.on('error', done).on('exit', done);
  });
  return present();
}
