import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests of the preview's page by itself, in a browser without an editor: one file at a time, since each has its own browser. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: { include: ['test/**/*.browser.test.ts'], fileParallelism: false, expect: { poll: { timeout: 30_000 } }, testTimeout: 120_000, hookTimeout: 180_000 },
});
