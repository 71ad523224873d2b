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
// npm runs a script at the top of the project; the words of the user name files from where the user stands.
if (process.env.npm_lifecycle_event === 'underberth' && process.env.INIT_CWD) process.chdir(process.env.INIT_CWD);
const { run } = await import(new URL('../../dist/cli/underberth.mjs', import.meta.url).href);
process.exitCode = await run(process.argv.slice(2));
