/** The command line on a fresh clone: installs and builds by itself, with nothing of that on standard output. */
import { ensureDependencies } from './dependencies.mjs';

const UNUSABLE = 2;
try {
  ensureDependencies();
  const { ensureBuilt } = await import('./build.mjs');
  ensureBuilt(['cli']);
} catch (error) {
  process.stderr.write(`underberth: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(UNUSABLE);
}
const { run } = await import(new URL('../../dist/cli/underberth.mjs', import.meta.url).href);
process.exitCode = await run(process.argv.slice(2));
