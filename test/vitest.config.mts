import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

// A busy machine is slow, not wrong.
const patient = { testTimeout: 60_000 };
/** Tests that put something else in a module's place, which the other files must not see. */
const replacing = ['test/syntax/made-up-statement.test.ts'];

/**
 * The quick tests: everything but what needs a browser, a real editor or another program to read pages with. A worker
 * reads the code once for all its files, as nothing in it remembers one test when the next comes.
 */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    // All cores: the runner itself has little to do.
    maxWorkers: '100%',
    setupFiles: ['test/support/same-cases.ts'],
    projects: [
      { extends: true, test: { ...patient, name: 'quick', isolate: false, include: ['test/**/*.test.ts'], exclude: ['test/editor/**', 'test/**/*.browser.test.ts', 'test/**/*.readers.test.ts', ...replacing] } },
      { extends: true, test: { ...patient, name: 'replacing', include: replacing } },
    ],
  },
});
