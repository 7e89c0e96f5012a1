import { nearestName } from '../problems/near.ts';
import { replacement } from '../problems/problem.ts';
import type { Name } from '../syntax/tree.ts';
import { placeIn, report, type Scope } from './query/scope.ts';

/** The one of a few words that a fact may take; reports any other. */
export function oneOf<Word extends string>(scope: Scope, written: Name, words: readonly Word[]): Word | undefined {
  const found = words.find((word) => word === written.text);
  if (found !== undefined) return found;
  const near = nearestName(written.text, words);
  report(scope, 'unknown-word', written, { word: written.text, known: words, near }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, written), near, false)],
  });
  return undefined;
}
