/** `npm run bench`: bundles tests/bench/main.ts for Node and runs it; its JSON goes to standard output. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { ensureDependencies } from '../electron/launch/dependencies.mjs';
import { inProject } from '../electron/launch/project.mjs';

const ENTRY = ['tests', 'bench', 'main.ts'];
if (!existsSync(inProject(...ENTRY))) {
  process.stderr.write(`bench: ${ENTRY.join('/')} is missing, so there is nothing to measure\n`);
  process.exit(1);
}
ensureDependencies();
const { ensureBuilt, nodeBundle } = await import('../electron/launch/build.mjs');
// What is measured is the built page, and a bundle of the core as the worker runs it.
ensureBuilt(['renderer', 'desktop']);
const { build } = await import('vite');
// The browser's driver and the builder find their own files beside them, so they stay packages.
await build({
  ...nodeBundle(ENTRY.join('/'), 'bench/main.mjs', 'es', ['playwright-core', 'vite', '@vitejs/plugin-react']),
  logLevel: 'error',
});
const run = spawnSync(
  process.execPath,
  ['--expose-gc', inProject('dist', 'bench', 'main.mjs'), ...process.argv.slice(2)],
  {
    cwd: inProject(),
    stdio: 'inherit',
  },
);
process.exitCode = run.status ?? 1;
