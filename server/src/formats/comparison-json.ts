import type { Comparison } from '../compare/comparison.ts';

/** The version of the form: it rises where a reader of an earlier one would be misled. */
export const comparisonVersion = 1;

/** Comparisons for other programs, one for each pattern that was compared. */
export function comparisonJson(comparisons: readonly Comparison[]): string {
  return `${JSON.stringify({ format: 'piecewright comparison', version: comparisonVersion, comparisons }, null, 2)}\n`;
}
