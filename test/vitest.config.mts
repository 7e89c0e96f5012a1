import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The quick tests: everything but what needs a browser, a real editor or another program to read pages with. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  // A busy machine is slow, not wrong.
  test: { testTimeout: 60_000, include: ['test/**/*.test.ts'], exclude: ['test/editor/**', 'test/**/*.browser.test.ts', 'test/**/*.readers.test.ts'] },
});
