import { defineConfig } from 'vitest/config';

// The long, count-bound suites are a project of their own, so that no filter of a short run catches them.
const deep = process.env.UNDERBERTH_SUITE === 'deep';
const E2E = ['tests/e2e/**/*.test.ts'];
const CORE = ['core', 'outside', 'oracle', 'boats'].map((folder) => `tests/${folder}/**/*.test.ts`);
const PATIENCE = { testTimeout: 120_000, hookTimeout: 120_000 };

export default defineConfig({
  resolve: { tsconfigPaths: true },
  test: {
    // Every processor: the process that hands out the files waits nearly all the time.
    maxWorkers: '100%',
    projects: deep
      ? [{ extends: true, test: { name: 'deep', include: ['tests/**/*.deep.ts'], testTimeout: 3_600_000 } }]
      : [
          {
            extends: true,
            // The core keeps nothing from one call to the next that could change an answer, so its tests need no process each:
            // starting one and reading the core anew takes longer than most of them.
            test: { name: 'core', include: CORE, isolate: false, ...PATIENCE },
          },
          {
            extends: true,
            test: {
              name: 'unit',
              include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
              exclude: [...E2E, ...CORE],
              ...PATIENCE,
            },
          },
          {
            extends: true,
            // After the others and one browser at a time: tests of dragging need the processor to themselves.
            test: { name: 'e2e', include: E2E, fileParallelism: false, sequence: { groupOrder: 1 }, ...PATIENCE },
          },
        ],
  },
});
