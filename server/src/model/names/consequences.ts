import type { FoundProblem } from '../query/variants.ts';
import { isTried, leadsTo } from './unread-facts.ts';
import type { World } from './world.ts';

/**
 * Leaves out what only follows from another problem: a name that seems unused because it was misspelt, or taken for
 * something else, where it was wanted; and a fact that is missing from every piece, which is said once, and not where the
 * line that was to give it can’t be read.
 */
export function withoutConsequences(world: World, problems: readonly FoundProblem[]): readonly FoundProblem[] {
  const meant = new Set(problems.flatMap((one) => {
    if (one.code === 'wrong-thing') return [one.place.chunk.text.slice(one.place.start, one.place.end)];
    return one.code === 'unknown-name' || one.code === 'unknown-part' ? one.fixes.flatMap((fix) => fix.edits.map((edit) => edit.newText)) : [];
  }));
  let allowanceSaid: boolean | undefined;
  return problems.filter((one) => {
    switch (one.code) {
      case 'unused-name':
      case 'never-cut':
      case 'mark-without-supply':
        return !meant.has(one.place.chunk.text.slice(one.place.start, one.place.end));
      case 'missing-allowance': {
        allowanceSaid ??= isTried(world.root.declarations, 'allowance');
        if (allowanceSaid || problems.some((other) => other.place.chunk === one.place.chunk && isAllowanceUnread(other))) return false;
        allowanceSaid = true;
        return true;
      }
      default:
        return true;
    }
  });
}

/** Whether a line of a piece was to give its allowance, and can’t be read. */
function isAllowanceUnread(one: FoundProblem): boolean {
  if (one.code !== 'unreadable-line') return false;
  const { chunk, start } = one.place;
  const line = chunk.text.slice(chunk.text.lastIndexOf('\n', start - 1) + 1).trimStart();
  return line.startsWith('allowance') || leadsTo(one, 'allowance');
}
