// Makes one module of the PDF library's build for browsers. Its build for Node packs streams otherwise, and both look for
// a colour profile beside themselves as they are loaded, which nothing that is bundled has; we use none. Nor does it break
// our lines or keep our pages secret, so the tables for that are left out.
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const root = fileURLToPath(new URL('../../../..', import.meta.url));
const leftOut = `${root}server/src/pages/letters/left-out.mjs`;

const { metafile } = await esbuild.build({
  absWorkingDir: root, entryPoints: ['node_modules/pdfkit/js/pdfkit.browser.mjs'], outfile: 'server/src/formats/pdf/generated/pdfkit.js',
  bundle: true, format: 'esm', platform: 'browser', target: 'es2022', charset: 'utf8', legalComments: 'none', logLevel: 'error', metafile: true,
  define: { 'import.meta.url': '"file:///"' }, external: ['fflate'],
  alias: { linebreak: leftOut, '@noble/ciphers/aes': leftOut },
  plugins: [{ name: 'fontkit', setup: ({ onResolve }) => onResolve({ filter: /^fontkit$/ }, () => ({ path: '../../../pages/letters/generated/fontkit.js', external: true })) }],
  banner: { js: '// Generated from pdfkit: do not edit.' },
});

/** Files of packages that the module is made of. */
export const sources = Object.keys(metafile.inputs).filter((file) => file.startsWith('node_modules/'));

writeFileSync(new URL('generated/pdfkit.d.ts', import.meta.url), "// Generated: do not edit.\nexport { default } from 'pdfkit';\n");
