import { nearestName } from '../problems/near.ts';
import { replacement } from '../problems/problem.ts';
import type { Name } from '../syntax/tree.ts';
import { placeIn, report, type Scope } from './query/scope.ts';

/** The one of a few words that a fact may take; reports any other. */
export function oneOf<Word extends string>(scope: Scope, written: Name, words: readonly Word[]): Word | undefined {
  const found = words.find((word) => word === written.text);
  if (found !== undefined) return found;
  const near = meantWord(written.text, words);
  report(scope, 'unknown-word', written, { word: written.text, known: words, near }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, written), near, false)],
  });
  return undefined;
}

/** Words that people say for those of the language. */
const everyday: Readonly<Record<string, readonly string[]>> = {
  lengthwise: ['up'], straight: ['up'], crosswise: ['across'], vertical: ['up'], horizontal: ['across'], diagonal: ['bias'], any: ['none'],
  zipper: ['zip'], button: ['snap'], popper: ['snap'], strap: ['webbing'], tape: ['webbing', 'binding'],
  interfacing: ['fusible'], stabilizer: ['stabiliser'], wadding: ['foam'], batting: ['foam'], outer: ['main'], shell: ['main'], nap: ['one way'],
};

/** The one of some words that another most likely stands for; undefined where none does. */
export function meantWord(written: string, words: readonly string[]): string | undefined {
  const said = Object.hasOwn(everyday, written) ? everyday[written] : undefined;
  return said?.find((word) => words.includes(word)) ?? nearestName(written, words);
}
