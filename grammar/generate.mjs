// Makes the parser from the grammar. The result is not kept in the repository, so it cannot drift.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import peggy from 'peggy';

const here = new URL('.', import.meta.url);
const source = peggy.generate(readFileSync(new URL('piece.peggy', here), 'utf8'), {
  output: 'source',
  format: 'es',
  allowedStartRules: [
    'Declaration', 'TriviaOnly', 'DeclarationStrict', 'PieceStatementStrict', 'MaterialStatementStrict', 'SupplyStatementStrict',
    'PathStepStrict', 'PieceHeaderStrict', 'MaterialHeaderStrict', 'SupplyHeaderStrict',
  ],
});
const folder = new URL('../server/src/syntax/generated/', here);
mkdirSync(folder, { recursive: true });
writeFileSync(new URL('parser.js', folder), `// Generated from grammar/piece.peggy: do not edit.\n${source}`);
writeFileSync(
  new URL('parser.d.ts', folder),
  `// Generated from grammar/piece.peggy: do not edit.
export interface Expectation { readonly type: string; readonly text?: string; readonly description?: string }
export class SyntaxError extends Error {
  readonly expected: readonly Expectation[] | null;
  readonly found: string | null;
  readonly location: { readonly start: { readonly offset: number }; readonly end: { readonly offset: number } };
}
export function parse(text: string, options?: { readonly startRule?: string }): unknown;
`,
);
