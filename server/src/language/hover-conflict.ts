import { compareWithoutLays, type Comparison } from '../compare/comparison.ts';
import { groupNames, pointsOf } from '../compare/summary.ts';
import { escapeMarkdown } from '../formats/escape.ts';
import type { Pattern } from '../model/pattern.ts';
import { combinationCount, tooManyCombinations } from '../table/combinations.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { Hover } from './hover.ts';
import { tried } from './trial.ts';

/** At the marks of a merge and in the second version: what would be made otherwise with that. */
export function aboutConflict(snapshot: Snapshot, offset: number): Hover | undefined {
  const { conflicts, text } = snapshot.file;
  const conflict = conflicts.find(({ start, end, first }) => offset >= start && offset < end && !(offset >= first.start && offset < first.end));
  if (conflict === undefined) return undefined;
  const { start, end, first, second } = conflict;
  const [one, other] = [first, second].map((version) => tried(snapshot, text.slice(0, start) + text.slice(version.start, version.end) + text.slice(end)).pattern) as [Pattern, Pattern];
  const isTooMany = tooManyCombinations(combinationCount(snapshot.pattern.choices.values())) !== undefined;
  const opening = `Everything is worked out with the first version. With the second${second.label === '' ? '' : ` (${escapeMarkdown(second.label)})`}`;
  const markdown = isTooMany ? `${opening}, what would be otherwise isn’t looked at: there are too many combinations.` : `${opening}, ${told(compareWithoutLays(one, other))}`;
  return { start, end, markdown };
}

function told(comparison: Comparison): string {
  const { changes, same } = comparison;
  if (same) return 'nothing is made otherwise.';
  const points = pointsOf(comparison);
  const rest = [...new Set(changes.map(({ group }) => group))].filter((group) => !['cut', 'buy', 'template', 'choices', 'checks'].includes(group)).map((group) => groupNames[group]);
  const lines = [...points.map(({ what, items }) => `- **${what}:** ${items.map(escapeMarkdown).join('; ')}`), ...(rest.length === 0 ? [] : [`- **Other changes:** ${rest.join(', ')}`])];
  return `leaving aside what cloth to buy:\n\n${lines.join('\n')}`;
}
