// Bundles one script and runs it, a measuring one by its name:  node test/bench/run.mjs NAME|FILE.ts [ARGUMENTS …]
import { spawnSync } from 'node:child_process';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const [given = '', ...rest] = process.argv.slice(2);
const entry = given.endsWith('.ts') ? given : `test/bench/${given}.ts`;
const root = fileURLToPath(new URL('../..', import.meta.url));
await import('../../grammar/generate.mjs');
const outfile = `${root}build/bench/${basename(entry, '.ts')}.mjs`;
await esbuild.build({
  absWorkingDir: root, entryPoints: [entry], outfile, bundle: true, platform: 'node', format: 'esm', target: 'node20', logLevel: 'warning',
  external: ['playwright-core', 'esbuild', 'axe-core'],
  banner: { js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);" },
});
process.exitCode = spawnSync(process.execPath, [outfile, ...rest], { stdio: 'inherit', cwd: root }).status ?? 1;
