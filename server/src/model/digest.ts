import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { SourceFile } from '../syntax/tree.ts';

/**
 * A short fingerprint of what a pattern says: the first twelve hexadecimal digits of the SHA-256 of its words and those
 * of the files it uses. Comments, spacing, the revision and what was issued don't count, so it changes with the pattern
 * alone.
 */
export function digestOf(files: readonly SourceFile[]): string {
  const said = files.map((file) => file.declarations
    .filter(({ declaration }) => declaration.tree.kind !== 'revision' && declaration.tree.kind !== 'issued')
    .map(({ declaration }) => wordsOf(declaration.text))
    .join('\n'));
  return bytesToHex(sha256(utf8ToBytes(said.join('\n\n')))).slice(0, 12);
}

/** A text without comments, blank lines and needless spaces; what stands in quotes is kept as it is. */
function wordsOf(text: string): string {
  return text
    .split(/\r\n|\r|\n/)
    .map((line) => line.replace(/("(?:[^"\\]|\\.)*")|#.*$|[ \t]+/g, (match, quoted: string | undefined) => quoted ?? (match.startsWith('#') ? '' : ' ')).trim())
    .filter((line) => line !== '')
    .join('\n');
}
