import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Pages as other programs read and paint them: needs Debian's poppler-utils and qpdf, which npm doesn't bring. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: { testTimeout: 120_000, include: ['test/**/*.readers.test.ts'] },
});
