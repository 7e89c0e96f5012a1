import { digestOfWords, wordsOf } from '../model/digest.ts';
import type { Pattern } from '../model/pattern.ts';
import type { ReadText } from '../platform/decode.ts';
import { arrayOf, isText, record } from './shapes.ts';
import { sha256, treeOf, type SpecTexts } from './spec-texts.ts';

/** A fingerprint, with the words of the spec’s own file and the paths of those that it uses, in the order in which it has them. */
export interface Fingerprinted {
  readonly digest: string;
  readonly words: string;
  readonly used: readonly string[];
}

export const isFingerprinted = record<Fingerprinted>({ digest: isText, words: isText, used: arrayOf(isText) });

export const fingerprintOf = ({ digest, world: { root, files } }: Pattern): Fingerprinted =>
  ({ digest, words: wordsOf(root), used: files.slice(1).map((file) => file.path) });

/** The same of what the lists say now: all their words go into it, those that the spec doesn’t use, too. Undefined where one of them is gone. */
export function fingerprintNow({ words: own, used: paths }: Fingerprinted, { used }: SpecTexts): Fingerprinted | undefined {
  const words: string[] = [own];
  for (const path of paths) {
    const text = used.get(path);
    if (text === undefined) return undefined;
    words.push(wordsIn(path, text));
  }
  return { digest: digestOfWords(words, sha256), words: own, used: paths };
}

/** A list is used by many specs. */
const knownWords = new WeakMap<ReadText, string>();

function wordsIn(path: string, text: ReadText): string {
  const words = knownWords.get(text) ?? wordsOf(treeOf(path, text));
  knownWords.set(text, words);
  return words;
}
