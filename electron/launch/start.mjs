/**
 * `npm start`: installs and builds what is missing, then opens the desktop window; where that can't be had,
 * serves the same app to a browser on this machine. Flags: --browser (no window), --no-open (print the address only).
 */
import { spawn } from 'node:child_process';
import { ensureDependencies } from './dependencies.mjs';
import { inProject } from './project.mjs';

const EARLY_DEATH_MS = 5000;
const DEFAULT_PORT = 4173;
const flags = new Set(process.argv.slice(2));
const unknown = [...flags].filter((flag) => flag !== '--browser' && flag !== '--no-open');
if (unknown.length > 0) {
  process.stderr.write(`npm start: unknown flag ${unknown.join(' ')}; known are --browser and --no-open\n`);
  process.exit(2);
}

const hasDisplay = process.platform !== 'linux' || Boolean(process.env.DISPLAY) || Boolean(process.env.WAYLAND_DISPLAY);

/** Runs the desktop window to its end; false when it died at once (no user namespaces, missing libraries). */
function runWindow(binary) {
  return new Promise((resolve) => {
    const born = Date.now();
    const { ELECTRON_RUN_AS_NODE: _never, ...env } = process.env;
    const child = spawn(binary, [inProject()], { stdio: 'inherit', env });
    child.on('error', () => resolve(false));
    child.on('exit', (code) => resolve(code === 0 || Date.now() - born > EARLY_DEATH_MS));
  });
}

function openBrowser(url) {
  const [command, ...words] =
    process.platform === 'win32'
      ? ['cmd', '/c', 'start', '', url]
      : [process.platform === 'darwin' ? 'open' : 'xdg-open', url];
  // No browser to open is no failure: the address stands on the terminal.
  spawn(command, words, { stdio: 'ignore', detached: true })
    .on('error', () => undefined)
    .unref();
}

async function browserMode() {
  const { serve } = await import(new URL('../../dist/electron/server.mjs', import.meta.url).href);
  const wanted = Number(process.env.PORT ?? DEFAULT_PORT);
  const folders = { page: inProject('dist', 'renderer'), sampleBoats: inProject('sample-boats') };
  const { url } = await serve(
    folders,
    Number.isInteger(wanted) && wanted >= 0 && wanted < 65536 ? wanted : DEFAULT_PORT,
  );
  process.stdout.write(`Underberth is at ${url}  (Ctrl+C ends it)\n`);
  if (!flags.has('--no-open') && hasDisplay) openBrowser(url);
}

ensureDependencies();
const { ensureBuilt } = await import('./build.mjs');
ensureBuilt(['renderer', 'desktop']);
let windowRan = false;
if (!flags.has('--browser') && !flags.has('--no-open') && hasDisplay) {
  const { electronBinary } = await import('./binary.mjs');
  const binary = await electronBinary();
  if (binary) windowRan = await runWindow(binary);
  if (!windowRan) process.stdout.write('No desktop window can be opened here; serving a browser instead.\n');
}
if (!windowRan) await browserMode();
