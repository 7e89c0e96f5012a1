import { spaceBefore } from './ends.ts';
import { lineEndOf } from './print.ts';
import { blockWords } from './statements/table.ts';
import type { Block, Broken, Mend, Statement, SyntaxProblem } from './tree.ts';

/** Blocks whose opening or closing brace is missing, or stands in another place. */

const nextLine = /^[^\n\r]*(?:\r\n|\n|\r)(?:[ \t]*(?:#[^\n\r]*)?(?:\r\n|\n|\r))*[ \t]*/;

/** A declaration whose first line forgot its brace. */
export function unopenedBlock(text: string, line: Broken): SyntaxProblem | undefined {
  return blockWords.has(/^\w*/.exec(line.text)?.[0] ?? '') ? unopened(text, line) : undefined;
}

/** A path whose first line forgot its brace: its steps, or the brace, stand on the lines below. */
export function unopenedPath(text: string, line: Broken): SyntaxProblem | undefined {
  return /^[^\n\r"#]*\bpath\b/.test(line.text) ? unopened(text, line) : undefined;
}

function unopened(text: string, line: Broken): SyntaxProblem | undefined {
  const [first = '', ...more] = line.text.split(/\r\n|\n|\r/);
  const said = (first.split('#', 1)[0] ?? '').trimEnd();
  if (more.length === 0 || said.includes('{')) return undefined;
  const end = line.start + said.length;
  const bracket = bracketed(text, line, said);
  if (bracket !== undefined) return bracket;
  const below = line.start + (nextLine.exec(line.text)?.[0].length ?? 0);
  if (text.charAt(below) === '{') return { kind: 'unopened block', start: below, end: below + 1, found: '{', expected: ['{'], mend: moveUp(text, end, below) };
  if (/\}\s*$/.test(line.text)) return { kind: 'unopened block', start: end - 1, end, found: '', expected: ['{'], mend: { title: 'Add “{”', start: end, end, newText: ' {' } };
  const whole = blockWords.has(/^\w*/.exec(first)?.[0] ?? '');
  const indent = whole ? '' : indentAt(text, line.start);
  const close = `${lineEndOf(text)}${indent}}`;
  return { kind: 'unopened block', start: end - 1, end, found: '', expected: ['{', '}'], mend: { title: 'Add “{” and “}”', start: end, end: line.end, newText: ` {${text.slice(end, line.end)}${close}` } };
}

/** A block between brackets, told at the opening one. */
function bracketed(text: string, line: Broken, said: string): SyntaxProblem | undefined {
  const found = said.at(-1) ?? '';
  const start = line.start + said.length - 1;
  if (found !== '(' && found !== '[') return undefined;
  const closing = /[)\]}]\s*$/.exec(line.text)?.index;
  const end = closing === undefined ? start + 1 : line.start + closing + 1;
  const newText = closing === undefined ? '{' : `{${text.slice(start + 1, end - 1)}}`;
  return { kind: 'unopened block', start, end: start + 1, found, expected: ['{', '}'], mend: { title: 'Change to “{” and “}”', start, end, newText } };
}

/** What stands between goes below the brace; an empty line is left out. */
function moveUp(text: string, end: number, brace: number): Mend {
  const between = text.slice(end, spaceBefore(text, brace));
  const after = /^[ \t]*(?:\r\n|\n|\r)/.exec(text.slice(brace + 1))?.[0] ?? '';
  return { title: 'Move “{” up', start: end, end: brace + 1 + after.length, newText: ` {${between === '' ? lineEndOf(text) : between}` };
}

/** A block without its closing brace, which goes below its last line. */
export function unclosedBlock(text: string, block: Block<Statement>, kind: string): SyntaxProblem {
  const last = block.statements.at(-1)?.end ?? block.start + 1;
  const said = text.slice(0, last).trimEnd().length;
  const end = said + (/^[ \t]*(?:#[^\n\r]*)?/.exec(text.slice(said))?.[0].trimEnd().length ?? 0);
  const indent = kind === 'path' ? indentAt(text, block.start) : '';
  return {
    kind: 'unclosed block', start: block.start, end: block.start + 1, found: kind, expected: ['}'],
    mend: { title: 'Close the block', start: end, end, newText: `${lineEndOf(text)}${indent}}` },
  };
}

/** The space that the line of an offset begins with. */
function indentAt(text: string, offset: number): string {
  const start = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  return /^[ \t]*/.exec(text.slice(start, offset))?.[0] ?? '';
}
