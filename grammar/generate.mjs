// Makes the parser from the grammar. The result is not kept in the repository, so it cannot drift.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import peggy from 'peggy';

const here = new URL('.', import.meta.url);
const changed = 'The generated parser looks different: madeOnce must be written again';
const source = peggy.generate(readFileSync(new URL('piece.peggy', here), 'utf8'), {
  output: 'source',
  format: 'es',
  allowedStartRules: [
    'Declaration', 'TriviaOnly', 'DeclarationStrict', 'PieceStatementStrict', 'MaterialStatementStrict', 'SupplyStatementStrict',
    'PathStepStrict', 'PieceHeaderStrict', 'MaterialHeaderStrict', 'SupplyHeaderStrict',
  ],
});
/**
 * Peggy makes a parser's constants and functions anew at every call, which for declarations of a few lines costs as much
 * as reading them. The constants hang on nothing, so they are made once; and so are the functions, with the call's own
 * state beside them, since no call begins within another.
 */
function madeOnce(code) {
  const constant = /^ {2}const peg\$[cre]\d+ = .*;$/gm;
  const makers = /^ {2}function peg\$(?:literal|class|any|end|other)Expectation\([^]*?\n {2}\}$/gm;
  const hoisted = [...(code.match(makers) ?? []), ...(code.match(constant) ?? [])];
  if (hoisted.length < 100) throw new Error(changed);
  const start = code.indexOf('function peg$parse(input, options) {');
  const end = code.indexOf('\n}\n', start) + 3;
  const body = [
    [/^function peg\$parse\(input, options\) \{$/m, 'const peg$$parse = (() => {\n  let input;'],
    [/^ {2}options = .*;$/m, ''],
    [/^ {2}const peg\$source = .*;$/m, '  const peg$$source = undefined;'],
    [/^ {2}let (peg\$(?:startRuleFunction|currPos|savedPos|maxFailPos|maxFailExpected|silentFails)) = .*;$/gm, '  let $1;'],
    [/^ {2}const peg\$posDetailsCache = .*;$/m, '  let peg$$posDetailsCache;'],
    [/^ {2}if \(options\.(?:startRule|peg\$library)\) \{\n[^]*?\n {2}\}$/gm, ''],
    [/^ {2}peg\$result = peg\$startRuleFunction\(\);$/m, `  return (text, { startRule }) => {
  input = text;
  peg$$startRuleFunction = peg$$startRuleFunctions[startRule];
  peg$$currPos = peg$$savedPos = peg$$maxFailPos = peg$$silentFails = 0;
  peg$$maxFailExpected = [];
  peg$$posDetailsCache = [{ line: 1, column: 1 }];
  peg$$result = peg$$startRuleFunction();`],
    [/\n\}\n$/, '\n};\n})();\n'],
  ].reduce((before, [from, to]) => {
    const after = before.replace(from, to);
    if (after === before) throw new Error(changed);
    return after;
  }, code.slice(start, end).replace(makers, '').replace(constant, ''));
  if (/\boptions\.(?:peg|grammar)/.test(body)) throw new Error(changed);
  return `${code.slice(0, start)}${hoisted.join('\n')}\n\n${body}${code.slice(end)}`;
}

const folder = new URL('../server/src/syntax/generated/', here);
mkdirSync(folder, { recursive: true });
writeFileSync(new URL('parser.js', folder), `// Generated from grammar/piece.peggy: do not edit.\n${madeOnce(source)}`);
writeFileSync(
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

await import('../server/src/pages/letters/generate.mjs');
await import('../server/src/formats/pdf/generate.mjs');
