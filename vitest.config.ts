import { defineConfig } from 'vitest/config';

// The long, count-bound suites are a project of their own, so that no filter of a short run catches them.
const deep = process.env.UNDERBERTH_SUITE === 'deep';
const E2E = ['tests/e2e/**/*.test.ts'];

export default defineConfig({
  resolve: { tsconfigPaths: true },
  test: {
    projects: deep
      ? [{ extends: true, test: { name: 'deep', include: ['tests/**/*.deep.ts'], testTimeout: 3_600_000 } }]
      : [
          {
            extends: true,
            test: {
              name: 'unit',
              include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
              exclude: E2E,
              testTimeout: 120_000,
              hookTimeout: 120_000,
            },
          },
          {
            extends: true,
            // After the others and one browser at a time: tests of dragging need the processor to themselves.
            test: {
              name: 'e2e',
              include: E2E,
              fileParallelism: false,
              sequence: { groupOrder: 1 },
              testTimeout: 120_000,
              hookTimeout: 120_000,
            },
          },
        ],
  },
});
