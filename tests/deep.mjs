/**
 * `npm run deep`: the long suites, bound by counts and not by time (files named *.deep.ts).
 * Words after `--` narrow it to files, as for vitest. Ends with the plain line `N passed, N failed`.
 */
import { ensureDependencies } from '../electron/launch/dependencies.mjs';
import { closingLine, runVitest } from './support/vitest-count.mjs';

ensureDependencies();
const { ensureBuilt } = await import('../electron/launch/build.mjs');
// Some deep suites drive the command line, which is a built file.
ensureBuilt(['cli']);
closingLine(runVitest(process.argv.slice(2), { UNDERBERTH_SUITE: 'deep' }));
