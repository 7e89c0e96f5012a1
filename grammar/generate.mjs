// Makes the parser from the grammar, the colours of an editor from the table of statements, and what else is made of
// something else. None of it is in the repository, so it cannot drift.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import peggy from 'peggy';
import { setUpOnce } from './set-up-once.mjs';

const here = new URL('.', import.meta.url);

/** Written only where it is new, so that who watches a file sees no change where there is none. */
function write(url, text) {
  mkdirSync(new URL('.', url), { recursive: true });
  let old;
  try {
    old = readFileSync(url, 'utf8');
  } catch {
    // There is none yet.
  }
  if (old !== text) writeFileSync(url, text);
}

// ------------------------------------------------------------------------------------------------ the parser

const source = peggy.generate(readFileSync(new URL('piece.peggy', here), 'utf8'), {
  output: 'source',
  format: 'es',
  plugins: [setUpOnce],
  allowedStartRules: [
    'Declaration', 'TriviaOnly', 'DeclarationStrict', 'PieceStatementStrict', 'MaterialStatementStrict', 'SupplyStatementStrict',
    'PathStepStrict', 'PieceHeaderStrict', 'MaterialHeaderStrict', 'SupplyHeaderStrict', 'MeasuredStrict',
  ],
});
const folder = new URL('../server/src/syntax/generated/', here);
write(new URL('parser.js', folder), `// Generated from grammar/piece.peggy: do not edit.\n${source}`);
write(
  new URL('parser.d.ts', folder),
  `// Generated from grammar/piece.peggy: do not edit.
export interface Expectation { readonly type: string; readonly text?: string; readonly description?: string }
export class SyntaxError extends Error {
  readonly expected: readonly Expectation[] | null;
  readonly found: string | null;
  readonly location: { readonly start: { readonly offset: number }; readonly end: { readonly offset: number } };
}
export function parse(text: string, options: { readonly startRule: string }): unknown;
`,
);

// ------------------------------------------------------------------------------------------------ the colours

const bundled = buildSync({ entryPoints: [fileURLToPath(new URL('highlighting.ts', here))], bundle: true, write: false, format: 'esm', platform: 'neutral', logLevel: 'warning' });
const { highlighting } = await import(`data:text/javascript;base64,${Buffer.from(bundled.outputFiles[0].contents).toString('base64')}`);
write(new URL('../client/language/generated/piece.tmLanguage.json', here), `${JSON.stringify(highlighting(), undefined, 2)}\n`);

// ------------------------------------------------------------------------------------------------ letters of printed pages

await import('../server/src/pages/letters/generate.mjs');
await import('../server/src/formats/pdf/generate.mjs');
