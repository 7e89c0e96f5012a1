import { runBefore } from './ends.ts';
import { printStatement, type AnyStatement } from './print-statement.ts';
import type { Block, DeclarationTree, SourceFile, Statement, Trivia } from './tree.ts';

/**
 * The one canonical text of a spec: two spaces of indent inside blocks, single spaces between words, at most one blank
 * line in a row, comments kept where they stand. Lines that could not be read stay as they are, and so does a file in which
 * a merge has left two versions.
 *
 * @returns the text, with the line ends of the file as it was and a line end at the end
 */
export function printFile(file: SourceFile): string {
  return printSegments(file).map((segment) => segment.text).join('');
}

/** A declaration's canonical text, with the comments and blank lines before it and a line end after it. */
export function printDeclaration(tree: DeclarationTree): string {
  return joined(statementRuns(tree, ''));
}

/** What a declaration says, without its comments and blank lines: two declarations that say the same print the same. */
export function printBare(tree: DeclarationTree): string {
  let text = bare.get(tree);
  if (text === undefined) bare.set(tree, (text = joined(statementRuns(tree, '', true))));
  return text;
}

const bare = new WeakMap<DeclarationTree, string>();

/** Whole lines of a file, from `start` to `end` in UTF-16 offsets, with their canonical text. */
export interface Segment {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/**
 * A file cut into its smallest parts of whole lines, in order and without gaps: a statement with what stands before
 * it, the first or the last line of a block.
 */
export function printSegments(file: SourceFile): readonly Segment[] {
  if (file.conflicts.length > 0) return [{ start: 0, end: file.text.length, text: file.text }];
  const segments: Segment[] = [];
  const eol = lineEndOf(file.text);
  const push = (end: number, text: string): void => {
    const start = segments.at(-1)?.end ?? 0;
    if (end > start || text !== '') segments.push({ start, end, text: eol === '\n' ? text.replace(/\r\n?/g, '\n') : text.replace(/\r\n?|\n/g, eol) });
  };
  file.declarations.forEach(({ declaration, offset }, index) => {
    const isFirst = index === 0;
    const isLast = index === file.declarations.length - 1;
    const until = offset + declaration.text.length;
    const runs = statementRuns(declaration.tree, '');
    runs.forEach((run, at) => {
      const ends = at === runs.length - 1;
      let text = run.text;
      if (isFirst && at === 0) text = text.replace(/^\n+/, '');
      if (ends && declaration.tree.kind === 'broken' && blankAfter(declaration.text.slice(declaration.tree.end))) text += '\n';
      if (ends && isLast && file.trailing.length === 0) text = endedOnce(text);
      push(ends ? until : offset + lineEndAfter(declaration.text, run.until), text);
    });
  });
  const trailing = endedOnce(printTrivia(file.trailing, '', file.declarations.length > 0));
  push(file.text.length, trailing === '\n' ? '' : trailing);
  return segments;
}

/** The line end that a file uses: that of its first line. */
export function lineEndOf(text: string): '\n' | '\r\n' {
  return /\r\n|\r|\n/.exec(text)?.[0] === '\r\n' ? '\r\n' : '\n';
}

/** With one line end, however many it ends with. */
const endedOnce = (text: string): string => `${text.slice(0, runBefore(text, text.length, '\n'))}\n`;

const blankAfter = (rest: string): boolean => /^[^\n\r]*(?:\r\n|\r(?!\n)|\n)[ \t]*[\n\r]/.test(rest);

/** The offset after the line that something ends on: past its comment and line end, or at a brace that closes beside it. */
function lineEndAfter(text: string, end: number): number {
  return end + (/^[ \t]*(?:#[^\n\r]*)?(?:\r\n|\r|\n)?/.exec(text.slice(end))?.[0].length ?? 0);
}

// ------------------------------------------------------------------------------------------------ statements

/** Lines of canonical text, and the offset in the declaration's text that the last thing on them ends at. */
interface Run {
  readonly text: string;
  readonly until: number;
}

const joined = (runs: readonly Run[]): string => runs.map((run) => run.text).join('');

const noted = (comment: string | undefined, isBare: boolean): string => (comment === undefined || isBare ? '\n' : `  ${comment}\n`);

function statementRuns(statement: AnyStatement, indent: string, isBare = false, atBlockStart = false): readonly Run[] {
  const before = isBare ? '' : printTrivia(statement.leading, indent, !atBlockStart);
  const text = `${before}${indent}${printStatement(statement, indent)}`;
  const block = blockOf(statement);
  if (block === undefined) return [{ text: text + noted(statement.comment, isBare), until: statement.end }];
  return [{ text: text + noted(block.opening, isBare), until: block.start + 1 }, ...blockRuns(block, indent, isBare, statement)];
}

function blockRuns(block: Block<AnyStatement & Statement>, indent: string, isBare: boolean, owner: AnyStatement): readonly Run[] {
  const inner = `${indent}  `;
  const statements = block.statements.flatMap((statement, index) => statementRuns(statement, inner, isBare, index === 0));
  const trailing = isBare ? '' : printTrivia(block.trailing, inner, block.statements.length > 0);
  // In a block left open, what stands last may belong to what comes next, so a blank line there stays.
  if (!block.closed) return trailing === '' ? statements : [...statements, { text: trailing, until: block.end }];
  return [...statements, { text: `${endedOnce(trailing).replace(/^\n$/, '')}${indent}}${noted(owner.comment, isBare)}`, until: block.end }];
}

function blockOf(statement: AnyStatement): Block<AnyStatement & Statement> | undefined {
  if ('body' in statement) return statement.body;
  return 'shape' in statement && statement.shape.kind === 'path' ? statement.shape.steps : undefined;
}

/** Comments on lines of their own, and of blank lines at most one in a row. */
function printTrivia(trivia: readonly Trivia[], indent: string, mayBeginBlank: boolean): string {
  let text = '';
  let blank = !mayBeginBlank;
  for (const one of trivia) {
    if (one.kind === 'comment') text += `${indent}${one.text}\n`;
    else if (!blank) text += '\n';
    blank = one.kind === 'blank';
  }
  return text;
}
