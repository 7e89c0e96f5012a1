import type { FoundProblem } from '../query/variants.ts';

/**
 * Leaves out what only follows from another problem: a name that seems unused because it was misspelt where it was
 * wanted, and a fact that is missing from every piece, which is said once.
 */
export function withoutConsequences(problems: readonly FoundProblem[]): readonly FoundProblem[] {
  const meant = new Set(problems.flatMap((one) => (one.code === 'unknown-name' || one.code === 'unknown-part' ? one.fixes.flatMap((fix) => fix.edits.map((edit) => edit.newText)) : [])));
  let allowanceSaid = false;
  return problems.filter((one) => {
    switch (one.code) {
      case 'unused-name':
      case 'never-cut':
      case 'mark-without-supply':
        return !meant.has(one.place.chunk.text.slice(one.place.start, one.place.end));
      case 'missing-allowance': {
        const first = !allowanceSaid;
        allowanceSaid = true;
        return first;
      }
      default:
        return true;
    }
  });
}
