import { figure, limits } from '../problems/limits.ts';
import type { SyntaxProblem } from './tree.ts';

/** What a whole file has too much of to be read, in words; undefined where it can be read. */
export function fileTooLong(text: string): string | undefined {
  if (text.length > limits.textLength) return `${limits.textLength / 1_000_000} million characters`;
  let lines = 1;
  for (let end = lineEnd(text, 0); end < text.length && lines <= limits.lines; end = lineEnd(text, end + 1)) lines++;
  return lines > limits.lines ? `${figure(limits.lines)} lines` : undefined;
}

/** Where a line ends, by any of the marks that end one; the text's length where it is the last. */
function lineEnd(text: string, from: number): number {
  for (let index = from; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === lineFeed || (code === carriageReturn && text.charCodeAt(index + 1) !== lineFeed)) return index;
  }
  return text.length;
}

const [lineFeed, carriageReturn] = [10, 13];

/** What a text within quotes, a comment and spaces take is not counted: they cost nothing. */
const uncounted = /"(?:[^"\\\n\r]|\\.)*"|#[^\n\r]*|\s+/g;

/** Words and signs that a formula or a condition grows by, and those between which one ends. */
const counted = /"(?:[^"\\\n\r]|\\.)*"|#[^\n\r]*|[\p{L}\p{M}\p{N}_.]+|[()+*/,\n\r-]/gu;

/**
 * Whether a declaration is longer or nested deeper than is read. Told before it is read, since reading takes a call for
 * each bracket, and the place where calls run out differs from machine to machine.
 */
export function tooMuchIn(text: string): SyntaxProblem | undefined {
  // Less can't go beyond any limit.
  if (text.length <= limits.nesting) return undefined;
  const start = /^\s*/.exec(text)?.[0].length ?? 0;
  if (text.length > limits.declarationLength && text.replace(uncounted, '').length > limits.declarationLength) {
    const end = start + (/^[^\n\r]*/.exec(text.slice(start, start + 200))?.[0].trimEnd().length ?? 0);
    return { kind: 'too long', start, end, found: '', expected: [] };
  }
  return tooDeepIn(text);
}

const [space, open, asterisk, plus, minus, slash] = [32, 40, 42, 43, 45, 47];

/** Whether a text may go beyond a limit of depth: a first look that costs next to nothing, with each space as if a word stood there. */
function mayBeDeep(text: string): boolean {
  let brackets = 0;
  let operators = 0;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === open) brackets++;
    else if (code === space || code === asterisk || code === plus || code === minus || code === slash) operators++;
  }
  return brackets > limits.nesting || operators > limits.operators;
}

function tooDeepIn(text: string): SyntaxProblem | undefined {
  if (!mayBeDeep(text)) return undefined;
  let depth = 0;
  let operators = 0;
  for (const { 0: token, index } of text.matchAll(counted)) {
    if (token === '(') depth++;
    else if (token === ')') depth = Math.max(0, depth - 1);
    else if (token === '\n' || token === '\r') [depth, operators] = [depth, 0];
    else if (token === ',') operators = depth === 0 ? 0 : operators;
    else if (/^(?:[+*/-]|and|or|not)$/.test(token)) operators++;
    if (depth > limits.nesting) return { kind: 'too deep', start: index, end: index + token.length, found: '', expected: [] };
    if (operators > limits.operators) return { kind: 'too many terms', start: index, end: index + token.length, found: '', expected: [] };
  }
  return undefined;
}
