import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { ReportedProblem } from './problem-list.ts';

/**
 * A fingerprint for each problem, by which a later report knows it again: 32 hexadecimal digits of the SHA-256 of what is
 * said of which file, whatever its line. The same said twice of a file is told apart by its number.
 */
export function fingerprints(problems: readonly ReportedProblem[]): readonly string[] {
  const said = new Map<string, number>();
  return problems.map(({ file, code, message, when }) => {
    const words = JSON.stringify([file, code, message, when]);
    const count = (said.get(words) ?? 0) + 1;
    said.set(words, count);
    return bytesToHex(sha256(utf8ToBytes(`${words}${count}`))).slice(0, 32);
  });
}
