import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    setupFiles: ['test/support/chance.ts'],
    // What a suite starts (PostgreSQL, doubles of the platforms) is its own, so threads are safe; they start faster.
    pool: 'threads',
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
