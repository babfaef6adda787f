import { defineConfig } from 'vitest/config';

const all = 'tests/**/*.test.{ts,tsx}';
// Pure, so no file can leave anything behind for the next: they share a process, which saves half a second a file.
const pure = 'tests/core/**/*.test.ts';

export default defineConfig({
  test: {
    globalSetup: ['tests/support/node-floor.ts'],
    setupFiles: ['tests/support/seed.ts'],
    // Native modules (SQLite, serial port, pseudo-terminal) are loaded in processes of their own, never in threads.
    pool: 'forks',
    // Generous, because a slow machine must not fail a test; nothing here is timed by its limit.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: 'pure', include: [pure], isolate: false } },
      { extends: true, test: { name: 'machine', include: [all], exclude: [pure] } },
    ],
  },
});
