import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    globalSetup: ['tests/support/node-floor.ts'],
    setupFiles: ['tests/support/seed.ts'],
    // Native modules (SQLite, serial port, pseudo-terminal) are loaded in processes of their own, never in threads.
    pool: 'forks',
    // Generous, because a slow machine must not fail a test; nothing here is timed by its limit.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
  },
});
