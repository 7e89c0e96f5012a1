import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { printBare } from '../syntax/print.ts';
import type { Declaration, SourceFile } from '../syntax/tree.ts';

/**
 * A short fingerprint of what a pattern says: the first twelve hexadecimal digits of the SHA-256 of its words and those
 * of the files it uses. Comments, spacing and line ends, the revision and what was issued don't count, so it changes with
 * the pattern alone.
 */
export const digestOf = (files: readonly SourceFile[]): string => digestOfWords(files.map(wordsOf));

/**
 * The same of the words of each of the files.
 *
 * @param hash the SHA-256 of a text, in hexadecimal digits, where there is a quicker one
 */
export const digestOfWords = (files: readonly string[], hash = sha256Of): string => hash(files.join('\n\n')).slice(0, 12);

const sha256Of = (text: string): string => bytesToHex(sha256(utf8ToBytes(text)));

/** What of a file counts. */
export const wordsOf = ({ declarations }: SourceFile): string => declarations
  .filter(({ declaration }) => declaration.tree.kind !== 'revision' && declaration.tree.kind !== 'issued')
  .map(({ declaration }) => saidBy(declaration))
  .join('\n');

/** A file is used by many patterns, and of an edited one most declarations stay as they are. */
const known = new WeakMap<Declaration, string>();

function saidBy(declaration: Declaration): string {
  const said = known.get(declaration) ?? printBare(declaration.tree);
  known.set(declaration, said);
  return said;
}
