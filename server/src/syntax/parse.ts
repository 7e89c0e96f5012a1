import { limits } from '../problems/limits.ts';
import * as generated from './generated/parser.js';
import { slipAt } from './slips.ts';
import { splitDeclarations } from './split.ts';
import { fileTooLong, tooMuchIn } from './too-much.ts';
import { blockWords } from './statements/table.ts';
import { isClosed, tokensOf } from './tokens.ts';
import type { Block, Broken, Declaration, DeclarationTree, Node, PathStep, Shape, SourceFile, Statement, SyntaxProblem, Trivia, Unread } from './tree.ts';

/**
 * Reads a file. It never fails: what can't be read is a `broken` node with a problem, and the rest counts.
 *
 * @param path the file's path relative to the working folder
 * @param previous an earlier reading of the same file: declarations whose text is unchanged are taken from it as they
 *   are, the very same objects, however far they have moved
 */
export function parseFile(path: string, text: string, previous?: SourceFile): SourceFile {
  const tooLong = fileTooLong(text);
  if (tooLong !== undefined) return { path, text, declarations: [{ declaration: unreadFile(path, text, tooLong), offset: 0 }], trailing: [] };
  const slices = [...splitDeclarations(text)];
  const last = slices.at(-1);
  const trailing = last && parseTrivia(text.slice(last.start, last.end));
  if (trailing !== undefined) slices.pop();
  const old = previous?.declarations ?? [];
  const same = (index: number, oldIndex: number): boolean => {
    const slice = slices[index];
    const before = old[oldIndex]?.declaration.text;
    return slice !== undefined && before !== undefined && before.length === slice.end - slice.start && text.startsWith(before, slice.start);
  };
  // An edit leaves a beginning and an end as they were; what lies between is looked up by its text.
  let from = 0;
  while (same(from, from)) from++;
  let to = slices.length;
  let oldTo = old.length;
  while (to > from && oldTo > from && same(to - 1, oldTo - 1)) {
    to--;
    oldTo--;
  }
  const known = declarationsByText(old.slice(from, oldTo));
  const declarations: { declaration: Declaration; offset: number }[] = [];
  slices.forEach(({ start, end }, index) => {
    const kept = index < from ? old[index] : index >= to ? old[index - to + oldTo] : undefined;
    const own = kept === undefined ? detached(text.slice(start, end)) : '';
    declarations.push({ declaration: kept?.declaration ?? known.get(own)?.pop() ?? parseDeclaration(path, own), offset: start });
  });
  return { path, text, declarations, trailing: trailing ?? [] };
}

/**
 * A part of a text that doesn't hold on to the whole: engines keep a slice as a view, and a declaration outlives by far the
 * text that it was read from.
 */
const detached = (part: string): string => ` ${part}`.slice(1);

function declarationsByText(declarations: SourceFile['declarations']): Map<string, Declaration[]> {
  const known = new Map<string, Declaration[]>();
  // From the last to the first, so that equal declarations are taken again in their old order.
  for (const { declaration } of [...declarations].reverse()) {
    const same = known.get(declaration.text);
    if (same === undefined) known.set(declaration.text, [declaration]);
    else same.push(declaration);
  }
  return known;
}

/** All of a file that is too long to be read: one broken line, and one problem. */
function unreadFile(file: string, text: string, most: string): Declaration {
  const tree = brokenWhole(text);
  return { file, text, tree, problems: [{ kind: 'file too long', start: tree.start, end: tree.start + Math.min(tree.text.length, 1), found: most, expected: [] }] };
}

/** Reads one declaration from its own text. */
export function parseDeclaration(file: string, text: string): Declaration {
  const tooMuch = tooMuchIn(text);
  const tree = (tooMuch === undefined ? read<DeclarationTree>(text, 'Declaration') : undefined) ?? brokenWhole(text);
  let problems: readonly SyntaxProblem[] | undefined;
  return {
    file, text, tree,
    get problems() {
      return (problems ??= tooMuch === undefined ? syntaxProblems(text, tree) : [tooMuch]);
    },
  };
}

/** The comments and blank lines of a text that holds nothing else. */
function parseTrivia(text: string): readonly Trivia[] | undefined {
  return read<readonly Trivia[]>(text, 'TriviaOnly');
}

/** The one place where the generated parser's untyped result takes its type. */
function read<T>(text: string, startRule: string): T | undefined {
  try {
    return generated.parse(text, { startRule }) as T;
  } catch (error) {
    // Brackets nested too deep for the call stack can't be read either.
    if (error instanceof generated.SyntaxError || error instanceof RangeError) return undefined;
    throw error;
  }
}

function brokenWhole(text: string): Broken {
  const start = /^[ \t\r\n]*/.exec(text)?.[0].length ?? 0;
  // No regular expression: one would look at each run of spaces again from each of them.
  let end = text.length;
  while (end > start && ' \t\r\n'.includes(text.charAt(end - 1))) end--;
  const kept = text.slice(start, end);
  const leading: readonly Trivia[] = /[\n\r]/.test(text.slice(0, start)) ? [{ kind: 'blank' }] : [];
  return { kind: 'broken', text: kept, start, end: start + kept.length, leading };
}

// ------------------------------------------------------------------------------------------------ problems

