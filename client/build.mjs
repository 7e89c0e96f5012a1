// Makes everything that is shipped, into dist/.
//   --watch         builds again on every change
//   --desktop-test  builds the tests of a downloaded desktop editor, into build/
import { chmodSync, existsSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import { browser, node } from './bundles.mjs';
import { noticesOf } from './notices.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const flags = new Set(process.argv.slice(2));

const asked = { minify: !flags.has('--watch'), sourcemap: flags.has('--watch') ? 'inline' : false };
const command = { banner: { js: '#!/usr/bin/env node' } };

const product = [
  { entry: 'client/src/extension.ts', out: 'dist/extension.cjs', options: { ...node, external: ['vscode'] } },
  { entry: 'client/src/extension-web.ts', out: 'dist/extension-web.js', options: { ...browser, format: 'cjs', external: ['vscode'] } },
  { entry: 'server/src/lsp/node.ts', out: 'dist/server.cjs', options: { ...node, ...command } },
  { entry: 'server/src/lsp/browser.ts', out: 'dist/server-web.js', options: { ...browser, format: 'iife' } },
  { entry: 'server/src/cli/main.ts', out: 'dist/piecewright.cjs', options: { ...node, ...command } },
  { entry: 'client/preview/main.ts', out: 'dist/preview.js', options: { ...browser, format: 'iife' } },
  { entry: 'client/preview/preview.css', out: 'dist/preview.css', options: browser },
];
const desktopTest = [
  { entry: 'test/editor/electron.ts', out: 'build/desktop-test/run.cjs', options: { ...node, packages: 'external' } },
  { entry: 'test/editor/electron/suite.ts', out: 'build/desktop-test/suite.cjs', options: { ...node, external: ['vscode'] } },
];

await import('../grammar/generate.mjs');
const { sources: ofFonts } = await import('../server/src/pages/letters/generate.mjs');
const { sources: ofPdf } = await import('../server/src/formats/pdf/generate.mjs');
/** Every file that went into a bundle. */
const inputs = new Set();
for (const { entry, out, options } of flags.has('--desktop-test') ? desktopTest : product) {
  if (!existsSync(new URL(`../${entry}`, import.meta.url))) {
    console.warn(`${out} is not made: there is no ${entry} yet.`);
    continue;
  }
  const build = { ...options, ...asked, entryPoints: [entry], outfile: out };
  if (flags.has('--watch')) await (await esbuild.context(build)).watch();
  else for (const input of Object.keys((await esbuild.build({ ...build, metafile: true })).metafile.inputs)) inputs.add(input);
}
// A command that npm has linked to is run as it stands here.
if (flags.size === 0) for (const { out, options } of product) if (options.banner !== undefined) chmodSync(new URL(`../${out}`, import.meta.url), 0o755);
// The typeface, what reads it and the PDF library come through generated files, not from their packages' own.
if (inputs.has('server/src/pages/letters/generated/faces.js')) inputs.add('node_modules/@fontsource/source-sans-3/LICENSE');
for (const [module, sources] of [['server/src/pages/letters/generated/fontkit.js', ofFonts], ['server/src/formats/pdf/generated/pdfkit.js', ofPdf]]) {
  if (inputs.has(module)) for (const source of sources) inputs.add(source);
}
if (flags.size === 0) writeFileSync(new URL('../dist/THIRD-PARTY-NOTICES.txt', import.meta.url), noticesOf(root, inputs));
