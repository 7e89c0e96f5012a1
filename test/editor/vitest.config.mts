import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests in real editors: one file at a time, since each has its own editor and browser. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['test/editor/**/*.test.ts'],
    globalSetup: ['test/editor/setup.ts'],
    fileParallelism: false,
    testTimeout: 120_000,
    hookTimeout: 180_000,
  },
});
