import type { Comparison } from '../compare/comparison.ts';

/** The version of the form: it rises where a reader of an earlier one would be misled. */
export const comparisonVersion = 1;

/** Comparisons for other programs, one for each pattern that was compared, as `compare.schema.json` says. */
export function comparisonJson(comparisons: readonly Comparison[]): string {
  return `${JSON.stringify({ format: 'piecewright comparison', version: comparisonVersion, comparisons: comparisons.map(published) }, null, 2)}\n`;
}

/** What the schema promises, whatever else a comparison has for its drawings. */
const published = ({ old, new: fresh, same, changes, affected, renamed, discipline }: Comparison): Omit<Comparison, 'outlines' | 'cautions'> =>
  ({ old, new: fresh, same, changes, affected, renamed, discipline });
