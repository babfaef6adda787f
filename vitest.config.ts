import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    globalSetup: ['tests/support/node-floor.ts'],
    // Native modules (SQLite, serial port, pseudo-terminal) are loaded in processes of their own, never in threads.
    pool: 'forks',
    testTimeout: 20_000,
    hookTimeout: 30_000,
    maxWorkers: 2,
  },
});
