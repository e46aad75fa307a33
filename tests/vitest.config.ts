import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    testTimeout: 240_000,
    hookTimeout: 240_000,
    // What is waited for comes when it comes: on a busy machine a second is nothing.
    expect: { poll: { timeout: 60_000, interval: 50 } },
    pool: 'forks',
    maxWorkers: 2,
  },
});
