// Makes a module of the typeface's files, so that every bundle and every test has them without a loader of its own, and one
// of the library that reads them. Neither is in the repository: they follow from the packages.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const { resolve } = createRequire(import.meta.url);
/** Those looked into first come first. */
const subsets = ['latin', 'latin-ext', 'greek', 'cyrillic', 'vietnamese'];
const weights = { regular: 400, bold: 600 };

const face = (weight, subset) => {
  const file = resolve(`@fontsource/source-sans-3/files/source-sans-3-${subset}-${weights[weight]}-normal.woff`);
  return `    { name: '${subset}-${weight}', base64: '${readFileSync(file).toString('base64')}' },`;
};
const entries = Object.keys(weights).map((weight) => `  ${weight}: [\n${subsets.map((subset) => face(weight, subset)).join('\n')}\n  ],`);
const folder = new URL('generated/', import.meta.url);
mkdirSync(folder, { recursive: true });
writeFileSync(new URL('faces.js', folder), `// Generated from @fontsource/source-sans-3: do not edit.\nexport const faces = {\n${entries.join('\n')}\n};\n`);
writeFileSync(new URL('faces.d.ts', folder), `// Generated from @fontsource/source-sans-3: do not edit.
export type Weight = 'regular' | 'bold';
export const faces: Readonly<Record<Weight, readonly { readonly name: string; readonly base64: string }[]>>;
`);

// The library unpacks its tables of letters as it is loaded, which takes longer than most of what runs: so it is loaded when
// a letter is first drawn. Fonts packed as WOFF2 it would read by a dictionary that is larger than itself; ours are not.
const { metafile, outputFiles } = await esbuild.build({
  absWorkingDir: fileURLToPath(new URL('../../../..', import.meta.url)), stdin: { contents: "export { create } from 'fontkit';", resolveDir: fileURLToPath(new URL('.', import.meta.url)) },
  bundle: true, write: false, format: 'iife', globalName: 'library', platform: 'browser', target: 'es2022', charset: 'utf8', legalComments: 'none', logLevel: 'error', metafile: true,
  alias: { 'brotli/decompress.js': fileURLToPath(new URL('left-out.mjs', import.meta.url)) },
});

/** Files of packages that the module is made of. */
export const sources = Object.keys(metafile.inputs).filter((file) => file.startsWith('node_modules/'));

writeFileSync(new URL('fontkit.js', folder), `// Generated from fontkit: do not edit.
let loaded;
function load() {
${outputFiles[0].text}
return library;
}
export const create = (...given) => (loaded ??= load()).create(...given);
`);
writeFileSync(new URL('fontkit.d.ts', folder), "// Generated: do not edit.\nexport { create, type Font } from 'fontkit';\n");
