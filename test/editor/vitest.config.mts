import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests in real editors: one file at a time, since each has an editor and a browser of its own. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['test/editor/**/*.test.ts'],
    globalSetup: ['test/editor/setup.ts'],
    fileParallelism: false,
    // What an editor does on a slow machine takes its time.
    expect: { poll: { timeout: 30_000 } },
    testTimeout: 120_000,
    hookTimeout: 180_000,
  },
});
