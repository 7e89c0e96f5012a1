import { limits } from '../../problems/limits.ts';
import type { Problem } from '../../problems/problem.ts';
import type { Declaration } from '../../syntax/tree.ts';
import { syntaxProblems } from './syntax-problems.ts';

/** Whether one of these lines was to give a fact of the pattern, such as its title, and can’t be read: that is told there. */
export function isTried(declarations: readonly { readonly declaration: Declaration }[], fact: string): boolean {
  return declarations
    .filter(({ declaration }) => declaration.tree.kind === 'broken')
    .slice(0, limits.problems)
    .some(({ declaration }) => declaration.text.trimStart().startsWith(fact) || syntaxProblems(declaration).some((one) => leadsTo(one, fact)));
}

/** Whether what is offered for a line that can’t be read begins with a word. */
export const leadsTo = ({ fixes }: Problem, word: string): boolean => fixes.some(({ edits }) => edits.some(({ newText }) => newText.startsWith(word)));
