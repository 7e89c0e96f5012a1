import { tokensOf } from '../syntax/tokens.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { TextEdit } from './results.ts';

/**
 * Indents the line that something was just typed on: the new line after a line end, or the line of a closing brace that
 * stands alone. Nothing but its indent changes.
 *
 * @param offset just after what was typed
 */
export function formatTyping(snapshot: Snapshot, offset: number, typed: string): readonly TextEdit[] {
  const { text } = snapshot.file;
  const lineStart = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  const indent = /^[ \t]*/.exec(text.slice(lineStart))?.[0] ?? '';
  const first = text.charAt(lineStart + indent.length);
  if (typed === '}' && lineStart + indent.length !== offset - 1) return [];
  const from = snapshot.declarationAt(Math.max(0, lineStart - 1))?.offset ?? lineStart;
  const { depth, continues } = nesting(text.slice(from, lineStart));
  const wanted = '  '.repeat(Math.max(0, depth - (first === '}' ? 1 : 0)) + (continues && first !== '}' ? 1 : 0));
  return indent === wanted ? [] : [{ start: lineStart, end: lineStart + indent.length, newText: wanted }];
}

/** How many blocks are open at the end of a text, and whether its last line goes on below. */
function nesting(text: string): { readonly depth: number; readonly continues: boolean } {
  let depth = 0;
  const code = tokensOf(text).filter(({ kind }) => kind !== 'comment');
  for (const { text: sign } of code) depth = Math.max(0, depth + (sign === '{' ? 1 : sign === '}' ? -1 : 0));
  const last = code.at(-1);
  return { depth, continues: last?.text === ',' && /^[^\n\r]*(?:\r\n|\r|\n)?$/.test(text.slice(last.end)) };
}
