// How our programs are bundled: by the build, and by tests that run them as they are shipped.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));

/** What every bundle has in common. */
const common = {
  absWorkingDir: fileURLToPath(new URL('..', import.meta.url)), bundle: true, legalComments: 'none', logLevel: 'warning', charset: 'utf8', loader: { '.md': 'text' },
  // TypeScript tells ours; a package that is bundled into a module of ours has one.
  logOverride: { 'duplicate-object-key': 'silent' },
  // Packages ask where they are for files beside them; a bundle has none, and none is read.
  define: { PIECEWRIGHT_VERSION: JSON.stringify(version), 'import.meta.url': '"file:///"' },
};

/** A program or an extension in Node. */
export const node = { ...common, platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'] };

/** A script in a browser or in a worker of one. */
export const browser = {
  ...common, platform: 'browser', target: 'es2022',
  // The package's usual entry needs what only Node has.
  alias: { 'csv-stringify/sync': 'csv-stringify/browser/esm/sync' },
};
