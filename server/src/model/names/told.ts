import { limits } from '../../problems/limits.ts';
import { problem } from '../../problems/problem.ts';
import type { FoundProblem } from '../query/variants.ts';
import { withoutConsequences } from './consequences.ts';
import type { World } from './world.ts';

/** What is told of all that was seen: in order, each once, without what only follows from another, and so many a file at most. */
export function toldProblems(world: World, problems: readonly FoundProblem[]): readonly FoundProblem[] {
  return atMost(withoutConsequences(world, inOrder(world, problems)));
}

/** The first so many of each file; the next one’s place then says that there are more. */
function atMost(problems: readonly FoundProblem[]): readonly FoundProblem[] {
  const counts = new Map<string, number>();
  return problems.flatMap((one) => {
    const count = (counts.get(one.place.chunk.file) ?? 0) + 1;
    counts.set(one.place.chunk.file, count);
    if (count <= limits.problems) return [one];
    return count === limits.problems + 1 ? [{ ...problem('too-much', one.place, { of: 'problems' }), when: undefined }] : [];
  });
}

/** By file and place, each said once. */
function inOrder(world: World, problems: readonly FoundProblem[]): readonly FoundProblem[] {
  const order = new Map<unknown, number>();
  for (const file of world.files) for (const { declaration } of file.declarations) order.set(declaration, order.size);
  const seen = new Set<string>();
  return problems
    .map((one) => ({ one, at: order.get(one.place.chunk) ?? 0 }))
    .sort((a, b) => a.at - b.at || a.one.place.start - b.one.place.start || a.one.place.end - b.one.place.end || (a.one.code < b.one.code ? -1 : 1))
    .filter(({ one, at }) => {
      const key = `${at} ${one.place.start} ${one.place.end} ${one.code} ${one.message} ${one.when ?? ''}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .map(({ one }) => one);
}
