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
/**
 * Peggy makes a parser's constants anew at every call, which for declarations of a few lines costs as much as reading
 * them. They hang on nothing, so they can be made once.
 */
function hoistConstants(code) {
  const constant = /^ {2}const peg\$[cre]\d+ = .*;$/gm;
  const makers = /^ {2}function peg\$(?:literal|class|any|end|other)Expectation\([^]*?\n {2}\}$/gm;
  const hoisted = [...(code.match(makers) ?? []), ...(code.match(constant) ?? [])];
  if (hoisted.length < 100) throw new Error('The generated parser looks different: hoistConstants must be written again');
  const start = code.indexOf('function peg$parse(input, options) {');
  const rest = code.slice(start).replace(makers, '').replace(constant, '');
  return `${code.slice(0, start)}${hoisted.join('\n')}\n\n${rest}`;
}

const folder = new URL('../server/src/syntax/generated/', here);
mkdirSync(folder, { recursive: true });
writeFileSync(new URL('parser.js', folder), `// Generated from grammar/piece.peggy: do not edit.\n${hoistConstants(source)}`);
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
