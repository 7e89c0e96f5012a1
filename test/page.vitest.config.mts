import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests of the preview's page by itself, in browsers without an editor: two at once, since each waits for its browser most of the time. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: { include: ['test/**/*.browser.test.ts'], maxWorkers: 2, isolate: false, expect: { poll: { timeout: 30_000 } }, testTimeout: 120_000, hookTimeout: 180_000 },
});
