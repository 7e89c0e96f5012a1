// Makes one module of the PDF library's build for browsers. Its build for Node packs streams otherwise, and both look for
// a colour profile beside themselves as they are loaded, which nothing that is bundled has; we use none.
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';

const root = fileURLToPath(new URL('../../../..', import.meta.url));

const { metafile } = await esbuild.build({
  absWorkingDir: root, entryPoints: ['node_modules/pdfkit/js/pdfkit.browser.mjs'], outfile: 'server/src/formats/pdf/generated/pdfkit.js',
  bundle: true, format: 'esm', platform: 'browser', target: 'es2022', charset: 'utf8', legalComments: 'none', logLevel: 'error', metafile: true,
  define: { 'import.meta.url': '"file:///"' }, external: ['fontkit', 'fflate'],
  banner: { js: '// Generated from pdfkit: do not edit.' },
});

/** Files of packages that the module is made of. */
export const sources = Object.keys(metafile.inputs);

writeFileSync(new URL('generated/pdfkit.d.ts', import.meta.url), "// Generated: do not edit.\nexport { default } from 'pdfkit';\n");
