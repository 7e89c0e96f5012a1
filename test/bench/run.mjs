// Bundles one measuring script and runs it:  node test/bench/run.mjs NAME [ARGUMENTS …]
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const [name, ...rest] = process.argv.slice(2);
const root = fileURLToPath(new URL('../..', import.meta.url));
await import('../../grammar/generate.mjs');
const outfile = `${root}build/bench/${name}.mjs`;
await esbuild.build({
  absWorkingDir: root, entryPoints: [`test/bench/${name}.ts`], outfile, bundle: true, platform: 'node', format: 'esm', target: 'node20', logLevel: 'warning',
  external: ['playwright-core', 'esbuild', 'axe-core'],
  banner: { js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);" },
});
process.exitCode = spawnSync(process.execPath, [outfile, ...rest], { stdio: 'inherit', cwd: root }).status ?? 1;
