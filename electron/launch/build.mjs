/** Builds the page, the desktop shell, the browser-mode server and the command line into dist/. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { inProject, newestOf, SOURCES } from './project.mjs';

const stampOf = (target) => inProject('dist', `.built-${target}`);

/** The outputs that are missing or older than what they are made from. */
export function stale(targets = Object.keys(SOURCES)) {
  return targets.filter((target) => {
    const stamp = stampOf(target);
    return !existsSync(stamp) || Number(readFileSync(stamp, 'utf8')) < newestOf(SOURCES[target]);
  });
}

/** Builds in a child whose words go to standard error, so that the caller's own output stays clean. */
export function ensureBuilt(targets = Object.keys(SOURCES)) {
  const wanted = stale(targets);
  if (wanted.length === 0) return;
  process.stderr.write(`Building ${wanted.join(', ')} ...\n`);
  const run = spawnSync(process.execPath, [fileURLToPath(import.meta.url), ...wanted], { stdio: ['ignore', 2, 2] });
  if (run.status !== 0) throw new Error('the build failed');
}

/** One Node bundle from one entry, packages included. */
export const nodeBundle = (entry, outFile, format, external = []) => ({
  root: inProject(),
  configFile: false,
  logLevel: 'warn',
  resolve: { tsconfigPaths: true, conditions: ['node'] },
  ssr: { noExternal: true, external },
  build: {
    ssr: inProject(entry),
    outDir: inProject('dist', path.dirname(outFile)),
    emptyOutDir: false,
    target: 'node20',
    minify: false,
    rolldownOptions: {
      external,
      output: { format, entryFileNames: path.basename(outFile), codeSplitting: false },
    },
  },
});

const BUILDS = {
  renderer: () => [
    { root: inProject('renderer'), configFile: inProject('renderer', 'vite.config.ts'), logLevel: 'warn' },
  ],
  desktop: () => [
    nodeBundle('electron/main/main.ts', 'electron/main.cjs', 'cjs', ['electron']),
    // The sandbox loads one CommonJS file and nothing beside it.
    nodeBundle('electron/preload/preload.ts', 'electron/preload.cjs', 'cjs', ['electron']),
    nodeBundle('electron/serve/server.ts', 'electron/server.mjs', 'es'),
  ],
  cli: () => [nodeBundle('electron/cli/main.ts', 'cli/underberth.mjs', 'es')],
};

async function buildNow(targets) {
  const { build } = await import('vite');
  for (const target of targets) {
    // Read before building: a file saved meanwhile makes the output stale again.
    const madeFrom = newestOf(SOURCES[target]);
    for (const config of BUILDS[target]()) await build(config);
    mkdirSync(inProject('dist'), { recursive: true });
    writeFileSync(stampOf(target), String(madeFrom));
  }
}

if (process.argv[1] && path.resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const asked = process.argv.slice(2);
  const unknown = asked.filter((target) => !(target in SOURCES));
  if (unknown.length > 0) throw new Error(`build: expected ${Object.keys(SOURCES).join(', ')}, got ${unknown}`);
  if (asked.length === 0) (await import('./dependencies.mjs')).ensureDependencies();
  await buildNow(asked.length === 0 ? Object.keys(SOURCES) : asked);
}
