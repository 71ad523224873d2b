/** Runs vitest and counts what it did, from its own report. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { inProject } from '../../electron/launch/project.mjs';

/** @returns {{passed: number, failed: number, skipped: number}} */
export function runVitest(words, env = {}) {
  const folder = mkdtempSync(path.join(tmpdir(), 'underberth-tests-'));
  const report = path.join(folder, 'report.json');
  try {
    const run = spawnSync(
      process.execPath,
      [
        inProject('node_modules', 'vitest', 'vitest.mjs'),
        'run',
        '--reporter=default',
        '--reporter=json',
        `--outputFile.json=${report}`,
        ...words,
      ],
      { cwd: inProject(), stdio: 'inherit', env: { ...process.env, ...env } },
    );
    return countOf(readReport(report), run.status === 0);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function readReport(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return null;
  }
}

/** A file that could not be loaded has no tests to fail, and an error outside any test none either: both count. */
export function countOf(report, succeeded) {
  if (!report) return { passed: 0, failed: 1, skipped: 0 };
  const brokenFiles = report.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'),
  ).length;
  const failed = report.numFailedTests + brokenFiles;
  return {
    passed: report.numPassedTests,
    failed: succeeded || failed > 0 ? failed : 1,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/** The last line of every suite, alone on its line. */
export function closingLine({ passed, failed }) {
  process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
  process.exitCode = failed > 0 ? 1 : 0;
}
