import { languageWords } from '../syntax/statements/table.ts';
import type { Spec } from './spec.ts';

/** The words of a text; what stands in quotes is one, and so is each sign. */
const wordsOf = (text: string): readonly string[] => text.match(/"(?:[^"\\]|\\.)*"|“[^”]*”|[\p{L}_][\p{L}\p{M}\p{N}_]*|\S/gu) ?? [];

/** All words in the files of a spec, for as long as it is held: a name that is none of them is none of its names. */
const words = new WeakMap<Spec, ReadonlySet<string>>();
function wordsIn(spec: Spec): ReadonlySet<string> {
  const known = words.get(spec) ?? new Set(spec.pattern.world.files.flatMap(({ text }) => wordsOf(text.replace(/#.*/g, ''))));
  words.set(spec, known);
  return known;
}

/** The name that a word of a text is; undefined where it is none. */
type NameOf = (word: string) => string | undefined;

/** In a statement: whatever is no word of the language. */
export const inStatement: NameOf = (word) => (/^[\p{L}_]/u.test(word) && !languageWords.has(word) ? word : undefined);

/** In a message: what it quotes. */
export const inMessage: NameOf = (word) => /^“([\p{L}_][\p{L}\p{M}\p{N}_.]*)”$/u.exec(word)?.[1];

/**
 * Whether two texts, the one told of the earlier spec and the other of the later, differ at most in names, each of which the
 * other spec has none of: they tell the same of what is only called otherwise.
 */
export function isSameButForNames(was: string, now: string, { old, fresh }: { readonly old: Spec; readonly fresh: Spec }, nameOf: NameOf): boolean {
  const [before, after] = [wordsOf(was), wordsOf(now)];
  const isIn = (name: string, spec: Spec): boolean => name.split('.').every((part) => wordsIn(spec).has(part));
  return before.length === after.length && before.every((word, at) => {
    const other = after[at] ?? '';
    const [name, later] = [nameOf(word), nameOf(other)];
    return word === other || (name !== undefined && later !== undefined && !isIn(name, fresh) && !isIn(later, old));
  });
}