function syntaxProblems(text: string, tree: DeclarationTree): readonly SyntaxProblem[] {
  switch (tree.kind) {
    case 'broken':
      return [unopened(tree) ?? explain(text, tree, 'DeclarationStrict')];
    case 'piece':
      return [
        ...explainHead(text, tree.unread, 'PieceHeaderStrict'),
        ...blockProblems(text, tree.body, 'PieceStatementStrict'),
        ...tree.body.statements.flatMap((statement) => ('shape' in statement ? pathProblems(text, statement.shape) : [])),
      ];
    case 'material':
      return [...explainHead(text, tree.unread, 'MaterialHeaderStrict'), ...blockProblems(text, tree.body, 'MaterialStatementStrict')];
    case 'supply':
      return [...explainHead(text, tree.unread, 'SupplyHeaderStrict'), ...blockProblems(text, tree.body, 'SupplyStatementStrict')];
    default:
      return [];
  }
}

function pathProblems(text: string, shape: Shape): readonly SyntaxProblem[] {
  return shape.kind === 'path' ? blockProblems(text, shape.steps satisfies Block<PathStep>, 'PathStepStrict') : [];
}

function blockProblems(text: string, block: Block<Statement & { readonly kind: string }>, strictRule: string): readonly SyntaxProblem[] {
  const broken = block.statements.filter((statement): statement is Broken => statement.kind === 'broken').slice(0, limits.problems + 1);
  const problems = broken.map((line) => explain(text, line, strictRule));
  if (!block.closed) problems.push({ kind: 'unclosed block', start: block.start, end: block.start + 1, found: '', expected: ['}'] });
  return problems;
}

function explainHead(text: string, unread: Unread | undefined, strictRule: string): readonly SyntaxProblem[] {
  if (unread === undefined) return [];
  return [explain(text, { ...unread, text: `${unread.text.trimEnd()} {`, end: unread.start + unread.text.trimEnd().length }, strictRule)];
}

/** A declaration whose first line forgot its brace. */
function unopened(line: Broken): SyntaxProblem | undefined {
  const [first = '', ...more] = line.text.split(/\r\n|\n|\r/);
  if (more.length === 0 || !blockWords.has(/^\w*/.exec(first)?.[0] ?? '') || first.includes('{')) return undefined;
  const end = line.start + first.replace(/\s*(?:#.*)?$/, '').length;
  return { kind: 'unopened block', start: end - 1, end, found: '', expected: ['{'] };
}

/** Reads a broken line again, strictly, to learn where it went wrong and what would have been right there. */
function explain(text: string, line: Node & { readonly text: string }, strictRule: string): SyntaxProblem {
  const unclosed = unclosedQuote(line.text);
  if (unclosed !== undefined) {
    const inches = /[\d\u00BC-\u00BE\u2150-\u215E]\s*$/u.test(line.text.slice(0, unclosed));
    return { kind: 'unclosed text', start: line.start + unclosed, end: line.end, found: '', expected: ['"'], ...(inches ? { hint: 'For inches write “in” after the number, or nothing where inches are the file’s unit.' } : {}) };
  }
  try {
    generated.parse(line.text, { startRule: strictRule });
  } catch (error) {
    if (error instanceof RangeError) return { kind: 'unreadable', start: line.start, end: line.end, found: '', expected: [] };
    if (!(error instanceof generated.SyntaxError)) throw error;
    const offset = Math.min(error.location.start.offset, Math.max(0, line.end - line.start - 1));
    const found = /^(?:[\p{L}\p{M}\p{N}_.]+|\S)?/u.exec(text.slice(line.start + offset, line.end))?.[0] ?? '';
    const atEnd = error.location.start.offset >= line.text.length;
    const expected = expectations(error.expected ?? [], !atEnd && /^\p{L}/u.test(found));
    const shorter = atEnd ? undefined : wordWithin(line.text, offset, found, strictRule);
    return {
      kind: 'unreadable',
      start: line.start + offset,
      end: line.start + offset + Math.max(1, found.length),
      found: atEnd ? '' : found,
      expected: shorter === undefined ? expected : [...expected, shorter].sort(),
      ...slipAt(line.text, error.location.start.offset, found),
    };
  }
  return { kind: 'unreadable', start: line.start, end: line.end, found: line.text, expected: [] };
}

/**
 * The word of the language that a word with a letter or two too many begins with, as `cut` in `cutt`: the parser got past
 * it, so it is not among what was expected.
 */
function wordWithin(line: string, offset: number, found: string, strictRule: string): string | undefined {
  for (const word of [found.slice(0, -1), found.slice(0, -2)]) {
    if (word.length < 2) return undefined;
    const reach = offset + word.length;
    if (furthest(line.slice(0, reach) + line.slice(offset + found.length), strictRule) > reach) return word;
  }
  return undefined;
}

/** How far a text can be read. */
function furthest(text: string, startRule: string): number {
  try {
    generated.parse(text, { startRule });
    return Infinity;
  } catch (error) {
    return error instanceof generated.SyntaxError ? error.location.start.offset : -1;
  }
}

function unclosedQuote(line: string): number | undefined {
  return tokensOf(line).find(({ kind, text }) => kind === 'text' && !isClosed(text))?.start;
}

/** @param wasWord whether a word stands in the place: where a name would be right, it is one of the language's own */
function expectations(raw: readonly generated.Expectation[], wasWord: boolean): readonly string[] {
  const words = raw.map((one) => {
    if (one.type === 'literal') return one.text === '#' || one.text === '\n' || one.text === '\r\n' || one.text === '\r' ? 'the end of the line' : one.text === ',' ? 'a comma' : (one.text ?? '');
    if (one.type === 'other') return one.description === 'a name' && wasWord ? 'a name that isn’t a word of the language' : (one.description ?? '');
    return one.type === 'end' ? 'the end of the line' : '';
  });
  return [...new Set(words)].filter((word) => word !== '').sort();
}
