import { nameCharacter } from '../syntax/tokens.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { nodesAt } from './nodes.ts';
import type { TextRange } from './results.ts';

/**
 * What the selection at an offset grows to, step by step: word, formula, clause, statement, block, declaration, file.
 * Each step holds the one before and more.
 */
export function selectionSteps(snapshot: Snapshot, offset: number): readonly TextRange[] {
  const { text } = snapshot.file;
  const ranges: TextRange[] = [{ start: 0, end: text.length }];
  const found = snapshot.declarationAt(offset);
  if (found !== undefined) {
    const { declaration, offset: start } = found;
    ranges.push({ start: start + (/^(?:[ \t]*(?:\r\n|\r|\n))*/.exec(declaration.text)?.[0].length ?? 0), end: start + declaration.text.trimEnd().length });
    for (const node of nodesAt(declaration.tree, offset - start)) {
      ranges.push({ start: start + node.start, end: start + node.end });
      // Of a block first all that stands inside its braces.
      if ('statements' in node && node.end - node.start > 2) ranges.push(trimmed(text, start + node.start + 1, start + node.end - 1));
    }
  }
  ranges.push(wordAround(text, offset));
  return nested(ranges.filter((range) => range.start <= offset && offset <= range.end));
}

/** A word longer than this is no word that anyone selects, and looking for its ends would take its time. */
const longestWord = 1000;

const wordEnd = new RegExp(`${nameCharacter}*$`, 'u');
const wordStart = new RegExp(`^${nameCharacter}*`, 'u');

function wordAround(text: string, offset: number): TextRange {
  const before = wordEnd.exec(text.slice(Math.max(0, offset - longestWord), offset))?.[0].length ?? 0;
  const after = wordStart.exec(text.slice(offset, offset + longestWord))?.[0].length ?? 0;
  return { start: offset - before, end: offset + after };
}

function trimmed(text: string, start: number, end: number): TextRange {
  const inner = text.slice(start, end);
  return { start: start + inner.length - inner.trimStart().length, end: end - (inner.length - inner.trimEnd().length) };
}

/** From the smallest to the largest; what doesn't hold all before it is left out. */
function nested(ranges: readonly TextRange[]): readonly TextRange[] {
  const steps: TextRange[] = [];
  for (const range of [...ranges].sort((a, b) => a.end - a.start - (b.end - b.start))) {
    const last = steps.at(-1);
    if (range.end === range.start) continue;
    if (last === undefined || (range.start <= last.start && range.end >= last.end && range.end - range.start > last.end - last.start)) steps.push(range);
  }
  return steps;
}
