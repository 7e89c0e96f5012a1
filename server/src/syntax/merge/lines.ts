import { diff3Merge } from 'node-diff3';

/** What the two sides are called at the marks of a conflict, and how many signs these have. */
export interface Marking {
  readonly ours: string;
  readonly theirs: string;
  readonly size: number;
}

export interface Merged {
  readonly text: string;
  readonly conflicts: number;
}

/** Three texts merged line by line; where both sides say otherwise, both stand between marks, without the lines that they have in common. */
export function mergeLines(base: string, ours: string, theirs: string, marking: Marking): Merged {
  let conflicts = 0;
  const parts = diff3Merge(linesOf(ours), linesOf(base), linesOf(theirs), { excludeFalseConflicts: true }).flatMap(({ ok, conflict }) => {
    if (conflict === undefined) return ok ?? [];
    const { before, a, b, after } = apart(conflict.a, conflict.b);
    conflicts++;
    return [...before, marked(a, b, marking), ...after];
  });
  return { text: parts.join(''), conflicts };
}

/** With their line ends; what is given here ends every line. */
const linesOf = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];

function apart(a: readonly string[], b: readonly string[]): { readonly before: readonly string[]; readonly a: readonly string[]; readonly b: readonly string[]; readonly after: readonly string[] } {
  let from = 0;
  while (from < a.length && from < b.length && a[from] === b[from]) from++;
  let back = 0;
  while (back < a.length - from && back < b.length - from && a[a.length - 1 - back] === b[b.length - 1 - back]) back++;
  return { before: a.slice(0, from), a: a.slice(from, a.length - back), b: b.slice(from, b.length - back), after: a.slice(a.length - back) };
}

const marked = (ours: readonly string[], theirs: readonly string[], { size, ours: left, theirs: right }: Marking): string =>
  `${'<'.repeat(size)} ${left}\n${ours.join('')}${'='.repeat(size)}\n${theirs.join('')}${'>'.repeat(size)} ${right}\n`;
