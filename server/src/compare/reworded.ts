import { printStatement } from '../syntax/print-statement.ts';
import { matched } from './matched.ts';

/** A line of a declaration. */
type Line = Parameters<typeof printStatement>[0];

/** Lines of a declaration that say otherwise than they did. */
export interface Reworded<T> {
  /** Each with the line that it stands in place of, where there was one. */
  readonly come: readonly { readonly now: T; readonly was: T | undefined }[];
  /** Those that nothing stands in place of. */
  readonly gone: readonly T[];
}

/** Compares lines by their words; one stands in place of another where both begin alike, as `notch left`, or else where they are of one kind. */
export function reworded<T extends Line>(before: readonly T[], after: readonly T[]): Reworded<T> {
  const [said, says] = [new Set(before.map(wordsOf)), new Set(after.map(wordsOf))];
  const left = before.filter((line) => !says.has(wordsOf(line)));
  const right = after.filter((line) => !said.has(wordsOf(line)));
  const { both, gone } = matched(left, right, [(a, b) => headOf(a) === headOf(b), (a, b) => a.kind === b.kind]);
  const partner = new Map(both.map(([was, now]) => [now, was]));
  return { come: right.map((now) => ({ now, was: partner.get(now) })), gone };
}

export const wordsOf = (line: Line): string => printStatement(line, '');

const headOf = (line: Line): string => wordsOf(line).split(' ', 2).join(' ');
