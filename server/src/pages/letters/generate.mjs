// Makes a module of the typeface's files, so that every bundle and every test has them without a loader of its own. The
// result is not in the repository: it follows from the package.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';

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
