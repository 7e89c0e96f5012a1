// Run by npm once the tools are installed, and before it packs or links the package: builds what is shipped. A clone that
// is installed as a command has no tools yet; npm has none installed for it, so they are installed here first.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));

if (!existsSync(new URL('../node_modules/esbuild', import.meta.url))) {
  if (process.env.npm_config_global === 'true') installTools();
  else {
    console.error('Piecewright is built by tools that are not installed here. Run `npm ci --include=dev` in its folder first.');
    process.exit(1);
  }
}
await import('./build.mjs');

function installTools() {
  // What npm was told of the outer installation does not hold for this one.
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_config_(global|prefix|local_prefix|omit|include)$/i.test(name)));
  const npm = process.env.npm_execpath;
  const args = ['ci', '--include=dev', '--ignore-scripts', '--no-audit', '--no-fund'];
  const { status } = npm === undefined ? spawnSync('npm', args, { cwd: root, env, stdio: 'inherit', shell: true }) : spawnSync(process.execPath, [npm, ...args], { cwd: root, env, stdio: 'inherit' });
  if (status !== 0) process.exit(status ?? 1);
}
