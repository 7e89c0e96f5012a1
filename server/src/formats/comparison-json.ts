import type { CatalogueComparison } from '../compare/catalogue.ts';
import type { Comparison } from '../compare/comparison.ts';

/** The version of the form: it rises where a reader of an earlier one would be misled. */
export const comparisonVersion = 1;

/** Comparisons for other programs, one for each pattern that was compared, as `compare.schema.json` says. */
export function comparisonJson({ comparisons, lone, moved, faults }: CatalogueComparison): string {
  const only = { ...(lone.length === 0 ? {} : { lone }), ...(moved.length === 0 ? {} : { moved }), ...(faults.length === 0 ? {} : { faults }) };
  return `${JSON.stringify({ format: 'piecewright comparison', version: comparisonVersion, comparisons: comparisons.map(published), ...only }, null, 2)}\n`;
}

/** What the schema promises, whatever else a comparison has for its drawings. */
const published = ({ old, new: fresh, same, changes, affected, renamed, discipline }: Comparison): Omit<Comparison, 'outlines' | 'cautions'> =>
  ({ old, new: fresh, same, changes, affected, renamed, discipline });
