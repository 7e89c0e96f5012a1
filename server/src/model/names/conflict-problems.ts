import type { Place } from '../../problems/place.ts';
import { problem, replacement, type Problem } from '../../problems/problem.ts';
import type { SourceFile, Span } from '../../syntax/tree.ts';

/** The places of a file where a merge has left two versions, each with the ways to choose. */
export function conflictProblems(file: SourceFile): readonly Problem[] {
  return file.conflicts.flatMap((conflict) => {
    const place = placeAt(file, conflict);
    if (place === undefined) return [];
    const { first, second } = conflict;
    const [one, other] = [first, second].map(({ start, end }) => file.text.slice(start, end)) as [string, string];
    const mark = file.text.slice(conflict.start, first.start).trimEnd();
    return [problem('merge-conflict', { ...place, end: place.start + mark.length }, { first: first.label, second: second.label }, {
      fixes: [
        replacement(`Keep the first${named(first.label)}`, place, one, false),
        replacement(`Keep the second${named(second.label)}`, place, other, false),
        replacement('Keep both, the first before the second', place, one + other, false),
      ],
    })];
  });
}

const named = (label: string): string => (label === '' ? '' : ` (${label})`);

/** From the declaration that it stands in or after; before the first it is told from there. */
function placeAt(file: SourceFile, { start, end }: Span): Place | undefined {
  const { declarations } = file;
  const holder = declarations.findLast(({ offset }) => offset <= start) ?? declarations[0];
  return holder && { chunk: holder.declaration, start: start - holder.offset, end: end - holder.offset };
}
