/**
 * `npm test`: everything that must hold. Types, lint with the import arrows, and format count as one check each;
 * then every test. Ends with the plain line `N passed, N failed`.
 */
import { spawnSync } from 'node:child_process';
import { ensureDependencies } from '../electron/launch/dependencies.mjs';
import { inProject } from '../electron/launch/project.mjs';
import { missingTools } from './support/outside-tools.mjs';
import { closingLine, runVitest } from './support/vitest-count.mjs';

const total = { passed: 0, failed: 0 };
function check(name, ok) {
  process.stdout.write(`${ok ? '  ok    ' : '  FAILED'}  ${name}\n`);
  total[ok ? 'passed' : 'failed'] += 1;
}
function runTool(name, tool, ...words) {
  const run = spawnSync(process.execPath, [inProject('node_modules', ...tool), ...words], {
    cwd: inProject(),
    stdio: 'inherit',
  });
  check(name, run.status === 0);
}

ensureDependencies();
const BIOME = ['@biomejs', 'biome', 'bin', 'biome'];
runTool('types', ['typescript', 'bin', 'tsc'], '-b');
runTool('lint and import arrows', BIOME, 'lint', '--error-on-warnings', '.');
runTool('format', BIOME, 'check', '--linter-enabled=false', '.');

try {
  const { ensureBuilt } = await import('../electron/launch/build.mjs');
  ensureBuilt();
  check('build', true);
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  check('build', false);
}

const tests = runVitest(process.argv.slice(2));
total.passed += tests.passed;
total.failed += tests.failed;

const missing = missingTools();
if (missing.length > 0 || tests.skipped > 0) {
  const line = '!'.repeat(100);
  process.stdout.write(`\n${line}\n!! NOT EVERYTHING WAS RUN: ${tests.skipped} tests were skipped.\n`);
  for (const { tool, unrun, debian } of missing) {
    process.stdout.write(
      `!! ${tool} is missing, so this did not run: ${unrun}. On Debian: apt-get install ${debian}\n`,
    );
  }
  process.stdout.write(`${line}\n`);
  if (process.env.CI === 'true') total.failed += Math.max(missing.length, 1);
}
closingLine(total);
