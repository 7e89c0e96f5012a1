import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests in real editors, and of the preview's page by itself: one file at a time, since each has its own browser. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['test/editor/**/*.test.ts', 'test/**/*.browser.test.ts'],
    globalSetup: ['test/editor/setup.ts'],
    fileParallelism: false,
    testTimeout: 120_000,
    hookTimeout: 180_000,
  },
});
