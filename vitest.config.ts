import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    setupFiles: ['test/support/chance.ts'],
    // The suites start no server and share no state, so threads are safe and start faster than processes.
    pool: 'threads',
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
