import { defineConfig } from 'vitest/config';

export default defineConfig({
  resolve: { tsconfigPaths: true },
  test: { include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'], testTimeout: 60_000 },
});
