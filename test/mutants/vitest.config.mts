import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The tests of the tests: faults put into a copy of the code, one at a time, each of which some test must notice. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: { testTimeout: 600_000, hookTimeout: 120_000, include: ['test/mutants/*.mutants.ts'], fileParallelism: false },
});
