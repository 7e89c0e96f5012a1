import { limits } from '../problems/limits.ts';
import { unreadBrace } from './braces.ts';
import { failureOf } from './failure.ts';
import type * as generated from './generated/parser.js';
import type { BlockKind } from './statements/elements.ts';
import { languageWords } from './statements/table.ts';
import { slipIn } from './slips/slips.ts';
import { tokensOf, isClosed } from './tokens.ts';
import type { Block, Broken, DeclarationTree, Node, PathStep, Shape, Statement, SyntaxProblem, Unread } from './tree.ts';
import { unclosedBlock, unopenedBlock, unopenedPath } from './unpaired.ts';

/** Where each kind of line is read once more, to learn where it goes wrong. */
const strictRules = { file: 'DeclarationStrict', piece: 'PieceStatementStrict', path: 'PathStepStrict', material: 'MaterialStatementStrict', supply: 'SupplyStatementStrict' } as const satisfies Record<BlockKind, string>;
const headRules = { piece: 'PieceHeaderStrict', material: 'MaterialHeaderStrict', supply: 'SupplyHeaderStrict' } as const;

/** What could not be read of a declaration: where, what would be right there, and how it is mended where that is certain. */
export function syntaxProblems(text: string, tree: DeclarationTree): readonly SyntaxProblem[] {
  switch (tree.kind) {
    case 'broken':
      return [unopenedBlock(text, tree) ?? explain(text, tree, 'file')];
    case 'piece':
      return [
        ...explainHead(text, tree, 'piece'),
        ...blockProblems(text, tree.body, 'piece'),
        ...tree.body.statements.flatMap((statement) => ('shape' in statement ? pathProblems(text, statement.shape) : [])),
      ];
    case 'material':
    case 'supply':
      return [...explainHead(text, tree, tree.kind), ...blockProblems(text, tree.body, tree.kind)];
    default:
      return [];
  }
}

function pathProblems(text: string, shape: Shape): readonly SyntaxProblem[] {
  return shape.kind === 'path' ? blockProblems(text, shape.steps satisfies Block<PathStep>, 'path') : [];
}

function blockProblems(text: string, block: Block<Statement & { readonly kind: string }>, kind: 'piece' | 'material' | 'supply' | 'path'): readonly SyntaxProblem[] {
  const broken = block.statements.filter((statement): statement is Broken => statement.kind === 'broken').slice(0, limits.problems + 1);
  const problems = broken.map((line) => (kind === 'piece' ? unopenedPath(text, line) : undefined) ?? explain(text, line, kind));
  return block.closed ? problems : [...problems, unclosedBlock(text, block, kind)];
}

function explainHead(text: string, tree: Node & { readonly unread?: Unread }, kind: 'piece' | 'material' | 'supply'): readonly SyntaxProblem[] {
  const { unread } = tree;
  if (unread === undefined) return [];
  const own = unread.text.trimEnd();
  return [explain(text, { text: `${own} {`, start: unread.start, end: unread.start + own.length }, kind, headRules[kind], tree.start)];
}

/**
 * Reads a broken line again, strictly, to learn where it went wrong and what would have been right there.
 *
 * @param from where the whole line begins, of which only the rest could not be read
 */
function explain(text: string, line: Node & { readonly text: string }, block: BlockKind, strictRule: string = strictRules[block], from = line.start): SyntaxProblem {
  const read = text.slice(from, line.start);
  const failure = failureOf(line.text, strictRule);
  if (failure === 'too deep') return { kind: 'unreadable', start: line.start, end: line.end, found: '', expected: [] };
  const offset = failure?.offset ?? line.text.length;
  const at = wordStart(line.text, Math.min(offset, Math.max(0, line.end - line.start - 1)));
  const found = /^(?:[\p{L}\p{M}\p{N}_.]+|\S)?/u.exec(text.slice(line.start + at, line.end))?.[0] ?? '';
  const atEnd = offset >= line.text.length;
  const expected = expectations(failure?.expected ?? [], !atEnd && /^\p{L}/u.test(found));
  const slip = slipIn({ line: read + line.text, offset: read.length + offset, block: from === line.start ? block : 'file', expected });
  if (slip !== undefined) {
    const mend = slip.mend === undefined ? {} : { mend: { ...slip.mend, start: from + slip.mend.start, end: from + slip.mend.end } };
    return { kind: 'unreadable', start: from + slip.start, end: from + slip.end, found: atEnd && !slip.moved ? '' : text.slice(from + slip.start, from + slip.end), expected, hint: slip.hint, ...mend };
  }
  const unclosed = unclosedText(line);
  if (unclosed !== undefined) return unclosed;
  const shorter = atEnd ? undefined : wordWithin(line.text, at, found, strictRule);
  return {
    kind: 'unreadable',
    start: line.start + at,
    end: line.start + at + Math.max(1, found.length),
    found: atEnd ? '' : found,
    expected: shorter === undefined ? expected : [shorter, ...expected],
  };
}

/** No word of the language is as long: looking further back for where one began would take long in long texts. */
const longestWord = 100;

/** Where the word begins that an offset lies in: a word of the language with letters after it is read up to those. */
function wordStart(text: string, offset: number): number {
  const [word = ''] = /[\p{L}_][\p{L}\p{M}\p{N}_]*$/u.exec(text.slice(Math.max(0, offset - longestWord), offset)) ?? [];
  return /^[\p{L}\p{M}\p{N}_]/u.test(text.slice(offset)) && offset < text.length - 1 ? offset - word.length : offset;
}

/**
 * The word of the language that a word with a letter or two too many begins with, as `cut` in `cutt`: the parser got past
 * it, so it is not among what was expected.
 */
function wordWithin(line: string, offset: number, found: string, strictRule: string): string | undefined {
  for (const word of [found.slice(0, -1), found.slice(0, -2)]) {
    if (word.length < 2) return undefined;
    const reach = offset + word.length;
    if (!languageWords.has(word)) continue;
    const failure = failureOf(line.slice(0, reach) + line.slice(offset + found.length), strictRule);
    if (failure !== 'too deep' && (failure?.offset ?? Infinity) > reach) return word;
  }
  return undefined;
}

function unclosedText(line: Node & { readonly text: string }): SyntaxProblem | undefined {
  const start = tokensOf(line.text).find(({ kind, text }) => kind === 'text' && !isClosed(text))?.start;
  if (start === undefined) return undefined;
  const isBraceOpen = unreadBrace(line.text.slice(start))?.why === 'open';
  return { kind: 'unclosed text', start: line.start + start, end: line.end, found: isBraceOpen ? '{' : '', expected: ['"'] };
}

/** What is to be typed as it stands comes first, and that the line may end comes last. */
const rank = (expected: string): number => (expected === 'the end of the line' ? 2 : expected.includes(' ') ? 1 : 0);

/** @param wasWord whether a word stands in the place: where a name would be right, it is one of the language's own */
function expectations(raw: readonly generated.Expectation[], wasWord: boolean): readonly string[] {
  const words = raw.map((one) => {
    if (one.type === 'literal') return one.text === '#' || one.text === '\n' || one.text === '\r\n' || one.text === '\r' ? 'the end of the line' : one.text === ',' ? 'a comma' : (one.text ?? '');
    if (one.type === 'other') return one.description === 'a name' && wasWord ? 'a name that isn’t a word of the language' : (one.description ?? '');
    return one.type === 'end' ? 'the end of the line' : '';
  });
  return [...new Set(words)].filter((word) => word !== '').sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
}

