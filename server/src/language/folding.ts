import type { Block, Statement } from '../syntax/tree.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { nodesOf, type AnyNode } from './nodes.ts';
import type { TextRange } from './results.ts';

/** Lines that can be folded away: from the line of `start`, which stays, to the line of `end`. */
export interface Fold extends TextRange {
  readonly kind: 'block' | 'comments' | 'uses';
}

/** Blocks, runs of comment lines, and runs of `use` lines. */
export function folding(snapshot: Snapshot): readonly Fold[] {
  const { declarations, text } = snapshot.file;
  const folds: Fold[] = commentRuns(text);
  let uses: TextRange | undefined;
  let count = 0;
  const closeUses = (): void => {
    if (uses !== undefined && count > 1) folds.push({ kind: 'uses', ...uses });
    uses = undefined;
    count = 0;
  };
  for (const { declaration, offset } of declarations) {
    if (declaration.tree.kind === 'use') {
      uses = { start: uses?.start ?? offset + declaration.tree.start, end: offset + declaration.tree.end };
      count++;
    } else closeUses();
    for (const { node } of nodesOf(declaration.tree)) {
      if (isBlock(node) && /[\n\r]/.test(declaration.text.slice(node.start, node.end))) folds.push({ kind: 'block', start: offset + node.start, end: offset + node.end });
    }
  }
  closeUses();
  return folds.sort((a, b) => a.start - b.start || b.end - a.end);
}

const isBlock = (node: AnyNode): node is Block<Statement> => 'statements' in node;

function commentRuns(text: string): Fold[] {
  return [...text.matchAll(/^[ \t]*(#[^\n\r]*(?:\r\n|\r|\n)[ \t]*(?:#[^\n\r]*(?:\r\n|\r|\n)?[ \t]*)+)/gm)].map((match) => {
    const start = match.index + match[0].indexOf('#');
    return { kind: 'comments', start, end: start + match[0].slice(match[0].indexOf('#')).trimEnd().length };
  });
}
